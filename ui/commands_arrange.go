package ui

import (
	"fmt"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/ui/action"
	"loomwright/ui/tool"
)

// How far the arrow keys move what is selected, in units: a grid step, with
// Shift a wide one, with Alt a fine one that leaves the grid.
const (
	nudgeStep = geom.Grid
	nudgeWide = 4 * geom.Grid
	nudgeFine = geom.Grid / 5
)

// arrangeActions turn, move and line up what is selected.
func (ed *Editor) arrangeActions() {
	shift := func(name string) action.Key { return action.Key{Mods: action.Shift, Name: name} }
	ed.actions.Add(
		&action.Action{ID: "edit.rotate", Title: "Turn by 90°", Menu: "Arrange", Keys: []action.Key{action.K("R")}, Words: "rotate clockwise", Enabled: ed.canTurn,
			Help: "Turn the selection about its middle, or the part in hand, clockwise", Run: func() {
				ed.turn("turn", func(tx *edit.Tx, keys []schematic.Key) error { return edit.Rotate(tx, ed.sheet, keys, 1, ed.held()...) }, "R")
			}},
		&action.Action{ID: "arrange.back", Title: "Turn back by 90°", Menu: "Arrange", Keys: []action.Key{shift("R")}, Words: "rotate counterclockwise anticlockwise left", Enabled: ed.canTurn,
			Help: "Turn the selection about its middle, or the part in hand, against the clock", Run: func() {
				ed.turn("turn back", func(tx *edit.Tx, keys []schematic.Key) error { return edit.Rotate(tx, ed.sheet, keys, 3, ed.held()...) }, "R", "R", "R")
			}},
		&action.Action{ID: "edit.mirror", Title: "Mirror", Menu: "Arrange", Keys: []action.Key{action.K("M")}, Words: "flip left right", Enabled: ed.canTurn,
			Help: "Swap left and right of the selection, or of the part in hand", Run: func() {
				ed.turn("mirror", func(tx *edit.Tx, keys []schematic.Key) error { return edit.Mirror(tx, ed.sheet, keys, ed.held()...) }, "M")
			}},
		&action.Action{ID: "arrange.mirror", Title: "Mirror top to bottom", Menu: "Arrange", Keys: []action.Key{shift("M")}, Words: "flip upside down", Enabled: ed.canTurn,
			Help: "Swap top and bottom of the selection, or of the part in hand", Run: func() {
				ed.turn("mirror", func(tx *edit.Tx, keys []schematic.Key) error {
					return edit.MirrorUpright(tx, ed.sheet, keys, ed.held()...)
				}, "M", "R", "R")
			}},
	)
	ed.alignActions()
	ed.actions.Add(&action.Action{ID: "arrange.lock", Title: "Locked in place", Menu: "Arrange", Gap: true, Keys: []action.Key{action.C("L")}, Words: "lock unlock fix hold pin protect",
		Help: "Hold the selected parts, wires and notes in place, so that they are not moved, reshaped or deleted by accident, or let them go", Enabled: func() bool { return len(ed.lockable()) > 0 },
		Checked: ed.allLocked, Run: ed.toggleLock})
	for _, d := range []struct {
		name, title string
		by          geom.Point
	}{{"Left", "left", geom.Pt(-1, 0)}, {"Right", "right", geom.Pt(1, 0)}, {"Up", "up", geom.Pt(0, -1)}, {"Down", "down", geom.Pt(0, 1)}} {
		nudge := func(id, title, help string, mods action.Mod, step int) {
			ed.actions.Add(&action.Action{ID: id + d.title, Title: title + d.title, Menu: "Arrange/Move", Keys: []action.Key{{Mods: mods, Name: d.name}}, Words: "nudge arrow", Enabled: ed.canNudge,
				Help: help, Run: func() { ed.nudge(geom.Pt(d.by.X*step, d.by.Y*step)) }})
		}
		nudge("edit.", "Move ", "Move the selection by one grid step", 0, nudgeStep)
		nudge("arrange.wide", "Move wide ", "Move the selection by four grid steps", action.Shift, nudgeWide)
		nudge("arrange.fine", "Move fine ", "Move the selection by half a millimetre, off the grid", action.Alt, nudgeFine)
	}
}

// alignActions bring several things into line or space them evenly.
func (ed *Editor) alignActions() {
	line := func(id, title string, key action.Key, words string, l edit.Line) *action.Action {
		return &action.Action{ID: "arrange." + id, Title: title, Menu: "Arrange/Align", Keys: []action.Key{key}, Words: "align line up " + words,
			Help: "Bring the selected parts and notes into line; what is locked is the line", Enabled: ed.canAlign,
			Run: func() {
				ed.rearrange("align", func(tx *edit.Tx, keys []schematic.Key) error { return edit.Align(tx, ed.sheet, keys, l) })
			}}
	}
	space := func(id, title string, key action.Key, words string, upright bool) *action.Action {
		return &action.Action{ID: "arrange." + id, Title: title, Menu: "Arrange/Align", Keys: []action.Key{key}, Words: "distribute gaps even " + words,
			Help: "Leave the outermost two where they are and make the gaps between the selected things equal", Enabled: func() bool { return len(ed.alignable()) > 2 },
			Run: func() {
				ed.rearrange("space evenly", func(tx *edit.Tx, keys []schematic.Key) error { return edit.Distribute(tx, ed.sheet, keys, upright) })
			}}
	}
	side := space("spaceside", "Space evenly side by side", action.C("E"), "horizontal", false)
	side.Gap = true
	ed.actions.Add(
		line("left", "Align left edges", action.C("Left"), "", edit.LeftEdges),
		line("right", "Align right edges", action.C("Right"), "", edit.RightEdges),
		line("top", "Align top edges", action.C("Up"), "", edit.TopEdges),
		line("bottom", "Align bottom edges", action.C("Down"), "", edit.BottomEdges),
		line("column", "Align middles one below the other", action.CS("M"), "centre vertical upright column", edit.UprightMiddle),
		line("row", "Align middles side by side", action.C("M"), "centre horizontal level row", edit.LevelMiddle),
		side,
		space("spacedown", "Space evenly one below the other", action.CS("E"), "vertical", true),
	)
}

// canAlign reports whether there are several things to bring into line. While
// the keys move the pointer, Ctrl and an arrow takes it to the next pin.
func (ed *Editor) canAlign() bool {
	return len(ed.alignable()) > 1 && ed.tools.Tool() == selectTool && !ed.sheetView.byKey.on
}

// rearrange makes one edit of how the selection lies on the sheet in sight, and
// says what stayed where it is.
func (ed *Editor) rearrange(verb string, f func(*edit.Tx, []schematic.Key) error) {
	keys := ed.sess.Selection()
	if ed.do(verb+" "+ed.what(keys), func(tx *edit.Tx) error { return f(tx, keys) }) {
		ed.tellStayed(keys)
	}
}

// tellStayed says what lies on other sheets or is locked, and so did not move.
func (ed *Editor) tellStayed(keys []schematic.Key) {
	if n := ed.elsewhere(keys); n > 0 {
		ed.status.tell("only this sheet was changed; left alone on other sheets: " + count(n, "item"))
	}
	ed.tellLocked(keys)
}

// tellLocked says which of the keys an edit has left alone.
func (ed *Editor) tellLocked(keys []schematic.Key) {
	var names []string
	for _, k := range keys {
		if edit.Locked(ed.doc(), k) {
			name := schematic.NameOf(ed.doc().Get(k))
			if name == "" {
				name = "a note"
			}
			names = append(names, name)
		}
	}
	if len(names) > 0 {
		ed.status.tell("locked and left alone: " + nameList(names, 6))
	}
}

// canNudge reports whether the arrow keys move what is selected, not the pointer.
func (ed *Editor) canNudge() bool {
	return ed.anySelected() && ed.tools.Tool() == selectTool && !ed.sheetView.byKey.on
}

func (ed *Editor) nudge(by geom.Point) {
	keys, before := ed.sess.Selection(), ed.doc()
	// Streaks of one selection become one step to undo.
	err := ed.sess.DoJoin("move "+ed.what(keys), fmt.Sprint("nudge", keys), func(tx *edit.Tx) error { return edit.Move(tx, ed.sheet, keys, by) })
	ed.edited(before)
	switch {
	case err != nil:
		ed.status.warn(err.Error())
	case ed.doc() == before:
		ed.status.tell("nothing moved: a wire goes where the parts at its ends go")
	default:
		ed.tellStayed(keys)
	}
}

// canTurn reports whether there is something to turn: a selection, or a part
// in hand.
func (ed *Editor) canTurn() bool { return ed.anySelected() || ed.tools.Tool() == placeTool }

// turn turns the selection, or the part in hand with these keys of its tool.
func (ed *Editor) turn(verb string, f func(*edit.Tx, []schematic.Key) error, keys ...string) {
	if ed.tools.Tool() == placeTool {
		for _, k := range keys {
			ed.sendTool(tool.KeyPress{Name: k})
		}
		return
	}
	ed.rearrange(verb, f)
}

// held is the symbol under the pointer: of a part with several on the sheet that
// one is turned.
func (ed *Editor) held() []edit.Symbol {
	if h := ed.sheetView.scene().Hit(ed.aimPoint()); h.Ok && h.Key.Type == schematic.TypePart && ed.sheetView.hand.over {
		return []edit.Symbol{{Part: h.Key.ID, View: h.View}}
	}
	return nil
}

// lockable returns the selected parts, wires and notes.
func (ed *Editor) lockable() (keys []schematic.Key) {
	for _, k := range ed.sess.Selection() {
		if k.Type == schematic.TypeWire {
			keys = append(keys, k)
		}
	}
	return append(keys, ed.alignable()...)
}

// alignable returns the selected parts and notes.
func (ed *Editor) alignable() (keys []schematic.Key) {
	for _, k := range ed.sess.Selection() {
		if k.Type == schematic.TypePart || k.Type == schematic.TypeNote {
			keys = append(keys, k)
		}
	}
	return keys
}

func (ed *Editor) allLocked() bool {
	keys := ed.lockable()
	for _, k := range keys {
		if !edit.Locked(ed.doc(), k) {
			return false
		}
	}
	return len(keys) > 0
}

func (ed *Editor) toggleLock() {
	keys, on := ed.lockable(), !ed.allLocked()
	verb := map[bool]string{true: "lock ", false: "unlock "}[on]
	if ed.do(verb+ed.what(keys), func(tx *edit.Tx) error { return edit.SetLocked(tx, keys, on) }) {
		ed.status.tell(verb + schematic.Tally(keys))
	}
}
