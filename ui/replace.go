package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// replacing is the form that finds and replaces texts. Each find is a line that
// can be ticked off; what is ticked is replaced in one step.
type replacing struct {
	ed     *Editor
	box    *box
	find   *entry
	with   *entry
	scope  *pick
	exact  *ticked
	whole  *ticked
	fields []*ticked
	list   *rows
	sum    *widget.Label
	note   *widget.Label
	found  []edit.Match
	off    map[int]bool // lines not ticked
	bad    map[int]bool // lines that cannot be replaced
}

// replaceDialog opens the box that finds and replaces.
func (ed *Editor) replaceDialog() {
	r := &replacing{ed: ed, find: newEntry(nil), with: newEntry(nil), sum: widget.NewLabel(""), note: complaint()}
	r.find.SetPlaceHolder("text to look for")
	r.with.SetPlaceHolder("nothing: takes the text out")
	again := func(bool) { r.search() }
	r.scope = newPick(ed.typedKey, ed.scopes(), func(string) { r.search() })
	r.exact = newTicked(ed.typedKey, "Capitals count", again)
	r.whole = newTicked(ed.typedKey, "Not within words", again)
	ticks := container.NewGridWithColumns(3)
	for _, f := range edit.Fields() {
		t := newTicked(ed.typedKey, sentence(string(f)), again)
		t.Checked = true
		r.fields = append(r.fields, t)
		ticks.Add(t)
	}
	r.find.changed = func(string) { r.search() }
	r.with.changed = func(string) { r.search() }
	r.list = newRows(ed.typedKey, func() int { return len(r.found) }, newReplaceCell, func(i widget.ListItemID, o fyne.CanvasObject) { r.show(i, o) })
	r.list.OnSelected = func(i widget.ListItemID) {
		r.list.UnselectAll()
		if i < len(r.found) && !r.bad[i] {
			r.off[i] = !r.off[i]
			r.list.RefreshItem(i)
			r.count()
		}
	}
	form := container.NewVBox(row("Find", r.find), row("Replace with", r.with), row("In", r.scope), row("", container.NewHBox(r.exact, r.whole)), ticks, r.note, r.sum)
	r.box = &box{title: "Find and replace", size: fyne.NewSize(720, 680), first: r.find, content: container.NewBorder(container.New(padded{4, 4}, form), nil, nil, nil, r.list)}
	r.box.answers = []answer{{text: "Replace what is ticked", main: true, stays: true, deed: r.apply}, {text: "Close"}}
	r.box.field(r.find)
	r.box.field(r.with)
	r.find.OnSubmitted = func(string) { ed.win.Canvas().Focus(r.with) }
	first := inDrawing
	if len(ed.sess.Selection()) > 1 {
		first = inSelection
	}
	r.scope.SetSelected(first)
	ed.openBox(r.box)
}

// newReplaceCell makes a line for a find: tick, where it is, what it would become.
func newReplaceCell() fyne.CanvasObject {
	where, what := widget.NewLabel(""), widget.NewLabel("")
	where.Truncation, what.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	where.Importance = widget.LowImportance
	return container.New(columns{26, 210, 0}, widget.NewIcon(theme.CheckButtonCheckedIcon()), where, what)
}

func (r *replacing) show(i int, o fyne.CanvasObject) {
	if i >= len(r.found) {
		return
	}
	m := r.found[i]
	cells := o.(*fyne.Container).Objects
	icon, where, what := cells[0].(*widget.Icon), cells[1].(*widget.Label), cells[2].(*widget.Label)
	switch {
	case r.bad[i]:
		icon.SetResource(theme.NewDisabledResource(theme.CheckButtonIcon()))
	case r.off[i]:
		icon.SetResource(theme.CheckButtonIcon())
	default:
		icon.SetResource(theme.NewPrimaryThemedResource(theme.CheckButtonCheckedIcon()))
	}
	field := string(m.Field)
	switch {
	case m.Pin != "":
		field = "title of pin " + m.Pin
	case m.Key.Type == schematic.TypeNote:
		field = "text"
	}
	where.SetText(schematic.Describe(r.ed.doc().Get(m.Key)) + ", " + field)
	was, is := aroundChange(m.Was, m.Is)
	what.SetText(was + "  →  " + is)
	what.Importance = widget.MediumImportance
	if err := m.Check(); err != nil {
		what.Importance = widget.DangerImportance
		what.SetText(was + "  →  " + err.Error())
	}
	what.Refresh()
}

// aroundChange prints two texts in one line each, from shortly before the place
// where they begin to differ.
func aroundChange(was, is string) (string, string) {
	const lead, most = 12, 40
	a, b := []rune(strings.Join(strings.Fields(was), " ")), []rune(strings.Join(strings.Fields(is), " "))
	from := 0
	for from < len(a) && from < len(b) && a[from] == b[from] {
		from++
	}
	from = max(0, from-lead)
	piece := func(r []rune) string {
		head, tail := "“", "”"
		if r = r[min(from, len(r)):]; from > 0 {
			head = "“…"
		}
		if len(r) > most {
			r, tail = r[:most], "…”"
		}
		return head + string(r) + tail
	}
	return piece(a), piece(b)
}

// search finds anew; every line is ticked that can be replaced.
func (r *replacing) search() {
	if r.box == nil {
		return
	}
	s := edit.Search{Find: r.find.Text, With: r.with.Text, MatchCase: r.exact.Checked, Whole: r.whole.Checked}
	for i, f := range edit.Fields() {
		if r.fields[i].Checked {
			s.Fields = append(s.Fields, f)
		}
	}
	r.found = edit.FindText(r.ed.doc(), r.ed.within(r.scope.Selected), s)
	r.off, r.bad = map[int]bool{}, map[int]bool{}
	for i, m := range r.found {
		r.bad[i] = m.Check() != nil || m.Is == m.Was
	}
	r.note.Hide()
	r.list.Refresh()
	r.list.ScrollToTop()
	r.count()
}

// ticked returns the finds to replace.
func (r *replacing) ticked() []edit.Match {
	var on []edit.Match
	for i, m := range r.found {
		if !r.off[i] && !r.bad[i] {
			on = append(on, m)
		}
	}
	return on
}

func (r *replacing) count() {
	switch n := len(r.found); {
	case r.find.Text == "":
		r.sum.SetText("")
	case n == 0:
		r.sum.SetText("Nothing found.")
	default:
		r.sum.SetText(fmt.Sprintf("%s found, %d ticked. Press a line, or Space on it, to tick or untick it.", count(n, "text"), len(r.ticked())))
	}
}

func (r *replacing) apply() {
	on := r.ticked()
	if len(on) == 0 {
		r.box.complain(r.note, fmt.Errorf("nothing is ticked: write what to look for and tick what to replace"))
		return
	}
	var left []edit.Match
	for i, m := range r.found {
		if r.off[i] {
			left = append(left, m)
		}
	}
	if err := r.ed.try("replace “"+r.find.Text+"”", func(tx *edit.Tx) error { return edit.ReplaceText(tx, on) }); err != nil {
		r.box.complain(r.note, err)
		return
	}
	r.search()
	for i, m := range r.found { // what was unticked stays so
		r.off[i] = slices.Contains(left, m)
	}
	r.list.Refresh()
	r.sum.SetText("Replaced in " + count(len(on), "text") + ".")
}
