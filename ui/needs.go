package ui

import "loomwright/ui/action"

// needs says for every command that can be off what to do first. It stands in
// one place so that all of them ask in the same words.
func needs() map[string]string {
	const (
		anything = "select something first"
		movable  = "select a part, a note or a loose wire first, with the tool that selects"
		wires    = "select a wire first"
		part     = "select a part or wire first"
		two      = "select two or more parts or notes first, with the tool that selects and no pointer by keys"
		three    = "select three or more parts or notes first"
		finding  = "pick a finding in the list first"
		sheets   = "the drawing has only one sheet"
		compared = "compare with another version first"
		file     = "save the drawing to a file first"
		loom     = "make a loom first"
	)
	m := map[string]string{
		"edit.undo": "nothing has been changed yet", "edit.redo": "nothing was undone",
		"file.savepiece": anything, "edit.cut": anything, "edit.copy": anything, "edit.duplicate": anything, "edit.delete": anything,
		"select.none": "nothing is selected", "view.fitsel": anything,
		"edit.plug": "select two connector halves first that are not plugged", "edit.unplug": "select a connector half first that is plugged",
		"edit.pintable": "select a connector or control unit first", "kind.edit": "this drawing and your own library have no part kinds yet", "kind.delete": "this drawing has no part kinds of its own",
		"sheet.delete": sheets + ", which stays", "sheet.left": sheets, "sheet.right": sheets, "sheet.next": sheets, "sheet.prev": sheets,
		"edit.rotate": anything, "arrange.back": anything, "edit.mirror": anything, "arrange.mirror": anything,
		"arrange.lock": anything, "arrange.spaceside": three, "arrange.spacedown": three,
		"select.connected": part, "select.net": part, "select.circuit": part, "select.alike": anything,
		"select.rating": "select a part first", "select.size": wires, "select.color": wires, "select.named": wires,
		"wires.anew": wires, "wires.bend": wires, "wires.join": "select a splice or part first that one wire runs through",
		"wires.lift": "select a splice or part first that one wire runs through", "wires.labels": "select a wire first whose label was moved", "wires.tidy": "this sheet has no wires",
		"edit.twist": "select two or more wires first", "edit.screen": wires, "edit.unbind": wires,
		"check.trace": "select one part or wire first", "check.untrace": "no circuit is lit up", "check.plot": "select a fuse, or a wire with one, first",
		"check.rule": finding, "check.full": finding, "check.accept": "pick an open finding in the list first",
		"check.takeback": "pick an accepted finding in the list first", "check.mend": "pick a finding with a remedy first", "check.remedies": "pick a finding with a remedy first",
		"check.chooseall": "no findings are listed", "check.clearaccepted": "every acceptance is still needed", "check.listrule": finding, "check.fold": "group the findings first",
		"compare.next": compared, "compare.prev": compared, "compare.end": "nothing is compared", "compare.write": compared, "compare.copy": compared, "compare.saved": file, "compare.versions": file,
		"loom.segment": loom, "loom.holes": loom, "loom.node": loom, "loom.lead": "make a loom with segments and select wires first",
		"view.larger": "it does not get larger", "view.smaller": "it does not get smaller",
	}
	for _, id := range []string{"left", "right", "top", "bottom", "column", "row"} {
		m["arrange."+id] = two
	}
	for _, to := range []string{"left", "right", "up", "down"} {
		m["edit."+to], m["arrange.wide"+to], m["arrange.fine"+to] = movable, movable, movable
	}
	return m
}

// sayNeeds gives the commands of the register their words.
func (ed *Editor) sayNeeds() {
	for id, text := range needs() {
		if a := ed.actions.Find(id); a != nil {
			a.Needs = text
		}
	}
}

// carryOut runs a command, or says what it needs first.
func (ed *Editor) carryOut(a *action.Action) {
	if !a.Do() {
		ed.status.warn(sentence(a.TitleNow()) + ": " + a.Needs)
	}
}
