package ui

import (
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/ui/action"
	"loomwright/ui/tool"
)

// newActionSet returns an empty register.
func newActionSet() action.Set { return action.Set{} }

// registerActions fills the register, menu by menu.
func (ed *Editor) registerActions() {
	ed.fileActions()
	ed.editActions()
	ed.wireActions()
	ed.selectActions()
	ed.arrangeActions()
	ed.viewActions()
	ed.appearanceActions()
	ed.drawActions()
	ed.sheetActions()
	ed.checkActions()
	ed.loomActions()
	ed.findingActions()
	ed.helpActions()
	ed.sayNeeds()
	ed.ownKeys()
}

func (ed *Editor) fileActions() {
	ed.actions.Add(
		&action.Action{ID: "file.new", Title: "New drawing", Menu: "File", Keys: []action.Key{action.C("N")},
			Help: "Begin an empty drawing", Run: ed.newDrawing},
		&action.Action{ID: "file.open", Title: "Open…", Menu: "File", Keys: []action.Key{action.C("O")}, Words: "load file",
			Help: "Open a harness file", Run: ed.askOpen},
	)
	ed.windowActions()
	ed.actions.Add(
		&action.Action{ID: "file.save", Title: "Save", Menu: "File", Gap: true, Keys: []action.Key{action.C("S")}, Words: "write file",
			Help: "Write the drawing to its file", Run: func() { ed.flushField(); ed.save(nil) }},
		&action.Action{ID: "file.saveas", Title: "Save as…", Menu: "File", Keys: []action.Key{action.CS("S")}, Words: "copy name",
			Help: "Write the drawing to another file", Run: func() { ed.flushField(); ed.saveAs(nil) }},
	)
	ed.compareActions()
	ed.actions.Add(
		&action.Action{ID: "file.insert", Title: "Insert harness from file…", Menu: "File", Gap: true, Keys: []action.Key{action.CS("I")}, Words: "merge reuse sub-harness import add another drawing",
			Help: "Bring the harness of another file into this drawing", Run: ed.askInsert},
		&action.Action{ID: "file.savepiece", Title: "Save selection as harness…", Menu: "File", Enabled: ed.anySelected, Words: "reuse sub-harness part piece extract",
			Help: "Write what is selected as a harness file of its own", Run: ed.saveSelection},
		&action.Action{ID: "file.export", Title: "Export picture or print…", Menu: "File", Gap: true, Keys: []action.Key{action.C("P")}, Words: "png svg pdf paper image page preview",
			Help: "Write sheets as PNG, SVG or PDF", Run: ed.exportDialog},
		&action.Action{ID: "file.close", Title: "Close the window", Menu: "File", Gap: true, Keys: []action.Key{action.C("W")}, Words: "exit end",
			Help: "Close the window after asking for unsaved changes", Run: ed.close},
	)
}

// anySelected reports whether something is selected.
func (ed *Editor) anySelected() bool { return len(ed.sess.Selection()) > 0 }

func (ed *Editor) editActions() {
	sel := ed.anySelected
	ed.actions.Add(
		&action.Action{ID: "edit.undo", Title: "Undo", Menu: "Edit", Keys: []action.Key{action.C("Z")}, Words: "back",
			Help: "Take the last step back", Label: func() string { return labelled("Undo", ed.sess.UndoLabel()) },
			Enabled: func() bool { return ed.sess.UndoLabel() != "" }, Run: func() { ed.step(ed.sess.Undo) }},
		&action.Action{ID: "edit.redo", Title: "Redo", Menu: "Edit", Keys: []action.Key{action.C("Y"), action.CS("Z")}, Words: "again",
			Help: "Bring the last undone step again", Label: func() string { return labelled("Redo", ed.sess.RedoLabel()) },
			Enabled: func() bool { return ed.sess.RedoLabel() != "" }, Run: func() { ed.step(ed.sess.Redo) }},
		&action.Action{ID: "edit.cut", Title: "Cut", Menu: "Edit", Gap: true, Keys: []action.Key{action.C("X")}, Enabled: sel,
			Help: "Copy the selection and delete it", Run: ed.cut},
		&action.Action{ID: "edit.copy", Title: "Copy", Menu: "Edit", Keys: []action.Key{action.C("C")}, Enabled: sel,
			Help: "Copy the selection, also for another window", Run: func() { ed.copySelection() }},
		&action.Action{ID: "edit.paste", Title: "Paste", Menu: "Edit", Keys: []action.Key{action.C("V")},
			Help: "Put what was copied on this sheet, at the pointer", Run: ed.paste},
		&action.Action{ID: "edit.pasteinplace", Title: "Paste in place", Menu: "Edit", Keys: []action.Key{action.CS("V")}, Words: "same position sheet",
			Help: "Put what was copied where it was, on this or another sheet", Run: ed.pasteInPlace},
		&action.Action{ID: "edit.duplicate", Title: "Duplicate", Menu: "Edit", Keys: []action.Key{action.C("D")}, Enabled: sel, Words: "copy twice",
			Help: "Put a copy of the selection beside it", Run: ed.duplicate},
		&action.Action{ID: "edit.delete", Title: "Delete", Menu: "Edit", Keys: []action.Key{action.K("Delete"), action.K("BackSpace")}, Enabled: sel, Words: "remove",
			Help: "Delete the selection, also what of it lies on other sheets, and the wires at deleted parts", Run: ed.deleteSelection},
		&action.Action{ID: "edit.find", Title: "Find a part or wire…", Menu: "Edit", Gap: true, Keys: []action.Key{action.C("F")}, Words: "search go to jump",
			Help: "Go to a part, wire or note by its name", Run: ed.findDialog},
		&action.Action{ID: "edit.replace", Title: "Find and replace…", Menu: "Edit", Keys: []action.Key{action.C("H")}, Words: "search text rename colour",
			Help: "Replace words in designations, labels, notes, colours and other texts", Run: ed.replaceDialog},
		&action.Action{ID: "edit.details", Title: "Edit details", Menu: "Edit", Keys: []action.Key{action.K("Enter")}, Words: "properties value",
			Help: "Put the keyboard into the first field of what is selected", Run: func() { ed.showDetails(); ed.details.takeKeyboard() }},
		&action.Action{ID: "edit.plug", Title: "Plug together", Menu: "Edit/Connectors", Enabled: ed.canPlug, Words: "mate connect halves",
			Help: "Plug the two selected connector halves together", Run: func() { ed.plug(edit.Mate) }},
		&action.Action{ID: "edit.unplug", Title: "Unplug", Menu: "Edit/Connectors", Enabled: ed.canUnplug, Words: "mate apart",
			Help: "Pull the selected connector half off its other half", Run: ed.unplug},
		&action.Action{ID: "edit.showhere", Title: "Show a part here too…", Menu: "Edit", Words: "symbol view sheet again contact coil ground stud",
			Help: "Put one more symbol of a part on this sheet: a stud on every sheet, a contact away from its coil", Run: ed.showHere},
		&action.Action{ID: "edit.renumber", Title: "Renumber…", Menu: "Edit", Keys: []action.Key{action.CS("R")}, Words: "designation names count",
			Help: "Number parts or wires anew by their place: of the selection, a sheet or the drawing", Run: ed.renumberDialog},
	)
}

// labelled names what undo or redo would do.
func labelled(verb, what string) string {
	if what == "" {
		return verb
	}
	return verb + ": " + what
}

// step undoes or redoes.
func (ed *Editor) step(f func() error) {
	ed.sendTool(tool.Cancel{})
	ed.status.forget() // what the step has said is true no more
	before := ed.doc()
	if err := f(); err != nil {
		ed.report(err)
	}
	ed.edited(before)
}

// what names a selection for labels: the one item, or how many.
func (ed *Editor) what(keys []schematic.Key) string {
	if len(keys) == 1 {
		if name := schematic.NameOf(ed.doc().Get(keys[0])); name != "" {
			return name
		}
		return "a " + keys[0].Type.String()
	}
	return count(len(keys), "item")
}

// deleteSelection deletes on this sheet only, or, where the selection reaches
// over others, all of it.
func (ed *Editor) deleteSelection() {
	keys := ed.sess.Selection()
	n := ed.elsewhere(keys)
	if !ed.do("delete "+ed.what(keys), func(tx *edit.Tx) error {
		if n > 0 {
			return edit.Delete(tx, keys)
		}
		return edit.TakeOff(tx, keys, ed.sheet)
	}) {
		return
	}
	if gone := n - ed.elsewhere(keys); gone > 0 {
		ed.status.tell("deleted; of this on other sheets: " + count(gone, "item"))
	}
	ed.tellLocked(keys)
}

func (ed *Editor) sheetActions() {
	several := func() bool { return len(ed.doc().Sheets()) > 1 }
	ed.actions.Add(
		&action.Action{ID: "sheet.add", Title: "Add a sheet", Menu: "Sheets", Help: "Add a sheet after the last one", Run: func() {
			if ed.do("add a sheet", func(tx *edit.Tx) error { return edit.AddSheet(tx, "") }) {
				all := ed.doc().Sheets()
				ed.show(all[len(all)-1].ID)
			}
		}},
		&action.Action{ID: "sheet.rename", Title: "Rename this sheet…", Menu: "Sheets", Help: "Give the sheet in sight another name", Run: ed.renameSheet},
		&action.Action{ID: "sheet.delete", Title: "Delete this sheet", Menu: "Sheets", Enabled: several, Help: "Delete the sheet in sight with what lies on it", Run: ed.deleteSheet},
		&action.Action{ID: "sheet.left", Title: "Move this sheet left", Menu: "Sheets", Gap: true, Enabled: several, Help: "Swap the sheet in sight with the one before", Run: func() { ed.moveSheet(-1) }},
		&action.Action{ID: "sheet.right", Title: "Move this sheet right", Menu: "Sheets", Enabled: several, Help: "Swap the sheet in sight with the one after", Run: func() { ed.moveSheet(1) }},
		&action.Action{ID: "sheet.next", Title: "Next sheet", Menu: "Sheets", Gap: true, Enabled: several, Keys: []action.Key{action.C("PageDown")}, Help: "Show the next sheet", Run: func() { ed.turnSheet(1) }},
		&action.Action{ID: "sheet.prev", Title: "Previous sheet", Menu: "Sheets", Enabled: several, Keys: []action.Key{action.C("PageUp")}, Help: "Show the sheet before", Run: func() { ed.turnSheet(-1) }},
	)
}

// sheetIndex returns the place of the sheet in sight among the tabs.
func (ed *Editor) sheetIndex() int {
	return slices.IndexFunc(ed.doc().Sheets(), func(s *schematic.Sheet) bool { return s.ID == ed.sheet })
}

func (ed *Editor) turnSheet(by int) {
	all := ed.doc().Sheets()
	if len(all) > 0 {
		ed.show(all[(ed.sheetIndex()+by+len(all))%len(all)].ID)
	}
}

func (ed *Editor) moveSheet(by int) {
	to := ed.sheetIndex() + by
	if to < 0 || to >= len(ed.doc().Sheets()) {
		return
	}
	ed.do("move sheet "+ed.doc().Sheet(ed.sheet).Name, func(tx *edit.Tx) error { return edit.MoveSheet(tx, ed.sheet, to) })
}

func (ed *Editor) renameSheet() {
	s := ed.doc().Sheet(ed.sheet)
	if s == nil {
		return
	}
	ed.askText("Rename the sheet", "Name", s.Name, func(name string) error {
		return ed.try("rename sheet "+s.Name, func(tx *edit.Tx) error { return edit.RenameSheet(tx, s.ID, name) })
	})
}

func (ed *Editor) deleteSheet() {
	s := ed.doc().Sheet(ed.sheet)
	if s == nil {
		return
	}
	ed.do("delete sheet "+s.Name, func(tx *edit.Tx) error { return edit.DeleteSheet(tx, s.ID) })
}
