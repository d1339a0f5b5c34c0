package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

// What a field holds is replaced by what is typed after Tab has led to it, as in
// forms everywhere; a press of the mouse sets the caret instead.
func TestTypingAfterTabReplacesWhatStandsThere(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"))
	size, colour := r.fieldNamed("Size").input, r.fieldNamed("Colour").input
	require.NotEmpty(t, colour.Text)
	r.win.Canvas().Focus(size)
	size.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	require.Same(t, colour, r.win.Canvas().Focused())
	for _, c := range "bn/wh" {
		colour.stray = false
		colour.TypedRune(c)
	}
	colour.TypedKey(&fyne.KeyEvent{Name: fyne.KeyTab})
	assert.Equal(t, "BN/WH", r.wire("W5").Color.String())
}

func TestWhatAFieldCouldNotTakeStaysUntilItIsMended(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"), r.named("W4"))
	before := r.fieldNamed("Size").input.Text
	colourAt := func() float32 {
		return fyne.CurrentApp().Driver().AbsolutePositionForObject(r.fieldNamed("Colour").input).Y
	}
	top := colourAt()
	size := r.write("Size", "16")
	assert.GreaterOrEqual(t, colourAt()-top, size.note.MinSize().Height, "the fields below make room for what is said")
	assert.Contains(t, r.status.hint.full, "AWG 16", "said where it is still read when the selection goes elsewhere")

	r.write("Colour", "BN")
	assert.Equal(t, "16", size.input.Text, "another field leaves it alone")
	assert.True(t, size.note.Visible())
	size.input.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.Equal(t, before, size.input.Text)
	assert.False(t, size.note.Visible())
	assert.Equal(t, top, colourAt())

	r.write("Size", "16")
	r.write("Size", "1.5 mm2")
	assert.Equal(t, "1.5 mm2", r.wire("W5").Size.Key())
	assert.False(t, size.note.Visible())

	r.write("Size", "16")
	r.do("edit.undo")
	assert.Equal(t, before, size.input.Text, "the drawing has changed under it")
	assert.False(t, size.note.Visible())
	assert.Equal(t, schematic.Color{Base: "BN"}, r.wire("W4").Color)
}
