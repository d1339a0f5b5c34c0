package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// overField returns what gets the wheel where a field lies: the last thing in
// its tree that can take it, as the driver looks for it.
func overField(e *entry) fyne.Scrollable {
	var found fyne.Scrollable
	for _, o := range test.WidgetRenderer(e).Objects() {
		if s, ok := o.(fyne.Scrollable); ok {
			found = s
		}
	}
	return found
}

func TestTheWheelOverAFieldMovesThePage(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("W5"))
	down := &fyne.ScrollEvent{Scrolled: fyne.NewDelta(0, -100)}
	require.Zero(t, r.details.scroll.Offset.Y)
	overField(r.fieldNamed("Colour").input).Scrolled(down)
	assert.Positive(t, r.details.scroll.Offset.Y)

	notes := r.fieldNamed("Notes").input
	for range 10 {
		notes.SetText(notes.Text + "one more line\n")
	}
	at := r.details.scroll.Offset.Y
	overField(notes).Scrolled(down)
	assert.Equal(t, at, r.details.scroll.Offset.Y, "a text longer than its field is moved itself")
	assert.Positive(t, notes.inner.Offset.Y)
}
