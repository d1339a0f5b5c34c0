package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
)

func TestPanelsStayAsLargeAsTheyAreMade(t *testing.T) {
	settings := t.TempDir()
	r := rigIn(t, "", settings)
	f := r.frame
	width := func(o fyne.CanvasObject) float32 { return o.Size().Width }
	r.win.Resize(fyne.NewSize(1600, 1000))
	assert.InDelta(t, trayWidth, width(f.left.split.Leading), 2)
	assert.InDelta(t, detailsWidth, width(f.right.split.Trailing), 4)
	assert.InDelta(t, drawerHeight, f.down.split.Trailing.Size().Height, 4)
	r.win.Resize(fyne.NewSize(2400, 1000))
	assert.InDelta(t, trayWidth, width(f.left.split.Leading), 2, "the drawing gets what a larger window has more")
	r.win.Resize(fyne.NewSize(1000, 700))
	assert.Less(t, width(f.left.split.Leading), float32(trayWidth), "in a small one it stays the largest")

	r.win.Resize(fyne.NewSize(1600, 1000))
	f.left.split.SetOffset(0.2) // as a drag does
	dragged := width(f.left.split.Leading)
	assert.Greater(t, dragged, float32(300))
	r.win.Resize(fyne.NewSize(2000, 1000))
	assert.InDelta(t, dragged, width(f.left.split.Leading), 4, "and so it stays when dragged")
	r.do("view.alone")
	assert.Equal(t, r.win.Canvas().Size().Width, width(f.centre), "the drawing has the whole width")
	r.do("view.alone")
	assert.InDelta(t, dragged, width(f.left.split.Leading), 4)

	r = rigIn(t, "", settings)
	r.win.Resize(fyne.NewSize(1600, 1000))
	assert.InDelta(t, dragged, width(r.frame.left.split.Leading), 4, "the next window remembers")
}

func TestOnlyTheDrawingBringsBackWhatWasThere(t *testing.T) {
	r := newRig(t, "")
	r.do("view.tray")
	r.do("view.alone")
	assert.True(t, r.store.HideDetails && r.store.HideDrawer)
	r.do("view.alone")
	assert.True(t, r.store.HideTray)
	assert.False(t, r.store.HideDetails || r.store.HideDrawer)
}
