package ui

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/ui/action"
	"loomwright/ui/tool"
	"loomwright/ui/view"
)

// zoomStep is one press of a zoom key.
const zoomStep = 1.25

func (ed *Editor) viewActions() {
	v := func() *sheetView { return ed.sheetView }
	flip := func(b *bool) func() {
		return func() { *b = !*b; ed.keepSettings(); v().repaint(); ed.menu.refresh() }
	}
	panelSwitch := func(id, title, key, help string, hidden *bool) *action.Action {
		return &action.Action{ID: id, Title: title, Menu: "View/Panels", Keys: []action.Key{action.K(key)}, Help: help,
			Checked: func() bool { return !*hidden }, Run: func() { ed.togglePanel(hidden) }}
	}
	s := &ed.store.Settings
	ed.actions.Add(
		&action.Action{ID: "view.fit", Title: "Show the whole sheet", Menu: "View", Keys: []action.Key{action.K("F")}, Words: "fit zoom page",
			Help: "Show the whole sheet", Run: func() { v().fit() }},
		&action.Action{ID: "view.fitdrawn", Title: "Show all that is drawn", Menu: "View", Keys: []action.Key{{Mods: action.Shift, Name: "F"}}, Words: "fit zoom extents",
			Help: "Show everything drawn on this sheet as large as it fits", Run: func() { v().fitTo(view.Drawn(ed.doc(), ed.sheet)) }},
		&action.Action{ID: "view.fitsel", Title: "Show the selection", Menu: "View", Keys: []action.Key{action.K("Z")}, Words: "fit zoom", Enabled: ed.anySelected,
			Help: "Show the selected things as large as they fit", Run: func() { v().fitTo(view.Bounds(ed.doc(), ed.sess.Selection(), ed.sheet)) }},
		&action.Action{ID: "view.in", Title: "Look closer", Menu: "View", Gap: true, Keys: []action.Key{action.K("Plus"), action.K("Equal"), {Mods: action.Shift, Name: "Plus"}, {Mods: action.Shift, Name: "Equal"}}, Words: "zoom in larger",
			Help: "Show less of the sheet, larger", Run: func() { v().zoom(zoomStep) }},
		&action.Action{ID: "view.out", Title: "Step back", Menu: "View", Keys: []action.Key{action.K("Minus")}, Words: "zoom out smaller",
			Help: "Show more of the sheet, smaller", Run: func() { v().zoom(1 / zoomStep) }},
		&action.Action{ID: "view.life", Title: "Life size", Menu: "View", Keys: []action.Key{action.K("1")}, Words: "zoom 100 actual",
			Help: "Show the paper at its own size", Run: func() { v().zoom(v().lifeSize() / v().cam.PxPerMM) }},
		ed.overviewAction(),
		&action.Action{ID: "view.grid", Title: "Grid dots", Menu: "View", Gap: true, Keys: []action.Key{{Mods: action.Shift, Name: "G"}},
			Help: "Show or hide the dots of the grid", Checked: func() bool { return !s.HideGrid }, Run: flip(&s.HideGrid)},
		&action.Action{ID: "view.guides", Title: "Guides", Menu: "View", Words: "snap align lines magnet", Help: "While something is moved or placed, draw it into line with pins nearby and show the line; hold Alt to leave it alone",
			Checked: func() bool { return !s.HideGuides }, Run: flip(&s.HideGuides)},
		panelSwitch("view.tray", "Parts tray", "F6", "Show or hide the parts tray", &s.HideTray),
		panelSwitch("view.details", "Details", "F7", "Show or hide the details of the selection", &s.HideDetails),
		panelSwitch("view.drawer", "Findings, ladder and tables", "F8", "Show or hide the drawer below the drawing", &s.HideDrawer),
		&action.Action{ID: "view.alone", Title: "Only the drawing", Menu: "View/Panels", Keys: []action.Key{action.K("F11")}, Words: "hide all panels room space large distraction full",
			Help: "Hide every panel, or show again those that were in sight", Checked: func() bool { return s.HideTray && s.HideDetails && s.HideDrawer }, Run: ed.toggleDrawingOnly},
		&action.Action{ID: "view.wires", Title: "Table of wires", Menu: "View/Panels", Gap: true, Keys: []action.Key{action.K("F9")}, Words: "list spreadsheet rows cut",
			Help: "Every wire as a row that can be sorted and edited", Run: func() { ed.drawer.openTable(wiresTab) }},
		&action.Action{ID: "view.pins", Title: "Table of pins", Menu: "View/Panels", Keys: []action.Key{{Mods: action.Shift, Name: "F9"}}, Words: "list spreadsheet rows connector cavity pinout",
			Help: "Every pin as a row that can be sorted and edited", Run: func() { ed.drawer.openTable(pinsTab) }},
		&action.Action{ID: "view.parts", Title: "Table of parts", Menu: "View/Panels", Keys: []action.Key{action.C("F9")}, Words: "list spreadsheet rows bill components kind rating",
			Help: "Every part as a row that can be sorted and edited", Run: func() { ed.drawer.openTable(partsTab) }},
		&action.Action{ID: "view.wheel", Title: "Wheel moves the sheet", Menu: "View", Words: "scroll pan zoom touchpad two fingers",
			Help: "Turn the wheel to move the sheet and with Ctrl to zoom, instead of the other way round", Checked: func() bool { return s.WheelPans },
			Run: func() { s.WheelPans = !s.WheelPans; ed.keepSettings(); ed.menu.refresh() }},
	)
}

// togglePanel shows or hides a panel.
func (ed *Editor) togglePanel(hidden *bool) {
	*hidden = !*hidden
	ed.keepSettings()
	ed.arrange()
	ed.menu.refresh()
}

// showDetails makes sure the details panel is in sight.
func (ed *Editor) showDetails() {
	if ed.store.HideDetails {
		ed.togglePanel(&ed.store.HideDetails)
	}
}

func (ed *Editor) checkActions() {
	ed.actions.Add(
		&action.Action{ID: "check.trace", Title: "Trace the selection", Menu: "Check", Keys: []action.Key{{Mods: action.Shift, Name: "T"}}, Words: "circuit follow path current",
			Help: "Follow the circuit of the selected wire or part from source to ground", Enabled: ed.canTrace, Run: ed.traceSelection},
		&action.Action{ID: "check.untrace", Title: "End the trace", Menu: "Check", Words: "circuit light off",
			Help: "Take the light off the traced circuit", Enabled: ed.study.lit, Run: func() { ed.trace(tool.Hit{}) }},
		&action.Action{ID: "check.live", Title: "Currents on the drawing", Menu: "Check", Keys: []action.Key{action.K("L")}, Words: "live amps show",
			Help: "Show on every wire what it carries in the state looked at", Checked: func() bool { return ed.study.live }, Run: func() { ed.setLive(!ed.study.live) }},
		&action.Action{ID: "check.states", Title: "Edit operating states", Menu: "Check", Gap: true, Words: "switch position duty engine",
			Help: "Say what is switched on in each operating state", Run: func() { ed.drawer.open(statesTab) }},
		&action.Action{ID: "check.addstate", Title: "Add an operating state…", Menu: "Check", Words: "new",
			Help: "Add an operating state", Run: ed.addState},
		&action.Action{ID: "check.limits", Title: "Limits of the checks", Menu: "Check", Words: "threshold drop volt allowed margin settings default source",
			Help: "Change the limits that the checks hold values against, in the details of the drawing", Run: ed.showLimits},
		&action.Action{ID: "check.next", Title: "Next finding", Menu: "Check", Gap: true, Keys: []action.Key{action.K("F4")}, Words: "error warning go to",
			Help: "Go to the next finding", Run: func() { ed.drawer.open(findingsTab); ed.drawer.findings.step(1) }},
		&action.Action{ID: "check.prev", Title: "Previous finding", Menu: "Check", Keys: []action.Key{{Mods: action.Shift, Name: "F4"}}, Words: "error warning go to",
			Help: "Go to the finding before", Run: func() { ed.drawer.open(findingsTab); ed.drawer.findings.step(-1) }},
		&action.Action{ID: "check.rule", Title: "About this rule", Menu: "Check", Keys: []action.Key{{Mods: action.Shift, Name: "F1"}}, Words: "help why formula source limit finding",
			Help: "Read what the rule of the finding picked checks, and why", Enabled: func() bool { return ed.ruleInHand() != "" }, Run: func() { ed.aboutRule(ed.ruleInHand()) }},
		&action.Action{ID: "check.worst", Title: "Highest current of every wire over all switch positions", Menu: "Check", Gap: true, Words: "worst case combination switches maximum amps peak",
			Help: "Find for every wire the positions of switches and outputs that make it carry most", Run: func() { ed.drawer.open(worstTab); ed.drawer.worst.highest() }},
		&action.Action{ID: "check.grounds", Title: "What if a ground is lost", Menu: "Check", Words: "sneak path fault open bolt earth backfeed return",
			Help: "Open every ground wire, contact and joint in turn and list the loads whose current then comes back another way", Run: func() { ed.drawer.open(worstTab); ed.drawer.worst.grounds() }},
		&action.Action{ID: "check.ladder", Title: "Drop ladder", Menu: "Check", Words: "voltage stairs losses", Help: "Show the drop ladder of the traced circuit",
			Run: func() { ed.drawer.open(ladderTab) }},
	)
}

func (ed *Editor) canTrace() bool {
	sel := ed.sess.Selection()
	return len(sel) == 1 && (sel[0].Type == schematic.TypePart || sel[0].Type == schematic.TypeWire)
}

func (ed *Editor) traceSelection() { ed.trace(tool.Hit{Key: ed.sess.Selection()[0], Ok: true}) }

func (ed *Editor) addState() {
	ed.askText("Add an operating state", "Name", "", func(name string) error {
		err := ed.try("add state "+name, func(tx *edit.Tx) error { return edit.AddState(tx, name, schematic.EngineRunning) })
		if err == nil {
			all := ed.doc().States()
			ed.setState(all[len(all)-1].ID)
			ed.drawer.open(statesTab)
		}
		return err
	})
}

func (ed *Editor) helpActions() {
	ed.actions.Add(
		&action.Action{ID: "help.list", Title: "Find a command…", Menu: "Help", Keys: []action.Key{action.C("Space")}, Words: "list search action",
			Help: "Find any command by its name and run it", Run: ed.commandList},
		&action.Action{ID: "help.guide", Title: "Guide", Menu: "Help", Words: "manual handbook help how to learn", Help: "Read how things are done, with pictures", Run: ed.showGuide},
		&action.Action{ID: "help.keys", Title: "Keys and mouse", Menu: "Help", Keys: []action.Key{action.K("F1")}, Words: "shortcut keyboard help",
			Help: "Show every key", Run: ed.showKeys},
		&action.Action{ID: "help.changekeys", Title: "Change keys…", Menu: "Help", Words: "shortcut keyboard own assign",
			Help: "Give commands keys of your own", Run: ed.changeKeys},
		&action.Action{ID: "help.resetkeys", Title: "Keys as delivered…", Menu: "Help", Words: "shortcut keyboard reset default",
			Help: "Take all changes of keys back", Run: ed.keysAsDelivered},
		&action.Action{ID: "help.rules", Title: "The rules…", Menu: "Help", Words: "checks findings formula source limit explain",
			Help: "Read what every rule checks, why, and where its limits come from", Run: ed.showRules},
	)
	ed.sampleActions()
	ed.actions.Add(
		&action.Action{ID: "help.welcome", Title: "Welcome", Menu: "Help", Words: "start first begin examples tutorial", Help: "Show the welcome with the examples and what to try first", Run: ed.showWelcome},
		&action.Action{ID: "help.caution", Title: "Caution", Menu: "Help", Gap: true, Words: "safety warning", Help: "Read the caution again", Run: ed.showCaution},
		&action.Action{ID: "help.about", Title: "About " + appName, Menu: "Help", Words: "version licence", Help: "What this program is", Run: ed.showAbout},
	)
}

// sortNames orders designations as people count.
func sortNames(names []string) { slices.SortFunc(names, schematic.CompareNames) }

// keyHint prints the first key of a command for a tip.
func keyHint(keys []action.Key) string {
	if len(keys) == 0 {
		return ""
	}
	return fmt.Sprintf("  (%s)", keyText(keys[0]))
}
