package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
	"loomwright/ui/action"
	"loomwright/ui/tool"
	"loomwright/ui/view"
)

// keyPointer is the pointer as the arrow keys move it: a cross on the sheet
// that presses with Enter and takes hold with Space. With it everything a hand
// does with the mouse can be done by keys. Moving the mouse ends it.
type keyPointer struct {
	on   bool
	at   geom.Point
	held bool // pressed and not yet let go
	last geom.Point
	hits int // presses at one place in a row
}

// keyReach is how near the pointer must be to a thing when keys move it, in mm:
// they put it exactly where it shall be, at any zoom.
const keyReach = 0.49 * geom.Grid / geom.PerMM

// pointerActions are the commands of the pointer by keys; its keys themselves
// are handled in [Editor.pointerKey].
func (ed *Editor) pointerActions() {
	ed.actions.Add(&action.Action{ID: "draw.pointer", Title: "Pointer by keys", Menu: "Draw", Gap: true, Keys: []action.Key{action.K("K")}, Words: "keyboard arrow cursor cross without mouse accessible",
		Help:    "Move a pointer with the arrow keys: Enter presses, Space takes hold and lets go, Ctrl and an arrow goes to the next pin",
		Checked: func() bool { return ed.sheetView.byKey.on }, Run: func() { ed.pointByKeys(!ed.sheetView.byKey.on) }})
}

// menuActions open the menu of the right button by key, and reach below what
// lies on top.
func (ed *Editor) menuActions() {
	ed.actions.Add(
		&action.Action{ID: "edit.menu", Title: "Commands for what is here", Menu: "Edit", Keys: []action.Key{{Mods: action.Shift, Name: "F10"}, action.K("Menu")}, Words: "context right button pop up",
			Help: "Open the menu of the right mouse button for the selection, or for what is at the pointer", Run: ed.menuByKey},
		&action.Action{ID: "select.beneath", Title: "Select what lies beneath", Menu: "Select", Keys: []action.Key{action.K("U")}, Words: "under overlap behind next click through",
			Help: "Select the next of the things on top of each other at the pointer; a click with Alt does so too", Run: ed.selectBeneath},
	)
}

func (ed *Editor) selectBeneath() {
	at := ed.aimPoint()
	if sel := ed.sess.Selection(); !ed.sheetView.byKey.on && !ed.sheetView.hand.over && len(sel) == 1 {
		if p, ok := ed.holdOf(sel[0]); ok {
			at = p
		}
	}
	do, which, of := tool.Beneath(ed.sheetView.scene(), at)
	if of == 0 {
		ed.status.warn("nothing lies at the pointer")
		return
	}
	ed.perform([]tool.Effect{do})
	ed.status.tell(fmt.Sprintf("number %d of %s on top of each other here", which, count(of, "thing")))
}

// pointByKeys brings the pointer of the keys out, at what alone is selected or
// else where the mouse is, or puts it away.
func (ed *Editor) pointByKeys(on bool) {
	v := ed.sheetView
	if on == v.byKey.on {
		return
	}
	at := ed.aimPoint().Snap(geom.Grid)
	if sel := ed.sess.Selection(); on && len(sel) == 1 && ed.tools.Tool() != placeTool {
		if p, ok := ed.holdOf(sel[0]); ok {
			at = p
		}
	}
	v.byKey = keyPointer{}
	if on {
		v.byKey = keyPointer{on: true, at: at, last: at}
		ed.movePointer(at, 0)
	} else {
		v.showNear(tool.Hit{})
		ed.status.showPointer(nil)
	}
	ed.showKeyPointer()
	ed.menu.refresh()
}

// holdOf returns where a pointer takes hold of an item: at the pin of a part
// that has no wire yet, else in its middle.
func (ed *Editor) holdOf(k schematic.Key) (geom.Point, bool) {
	doc := ed.doc()
	if p := doc.Part(k.ID); p != nil && k.Type == schematic.TypePart {
		for _, v := range p.Views {
			if v.Sheet != ed.sheet {
				continue
			}
			for _, pin := range doc.PlacedPins(p, v) {
				if len(doc.WiresAt(schematic.PinRef{Part: p.ID, Pin: pin.Pin.Name})) == 0 {
					return pin.At, true
				}
			}
			return v.At, true
		}
	}
	if w := doc.Wire(k.ID); w != nil && k.Type == schematic.TypeWire && w.Sheet == ed.sheet {
		path := doc.Path(w)
		a, b := path[(len(path)-1)/2], path[len(path)/2]
		return geom.Pt((a.X+b.X)/2, (a.Y+b.Y)/2).Snap(geom.Grid), true
	}
	if n, ok := doc.Get(k).(*schematic.Note); ok && n.Sheet == ed.sheet {
		return n.At, true
	}
	return geom.Point{}, false
}

// pointerKey does what a key means to the pointer of the keys and says whether
// it meant anything. Arrow keys bring it out whenever they have nothing to move.
func (ed *Editor) pointerKey(k action.Key) bool {
	v, tl := ed.sheetView, ed.tools.Tool()
	dir, arrow := arrows()[k.Name]
	if v.byKey.held && !ed.tools.Busy() { // an undo or another tool has ended the gesture
		v.byKey.held = false
		ed.showKeyPointer()
	}
	switch {
	case arrow && tl == panTool:
		ed.pushSheet(dir, k.Mods)
		return true
	case arrow:
		if !v.byKey.on {
			if tl == selectTool && ed.anySelected() {
				return false
			}
			ed.pointByKeys(true)
		}
		ed.stepPointer(dir, k.Mods)
		return true
	case !v.byKey.on || tl == placeTool: // a part in hand has its own Enter
		return false
	case k.Name == "Enter" && v.byKey.held:
		ed.releaseByKey(k.Mods)
	case k.Name == "Enter" && k.Mods&^(action.Shift|action.Alt) == 0:
		ed.pressByKey(k.Mods)
		ed.releaseByKey(k.Mods)
	case k.Name == "Space" && k.Mods&^(action.Shift|action.Alt) == 0 && v.byKey.held:
		ed.releaseByKey(k.Mods)
	case k.Name == "Space" && k.Mods&^(action.Shift|action.Alt) == 0 && !ed.tools.Busy() && (tl == selectTool || tl == "note"):
		v.byKey.hits = 0 // neither half of a double click
		ed.pressByKey(k.Mods)
		v.byKey.hits = 0
	default:
		return false
	}
	return true
}

func arrows() map[string]geom.Point {
	return map[string]geom.Point{"Left": geom.Pt(-1, 0), "Right": geom.Pt(1, 0), "Up": geom.Pt(0, -1), "Down": geom.Pt(0, 1)}
}

// pushSheet moves the sheet a bit, with Shift far.
func (ed *Editor) pushSheet(dir geom.Point, mods action.Mod) {
	v := ed.sheetView
	step := 40.0
	if mods&action.Shift != 0 {
		step = 240
	}
	v.look(v.cam.Pan(-float64(dir.X)*step*v.scale, -float64(dir.Y)*step*v.scale))
}

// stepPointer moves the pointer by a grid step, with Shift a wide one, with Alt
// a fine one, with Ctrl to the next pin that way.
func (ed *Editor) stepPointer(dir geom.Point, mods action.Mod) {
	at := ed.sheetView.byKey.at
	step := nudgeStep
	switch {
	case mods&action.Ctrl != 0:
		to, ok := view.NextPin(ed.doc(), ed.sheet, at, dir)
		if !ok {
			ed.status.tell("no pin further that way on this sheet")
			return
		}
		ed.movePointer(to, 0)
		return
	case mods&action.Shift != 0:
		step = nudgeWide
	case mods&action.Alt != 0:
		step = nudgeFine
	}
	to := at.Add(geom.Pt(dir.X*step, dir.Y*step))
	if step != nudgeFine { // back on the grid, in the way it goes
		to = geom.Pt(ontoGrid(to.X, dir.X), ontoGrid(to.Y, dir.Y))
	}
	ed.movePointer(to, mods&action.Alt)
}

// ontoGrid brings a coordinate onto the grid, not further the way it goes.
func ontoGrid(x, dir int) int {
	if dir == 0 {
		return x
	}
	return geom.Pt(x-dir*(geom.Grid/2-1), 0).Snap(geom.Grid).X
}

// movePointer puts the pointer somewhere, keeps it in sight and tells the tool.
func (ed *Editor) movePointer(at geom.Point, mods action.Mod) {
	v := ed.sheetView
	if !at.InRange() {
		return
	}
	v.byKey.at = at
	v.keepInSight(at)
	ed.showKeyPointer()
	v.send(tool.Move{At: at, Pixels: keyPixels(at), Mods: toolMods(mods)})
	v.hoverAt(at)
	v.ed.status.showPointer(&at)
}

// keyPixels is the pointer for the tool's sense of distance: any step of the
// keys is a drag, at any zoom.
func keyPixels(p geom.Point) draw.Point { return draw.Point{X: float64(p.X), Y: float64(p.Y)} }

func toolMods(m action.Mod) tool.Mods {
	var t tool.Mods
	if m&action.Shift != 0 {
		t |= tool.ModAdd
	}
	if m&action.Alt != 0 {
		t |= tool.ModFree
	}
	return t
}

func (ed *Editor) pressByKey(mods action.Mod) {
	p := &ed.sheetView.byKey
	if p.hits++; p.last != p.at {
		p.hits = 1
	}
	p.last, p.held = p.at, true
	ed.sheetView.send(tool.Press{At: p.at, Pixels: keyPixels(p.at), Mods: toolMods(mods), Clicks: p.hits})
	ed.showKeyPointer()
}

func (ed *Editor) releaseByKey(mods action.Mod) {
	p := &ed.sheetView.byKey
	if !p.held { // the press has led elsewhere
		return
	}
	p.held = false
	if p.at != p.last {
		p.hits = 0
	}
	ed.sheetView.send(tool.Release{At: p.at, Pixels: keyPixels(p.at), Mods: toolMods(mods)})
	ed.showKeyPointer()
}

// showKeyPointer draws the pointer of the keys, or takes it away.
func (ed *Editor) showKeyPointer() {
	v := ed.sheetView
	v.over.pointer = nil
	if v.byKey.on {
		at := v.byKey.at
		v.over.pointer = &at
		v.over.pointerHeld = v.byKey.held
	}
	v.refreshOverlay()
	ed.status.showHint()
}

// keepInSight moves the sheet when a place is at the edge of the window or
// beyond it.
func (v *sheetView) keepInSight(at geom.Point) {
	const edge = 40
	p, size := v.windowPoint(at), v.Size()
	off := func(x, length float32) float32 {
		switch {
		case length <= 2*edge:
			return 0
		case x < edge:
			return edge - x
		case x > length-edge:
			return length - edge - x
		}
		return 0
	}
	by := fyne.NewDelta(off(p.X, size.Width), off(p.Y, size.Height))
	if by.DX != 0 || by.DY != 0 {
		v.look(v.cam.Pan(float64(by.DX)*v.scale, float64(by.DY)*v.scale))
	}
}

// keyHint says what the keys do while they move the pointer; "" leaves the word
// to the tool.
func (ed *Editor) keyHint() string {
	const move = "Arrows move, with Ctrl to a pin. "
	switch state := ed.tools.State().Name(); {
	case ed.sheetView.byKey.held:
		return "Arrows drag. Enter or Space lets go, Esc cancels."
	case state == "select.idle":
		return move + "Enter selects, Shift+Enter adds, twice edits. Space takes hold. Esc ends."
	case state == "wire.idle":
		return move + "Enter starts a wire. Esc goes back to selecting."
	case state == "wire.drawing":
		return move + "Enter ends at a pin or wire, else bends; twice ends loose. Esc cancels."
	case state == "place.holding":
		return move + "Enter places the part, R turns, M mirrors it. Esc ends."
	case state == "note.idle":
		return move + "Enter writes here; Space begins a frame. Esc ends."
	case state == "trace.idle":
		return move + "Enter lights up the circuit there. Esc goes back to selecting."
	}
	return ""
}

// leaveKeys gives the pointer back to the mouse; a gesture under way is broken
// off.
func (v *sheetView) leaveKeys() {
	if v.byKey.held {
		v.byKey.held = false
		v.send(tool.Cancel{})
	}
	v.ed.pointByKeys(false)
}

// pointerLines say in the list of keys what they do to the pointer.
func pointerLines() []chooserLine {
	return []chooserLine{
		{side: "Arrows", title: "Move the pointer, when nothing is selected or a tool is in hand; with Shift wide, with Alt fine"},
		{side: "Ctrl and an arrow", title: "Move the pointer to the next pin that way"},
		{side: "Enter", title: "Press at the pointer, with Shift to add to the selection; twice as a double click"},
		{side: "Space", title: "Take hold of what is at the pointer; the arrows drag it, Space or Enter lets go"},
		{side: "Esc", title: "Break off; then put the tool, the pointer, the selection away"},
	}
}
