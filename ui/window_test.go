package ui

import (
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/geom"
)

// rig is an editor window on the toolkit's test driver. Derived work runs in
// line, the clock only moves when a test moves it.
type rig struct {
	*Editor
	t     *testing.T
	clock time.Time
}

func inline() crew {
	run := func(f func()) { f() }
	return crew{spawn: run, post: run}
}

// newRig opens a window of 1200 × 800 on an empty drawing, or on path.
func newRig(t *testing.T, path string) *rig { return rigIn(t, path, t.TempDir()) }

func rigIn(t *testing.T, path, settings string) *rig {
	t.Helper()
	lib, err := catalog.Default()
	require.NoError(t, err)
	if path == lampsFile {
		path = copyLamps(t) // journals must not appear among the test data
	}
	r := &rig{t: t, clock: time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)}
	app := test.NewTempApp(t)
	p, trouble := newProgram(app, lib, settings, inline(), func() time.Time { return r.clock })
	require.NoError(t, trouble)
	r.Editor = newEditor(p, Options{Path: path})
	t.Cleanup(func() {
		require.Empty(t, schematic.Check(r.doc()), "the document stays sound")
		r.file.close()
	})
	r.win.Resize(fyne.NewSize(1200, 800))
	return r
}

// at returns the place in the sheet widget of a sheet point in mm.
func (r *rig) at(x, y float64) fyne.Position { return r.sheetView.windowPoint(geom.FromMM(x, y)) }

func mouse(at fyne.Position, b desktop.MouseButton, m fyne.KeyModifier) *desktop.MouseEvent {
	return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: at, AbsolutePosition: at}, Button: b, Modifier: m}
}

func (r *rig) move(x, y float64) { r.sheetView.MouseMoved(mouse(r.at(x, y), 0, 0)) }

func (r *rig) press(x, y float64, m fyne.KeyModifier) {
	r.sheetView.MouseDown(mouse(r.at(x, y), desktop.MouseButtonPrimary, m))
}

func (r *rig) release(x, y float64, m fyne.KeyModifier) {
	r.sheetView.MouseUp(mouse(r.at(x, y), desktop.MouseButtonPrimary, m))
}

// click presses and releases; the clock moves on so that two clicks are not a
// double click.
func (r *rig) click(x, y float64) {
	r.clock = r.clock.Add(time.Second)
	r.move(x, y)
	r.press(x, y, 0)
	r.release(x, y, 0)
}

// drag goes from one place to another in steps, as a hand does.
func (r *rig) drag(x0, y0, x1, y1 float64) {
	r.clock = r.clock.Add(time.Second)
	r.move(x0, y0)
	r.press(x0, y0, 0)
	const steps = 4
	for i := 1; i <= steps; i++ {
		f := float64(i) / steps
		r.sheetView.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: r.at(x0+f*(x1-x0), y0+f*(y1-y0))}})
	}
	r.release(x1, y1, 0)
	r.sheetView.DragEnd()
}

func (r *rig) key(name fyne.KeyName) { r.sheetView.TypedKey(&fyne.KeyEvent{Name: name}) }

func (r *rig) do(id string) {
	a := r.actions.Find(id)
	require.NotNil(r.t, a, id)
	r.run(a)
}

// everything walks the window's content and what lies over it.
func (r *rig) everything(f func(fyne.CanvasObject)) {
	c := r.win.Canvas()
	walk(c.Content(), f)
	for _, o := range c.Overlays().List() {
		walk(o, f)
	}
}

func walk(o fyne.CanvasObject, f func(fyne.CanvasObject)) {
	f(o)
	switch o := o.(type) {
	case *fyne.Container:
		for _, c := range o.Objects {
			walk(c, f)
		}
	case *container.Clip:
		walk(o.Content, f)
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			walk(c, f)
		}
	}
}

// tap presses the button with that text in the topmost box.
func (r *rig) tap(text string) {
	r.t.Helper()
	top := r.win.Canvas().Overlays().Top()
	require.NotNil(r.t, top, "a box is open")
	var found fyne.Tappable
	walk(top, func(o fyne.CanvasObject) {
		switch b := o.(type) {
		case *widget.Button:
			if b.Text == text && b.Visible() {
				found = b
			}
		case *button:
			if b.Text == text && b.Visible() {
				found = b
			}
		case *boxButton:
			if b.Text == text && b.Visible() {
				found = b
			}
		}
	})
	require.NotNil(r.t, found, "button %q", text)
	test.Tap(found)
}

// boxOpen reports whether a dialog or menu lies over the window.
func (r *rig) boxOpen() bool { return r.win.Canvas().Overlays().Top() != nil }

func TestTheWindowOpens(t *testing.T) {
	r := newRig(t, "")
	require.NoError(t, r.actions.Check(), "no two commands on one key")
	require.NotNil(t, r.win.Canvas().Capture())
	require.Positive(t, r.sheetView.paints)
}
