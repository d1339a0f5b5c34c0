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
