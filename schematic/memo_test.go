package schematic_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

func TestAMemoIsKeptForTheSnapshotsUsedLast(t *testing.T) {
	a := schematic.New(nil)
	b := a.With()
	made := 0
	of := func(d *schematic.Doc, key string) int {
		return d.Memo(key, func() any { made++; return made }).(int)
	}
	require.Equal(t, 1, of(a, "x"))
	require.Equal(t, 2, of(b, "x"), "another snapshot")
	require.Equal(t, 3, of(a, "y"), "another key")
	require.Equal(t, 1, of(a, "x"))
	require.Equal(t, 2, of(b, "x"), "kept while others are asked for")
	for range 8 {
		of(b.With(), "x")
	}
	require.Equal(t, 12, of(a, "x"), "the history does not keep it alive")
}
