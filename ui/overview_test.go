package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTheOverviewShowsAndMovesWhatIsSeen(t *testing.T) {
	r := newRig(t, lampsFile)
	o := r.frame.overview
	assert.False(t, o.Visible())
	r.do("view.overview")
	require.True(t, o.Visible())
	require.NotNil(t, r.win.Canvas().Capture())
	whole := o.frame.Size()
	assert.InDelta(t, o.Size().Width, whole.Width, 12, "the whole sheet is seen")
	r.sheetView.zoom(4)
	assert.Less(t, o.frame.Size().Width, whole.Width/2)

	before := r.sheetView.cam.Visible()
	press := fyne.NewPos(o.Size().Width*0.8, o.Size().Height*0.75)
	o.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: press}, Button: desktop.MouseButtonPrimary})
	seen := r.sheetView.cam.Visible()
	assert.Greater(t, seen.Min.X, before.Min.X, "the drawing moves there")
	mid := o.at(middle(seen))
	assert.InDelta(t, press.X, mid.X, 1)
	assert.InDelta(t, press.Y, mid.Y, 1)
	o.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(o.Size().Width*0.3, o.Size().Height*0.3)}})
	assert.Less(t, r.sheetView.cam.Visible().Min.X, seen.Min.X)
	o.DragEnd()
	at := r.sheetView.cam
	o.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: press}})
	assert.Equal(t, at, r.sheetView.cam, "let go is let go")

	r.do("view.overview")
	assert.False(t, o.Visible())
}

func TestTheOverviewKeepsTheShapeOfTheSheetInALowWindow(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.overview")
	o := r.frame.overview
	for _, room := range []fyne.Size{{Width: 900, Height: 700}, {Width: 900, Height: 240}, {Width: 200, Height: 700}} {
		corner{o}.Layout([]fyne.CanvasObject{o}, room)
		size := o.Size()
		assert.InDelta(t, 420.0/297, size.Width/size.Height, 0.02, "%v", room)
		assert.LessOrEqual(t, size.Width, room.Width/3+1)
		assert.LessOrEqual(t, size.Height, room.Height/3+1)
	}
}
