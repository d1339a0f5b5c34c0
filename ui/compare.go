package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/loomfile"
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

// showVersions lists what earlier saves of the file replaced.
func (ed *Editor) showVersions() {
	all, err := loomfile.Versions(ed.file.path)
	if err == nil && len(all) == 0 {
		err = errors.New("no save has replaced anything yet: the last " + fmt.Sprint(loomfile.KeepVersions) + " versions that saves replace are kept")
	}
	if err != nil {
		ed.reportAs("No earlier versions", err)
		return
	}
	var lines []chooserLine
	for _, v := range all {
		when := v.Time.Local().Format("2 January 2006, 15:04:05")
		lines = append(lines, chooserLine{title: "Saved " + when, side: since(ed.now().Sub(v.Time)), run: func() {
			ed.question("The version of "+when, "Bringing it back is one step, which Undo takes back. The file changes when you save.",
				answer{text: "Compare with it", main: true, deed: func() { ed.compareFile(v.Path, "the version of "+when) }},
				answer{text: "Bring it back", deed: func() { ed.bringBack(v.Path, when) }},
				answer{text: "Go back"})
		}})
	}
	ed.openChooser("Earlier versions of "+ed.file.name(), "Type a part of the date", func(text string) []chooserLine { return narrow(lines, text) })
}

// loadThen reads a file beside the window and goes on with it, if the document
// in the window is still the same.
func (ed *Editor) loadThen(path string, then func(*schematic.Doc)) {
	sess := ed.sess
	busy := ed.busy("Reading " + filepath.Base(path))
	ed.crew.spawn(func() {
		d, err := loomfile.Load(path, ed.lib)
		ed.crew.post(func() {
			busy()
			switch {
			case ed.sess != sess:
			case err != nil:
				ed.reportAs("Could not read "+filepath.Base(path), err)
			default:
				then(d)
			}
		})
	})
}

func (ed *Editor) bringBack(path, when string) {
	ed.loadThen(path, func(d *schematic.Doc) {
		if ed.become("bring back the version of "+when, d) {
			ed.status.tell("the version of " + when + " is back; Undo takes it away again")
		}
	})
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
	if d.After != nil {
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

// comparePanel is the list of differences beside what each of them says.
type comparePanel struct {
	ed     *Editor
	head   *widget.Label
	list   *rows
	detail *fyne.Container
	scroll *container.Scroll
	box    fyne.CanvasObject
	quiet  bool
}

func newComparePanel(ed *Editor) *comparePanel {
	p := &comparePanel{ed: ed, head: widget.NewLabel(""), detail: container.NewVBox()}
	p.head.Truncation = fyne.TextTruncateEllipsis
	p.list = newRows(ed.typedKey,
		func() int { return ed.compare.listed() },
		func() fyne.CanvasObject {
			word, name, what := widget.NewLabel(""), widget.NewLabel(""), widget.NewLabel("")
			name.TextStyle.Bold = true
			for _, l := range []*widget.Label{name, what} {
				l.Truncation = fyne.TextTruncateEllipsis
			}
			return container.New(columns{22, 84, 130, 0}, widget.NewIcon(nil), word, name, what)
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			c := &ed.compare
			if i >= c.listed() {
				return
			}
			cells := o.(*fyne.Container).Objects
			say := func(look shade, word, name, what string) {
				cells[0].(*widget.Icon).SetResource(iconIn(look.icon, look.color))
				cells[1].(*widget.Label).SetText(word)
				cells[2].(*widget.Label).SetText(name)
				cells[3].(*widget.Label).SetText(what)
			}
			at := c.inRow(i)
			if at < 0 {
				look := shade{"folded", theme.ColorNameForeground}
				if c.open {
					look.icon = "unfolded"
				}
				say(look, "drawn", "Elsewhere", edit.DrawnOnly(c.found))
				return
			}
			d := c.found[at]
			say(changeLook(d.What()), markWord(d), d.Name(), d.Short())
		})
	p.list.arrow = ed.stepDifference
	p.list.OnSelected = func(i widget.ListItemID) { p.pick(i) }
	write := newButton(ed.tips, "Write…", "", "Write the list as a text file, to print or send along", ed.writeDifferences)
	next := newButton(ed.tips, "Next", "", "Go to the next difference"+keyHint(ed.actions.Find("compare.next").Keys), func() { ed.stepDifference(1) })
	end := newButton(ed.tips, "End", "", "Take the marks off the drawing", ed.endComparison)
	p.scroll = container.NewVScroll(p.detail)
	split := container.NewHSplit(p.list, p.scroll)
	split.Offset = 0.56
	p.box = container.NewBorder(container.NewBorder(nil, nil, nil, container.NewHBox(write, next, end), p.head), nil, nil, nil, split)
	return p
}

// refresh shows the differences found last.
func (p *comparePanel) refresh() {
	c := &p.ed.compare
	n := map[string]int{}
	for _, d := range c.found[:c.real] {
		n[d.What()]++
	}
	text := "Compared with " + c.name + ": "
	switch {
	case c.with == nil:
		text += "at work…"
	case len(c.found) == 0:
		text += "no difference"
	default:
		var parts []string
		for _, what := range []string{"added", "removed", "changed"} {
			if n[what] > 0 {
				parts = append(parts, fmt.Sprintf("%d %s", n[what], what))
			}
		}
		if drawn := len(c.found) - c.real; drawn > 0 {
			parts = append(parts, fmt.Sprintf("%d only drawn elsewhere", drawn))
		}
		text += strings.Join(parts, ", ")
	}
	p.head.SetText(text)
	p.quiet = true
	p.list.UnselectAll()
	if c.at >= 0 {
		p.list.Select(c.rowOf(c.at))
	}
	p.quiet = false
	p.list.Refresh()
	p.describe()
}

func (p *comparePanel) pick(row int) {
	c := &p.ed.compare
	if p.quiet || row < 0 || row >= c.listed() {
		return
	}
	at := c.inRow(row)
	if at < 0 {
		p.list.Unselect(row) // so that the next press is one again
		p.unfold(!c.open)
		return
	}
	c.at = at
	p.describe()
	p.ed.seeDifference(c.found[at])
	p.ed.sheetView.refreshOverlay()
}

// unfold lists, or hides, what is only drawn elsewhere.
func (p *comparePanel) unfold(open bool) {
	c := &p.ed.compare
	c.open = open
	if !open && c.at >= c.real {
		c.at = -1
	}
	p.refresh()
	p.ed.sheetView.refreshOverlay()
}

// describe says what is different in the difference looked at.
func (p *comparePanel) describe() {
	c := &p.ed.compare
	p.detail.Objects = nil
	switch {
	case c.with == nil:
	case len(c.found) == 0:
		p.detail.Add(remark("Both versions say the same.").CanvasObject)
	case c.at < 0:
		p.detail.Add(remark("Press a difference to see it on the drawing. Marks stand there in words: added, removed, changed.").CanvasObject)
	default:
		d := c.found[c.at]
		said := sentence(schematic.Describe(d.Item())) + " was " + d.What()
		if d.OnlyDrawn() {
			said = sentence(schematic.Describe(d.Item())) + " says the same and is " + d.Short()
		}
		title := widget.NewLabel(said)
		title.TextStyle.Bold = true
		title.Truncation = fyne.TextTruncateEllipsis
		p.detail.Add(title)
		if d.About != "" {
			p.detail.Add(wrapped(sentence(d.About)))
		}
		if d.After == nil {
			p.detail.Add(remark("The mark shows where it was.").CanvasObject)
		}
		for _, f := range d.Fields {
			p.detail.Add(row(sentence(f.Name), wrapped(edit.OrNone(f.Before)+"  →  "+edit.OrNone(f.After))))
		}
	}
	p.detail.Refresh()
	p.scroll.ScrollToTop()
}

// markWord is what a mark on the drawing says.
func markWord(d edit.Difference) string {
	if _, wire := d.Item().(*schematic.Wire); wire && d.OnlyDrawn() {
		return "redrawn"
	}
	if d.OnlyDrawn() {
		return "moved"
	}
	return d.What()
}

// differencesText is the list as text.
func (ed *Editor) differencesText() string {
	c := &ed.compare
	return fmt.Sprintf("%s compared with %s, %s\n\n%s", ed.file.name(), c.name, ed.now().Format("2 January 2006, 15:04"), edit.Report(c.found))
}

// writeDifferences asks for a path and writes the list there.
func (ed *Editor) writeDifferences() {
	name := strings.TrimSuffix(ed.file.name(), fileEnding) + " differences.txt"
	ed.pathDialog("Write the list of differences as", "Write", filepath.Join(ed.inFolder(), name), func(from string, found func(string), _ func()) {
		ed.browseSave(from, found)
	}, textTarget, func(path string) {
		write := func() {
			if err := os.WriteFile(path, []byte(ed.differencesText()), 0o644); err != nil {
				ed.reportAs("Not written", err)
				return
			}
			ed.status.tell("wrote " + path)
		}
		if !fileThere(path) {
			write()
			return
		}
		ed.question("Replace the file?", path+" is there already.",
			answer{text: "Replace it", deed: write},
			answer{text: "Go back", main: true, deed: ed.writeDifferences})
	})
}

// textTarget returns the path of a text file to write, or why it cannot be one.
func textTarget(path string) (string, error) {
	if filepath.Ext(path) == "" {
		path += ".txt"
	}
	if strings.HasSuffix(path, fileEnding) {
		return "", errors.New("that is the name of a drawing: choose another, such as changes.txt")
	}
	return harnessTarget(path)
}

// changeLook is how kinds of change look: a shape and a colour; the word says
// the same again.
func changeLook(what string) shade {
	switch what {
	case "added":
		return shade{"plus", theme.ColorNameSuccess}
	case "removed":
		return shade{"minus", theme.ColorNameError}
	}
	return shade{"edit", theme.ColorNameWarning}
}

// since says in words how long ago something was.
func since(d time.Duration) string {
	switch {
	case d < time.Minute:
		return "just now"
	case d < 2*time.Hour:
		return count(int(d.Minutes()), "minute") + " ago"
	case d < 48*time.Hour:
		return count(int(d.Hours()), "hour") + " ago"
	}
	return count(int(d.Hours()/24), "day") + " ago"
}
