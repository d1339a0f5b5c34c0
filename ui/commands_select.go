package ui

import (
	"slices"
	"strconv"

	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/ui/action"
	"loomwright/ui/view"
)

// selectActions are the ways to select that need no pointer.
func (ed *Editor) selectActions() {
	sel := ed.anySelected
	wires := func() bool { return len(ed.details.selectedWires()) > 0 }
	alike := func(id, title, help string, by view.Likeness, enabled func() bool) *action.Action {
		return &action.Action{ID: id, Title: title, Menu: "Select/Alike", Words: "same similar", Help: help, Enabled: enabled, Run: func() { ed.selectAlike(by) }}
	}
	first := alike("select.alike", "Select what is alike",
		"Select all parts of the same kind, and wires of the same size and colour, on this sheet; again for all sheets", view.SameKind, sel)
	first.Keys = []action.Key{action.K("A")}
	ed.actions.Add(
		&action.Action{ID: "edit.all", Title: "Select all on this sheet", Menu: "Select", Keys: []action.Key{action.C("A")},
			Help: "Select everything drawn on this sheet", Run: func() { ed.choose(view.All(ed.doc(), ed.sheet)...) }},
		&action.Action{ID: "select.none", Title: "Select nothing", Menu: "Select", Keys: []action.Key{action.CS("A")}, Words: "deselect clear", Enabled: sel,
			Help: "Let go of what is selected", Run: func() { ed.choose() }},
		&action.Action{ID: "select.others", Title: "Select everything else", Menu: "Select", Keys: []action.Key{{Mods: action.Shift, Name: "A"}}, Words: "invert opposite",
			Help: "Select what is not selected on this sheet, and let go of the rest", Run: func() { ed.choose(view.Others(ed.doc(), ed.sheet, ed.sess.Selection())...) }},
		&action.Action{ID: "select.next", Title: "Next on the sheet", Menu: "Select", Gap: true, Keys: []action.Key{action.K("Period")}, Words: "walk part wire forward",
			Help: "Select the next thing on this sheet: parts from left to right and row by row, then wires, then notes", Run: func() { ed.walkOn(1, false) }},
		&action.Action{ID: "select.prev", Title: "Previous on the sheet", Menu: "Select", Keys: []action.Key{action.K("Comma")}, Words: "walk part wire back",
			Help: "Select the thing before on this sheet", Run: func() { ed.walkOn(-1, false) }},
		&action.Action{ID: "select.addnext", Title: "Add the next on the sheet", Menu: "Select", Keys: []action.Key{{Mods: action.Shift, Name: "Period"}}, Words: "walk extend forward",
			Help: "Select the next thing on this sheet as well", Run: func() { ed.walkOn(1, true) }},
		&action.Action{ID: "select.addprev", Title: "Add the previous on the sheet", Menu: "Select", Keys: []action.Key{{Mods: action.Shift, Name: "Comma"}}, Words: "walk extend back",
			Help: "Select the thing before on this sheet as well", Run: func() { ed.walkOn(-1, true) }},
		&action.Action{ID: "select.connected", Title: "Add what is connected", Menu: "Select", Gap: true, Keys: []action.Key{action.K("C")}, Words: "grow neighbours joined", Enabled: ed.electrical,
			Help: "Select also the parts at the selected wires, or the wires at the selected parts; again for one step more",
			Run:  func() { ed.grow(view.Connected(ed.doc(), ed.sheet, ed.sess.Selection()), "on this sheet") }},
		&action.Action{ID: "select.net", Title: "Select the whole net", Menu: "Select", Keys: []action.Key{{Mods: action.Shift, Name: "N"}}, Words: "potential joined wires", Enabled: ed.electrical,
			Help: "Select all wires and splices, on every sheet, that are joined to the selection without a part in between",
			Run: func() {
				ed.grow(view.OnNet(netlist.Build(ed.doc()), schematic.ID{}, ed.sess.Selection()), "in this drawing")
			}},
		&action.Action{ID: "select.circuit", Title: "Select the whole circuit", Menu: "Select", Keys: []action.Key{{Mods: action.Shift, Name: "C"}}, Words: "path source ground trace", Enabled: ed.electrical,
			Help: "Select the circuit through the selection on every sheet, from source to ground, in the state looked at", Run: ed.selectCircuit},
		first,
		alike("select.rating", "Select parts of the same rating", "Select all parts with the rating of the selected ones, of whatever kind, on this sheet; again for all sheets", view.SameRating, func() bool { return len(ed.selectedParts()) > 0 }),
		alike("select.size", "Select wires of the same size", "Select all wires with the conductor size of the selected ones, on this sheet; again for all sheets", view.SameSize, wires),
		alike("select.color", "Select wires of the same colour", "Select all wires with the colours of the selected ones, on this sheet; again for all sheets", view.SameColor, wires),
		alike("select.named", "Select wires of the same circuit name", "Select all wires with the circuit name of the selected ones, on this sheet; again for all sheets", view.SameCircuit, wires),
	)
	ed.menuActions()
}

// electrical reports whether a part or wire is selected.
func (ed *Editor) electrical() bool {
	for _, k := range ed.sess.Selection() {
		if k.Type == schematic.TypePart || k.Type == schematic.TypeWire {
			return true
		}
	}
	return false
}

// walkOn selects the next thing on the sheet, instead of or beside what is
// selected, and brings it in sight.
func (ed *Editor) walkOn(step int, add bool) {
	var from schematic.Key
	sel := ed.sess.Selection()
	if len(sel) > 0 {
		from = sel[len(sel)-1]
	}
	k, ok := view.Next(ed.doc(), ed.sheet, from, step)
	if !ok {
		return
	}
	ed.jump(k)
	if add {
		ed.choose(append(without(sel, k), k)...)
	}
}

// without returns the keys but one.
func without(keys []schematic.Key, k schematic.Key) []schematic.Key {
	return slices.DeleteFunc(slices.Clone(keys), func(o schematic.Key) bool { return o == k })
}

// grow selects more, and says what lies out of sight, or that there is no more.
func (ed *Editor) grow(keys []schematic.Key, where string) {
	same := len(keys) == len(ed.sess.Selection())
	ed.choose(keys...)
	switch n := ed.elsewhere(keys); {
	case same:
		ed.status.tell("nothing more " + where)
	case n > 0:
		ed.status.tell("selected " + schematic.Tally(keys) + "; on other sheets: " + strconv.Itoa(n))
	}
}

// elsewhere counts what is drawn on other sheets than the one in sight.
func (ed *Editor) elsewhere(keys []schematic.Key) int {
	n := 0
	for _, k := range keys {
		if ed.doc().Get(k) == nil || view.DrawnOn(ed.doc(), k, ed.sheet) {
			continue
		}
		// A twist or screen is where its wires are.
		here := func(w *schematic.Wire) bool { return w.Sheet == ed.sheet }
		if k.Type == schematic.TypeGroup && slices.ContainsFunc(ed.details.groupMembers(k.ID), here) {
			continue
		}
		n++
	}
	return n
}

func (ed *Editor) selectCircuit() {
	sol := netlist.Build(ed.doc()).Solve(ed.doc().State(ed.study.state))
	if sol.Err != nil {
		ed.status.warn("this operating state could not be computed, so no circuit can be followed: the findings say why")
		return
	}
	ed.grow(view.Circuit(sol, schematic.ID{}, ed.sess.Selection()), "in this drawing")
}

func (ed *Editor) selectAlike(by view.Likeness) {
	sel := ed.sess.Selection()
	keys := view.Alike(ed.doc(), ed.sheet, sel, by)
	for _, k := range sel { // of other sheets, from the last time
		if !slices.Contains(keys, k) {
			keys = append(keys, k)
		}
	}
	if len(keys) == len(sel) {
		keys = view.Alike(ed.doc(), schematic.ID{}, sel, by)
	}
	ed.grow(keys, "in this drawing")
}
