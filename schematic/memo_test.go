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

func TestSinceTellsWhatChanged(t *testing.T) {
	sheet := func(n byte) *schematic.Sheet { return &schematic.Sheet{ID: schematic.ID{15: n}} }
	a := schematic.New(nil)
	for n := range byte(90) {
		a = a.With(schematic.Put{Key: sheet(n + 1).Key(), Item: sheet(n + 1)})
	}
	told := func(d, old *schematic.Doc) map[schematic.Key]schematic.Item {
		out := map[schematic.Key]schematic.Item{}
		d.Since(old, func(k schematic.Key, now schematic.Item) bool { out[k] = now; return true })
		return out
	}
	require.Empty(t, told(a, a))
	five, six, new := sheet(5), sheet(6), sheet(200)
	b := a.With(schematic.Put{Key: five.Key(), Item: five}, schematic.Put{Key: six.Key()}, schematic.Put{Key: new.Key(), Item: new})
	require.Equal(t, map[schematic.Key]schematic.Item{five.Key(): five, six.Key(): nil, new.Key(): new}, told(b, a))
	require.Len(t, told(a, b), 3)
	require.Nil(t, told(a, b)[new.Key()])
	n := 0
	b.Since(a, func(schematic.Key, schematic.Item) bool { n++; return false })
	require.Equal(t, 1, n, "it stops when told to")
}
