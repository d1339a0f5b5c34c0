package edit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

func TestALoomGrowsSegmentBySegment(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error { return AddLoom(tx, "bay") })
	k, _ := b.Doc().Named("bay")
	loom := func() *schematic.Loom { return b.Doc().Loom(k.ID) }
	for range 3 {
		b.must(func(tx *Tx) error { return AddSegment(tx, k.ID) })
	}
	require.Len(t, loom().Segments, 3)
	require.Len(t, loom().Nodes, 4)
	seg := func(i int) schematic.ID { return loom().Segments[i].ID }
	assert.Equal(t, loom().Segments[0].To, loom().Segments[1].From, "one goes on where the other ends")

	b.must(func(tx *Tx) error { return SetSegmentEnd(tx, k.ID, seg(2), true, "dash") })
	require.Len(t, loom().Nodes, 4, "the node nobody is at any more went")
	b.must(func(tx *Tx) error { return RenameNode(tx, k.ID, loom().Segments[0].From, "battery") })
	b.refused("has a node \"DASH\" already", func(tx *Tx) error { return RenameNode(tx, k.ID, loom().Segments[0].From, "DASH") })
	b.refused("begins and ends at the same node", func(tx *Tx) error { return SetSegmentEnd(tx, k.ID, seg(0), true, "battery") })
	b.refused("name the node", func(tx *Tx) error { return SetSegmentEnd(tx, k.ID, seg(0), true, " ") })

	// A branch off the middle.
	b.must(func(tx *Tx) error { return AddSegment(tx, k.ID) })
	b.must(func(tx *Tx) error { return SetSegmentEnd(tx, k.ID, seg(3), false, "node 2") })
	f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 500)
	w := b.wire(at(f, "2"), at(e, "1"))
	b.must(func(tx *Tx) error {
		return LeadThrough(tx, []schematic.ID{w.ID}, k.ID, []schematic.ID{seg(2), seg(0), seg(1)})
	})
	assert.Equal(t, []schematic.ID{seg(0), seg(1), seg(2)}, b.Doc().Wire(w.ID).Route, "in the order they follow each other")
	b.refused("do not follow each other", func(tx *Tx) error { return LeadThrough(tx, []schematic.ID{w.ID}, k.ID, []schematic.ID{seg(0), seg(2)}) })
	b.refused("do not follow each other", func(tx *Tx) error {
		return LeadThrough(tx, []schematic.ID{w.ID}, k.ID, []schematic.ID{seg(0), seg(1), seg(3)})
	})
	b.refused("do not follow each other", func(tx *Tx) error { return LeadThrough(tx, []schematic.ID{w.ID}, k.ID, nil) })
	b.refused("W1 runs through a segment", func(tx *Tx) error { return DeleteSegments(tx, k.ID, []schematic.ID{seg(1)}) })
	b.must(func(tx *Tx) error { return DeleteSegments(tx, k.ID, []schematic.ID{seg(3)}) })
	require.Len(t, loom().Nodes, 4)
}

func TestASegmentPassesThroughPanels(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error { return AddLoom(tx, "bay") })
	k, _ := b.Doc().Named("bay")
	b.must(func(tx *Tx) error { return AddSegment(tx, k.ID) })
	seg := b.Doc().Loom(k.ID).Segments[0].ID
	hole := schematic.Hole{Name: "firewall", DiameterMM: schematic.Some(22), Grommet: "rubber", FromMM: schematic.Some(300), Extra: schematic.Extra{"note": []byte(`1`)}}
	b.must(func(tx *Tx) error { return SetHoles(tx, k.ID, seg, []schematic.Hole{hole}) })
	hole.Extra, hole.Grommet = nil, "seal"
	b.must(func(tx *Tx) error { return SetHoles(tx, k.ID, seg, []schematic.Hole{hole, {Name: "tray"}}) })
	got := b.Doc().Loom(k.ID).Segments[0].Holes
	require.Len(t, got, 2)
	assert.Equal(t, "seal", got[0].Grommet)
	assert.NotEmpty(t, got[0].Extra, "what the program does not know stays")
	b.must(func(tx *Tx) error {
		return SetLoom(tx, k.ID, func(l *schematic.Loom) { l.Segments[0].LengthMM = schematic.Some(400) })
	})
	hole.FromMM = schematic.Some(500)
	b.refused("500 mm from its beginning is not on the segment", func(tx *Tx) error { return SetHoles(tx, k.ID, seg, []schematic.Hole{hole}) })
	b.must(func(tx *Tx) error { return SetHoles(tx, k.ID, seg, nil) })
	assert.Nil(t, b.Doc().Loom(k.ID).Segments[0].Holes)
}
