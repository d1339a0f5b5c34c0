package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/ui/action"
	"loomwright/ui/tool"
)

// Names of the tools that commands ask for.
const (
	wireTool   = "wire"
	selectTool = "select"
	placeTool  = "place"
	panTool    = "pan"
)

// toolIcons are the pictures of the tools, and more words to find them by.
func toolIcons() map[string]struct{ icon, words string } {
	return map[string]struct{ icon, words string }{
		selectTool: {"select", "arrow pick"},
		"wire":     {"wire", "conductor connect"},
		"note":     {"note", "text comment frame"},
		"trace":    {"trace", "circuit path light follow"},
		"pan":      {"hand", "hand scroll push"},
	}
}

func (ed *Editor) drawActions() {
	for _, t := range tool.Names() {
		ed.actions.Add(&action.Action{ID: "tool." + t.ID, Title: t.Title, Menu: "Draw", Keys: []action.Key{action.K(t.Key)}, Words: toolIcons()[t.ID].words, Help: t.Help,
			Checked: func() bool { return ed.tools.Tool() == t.ID }, Run: func() { ed.useTool(t.ID) }})
	}
	ed.actions.Add(&action.Action{ID: "tool.part", Title: "Find a part to place", Menu: "Draw", Gap: true, Keys: []action.Key{action.K("P")}, Words: "add component tray",
		Help: "Put the keyboard into the search of the parts tray", Run: func() {
			if ed.store.HideTray {
				ed.togglePanel(&ed.store.HideTray)
			}
			ed.win.Canvas().Focus(ed.tray.search)
			ed.tray.search.TypedShortcut(&fyne.ShortcutSelectAll{})
		}})
	ed.pointerActions()
	ed.kindActions()
	ed.actions.Add(
		&action.Action{ID: "draw.connector", Title: "New connector…", Menu: "Draw", Keys: []action.Key{{Mods: action.Shift, Name: "X"}}, Words: "multiway housing cavity plug socket header pin table spreadsheet",
			Help: "Make a connector of any number of cavities, with the wires at it", Run: ed.newConnector},
		&action.Action{ID: "draw.wirelist", Title: "New wires from pasted rows…", Menu: "Draw", Keys: []action.Key{{Mods: action.Shift, Name: "W"}}, Words: "spreadsheet table wire list cut import csv many draw",
			Help: "Draw the wires of a list that is copied from a spreadsheet or typed", Run: ed.newWireList},
		&action.Action{ID: "edit.pintable", Title: "Pin table…", Menu: "Edit/Connectors", Keys: []action.Key{{Mods: action.Shift, Name: "P"}}, Words: "cavities pins pinout spreadsheet connector wires",
			Help: "Edit the cavities and wires of the selected connector as a table", Enabled: func() bool { return ed.ownPinsSelected() != nil }, Run: ed.editPinTable},
	)
}

// useTool takes a tool in hand.
func (ed *Editor) useTool(id string) {
	if s, ok := tool.New(id); ok {
		ed.hold(s)
	}
}

// takePart takes a part of a kind in hand, to be placed with presses.
func (ed *Editor) takePart(kind string) {
	ed.hold(tool.Place(kind))
	ed.win.Canvas().Focus(ed.sheetView)
	ed.sheetView.underPointer() // chosen by key: it is seen at the pointer at once
}

func (ed *Editor) hold(s tool.State) {
	ed.perform(ed.tools.Use(s, ed.sheetView.scene()))
	ed.toolChanged()
}

// toolChanged follows another tool in hand.
func (ed *Editor) toolChanged() {
	ed.strip.refresh()
	ed.tray.follow()
	ed.status.showHint()
	ed.menu.refresh()
}

// toolKey reports whether a key can mean something to a tool.
func toolKey(k action.Key) bool {
	if k.Mods != 0 {
		return false
	}
	switch k.Name {
	case "Enter", "BackSpace", "Space", "Tab", "R", "M":
		return true
	}
	return false
}

// escape ends what is going on, one thing at a time: a gesture, a tool, the
// selection, the trace.
func (ed *Editor) escape() {
	switch {
	case ed.tools.Busy() || ed.tools.Tool() != selectTool:
		ed.sheetView.byKey.held = false
		ed.sendTool(tool.Cancel{})
		ed.showKeyPointer()
	case ed.sheetView.byKey.on:
		ed.pointByKeys(false)
	case ed.anySelected():
		ed.choose()
	case ed.study.mark.Ok:
		ed.trace(tool.Hit{})
	}
}

// contextMenu offers what can be done with the thing under the pointer.
func (ed *Editor) contextMenu(at geom.Point, abs fyne.Position) {
	if ed.tools.Busy() {
		ed.sendTool(tool.Cancel{})
		return
	}
	ed.menuFor(ed.sheetView.scene().Hit(at), at, abs)
}

// menuByKey is contextMenu for the keyboard: for what the pointer of the keys
// is on, else for what is selected, else for the sheet.
func (ed *Editor) menuByKey() {
	if ed.tools.Busy() {
		return
	}
	v, at := ed.sheetView, ed.aimPoint()
	h := v.scene().Hit(at)
	if sel := ed.sess.Selection(); !v.byKey.on && len(sel) > 0 {
		h = tool.Hit{Key: sel[0], Ok: true}
		if p, ok := ed.holdOf(sel[0]); ok {
			at = p
			v.keepInSight(at)
		}
	}
	ed.menuFor(h, at, v.absolute(v.windowPoint(at)))
}

// menuFor opens the menu of commands for what lies at a place.
func (ed *Editor) menuFor(h tool.Hit, at geom.Point, abs fyne.Position) {
	ed.menuAt = &at
	if !h.Ok {
		ed.choose()
		ed.popUp(abs, "edit.paste", "", "tool.wire", "tool.note", "tool.part", "", "view.fit", "view.fitdrawn", "", "edit.all")
		return
	}
	if !slices.Contains(ed.sess.Selection(), h.Key) {
		ed.choose(h.Key)
	}
	items := []*fyne.MenuItem{}
	add := func(ids ...string) {
		for _, id := range ids {
			a := ed.actions.Find(id)
			if id == "" {
				items = append(items, fyne.NewMenuItemSeparator())
			} else if a.IsEnabled() {
				items = append(items, ed.menu.entry(a))
			}
		}
	}
	if h.Pin != "" {
		items = append(items, fyne.NewMenuItem("Trace pin "+h.Pin, func() { ed.trace(h) }))
	}
	add("check.trace", "edit.details", "view.fitsel", "", "edit.rotate", "edit.mirror", "edit.duplicate", "")
	if w := ed.doc().Wire(h.Key.ID); w != nil && h.Key.Type == schematic.TypeWire {
		items = append(items, ed.bendItems(w, at)...)
		add("wires.anew", "wires.labels", "", "edit.twist", "edit.screen", "edit.unbind", "", "check.size", "check.plot", "")
	}
	if p := ed.doc().Part(h.Key.ID); p != nil && len(ed.fusesOf(p)) > 0 {
		add("check.plot", "")
	}
	if ed.canJoin() {
		add("wires.join")
	}
	if ed.canPlug() || ed.canUnplug() {
		add("edit.plug", "edit.unplug", "")
	}
	add("select.connected", "select.net", "select.circuit", "select.alike", "", "arrange.lock", "", "edit.cut", "edit.copy", "edit.delete")
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), ed.win.Canvas(), abs)
}

// pointAt lights up an item on the drawing from afar, as the ladder does; the
// zero key ends it.
func (ed *Editor) pointAt(k schematic.Key) {
	near := tool.Hit{Key: k, Ok: k != schematic.Key{}}
	if near != ed.sheetView.over.near {
		ed.sheetView.over.near = near
		ed.sheetView.refreshOverlay()
	}
}
