package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A point inside a part has a name for files and programs, "A1#supply"; a
// builder reads words.
func TestPointsInsidePartsAreNamedInWords(t *testing.T) {
	for _, plan := range []string{
		engineUnit,                              // nothing wired
		engineUnit + "\nW1 G1.+ A1.1 1mm2 1000", // fed without a fuse
		engineUnit + "\nW1 A1.2 G1.- 1mm2 1000", // ground alone
		engineUnit + "\nA1.9 supply-permanent\nW1 G1.+ A1.9 1mm2 1000\nW2 A1.2 G1.- 1mm2 1000",
	} {
		found := run(t, doc(t, plan))
		require.NotEmpty(t, found)
		for _, f := range found {
			assert.NotContains(t, f.Text, "#", f.Rule)
		}
	}
}
