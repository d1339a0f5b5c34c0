package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/geom"
	"loomwright/ui/action"
)

func (r *rig) placeOf(name string) geom.Point { return r.part(name).Views[0].At }

// combo types a key with modifiers, as the menu hands it on.
func (r *rig) combo(mods action.Mod, name string) {
	a := r.actions.ForKey(action.Key{Mods: mods, Name: name})
	require.NotNil(r.t, a, name)
	r.run(a)
}

func TestArrowKeysMoveByGridWideAndFine(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("M1"))
	start := r.placeOf("M1")
	r.key(fyne.KeyRight)
	assert.Equal(t, start.Add(geom.Pt(25, 0)), r.placeOf("M1"))
	r.combo(action.Shift, "Down")
	assert.Equal(t, start.Add(geom.Pt(25, 100)), r.placeOf("M1"))
	r.combo(action.Alt, "Left")
	assert.Equal(t, start.Add(geom.Pt(20, 100)), r.placeOf("M1"))
	r.do("edit.undo")
	assert.Equal(t, start, r.placeOf("M1"), "a streak of one selection is one step")

	r.key(fyne.KeyRight)
	r.choose(r.named("K1"))
	r.key(fyne.KeyRight)
	r.do("edit.undo")
	assert.Equal(t, start.Add(geom.Pt(25, 0)), r.placeOf("M1"), "another selection is another step")

	r.choose(r.named("W1"))
	r.key(fyne.KeyRight)
	assert.Contains(t, r.status.hint.full, "nothing moved")
}

func TestAlignSpaceAndMirrorByKey(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("G1"), r.named("M1"), r.named("K1"))
	r.combo(action.Ctrl, "Left")
	left := min(r.doc().Body(r.part("G1"), r.part("G1").Views[0]).Min.X, r.doc().Body(r.part("M1"), r.part("M1").Views[0]).Min.X)
	for _, name := range []string{"G1", "M1", "K1"} {
		p := r.part(name)
		assert.InDelta(t, left, r.doc().Body(p, p.Views[0]).Min.X, geom.Grid, name)
	}
	r.do("edit.undo")
	before := r.doc()
	r.combo(action.Shift, "R")
	r.key("R")
	assert.Equal(t, r.placeOf("M1"), before.Part(r.part("M1").ID).Views[0].At, "turned back and forth")
	r.combo(action.Shift, "M")
	r.combo(action.Shift, "M")
	assert.Equal(t, r.placeOf("K1"), before.Part(r.part("K1").ID).Views[0].At)
	r.choose(r.named("G1"))
	assert.False(t, r.actions.Find("arrange.left").IsEnabled(), "one thing cannot be aligned")
}

func TestLockedInPlace(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("M1"))
	r.combo(action.Ctrl, "L")
	assert.True(t, r.part("M1").Locked)
	assert.True(t, r.menu.item["arrange.lock"].Checked)
	start := r.placeOf("M1")
	r.key(fyne.KeyRight)
	assert.Contains(t, r.status.hint.full, "M1 is locked in place")
	r.key(fyne.KeyDelete)
	assert.True(t, r.boxOpen(), "deleting it is refused in words")
	r.boxes[0].close()
	assert.NotNil(t, r.part("M1"))

	r.choose(r.named("M1"), r.named("K1"))
	r.key(fyne.KeyRight)
	assert.Equal(t, start, r.placeOf("M1"))
	assert.Equal(t, "locked and left alone: M1", r.status.hint.full)

	r.do("edit.undo")
	assert.Equal(t, r.tools.State().Hint(), r.status.hint.full, "what a step has said goes with it")

	x, y := start.MM()
	r.choose()
	r.drag(x, y, x+20, y)
	assert.Equal(t, start, r.placeOf("M1"), "dragged it stays")
	r.choose(r.named("M1"))
	r.do("arrange.lock")
	assert.False(t, r.part("M1").Locked)
}
