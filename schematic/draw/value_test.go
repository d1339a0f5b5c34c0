package draw

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
)

// What stands beside a part is what is computed with, or a question mark.
func TestMainValue(t *testing.T) {
	lib, err := catalog.Default()
	require.NoError(t, err)
	for _, c := range []struct {
		kind   string
		values map[string]float64
		want   string
	}{
		{"battery", nil, "12.6 V"},
		{"battery", map[string]float64{"volt": 12.4}, "12.4 V"},
		{"battery", map[string]float64{"charge": 0.55}, "55 %"},
		{"battery", map[string]float64{"charge": 0.5, "volt": 12.9}, "12.9 V"},
		{"fuse-regular", map[string]float64{"amp": 7.5}, "7.5 A"},
		{"fuse-regular", nil, "? A"},
		{"lamp", nil, "? W"},
		{"lamp", map[string]float64{"watt": 21}, "21 W"},
		{"relay-make", nil, ""},
		{"switch-toggle", nil, ""},
		{"connector-plug", nil, ""},
	} {
		k := lib.Kind(c.kind)
		require.NotNil(t, k, c.kind)
		assert.Equal(t, c.want, mainValue(k, &schematic.Part{Kind: c.kind, Values: c.values}), "%s %v", c.kind, c.values)
	}
}
