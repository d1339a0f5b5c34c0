package ui

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// lampsFile is a drawing of two sheets with faults in it.
const lampsFile = "testdata/lamps.loom.json"

// named returns the key of a part or wire of the test harness.
func (r *rig) named(name string) schematic.Key {
	r.t.Helper()
	k, ok := r.doc().Named(name)
	require.True(r.t, ok, name)
	return k
}

func (r *rig) part(name string) *schematic.Part { return r.doc().Part(r.named(name).ID) }
func (r *rig) wire(name string) *schematic.Wire { return r.doc().Wire(r.named(name).ID) }

func (r *rig) selected() []string {
	var names []string
	for _, k := range r.sess.Selection() {
		names = append(names, schematic.NameOf(r.doc().Get(k)))
	}
	sortNames(names)
	return names
}

func TestPressSelects(t *testing.T) {
	r := newRig(t, lampsFile)
	r.click(150, 170) // the fan's symbol
	assert.Equal(t, []string{"M1"}, r.selected())
	r.click(50, 100) // on the wire of the battery
	assert.Equal(t, []string{"W1"}, r.selected())
	r.clock = r.clock.Add(time.Second)
	r.press(150, 170, fyne.KeyModifierShift)
	r.release(150, 170, fyne.KeyModifierShift)
	assert.Equal(t, []string{"M1", "W1"}, r.selected(), "Shift adds")
	r.click(350, 250)
	assert.Empty(t, r.selected(), "empty sheet selects nothing")
}

func TestDragMovesOnTheGrid(t *testing.T) {
	r := newRig(t, lampsFile)
	before := r.part("G1").Views[0].At
	r.drag(50, 150, 61, 158)
	assert.Equal(t, before.Add(geom.Pt(100, 75)), r.part("G1").Views[0].At, "11 and 8 mm snap to 10 and 7.5")
	assert.Equal(t, "move G1", r.sess.UndoLabel())
	r.do("edit.undo")
	assert.Equal(t, before, r.part("G1").Views[0].At)
	assert.False(t, r.sess.Modified())
}

func TestEscapeInMidDragChangesNothing(t *testing.T) {
	r := newRig(t, lampsFile)
	doc := r.doc()
	r.move(50, 150)
	r.press(50, 150, 0)
	r.sheetView.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: r.at(80, 180)}})
	require.NotNil(t, r.preview, "the drag is shown before it is done")
	r.key(fyne.KeyEscape)
	assert.Nil(t, r.preview)
	r.release(80, 180, 0)
	r.sheetView.DragEnd()
	assert.Same(t, doc, r.doc())
}

func TestReleaseOutsideTheWindowEndsTheDrag(t *testing.T) {
	r := newRig(t, lampsFile)
	r.press(50, 150, 0)
	r.sheetView.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: r.at(80, 150)}})
	r.sheetView.DragEnd() // no MouseUp comes
	assert.True(t, r.sess.Modified())
	assert.False(t, r.tools.Busy())
	assert.Zero(t, r.sheetView.hand.down)
}

func TestMarqueeBothWays(t *testing.T) {
	r := newRig(t, lampsFile)
	r.drag(131, 158, 175, 226)
	assert.NotContains(t, r.selected(), "W5", "left to right takes what lies wholly inside")
	assert.Subset(t, r.selected(), []string{"M1", "W6"})
	r.key(fyne.KeyEscape)
	r.drag(175, 226, 131, 158)
	assert.Subset(t, r.selected(), []string{"M1", "W5", "W6"}, "right to left takes what is touched")
	assert.False(t, r.sheetView.over.bandOn, "the rubber band is gone")
}

func TestDoubleClickTakesTheKeyboardToTheDetails(t *testing.T) {
	r := newRig(t, lampsFile)
	r.click(150, 170)
	r.press(150, 170, 0)
	r.release(150, 170, 0)
	e, ok := r.win.Canvas().Focused().(*entry)
	require.True(t, ok, "a field has the keyboard")
	assert.Equal(t, "M1", e.Text)
}

func TestDrawAWire(t *testing.T) {
	r := newRig(t, lampsFile)
	n := r.doc().Len(schematic.TypeWire)
	r.key("W")
	require.Equal(t, "wire", r.tools.Tool())
	r.click(270, 60)
	r.move(300, 100)
	assert.NotEmpty(t, r.sheetView.over.ghost, "the wire is shown while it is drawn")
	// The tool asks for a pin or wire, or a double click on empty sheet.
	r.clock = r.clock.Add(time.Second)
	r.press(300, 100, 0)
	r.release(300, 100, 0)
	r.press(300, 100, 0)
	r.release(300, 100, 0)
	assert.Equal(t, n+1, r.doc().Len(schematic.TypeWire))
	assert.Empty(t, r.sheetView.over.ghost)
	r.key(fyne.KeyEscape)
	assert.Equal(t, selectTool, r.tools.Tool())
}

func TestPlaceAPartFromTheTray(t *testing.T) {
	r := newRig(t, "")
	r.tray.search.SetText("relay change")
	r.tray.search.OnSubmitted(r.tray.search.Text)
	require.Equal(t, placeTool, r.tools.Tool())
	r.move(100, 100)
	require.NotNil(t, r.preview, "the part hangs at the pointer")
	r.key("R")
	r.click(101, 99)
	k := r.part("K1")
	assert.Equal(t, "relay-change-over", k.Kind)
	assert.Equal(t, 1, k.Views[0].Turns, "R turned it in hand")
	assert.Equal(t, geom.Pt(1000, 1000), k.Views[0].At)
	r.key(fyne.KeyEscape)
	assert.Nil(t, r.preview)
	assert.Equal(t, selectTool, r.tools.Tool())
}

func TestWheelZoomsAtThePointer(t *testing.T) {
	r := newRig(t, lampsFile)
	at := r.at(150, 170)
	was := r.sheetView.cam.PxPerMM
	r.sheetView.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.Delta{DY: 75}})
	assert.InDelta(t, was*wheelZoom*wheelZoom*wheelZoom, r.sheetView.cam.PxPerMM, 1e-6)
	again := r.at(150, 170)
	assert.InDelta(t, at.X, again.X, 0.01, "the place under the pointer stays")
	assert.InDelta(t, at.Y, again.Y, 0.01)

	r.do("view.wheel")
	zoom := r.sheetView.cam.PxPerMM
	r.sheetView.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: at}, Scrolled: fyne.Delta{DX: 10, DY: 25}})
	assert.Equal(t, zoom, r.sheetView.cam.PxPerMM, "now the wheel moves the sheet")
	assert.InDelta(t, again.Y+50, r.at(150, 170).Y, 0.01)
}

func TestWhatIsUnderThePointerFollowsTheZoom(t *testing.T) {
	r := newRig(t, lampsFile)
	off := r.at(53, 100) // beside the wire of the battery, within reach of it
	r.sheetView.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: off}})
	require.Equal(t, r.named("W1"), r.sheetView.over.near.Key)
	for range 12 {
		r.sheetView.Scrolled(&fyne.ScrollEvent{PointEvent: fyne.PointEvent{Position: off}, Scrolled: fyne.NewDelta(0, 25)})
	}
	assert.False(t, r.sheetView.over.near.Ok, "3 mm beside the wire is far from it on a sheet this large")
}

func TestWhatWasUnderThePointerIsNotNamedOnceDeleted(t *testing.T) {
	r := newRig(t, lampsFile)
	r.sheetView.MouseIn(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: r.at(53, 100)}})
	require.Contains(t, r.status.near.full, "W1")
	r.choose(r.named("W1"))
	r.do("edit.delete")
	assert.Empty(t, r.status.near.full)
	assert.False(t, r.sheetView.over.near.Ok)
}

func TestMiddleAndRightDragMoveTheSheet(t *testing.T) {
	for _, b := range []desktop.MouseButton{desktop.MouseButtonTertiary, desktop.MouseButtonSecondary} {
		r := newRig(t, lampsFile)
		doc, from := r.doc(), r.at(50, 150)
		r.sheetView.MouseDown(mouse(from, b, 0))
		to := from.AddXY(40, -30)
		if b == desktop.MouseButtonTertiary {
			r.sheetView.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}})
		} else {
			r.sheetView.MouseMoved(mouse(to, b, 0))
		}
		r.sheetView.MouseUp(mouse(to, b, 0))
		got := r.at(50, 150)
		assert.InDelta(t, to.X, got.X, 0.01)
		assert.InDelta(t, to.Y, got.Y, 0.01)
		assert.Same(t, doc, r.doc())
		assert.False(t, r.boxOpen(), "a drag opens no menu")
	}
}

func TestRightPressOffersCommands(t *testing.T) {
	r := newRig(t, lampsFile)
	at := r.at(150, 170)
	r.sheetView.MouseDown(mouse(at, desktop.MouseButtonSecondary, 0))
	r.sheetView.MouseUp(mouse(at, desktop.MouseButtonSecondary, 0))
	assert.True(t, r.boxOpen())
	assert.Equal(t, []string{"M1"}, r.selected(), "for the thing under the pointer")
}

func TestArrowKeysJoinToOneStep(t *testing.T) {
	r := newRig(t, lampsFile)
	before := r.part("G1").Views[0].At
	r.choose(r.named("G1"))
	for range 3 {
		r.clock = r.clock.Add(100 * time.Millisecond)
		r.key(fyne.KeyRight)
	}
	assert.Equal(t, before.Add(geom.Pt(75, 0)), r.part("G1").Views[0].At)
	r.do("edit.undo")
	assert.Equal(t, before, r.part("G1").Views[0].At, "one undo takes all three back")
}

func TestKeysTurnMirrorDelete(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("K1"))
	r.key("R")
	assert.Equal(t, 1, r.part("K1").Views[0].Turns)
	r.key("M")
	assert.True(t, r.part("K1").Views[0].Mirror)
	n := r.doc().Len(schematic.TypeWire)
	r.key(fyne.KeyDelete)
	_, there := r.doc().Named("K1")
	assert.False(t, there)
	assert.Less(t, r.doc().Len(schematic.TypeWire), n, "its wires go with it")
	r.do("edit.undo")
	assert.Equal(t, n, r.doc().Len(schematic.TypeWire))
}

// Moving the pointer must never paint the sheet; a drag paints once a step.
func TestRepaintsPerGesture(t *testing.T) {
	r := newRig(t, lampsFile)
	r.win.Canvas().Capture()
	asked := r.sheetView.asked
	for x := 20.0; x < 300; x += 5 {
		r.move(x, 150)
	}
	assert.Equal(t, asked, r.sheetView.asked, "hovering paints nothing")

	r.click(150, 170)
	assert.Equal(t, asked, r.sheetView.asked, "selecting paints nothing")

	r.drag(250, 250, 350, 270)
	assert.Equal(t, asked, r.sheetView.asked, "the rubber band paints nothing")

	r.drag(50, 150, 70, 150)
	assert.LessOrEqual(t, r.sheetView.asked-asked, 4+4, "a drag of four steps, its end and the results it brings")
}

func TestOverlayUsesItsObjectsAgain(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("edit.all")
	n := len(r.sheetView.over.shapes.Objects)
	for range 20 {
		r.sheetView.zoom(1.01)
	}
	assert.Len(t, r.sheetView.over.shapes.Objects, n)
	r.choose()
	for _, o := range r.sheetView.over.shapes.Objects {
		assert.False(t, o.Visible(), "nothing is outlined any more")
	}
}

func TestTheSheetStaysWholeWhenTheWindowGrows(t *testing.T) {
	r := newRig(t, lampsFile)
	was := r.sheetView.cam.PxPerMM
	r.win.Resize(fyne.NewSize(1500, 1000))
	assert.Greater(t, r.sheetView.cam.PxPerMM, was)
	r.sheetView.zoom(2)
	zoom := r.sheetView.cam.PxPerMM
	r.win.Resize(fyne.NewSize(1300, 900))
	assert.Equal(t, zoom, r.sheetView.cam.PxPerMM, "a chosen zoom stays")
}

func TestWholePixels(t *testing.T) {
	for _, c := range []struct {
		at, length float32
		scale      float64
	}{{0, 100, 1}, {10.3, 99.9, 1}, {10.3, 99.9, 1.5}, {7.77, 333.33, 2}} {
		move, size := whole(c.at, c.length, c.scale)
		lo, hi := float64(c.at+move)*c.scale, float64(c.at+move+size)*c.scale
		assert.InDelta(t, float64(int(lo+0.5)), lo, 1e-3, "%+v begins on a pixel", c)
		assert.InDelta(t, float64(int(hi+0.5)), hi, 1e-3, "%+v ends on a pixel", c)
		assert.LessOrEqual(t, hi, float64(c.at+c.length)*c.scale+1e-2, "%+v stays inside", c)
	}
}

func TestTheTimeOfAPictureIsShownWhenWanted(t *testing.T) {
	r := newRig(t, lampsFile)
	r.prog.frames = true
	r.sheetView.zoom(1.2)
	require.NotNil(t, r.win.Canvas().Capture())
	r.sheetView.zoom(1.2)
	assert.Regexp(t, `^\d+\.\d ms$`, r.status.zoom.full)
	assert.NotEqual(t, "0.0 ms", r.status.zoom.full)
}
