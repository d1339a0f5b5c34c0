package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
)

func TestTipsAppearInsideTheWindowAndGo(t *testing.T) {
	r := newRig(t, "")
	r.tips.show("a few words", fyne.NewPos(400, 300))
	assert.True(t, r.tips.box.Visible())
	assert.Greater(t, r.tips.box.Size().Width, float32(40))
	r.tips.show("some words at the lower right corner", fyne.NewPos(1195, 795))
	at, size := r.tips.box.Position(), r.tips.box.Size()
	assert.LessOrEqual(t, at.X+size.Width, float32(1200))
	assert.LessOrEqual(t, at.Y+size.Height, float32(800))
	r.tips.hide()
	assert.False(t, r.tips.box.Visible())

	var b byHand
	r.tips.crew = b.crew()
	r.tips.plan("late", fyne.NewPos(10, 10))
	r.tips.hide()
	take(&b.side)
	take(&b.window)
	assert.False(t, r.tips.box.Visible(), "the pointer left before the tip came")
	r.tips.plan("in time", fyne.NewPos(10, 10))
	take(&b.side)
	take(&b.window)
	assert.True(t, r.tips.box.Visible())
}
