package schematic

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestArgText(t *testing.T) {
	for _, c := range []struct {
		in   string
		want Arg
		ok   bool
	}{
		{`0.5`, Arg{Value: 0.5}, true},
		{`"coil_ohm"`, Arg{Param: "coil_ohm"}, true},
		{`1e9`, Arg{Value: 1e9}, true},
		{`1e10`, Arg{}, false},
		{`""`, Arg{}, false},
		{`true`, Arg{}, false},
		{`null`, Arg{}, false}, // a missing value must not become 0
	} {
		var a Arg
		err := json.Unmarshal([]byte(c.in), &a)
		require.Equal(t, c.ok, err == nil, "%s: %v", c.in, err)
		if !c.ok {
			continue
		}
		assert.Equal(t, c.want, a)
		out, err := json.Marshal(a)
		require.NoError(t, err)
		var back Arg
		require.NoError(t, json.Unmarshal(out, &back))
		assert.Equal(t, a, back)
	}
}
