package ui

import (
	"fmt"

	"loomwright/netlist/check"
	"loomwright/ui/action"
)

func alt(name string) []action.Key { return []action.Key{{Mods: action.Alt, Name: name}} }

// findingActions are the commands of the list of findings.
func (ed *Editor) findingActions() {
	list := func() *findingList { return ed.drawer.findings }
	inHand := func() *finding {
		if ed.drawer == nil {
			return nil
		}
		return list().inHand()
	}
	some := func() bool { return inHand() != nil }
	const menu = "Check/Finding in hand"
	ed.actions.Add(
		&action.Action{ID: "check.mend", Title: "Apply the first remedy", Menu: menu, Keys: alt("M"), Words: "fix mend repair finding",
			Help:    "Put the first remedy of the finding in hand into the drawing",
			Enabled: func() bool { x := inHand(); return x != nil && len(x.Fixes) > 0 },
			Label: func() string {
				if x := inHand(); x != nil && len(x.Fixes) > 0 {
					return "Apply the first remedy: " + x.Fixes[0].Label
				}
				return ""
			},
			Run: func() { list().mend(inHand().Fixes[0]) }},
		&action.Action{ID: "check.remedies", Title: "Choose a remedy…", Menu: menu, Keys: alt("R"), Words: "fix mend repair finding",
			Help:    "Choose among the remedies of the finding in hand",
			Enabled: func() bool { x := inHand(); return x != nil && len(x.Fixes) > 0 }, Run: func() { list().chooseRemedy() }},
		&action.Action{ID: "check.accept", Title: "Accept…", Menu: menu, Gap: true, Keys: alt("A"), Words: "finding findings several all reason let stand",
			Help:    "Let findings stand, with a reason: the one in hand, those chosen, or all of its rule",
			Enabled: func() bool { return ed.drawer != nil && len(open(list().hands())) > 0 }, Label: func() string { return severalWords("Accept %d findings…", open(list().hands())) },
			Run: func() { list().acceptInHand() }},
		&action.Action{ID: "check.takeback", Title: "Take the acceptance back", Menu: menu, Keys: alt("B"), Words: "finding findings reason open again",
			Help:    "Open the accepted findings chosen again",
			Enabled: func() bool { return ed.drawer != nil && len(accepted(list().hands())) > 0 }, Label: func() string { return severalWords("Take %d acceptances back", accepted(list().hands())) },
			Run: func() { list().takeBack() }},
		&action.Action{ID: "check.chooseall", Title: "Choose all findings listed", Menu: menu, Keys: alt("C"), Words: "select every several accept",
			Help: "Choose every finding in the list, to accept them or take them back together", Enabled: func() bool { return ed.drawer != nil && len(list().shown) > 0 },
			Run: func() {
				ed.drawer.open(findingsTab)
				ed.win.Canvas().Focus(list().list)
				list().chooseAll()
			}},
		&action.Action{ID: "check.full", Title: "Read it all…", Menu: menu, Gap: true, Keys: alt("I"), Words: "finding formula source whole text copy",
			Help: "Read all about the finding in hand, with room for it, and copy it as text", Enabled: some, Run: func() { list().readFull() }},
	)
	ed.actions.Add(&action.Action{ID: "check.clearaccepted", Title: "Remove acceptances nothing needs", Menu: "Check", Words: "accepted findings mended idle clear",
		Help:    "Take those acceptances out of the drawing whose findings are mended or gone",
		Enabled: func() bool { return ed.drawer != nil && len(list().idle()) > 0 }, Run: func() { list().clearIdle() }})
	ed.findingViewActions(list)
	ed.actions.Add(&action.Action{ID: "check.plot", Title: "Fuse against wire…", Menu: "Check", Gap: true, Keys: alt("P"), Words: "plot chart time current curve damage band protection selected",
		Help:    "Show when the fuse of what is selected opens, and how long its wire bears the current",
		Enabled: func() bool { return ed.drawer != nil && len(ed.plottable()) > 0 }, Run: func() { ed.openPlot() }})
	ed.actions.Add(&action.Action{ID: "check.size", Title: "Size of wire and fuse…", Menu: "Check", Keys: alt("W"), Words: "ampacity advice gauge awg mm2 rating drop calculator",
		Help: "What wire and fuse does a current need over a length, in this heat, with so many wires?", Run: func() { ed.openSizer() }})
}

// chooseWay offers the commands of one sort by name, the one in force first.
func (ed *Editor) chooseWay(title, id string, names []string) {
	var lines []chooserLine
	for i, name := range names {
		a := ed.actions.Find(fmt.Sprint(id, i))
		line := chooserLine{title: name, run: a.Run}
		if a.Checked() {
			line.side = "as now"
			lines = append([]chooserLine{line}, lines...)
			continue
		}
		lines = append(lines, line)
	}
	ed.openChooser(title, "Type a word of it, or go down with the arrow keys", func(text string) []chooserLine { return narrow(lines, text) })
}

// severalWords names a command that is about several findings; empty for one.
func severalWords(words string, xs []*finding) string {
	if len(xs) < 2 {
		return ""
	}
	return fmt.Sprintf(words, len(xs))
}

// findingViewActions say how the list is looked at.
func (ed *Editor) findingViewActions(list func() *findingList) {
	look := func(change func(*findingList)) func() {
		return func() {
			ed.drawer.open(findingsTab)
			change(list())
			list().refresh()
		}
	}
	on := func(is func(*findingList) bool) func() bool {
		return func() bool { return ed.drawer != nil && is(list()) }
	}
	const menu = "Check/Findings listed"
	ed.actions.Add(&action.Action{ID: "check.filter", Title: "Filter the findings…", Menu: menu, Keys: alt("F"), Words: "search text list",
		Help: "Type words the findings listed must name", Run: look(func(f *findingList) { ed.win.Canvas().Focus(f.head.search) })})
	for l := range severityCount {
		s := check.Severity(l)
		ed.actions.Add(&action.Action{ID: fmt.Sprintf("check.list%d", l), Title: "List: " + s.String(), Menu: menu, Gap: l == 0, Keys: alt(fmt.Sprint(l + 1)), Words: "filter severity findings show hide",
			Help: "List open findings of this severity, or leave them out", Checked: on(func(f *findingList) bool { return !f.view.hide[l] }),
			Run: look(func(f *findingList) { f.view.hide[l] = !f.view.hide[l] })})
	}
	ed.actions.Add(
		&action.Action{ID: "check.listaccepted", Title: "List: accepted", Menu: menu, Keys: alt(fmt.Sprint(severityCount + 1)), Words: "filter findings show hide",
			Help: "List accepted findings too", Checked: on(func(f *findingList) bool { return f.view.accepted }),
			Run: look(func(f *findingList) { f.view.accepted = !f.view.accepted })},
		&action.Action{ID: "check.listselection", Title: "List: only of the selection", Menu: menu, Gap: true, Keys: alt("S"), Words: "filter findings selected items",
			Help: "List only findings about what is selected", Checked: on(func(f *findingList) bool { return f.view.about != nil }),
			Run: look(func(f *findingList) { f.aboutSelection(f.view.about == nil) })},
		&action.Action{ID: "check.listrule", Title: "List: only of the same rule", Menu: menu, Keys: alt("L"), Words: "filter findings rule",
			Help: "List only findings of the rule of the one in hand", Checked: on(func(f *findingList) bool { return f.view.rule != "" }),
			Enabled: on(func(f *findingList) bool { return f.view.rule != "" || f.inHand() != nil }),
			Run: look(func(f *findingList) {
				if x := f.inHand(); x != nil && f.view.rule == "" {
					f.view.rule = x.Rule
				} else {
					f.view.rule = ""
				}
			})},
		&action.Action{ID: "check.liststate", Title: "List: only of the state looked at", Menu: menu, Keys: alt("T"), Words: "filter findings operating state",
			Help: "List only findings that are worst in the operating state looked at", Checked: on(func(f *findingList) bool { return f.view.state != "" }),
			Run: look(func(f *findingList) {
				name := ""
				if s := ed.doc().State(ed.study.state); s != nil && f.view.state == "" {
					name = s.Name
				}
				f.view.state = name
			})},
		&action.Action{ID: "check.listall", Title: "List all findings", Menu: menu, Keys: alt("0"), Words: "filter clear reset",
			Help: "Take all filters off the list of findings", Run: look(func(f *findingList) {
				f.head.search.SetText("")
				f.view = findingView{accepted: true, order: f.view.order, group: f.view.group, folded: map[string]bool{}}
			})},
	)
	for i, name := range orderNames() {
		ed.actions.Add(&action.Action{ID: fmt.Sprintf("check.order%d", i), Title: name, Menu: "Check/Findings listed", Gap: i == 0, Words: "sort order findings margin place severity",
			Help: "Sort the findings so", Checked: on(func(f *findingList) bool { return int(f.view.order) == i }),
			Run: look(func(f *findingList) { f.view.order = findingOrder(i) })})
	}
	for i, name := range groupNames() {
		ed.actions.Add(&action.Action{ID: fmt.Sprintf("check.group%d", i), Title: name, Menu: "Check/Findings listed", Gap: i == 0, Words: "group findings list",
			Help: "Divide the list of findings so", Checked: on(func(f *findingList) bool { return int(f.view.group) == i }),
			Run: look(func(f *findingList) { f.view.group = findingGroup(i) })})
	}
	ed.actions.Add(
		&action.Action{ID: "check.chooseorder", Title: "Sort the findings…", Menu: menu, Gap: true, Keys: alt("O"), Words: "order findings margin place severity",
			Help: "Choose how the findings are sorted", Run: func() { ed.chooseWay("Sort the findings", "check.order", orderNames()) }},
		&action.Action{ID: "check.choosegroup", Title: "Group the findings…", Menu: menu, Keys: alt("G"), Words: "divide findings list",
			Help: "Choose how the list of findings is divided", Run: func() { ed.chooseWay("Group the findings", "check.group", groupNames()) }},
		&action.Action{ID: "check.fold", Title: "Fold or unfold the groups", Menu: "Check/Findings listed", Keys: alt("U"), Words: "findings collapse expand",
			Help: "Fold all groups of the list of findings, or unfold them", Enabled: on(func(f *findingList) bool { return f.view.group != noGroups }),
			Run: func() { list().foldAll() }},
	)
}
