package ui

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// crooked gives a wire bends nobody would want.
func crooked(r *rig, name string) *schematic.Wire {
	w := r.wire(name)
	a := r.doc().Path(w)[0]
	via := []geom.Point{a.Add(geom.Pt(0, 50)), a.Add(geom.Pt(300, 50)), a.Add(geom.Pt(300, 700))}
	require.True(r.t, r.Editor.do("bend", func(tx *edit.Tx) error { return edit.SetBends(tx, map[schematic.ID][]geom.Point{w.ID: via}) }))
	return r.wire(name)
}

func TestWiresAreRoutedAnew(t *testing.T) {
	r := newRig(t, lampsFile)
	was := r.doc()
	before := crooked(r, "W7")
	r.choose(r.named("W7"))
	r.do("wires.anew")
	assert.Less(t, len(r.doc().Path(r.wire("W7"))), len(r.doc().Path(before)))
	assert.Equal(t, "route W7 anew", r.sess.UndoLabel())
	r.do("edit.undo")
	assert.Equal(t, before, r.wire("W7"))
	r.do("edit.undo")
	require.Same(t, was, r.doc())
	crooked(r, "W7")
	r.choose()
	r.do("wires.tidy")
	assert.Equal(t, "tidy the wires of the sheet", r.sess.UndoLabel())
	assert.Empty(t, r.boxes, "the progress has gone")
	tidy := r.doc()
	r.do("wires.tidy")
	assert.Same(t, tidy, r.doc(), "nothing is left to do")
}

func TestTheKeyBendsTheWireUnderThePointer(t *testing.T) {
	r := newRig(t, lampsFile)
	w := r.wire("W7")
	path := r.doc().Path(w)
	middle := geom.Pt((path[0].X+path[1].X)/2, (path[0].Y+path[1].Y)/2)
	r.sheetView.fitTo(path.Bounds())
	r.choose(r.named("W7"))
	r.sheetView.hand.over, r.sheetView.hand.at = true, r.sheetView.windowPoint(middle)
	r.do("wires.bend")
	assert.Greater(t, len(r.doc().Path(r.wire("W7"))), len(path))
	bend := r.doc().Path(r.wire("W7"))[1]
	r.sheetView.hand.at = r.sheetView.windowPoint(bend)
	r.do("wires.bend")
	assert.Equal(t, "take a bend out of W7", r.sess.UndoLabel())
	r.choose()
	assert.False(t, r.actions.Find("wires.bend").IsEnabled())
}

func TestASpliceIsTakenOutAgain(t *testing.T) {
	r := newRig(t, lampsFile)
	before := r.doc().Path(r.wire("W7"))
	require.True(t, r.Editor.do("splice", func(tx *edit.Tx) error { return edit.SplitWire(tx, r.wire("W7").ID, before[0].Add(geom.Pt(0, 100))) }))
	require.True(t, r.actions.Find("wires.join").IsEnabled())
	r.do("wires.join")
	assert.Equal(t, before, r.doc().Path(r.wire("W7")))
	assert.Equal(t, []string{"W7"}, r.selected())
	assert.False(t, r.actions.Find("wires.join").IsEnabled())
}

func TestLabelsOfWires(t *testing.T) {
	r := newRig(t, lampsFile)
	w := r.wire("W7")
	r.choose(r.named("W7"))
	assert.False(t, r.actions.Find("wires.labels").IsEnabled(), "nothing to put back")
	require.True(t, r.Editor.do("label", func(tx *edit.Tx) error { return edit.MoveLabel(tx, w.ID, geom.Pt(900, 900)) }))
	r.do("wires.labels")
	assert.Equal(t, w, r.wire("W7"))

	all := []schematic.WireWord{schematic.WordName, schematic.WordSize, schematic.WordColor}
	assert.Equal(t, []schematic.WireWord{schematic.WordName, schematic.WordSize}, withWord(all, schematic.WordColor, false))
	assert.Nil(t, withWord(all[:2], schematic.WordColor, true), "the usual words need no saying")
	assert.Equal(t, []schematic.WireWord{schematic.WordNone}, withWord(all[:1], schematic.WordName, false))
	assert.Equal(t, all[:1], withWord(nil, schematic.WordName, true))
}
