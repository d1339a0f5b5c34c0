package ui

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
	"loomwright/ui/tool"
)

// doubleClick is the longest time between two clicks of a double click, and
// doubleReach how far apart in window points they may be.
const (
	doubleClick = 400 * time.Millisecond
	doubleReach = 5
)

// wheelNotch is what the toolkit reports for one step of a wheel; each zooms
// by a sixth.
const (
	wheelNotch = 25.0
	wheelZoom  = 1.16
)

// pointer is what the hand is doing on the sheet.
type pointer struct {
	down    desktop.MouseButton // the button held, or 0
	at      fyne.Position       // last place in the widget
	start   fyne.Position       // where the button went down
	far     bool                // moved beyond a click since
	clicks  int
	lastUp  time.Time
	lastPos fyne.Position
	over    bool
}

var (
	_ desktop.Mouseable  = (*sheetView)(nil)
	_ desktop.Hoverable  = (*sheetView)(nil)
	_ desktop.Cursorable = (*sheetView)(nil)
	_ desktop.Keyable    = (*sheetView)(nil)
	_ fyne.Draggable     = (*sheetView)(nil)
	_ fyne.Scrollable    = (*sheetView)(nil)
	_ fyne.Shortcutable  = (*sheetView)(nil)
)

func (v *sheetView) MouseDown(e *desktop.MouseEvent) {
	v.takeFocus()
	if v.hand.down != 0 {
		return // a second button while one is held means nothing
	}
	v.leaveKeys()
	if e.Modifier&fyne.KeyModifierAlt != 0 {
		v.afterAlt()
	}
	h := &v.hand
	h.down, h.at, h.start, h.far = e.Button, e.Position, e.Position, false
	if e.Button != desktop.MouseButtonPrimary {
		return
	}
	if v.ed.now().Sub(h.lastUp) < doubleClick && distance(h.lastPos, e.Position) < doubleReach {
		h.clicks++
	} else {
		h.clicks = 1
	}
	v.send(tool.Press{At: v.sheetPoint(e.Position), Pixels: pixels(e.Position), Mods: mods(e.Modifier), Clicks: h.clicks})
}

func (v *sheetView) MouseUp(e *desktop.MouseEvent) {
	if e.Button == v.hand.down {
		v.lift(e.Position, e.Modifier)
	}
}

// DragEnd comes also when the button is let go outside the window, where
// MouseUp does not.
func (v *sheetView) DragEnd() {
	if v.hand.down != 0 {
		v.lift(v.hand.at, heldMods())
	}
}

func (v *sheetView) lift(at fyne.Position, m fyne.KeyModifier) {
	h := &v.hand
	button := h.down
	h.down = 0
	switch button {
	case desktop.MouseButtonPrimary:
		h.lastUp, h.lastPos = v.ed.now(), at
		v.send(tool.Release{At: v.sheetPoint(at), Pixels: pixels(at), Mods: mods(m)})
	case desktop.MouseButtonSecondary:
		if !h.far {
			v.ed.contextMenu(v.sheetPoint(at), v.absolute(at))
		}
	}
}

// Dragged reports moves with the left or middle button held.
func (v *sheetView) Dragged(e *fyne.DragEvent) { v.moved(e.Position, heldMods()) }

// MouseMoved reports moves with no button or the right one.
func (v *sheetView) MouseMoved(e *desktop.MouseEvent) { v.moved(e.Position, heldMods()|e.Modifier) }

func (v *sheetView) MouseIn(e *desktop.MouseEvent) {
	v.hand.over = true
	v.moved(e.Position, heldMods()|e.Modifier)
}

func (v *sheetView) MouseOut() {
	v.hand.over = false
	v.over.near = tool.Hit{}
	v.refreshOverlay()
	v.ed.status.showPointer(nil)
}

func (v *sheetView) moved(at fyne.Position, m fyne.KeyModifier) {
	h := &v.hand
	v.ed.menuAt = nil
	last := h.at
	h.at = at
	if v.byKey.on {
		if v.byKey.held || distance(last, at) < 1 {
			return // the keys have something in hold, or the mouse lies still
		}
		v.leaveKeys()
	}
	if distance(h.start, at) > 3 {
		h.far = true
	}
	switch h.down {
	case desktop.MouseButtonSecondary, desktop.MouseButtonTertiary:
		v.look(v.cam.Pan(float64(at.X-last.X)*v.scale, float64(at.Y-last.Y)*v.scale))
		return
	}
	v.pointAt(at, m)
}

// pointAt tells the tool, the overlay and the status line what place of the
// sheet the pointer means.
func (v *sheetView) pointAt(at fyne.Position, m fyne.KeyModifier) {
	p := v.sheetPoint(at)
	v.send(tool.Move{At: p, Pixels: pixels(at), Mods: mods(m)})
	v.hover(at)
	v.ed.status.showPointer(&p)
}

// underPointer follows a sheet that moved below a pointer at rest: a wire in
// hand keeps its end at the pointer, and what a press would take lights up.
func (v *sheetView) underPointer() {
	if v.hand.over && v.hand.down == 0 {
		v.pointAt(v.hand.at, heldMods())
	}
}

// hover lights up what a press would take.
func (v *sheetView) hover(at fyne.Position) {
	near := tool.Hit{}
	if v.hand.down == 0 {
		near = v.scene().Hit(v.sheetPoint(at))
	}
	v.showNear(near)
}

// hoverAt is hover for a pointer that keys move.
func (v *sheetView) hoverAt(at geom.Point) { v.showNear(v.scene().Hit(at)) }

func (v *sheetView) showNear(near tool.Hit) {
	if near != v.over.near {
		v.over.near = near
		v.refreshOverlay()
		v.ed.status.showNear(near)
	}
}

// Scrolled zooms at the pointer, or pans when the user likes the wheel to.
func (v *sheetView) Scrolled(e *fyne.ScrollEvent) {
	m := heldMods()
	pans := v.ed.store.WheelPans
	if m&fyne.KeyModifierShortcutDefault != 0 {
		pans = !pans
	}
	if e.Scrolled.DY == 0 {
		pans = true // sideways: Shift with a wheel, or two fingers
	}
	if pans {
		v.look(v.cam.Pan(float64(e.Scrolled.DX)*2*v.scale, float64(e.Scrolled.DY)*2*v.scale))
		return
	}
	v.look(v.cam.Zoom(math.Pow(wheelZoom, float64(e.Scrolled.DY)/wheelNotch), v.toPx(e.Position)))
}

func (v *sheetView) Cursor() desktop.Cursor { return v.cursor }

// The sheet has the keyboard unless a text field takes it.

func (v *sheetView) FocusGained()             {}
func (v *sheetView) FocusLost()               {}
func (v *sheetView) TypedRune(rune)           {}
func (v *sheetView) KeyDown(e *fyne.KeyEvent) { v.modsChanged(e) }
func (v *sheetView) KeyUp(e *fyne.KeyEvent)   { v.modsChanged(e) }

// TypedKey runs the command on a key, or gives the key to the tool in hand.
func (v *sheetView) TypedKey(e *fyne.KeyEvent) { v.ed.typedKey(e.Name, heldMods()) }

// TypedShortcut gets combinations that no menu item took.
func (v *sheetView) TypedShortcut(s fyne.Shortcut) {
	if k, ok := s.(fyne.KeyboardShortcut); ok {
		v.ed.typedKey(k.Key(), k.Mod())
	}
}

// modsChanged lets a tool see a modifier pressed in the middle of a drag.
func (v *sheetView) modsChanged(e *fyne.KeyEvent) {
	switch e.Name {
	case desktop.KeyShiftLeft, desktop.KeyShiftRight, desktop.KeyControlLeft, desktop.KeyControlRight, desktop.KeyAltLeft, desktop.KeyAltRight:
		if v.hand.down != 0 && heldMods()&fyne.KeyModifierAlt != 0 {
			v.afterAlt()
		}
		if v.byKey.on {
			return
		}
		if v.hand.over && v.hand.down != desktop.MouseButtonSecondary && v.hand.down != desktop.MouseButtonTertiary {
			v.send(tool.Move{At: v.sheetPoint(v.hand.at), Pixels: pixels(v.hand.at), Mods: mods(heldMods())})
		}
	}
}

// send gives an event to the tool in hand and does what it asks for.
func (v *sheetView) send(e tool.Event) { v.ed.sendTool(e) }

func (v *sheetView) takeFocus() {
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil && c.Focused() != v {
		c.Focus(v)
	}
}

func (v *sheetView) absolute(p fyne.Position) fyne.Position {
	return fyne.CurrentApp().Driver().AbsolutePositionForObject(v).Add(p)
}

func pixels(p fyne.Position) draw.Point { return draw.Point{X: float64(p.X), Y: float64(p.Y)} }

func mods(m fyne.KeyModifier) tool.Mods {
	var t tool.Mods
	if m&fyne.KeyModifierShift != 0 {
		t |= tool.ModAdd
	}
	if m&fyne.KeyModifierAlt != 0 {
		t |= tool.ModFree
	}
	if m&fyne.KeyModifierShortcutDefault != 0 {
		t |= tool.ModCopy
	}
	return t
}

func distance(a, b fyne.Position) float64 {
	return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y))
}
