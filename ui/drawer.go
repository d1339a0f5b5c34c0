package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"loomwright/netlist/table"
)

// The panels of the drawer under the drawing.
const (
	findingsTab = iota
	ladderTab
	statesTab
	wiresTab
	pinsTab
	partsTab
	worstTab
	loomsTab
	readingsTab
)

// drawer holds what the computation says: findings, the drop ladder, the
// operating states it is computed for, the tables of wires, pins,
// parts, looms and readings, and the worst cases asked for.
type drawer struct {
	ed       *Editor
	tabs     *container.AppTabs
	findings *findingList
	ladder   *ladderPanel
	states   *statePanel
	wires    *tablePanel
	pins     *tablePanel
	parts    *tablePanel
	looms    *tablePanel
	readings *tablePanel
	worst    *worstPanel
	stale    bool // the states panel waits to be seen
}

func newDrawer(ed *Editor) *drawer {
	d := &drawer{ed: ed, findings: newFindingList(ed), ladder: newLadderPanel(ed), states: newStatePanel(ed),
		wires: newWirePanel(ed), pins: newTablePanel(ed, "pin", table.Pins), parts: newTablePanel(ed, "part", table.Parts), worst: newWorstPanel(ed),
		looms: newLoomPanel(ed), readings: newReadingPanel(ed)}
	d.tabs = container.NewAppTabs(
		container.NewTabItem("Findings", panel(d.findings.box)),
		container.NewTabItem("Drop ladder", panel(d.ladder.box)),
		container.NewTabItem("Operating states", panel(d.states.box)),
		container.NewTabItem("Wires", panel(d.wires.box)),
		container.NewTabItem("Pins", panel(d.pins.box)),
		container.NewTabItem("Parts", panel(d.parts.box)),
		container.NewTabItem("Worst cases", panel(d.worst.box)),
		container.NewTabItem("Looms", panel(d.looms.box)),
		container.NewTabItem("Readings", panel(d.readings.box)),
	)
	for _, it := range d.tabs.Items { // a wide panel must not make the window wide
		it.Content = container.NewHScroll(it.Content)
	}
	d.tabs.OnSelected = func(*container.TabItem) {
		if d.stale {
			d.follow()
		}
		d.showTable()
	}
	return d
}

func (d *drawer) object() fyne.CanvasObject { return d.tabs }

// tab returns the panel in front.
func (d *drawer) tab() int { return d.tabs.SelectedIndex() }

// open brings a panel to the front, and the drawer out if it is closed.
func (d *drawer) open(tab int) {
	if d.ed.store.HideDrawer {
		d.ed.togglePanel(&d.ed.store.HideDrawer)
	}
	d.tabs.SelectIndex(tab)
}

// follow shows the present document. A panel nobody sees waits until it is in
// front.
func (d *drawer) follow() {
	d.stale = d.tab() != statesTab
	if !d.stale {
		d.states.refresh()
	}
	d.tablesChanged()
}

// tablesChanged brings the table in front up to date; the others wait.
func (d *drawer) tablesChanged() {
	for _, t := range d.tables() {
		t.stale = true
	}
	d.showTable()
}

// tables returns the tables by their tab.
func (d *drawer) tables() map[int]*tablePanel {
	return map[int]*tablePanel{wiresTab: d.wires, pinsTab: d.pins, partsTab: d.parts, loomsTab: d.looms, readingsTab: d.readings}
}

// tableInFront returns the table that is in sight, or nil.
func (d *drawer) tableInFront() *tablePanel {
	if d.ed.store.HideDrawer {
		return nil
	}
	return d.tables()[d.tab()]
}

func (d *drawer) showTable() {
	if t := d.tableInFront(); t != nil && t.stale {
		t.refresh()
	}
}

// openTable brings a table to the front and gives it the keyboard.
func (d *drawer) openTable(tab int) {
	d.open(tab)
	d.showTable()
	d.tableInFront().takeKeyboard()
}

// studied shows new results.
func (d *drawer) studied() {
	d.findings.refresh()
	d.ladder.refresh()
	d.tablesChanged()
	d.worst.refresh()
	title := "Findings"
	if have := d.ed.study.have; have != nil {
		c := countFindings(have.findings)
		if open := c.all() - c.accepted; open > 0 {
			title = fmt.Sprintf("Findings (%d)", open)
		}
	}
	if d.tabs.Items[findingsTab].Text != title {
		d.tabs.Items[findingsTab].Text = title
		d.tabs.Refresh()
	}
}

// selectionChanged shows the settings of a selected switch or load, the rows
// and the findings of what is selected.
func (d *drawer) selectionChanged() {
	d.states.selectionChanged()
	d.findings.selectionChanged()
	if t := d.tableInFront(); t != nil {
		t.selectionChanged()
	}
}

// unitsChanged shows the tables in other units.
func (d *drawer) unitsChanged() {
	d.tablesChanged()
}
