package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// The panels of the drawer under the drawing.
const (
	findingsTab = iota
	ladderTab
	statesTab
)

// drawer holds what the computation says: findings, the drop ladder, and the
// operating states it is computed for.
type drawer struct {
	ed       *Editor
	tabs     *container.AppTabs
	findings *findingList
	ladder   *ladderPanel
	states   *statePanel
	stale    bool // the states panel waits to be seen
}

func newDrawer(ed *Editor) *drawer {
	d := &drawer{ed: ed, findings: newFindingList(ed), ladder: newLadderPanel(ed), states: newStatePanel(ed)}
	d.tabs = container.NewAppTabs(
		container.NewTabItem("Findings", panel(d.findings.box)),
		container.NewTabItem("Drop ladder", panel(d.ladder.box)),
		container.NewTabItem("Operating states", panel(d.states.box)),
	)
	d.tabs.OnSelected = func(*container.TabItem) {
		if d.stale {
			d.follow()
		}
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
}

// studied shows new results.
func (d *drawer) studied() {
	d.findings.refresh()
	d.ladder.refresh()
	title := "Findings"
	if have := d.ed.study.have; have != nil && len(have.findings) > 0 {
		title = fmt.Sprintf("Findings (%d)", len(have.findings))
	}
	if d.tabs.Items[findingsTab].Text != title {
		d.tabs.Items[findingsTab].Text = title
		d.tabs.Refresh()
	}
}

// selectionChanged shows the settings of a selected switch or load.
func (d *drawer) selectionChanged() { d.states.selectionChanged() }
