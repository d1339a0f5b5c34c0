package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
)

// findingList is the panel of what the checks found: which of it, in what
// order, and beside the list all about the one in hand.
type findingList struct {
	ed     *Editor
	view   findingView
	list   *rows
	lines  []findingLine
	tall   tallLines
	shown  []*finding // in sight, without the heads of groups
	head   *findingHead
	detail *fyne.Container
	scroll *container.Scroll
	split  *container.Split // the list and what is said beside it
	box    fyne.CanvasObject
	at     int             // of shown, -1 for none
	id     string          // of the selected finding
	chosen map[string]bool // IDs of the findings chosen, the selected one included
	anchor string          // ID of the one that Shift chooses from
	said   string          // ID of the one described beside the list
	gone   int             // where the selected finding was when it went
	quiet  bool
	going  bool // to the place of a finding
	after  lookAhead
}

func newFindingList(ed *Editor) *findingList {
	f := &findingList{ed: ed, at: -1, tall: tallLines{}, view: findingView{folded: map[string]bool{}}}
	f.list = newRows(ed.typedKey,
		func() int { return len(f.lines) },
		func() fyne.CanvasObject { return newFindingRow(ed.shows) },
		func(i widget.ListItemID, o fyne.CanvasObject) {
			if i < len(f.lines) {
				row := o.(*findingRow)
				row.set(f.lines[i])
				row.mark(f.lines[i].x != nil && f.chosen[f.lines[i].x.ID] && len(f.chosen) > 1)
				row.menu = func(at fyne.Position) { f.popUp(i, at) }
				row.take = func() { f.pressed(i, heldMods()) }
			}
		})
	f.list.wide = func() {
		f.fitLines()
		if x := f.inHand(); x != nil { // lines above it may have grown
			f.list.ScrollTo(f.lineOf(f.at))
		}
	}
	f.list.arrow = func(by int) { f.move(by, heldMods()) }
	f.list.all = f.chooseAll
	f.list.OnSelected = f.press
	f.head = newFindingHead(f)
	f.detail = container.NewVBox()
	f.scroll = container.NewVScroll(container.New(clearOfBar{}, f.detail))
	f.split = container.NewHSplit(f.list, f.scroll)
	f.split.Offset = 0.56
	f.box = container.NewBorder(f.head.box, nil, nil, nil, f.split)
	f.refresh()
	return f
}

// all returns everything the checks found.
func (f *findingList) all() []finding {
	if have := f.ed.study.have; have != nil {
		return have.findings
	}
	return nil
}

// refresh shows the findings that pass the filters.
func (f *findingList) refresh() {
	if f.detail == nil {
		return
	}
	f.lines, f.shown = f.view.lines(f.all())
	f.head.refresh(countFindings(f.all()), len(f.shown))
	f.fitLines()
	f.keep()
	// The finding looked at stays in hand as long as it is found.
	was := f.at
	f.at = slices.IndexFunc(f.shown, func(x *finding) bool { return f.id != "" && x.ID == f.id })
	f.quiet = true
	f.list.UnselectAll()
	if f.at >= 0 {
		f.list.Select(f.lineOf(f.at))
	}
	f.quiet = false
	f.list.Refresh()
	if f.at < 0 {
		if was >= 0 {
			f.gone = was
		}
		f.id = ""
	}
	f.describe(f.inHand())
	if f.ed.menu != nil {
		f.ed.menu.refresh()
	}
}

// fitLines gives each line the height its text needs.
func (f *findingList) fitLines() {
	width := f.list.Size().Width
	if width <= 0 {
		return
	}
	f.tall.fit(&f.list.List, len(f.lines), func(i int) int {
		if f.lines[i].x == nil {
			return 1
		}
		return findingLines(f.lines[i].x.line(f.ed.shows()), width)
	})
}

// lineOf returns the line of a finding in sight.
func (f *findingList) lineOf(at int) int {
	return slices.IndexFunc(f.lines, func(l findingLine) bool { return l.x == f.shown[at] })
}

// inHand returns the selected finding, or nil.
func (f *findingList) inHand() *finding {
	if f.at < 0 || f.at >= len(f.shown) {
		return nil
	}
	return f.shown[f.at]
}

// pressed is a click on a line: alone it goes to the finding, with Ctrl or Shift
// it chooses several.
func (f *findingList) pressed(line int, m fyne.KeyModifier) {
	f.ed.win.Canvas().Focus(f.list)
	if m&(fyne.KeyModifierShift|fyne.KeyModifierShortcutDefault) != 0 && line < len(f.lines) && f.lines[line].x != nil {
		f.choose(slices.Index(f.shown, f.lines[line].x), m)
		return
	}
	f.list.Select(line)
}

// press takes a finding in hand, or folds a group.
func (f *findingList) press(line widget.ListItemID) {
	switch {
	case f.quiet || line < 0 || line >= len(f.lines):
	case f.lines[line].x == nil:
		f.fold(f.lines[line].head)
	default:
		f.pick(slices.Index(f.shown, f.lines[line].x))
	}
}

// popUp offers what can be done about the finding of a line, or with the list.
func (f *findingList) popUp(line widget.ListItemID, at fyne.Position) {
	f.ed.tips.hide()
	if line >= len(f.lines) || f.lines[line].x == nil {
		f.ed.popUp(at, "check.fold", "check.listall")
		return
	}
	if !f.chosen[f.lines[line].x.ID] {
		f.list.Select(line)
	}
	f.ed.popUp(at, "view.fitsel", "check.full", "", "check.mend", "check.remedies", "check.accept", "check.takeback", "", "check.listrule", "check.listselection", "check.listall")
}

// fold folds a group of the list, or unfolds it.
func (f *findingList) fold(head string) {
	f.view.folded[head] = !f.view.folded[head]
	f.refresh()
}

// foldAll folds every group, or unfolds them where all are folded.
func (f *findingList) foldAll() {
	folded := !slices.ContainsFunc(f.lines, func(l findingLine) bool { return l.x == nil && !l.folded })
	for _, l := range f.lines {
		if l.x == nil {
			f.view.folded[l.head] = !folded
		}
	}
	f.refresh()
}

// pick jumps to the place of a finding and says all about it. The operating
// state becomes the one it is worst in, so that all figures in sight agree.
func (f *findingList) pick(i int) {
	if i < 0 || i >= len(f.shown) {
		return
	}
	x := f.shown[i]
	f.at, f.id = i, x.ID
	f.chosen, f.anchor = map[string]bool{x.ID: true}, x.ID
	f.list.Refresh() // those chosen before are no longer marked
	other := x.State != f.ed.study.state && f.ed.doc().State(x.State) != nil
	f.going = true
	defer func() { f.going = false }()
	if other {
		f.ed.setState(x.State)
	}
	f.describe(x)
	if len(x.Items) > 0 {
		f.ed.jump(x.Items[0]) // the main one, so that its details can be mended
	}
	if other {
		f.ed.status.tell("the operating state is now " + x.StateName + ", in which this is worst")
	}
}

// step goes to the next finding, or by -1 to the one before. Where the one in
// hand has gone, it goes on from there.
func (f *findingList) step(by int) {
	n := len(f.shown)
	if n == 0 {
		return
	}
	at := f.at + by
	switch {
	case f.at < 0 && by < 0:
		at = f.gone - 1
	case f.at < 0:
		at = f.gone
	}
	f.gone = 0
	f.list.Select(f.lineOf((at%n + n) % n))
}

// selectionChanged follows the selection where only its findings are listed;
// going to a finding selects too, and changes nothing.
func (f *findingList) selectionChanged() {
	if f.view.about != nil && !f.going {
		f.aboutSelection(true)
	}
}

// aboutSelection lists only the findings about what is selected, or all.
func (f *findingList) aboutSelection(on bool) {
	f.view.about = nil
	if on {
		f.view.about = map[schematic.Key]bool{}
		for _, k := range f.ed.sess.Selection() {
			f.view.about[k] = true
		}
	}
	f.refresh()
}

// describe says all about a finding beside the list. With none in hand the list
// has the whole width; with none listed, what that means stands in its place.
func (f *findingList) describe(x *finding) {
	beside := x != nil || len(f.lines) == 0
	if all := len(f.lines) > 0; f.scroll.Visible() != beside || f.list.Visible() != all {
		show(f.scroll, beside)
		show(f.list, all)
		f.split.Refresh()
	}
	f.detail.Objects = nil
	if x != nil {
		f.detail.Objects = f.page(x, true)
		f.detail.Refresh()
		if f.said != x.ID {
			f.scroll.ScrollToTop()
		}
		f.said = x.ID
		return
	}
	f.said = ""
	text := ""
	switch have := f.ed.study.have; {
	case have == nil:
		text = "The checks are at work."
	case len(have.findings) == 0:
		text = "The checks found nothing to say. That is no proof that the wiring is right: they only know what the drawing tells them."
	case len(f.lines) == 0:
		text = fmt.Sprintf("None of the %s is listed: choose other filters above.", count(len(have.findings), "finding"))
	}
	f.detail.Add(remark(text).CanvasObject)
	f.detail.Refresh()
}
