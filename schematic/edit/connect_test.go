package edit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestConnectPinsDrawsOrLeadsAWire(t *testing.T) {
	b := newBench(t)
	ref := func(name, pin string) schematic.PinRef {
		k, ok := b.Doc().Named(name)
		require.True(t, ok, name)
		return schematic.PinRef{Part: k.ID, Pin: pin}
	}
	place := func(kind string, x int, sheet schematic.ID) {
		require.NoError(t, b.Do("place", func(tx *Tx) error { return PlacePart(tx, kind, sheet, geom.Pt(x, 1000), geom.Orient{}) }))
	}
	connect := func(from, to schematic.PinRef) error {
		return b.Do("connect", func(tx *Tx) error {
			return ConnectPins(tx, from, to, &schematic.Wire{Color: schematic.Color{Base: "RD"}})
		})
	}
	place("fuse", 500, b.sheet)
	place("lamp", 1000, b.sheet)
	f1, f2, e1 := ref("F1", "1"), ref("F1", "2"), ref("E1", "1")
	require.NoError(t, connect(f1, e1))
	require.Equal(t, 1, b.Doc().Len(schematic.TypeWire))
	assert.Equal(t, "RD", b.Doc().WiresAt(f1)[0].Color.Base, "like the given one")
	before := b.Doc()
	require.NoError(t, connect(e1, f1))
	require.Same(t, before, b.Doc(), "they are connected already")
	require.NoError(t, connect(e1, f2))
	require.Equal(t, 1, b.Doc().Len(schematic.TypeWire), "the wire there is, is led elsewhere")
	require.Len(t, b.Doc().WiresAt(f2), 1)
	require.ErrorContains(t, connect(f1, f1), "to itself")

	require.NoError(t, b.Do("hang", func(tx *Tx) error { return HangWire(tx, f1, nil) }))
	w := b.Doc().WiresAt(f1)[0]
	assert.True(t, w.B.Loose())
	assert.Greater(t, w.B.At.Dist(w.A.At), 0.0)

	require.NoError(t, b.Do("sheet", func(tx *Tx) error { return AddSheet(tx, "") }))
	place("lamp", 1000, b.Doc().Sheets()[1].ID)
	require.ErrorContains(t, connect(ref("E2", "1"), f1), "no sheet shows both E2.1 and F1.1")
}
