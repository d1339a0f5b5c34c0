package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2/container"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/ui/action"
	"loomwright/ui/view"
)

// comparison holds another version of the drawing against the one in the
// window: a list of the differences, and marks on the drawing. The zero value
// compares nothing.
type comparison struct {
	before *schematic.Doc // nil while nothing is compared
	name   string         // what before is: "the saved version"
	found  []edit.Difference
	with   *schematic.Doc              // found is for this document
	real   int                         // how many come before those that are only drawn elsewhere
	open   bool                        // those are listed one by one, and marked
	gone   map[schematic.ID]*draw.List // what is removed, by sheet; see ghosts
	job    latest
	panel  *comparePanel
	tab    *container.TabItem
	at     int // the difference looked at, -1 for none
}

// listed is how many rows the list has: what is only drawn elsewhere is one row
// that opens.
func (c *comparison) listed() int {
	switch drawn := len(c.found) - c.real; {
	case drawn == 0:
		return c.real
	case c.open:
		return c.real + 1 + drawn
	}
	return c.real + 1
}

// inRow returns the difference of a row, -1 for the one that opens.
func (c *comparison) inRow(row int) int {
	switch {
	case row < c.real:
		return row
	case row == c.real:
		return -1
	}
	return row - 1
}

func (c *comparison) rowOf(at int) int {
	if at < c.real {
		return at
	}
	return at + 1
}

func (ed *Editor) compareActions() {
	on := func() bool { return ed.compare.before != nil }
	named := func() bool { return ed.file.path != "" }
	ed.actions.Add(
		&action.Action{ID: "compare.versions", Title: "Earlier versions…", Menu: "File/Versions", Enabled: named, Words: "backup history old restore bring back",
			Help: "Compare with, or bring back, what earlier saves replaced", Run: ed.showVersions},
		&action.Action{ID: "compare.saved", Title: "Compare with the saved version", Menu: "File/Versions", Gap: true, Enabled: named, Words: "difference changes diff",
			Help: "List and mark what was changed since the file was saved", Run: func() { ed.compareFile(ed.file.path, "the saved version") }},
		&action.Action{ID: "compare.file", Title: "Compare with a file…", Menu: "File/Versions", Words: "difference changes diff another",
			Help: "List and mark what is different from another harness file", Run: func() {
				ed.askPathToOpen("Compare with a file", func(path string) { ed.compareFile(path, filepath.Base(path)) })
			}},
		&action.Action{ID: "compare.next", Title: "Next difference", Menu: "File/Versions", Gap: true, Enabled: on, Keys: []action.Key{action.K("F3")}, Words: "compare change jump",
			Help: "Go to the next difference", Run: func() { ed.stepDifference(1) }},
		&action.Action{ID: "compare.prev", Title: "Previous difference", Menu: "File/Versions", Enabled: on, Keys: []action.Key{{Mods: action.Shift, Name: "F3"}}, Words: "compare change jump",
			Help: "Go to the difference before", Run: func() { ed.stepDifference(-1) }},
		&action.Action{ID: "compare.end", Title: "End the comparison", Menu: "File/Versions", Enabled: on, Words: "difference marks off",
			Help: "Take the marks of the comparison off the drawing", Run: ed.endComparison},
		&action.Action{ID: "compare.write", Title: "Write the list of differences…", Menu: "File/Versions", Gap: true, Enabled: on, Words: "compare export print report text copy",
			Help: "Write what was added, removed and changed as a text file, to print or send along", Run: ed.writeDifferences},
		&action.Action{ID: "compare.copy", Title: "Copy the list of differences", Menu: "File/Versions", Enabled: on, Words: "compare clipboard report text",
			Help: "Put what was added, removed and changed on the clipboard as text", Run: func() {
				ed.app.Clipboard().SetContent(ed.differencesText())
				ed.status.tell("the list of differences is on the clipboard")
			}},
	)
}

func (ed *Editor) compareFile(path, name string) {
	ed.flushField()
	ed.loadThen(path, func(d *schematic.Doc) { ed.compareWith(d, name) })
}

// compareWith shows what was changed from another version to this one, and
// goes on doing so while the drawing is worked on.
func (ed *Editor) compareWith(before *schematic.Doc, name string) {
	c := &ed.compare
	c.job.crew = ed.crew
	*c = comparison{before: before, name: name, at: -1, job: c.job, panel: c.panel, tab: c.tab}
	ed.showComparison()
	ed.drawer.tabs.Select(c.tab)
	ed.followComparison()
	ed.menu.refresh()
}

// showComparison puts the panel into the drawer.
func (ed *Editor) showComparison() {
	c := &ed.compare
	if c.before == nil {
		return
	}
	if ed.store.HideDrawer {
		ed.togglePanel(&ed.store.HideDrawer)
	}
	if c.tab != nil {
		ed.drawer.tabs.Remove(c.tab)
	}
	c.panel = newComparePanel(ed)
	c.tab = container.NewTabItem("Comparison", panel(c.panel.box))
	ed.drawer.tabs.Append(c.tab)
	c.panel.refresh()
}

func (ed *Editor) endComparison() {
	c := &ed.compare
	if c.before == nil {
		return
	}
	c.job.drop()
	ed.drawer.tabs.Remove(c.tab)
	*c = comparison{job: c.job}
	ed.sheetView.repaint()
	ed.sheetView.refreshOverlay()
	ed.menu.refresh()
}

// followComparison compares anew when the document has changed.
func (ed *Editor) followComparison() {
	c := &ed.compare
	if c.before == nil || c.with == ed.doc() {
		return
	}
	before, now := c.before, ed.doc()
	ask(&c.job, func() []edit.Difference { return edit.Compare(before, now) }, func(found []edit.Difference) {
		if c.before != before {
			return
		}
		var held edit.Difference
		if c.at >= 0 && c.at < len(c.found) {
			held = c.found[c.at]
		}
		c.found, c.with, c.at, c.gone = found, now, -1, nil
		c.real = len(found)
		for c.real > 0 && found[c.real-1].OnlyDrawn() {
			c.real--
		}
		for i, d := range found {
			if held.Item() != nil && d.Item().Key() == held.Item().Key() {
				c.at = i
			}
		}
		c.open = c.open && c.real < len(found)
		c.panel.refresh()
		ed.sheetView.repaint()
		ed.sheetView.refreshOverlay()
	})
}

// stepDifference goes to the next difference, or by -1 to the one before; to
// those only drawn elsewhere when they are listed, or there are no others.
func (ed *Editor) stepDifference(by int) {
	c := &ed.compare
	n := c.real
	if c.open || n == 0 && len(c.found) > 0 {
		n = len(c.found)
	}
	if n == 0 {
		return
	}
	at := c.at + by
	if c.at < 0 && by < 0 {
		at = n - 1
	}
	at = (at + n) % n
	if at >= c.real && !c.open {
		c.panel.unfold(true)
	}
	c.panel.list.Select(c.rowOf(at))
}

// seeDifference brings a difference in sight: a removed item where it was.
func (ed *Editor) seeDifference(d edit.Difference) {
	k := d.Item().Key()
	switch {
	case d.After == nil:
	case k.Type == schematic.TypeSheet:
		ed.choose()
		ed.show(k.ID)
		return
	case k.Type == schematic.TypeInfo:
		ed.choose() // the details are those of the drawing then
		return
	default:
		ed.jump(k)
		return
	}
	ed.choose()
	c := &ed.compare
	p, ok := view.PlaceOf(c.before, k, c.sheetBefore(ed.doc(), ed.sheet))
	if !ok {
		return
	}
	for _, s := range ed.doc().Sheets() {
		if c.sheetBefore(ed.doc(), s.ID) == p.Sheet {
			ed.show(s.ID)
			ed.sheetView.bring(p.Area)
		}
	}
}
