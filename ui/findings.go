package ui

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
)

// finding is one thing the checks say, with the words the window adds.
type finding struct {
	check.Finding
	title string // of the rule
	names string // of the items
}

// judge runs the checks.
func judge(e *electricity) []finding {
	titles := map[string]string{}
	for _, r := range check.Rules() {
		titles[r.ID] = r.Title
	}
	var out []finding
	for _, f := range check.Run(e.net, e.states) {
		x := finding{Finding: f, title: titles[f.Rule]}
		if x.title == "" {
			x.title = f.Rule
		}
		var names []string
		for _, k := range f.Items {
			it := e.doc.Get(k)
			if name := schematic.NameOf(it); name != "" {
				names = append(names, name)
			} else if it != nil {
				names = append(names, schematic.Describe(it))
			}
		}
		x.names = strings.Join(names, ", ")
		out = append(out, x)
	}
	return out
}

// shades are how the severities look: a shape and a colour; the word says the
// same again.
type shade struct {
	icon  string
	color fyne.ThemeColorName
}

func shadeOf(s check.Severity) shade {
	switch s {
	case check.Error:
		return shade{"error", theme.ColorNameError}
	case check.Warning:
		return shade{"warn", theme.ColorNameWarning}
	case check.NotAssessed:
		return shade{"unassessed", theme.ColorNameForeground}
	}
	return shade{"info", colorPick}
}

// severityWord begins a line or a sentence.
func severityWord(s check.Severity) string {
	w := s.String()
	return strings.ToUpper(w[:1]) + w[1:]
}

const severityCount = int(check.Note) + 1

// severities are the marks on the drawing: the gravest finding of each item.
// Items that merely lack data are not marked, the list names them.
func severities(fs []finding) map[schematic.Key]draw.Severity {
	m := map[schematic.Key]draw.Severity{}
	grade := map[check.Severity]draw.Level{check.Error: draw.Error, check.Warning: draw.Warn}
	for _, f := range fs {
		lv, ok := grade[f.Severity]
		if !ok || !f.Open() || len(f.Items) == 0 {
			continue
		}
		for _, k := range f.Items[:1] { // the main one
			if have, seen := m[k]; !seen || lv > have.Level {
				m[k] = draw.Severity{Level: lv}
			}
		}
	}
	return m
}

// findingList is the panel of what the checks found.
type findingList struct {
	ed     *Editor
	list   *rows
	filter [severityCount]*ticked
	search *entry
	shown  []finding
	detail *fyne.Container
	scroll *container.Scroll
	box    fyne.CanvasObject
	at     int    // selected row, -1 for none
	id     string // of the selected finding
	quiet  bool
}

func newFindingList(ed *Editor) *findingList {
	f := &findingList{ed: ed, at: -1}
	f.list = newRows(ed.typedKey,
		func() int { return len(f.shown) },
		func() fyne.CanvasObject { return newFindingRow() },
		func(i widget.ListItemID, o fyne.CanvasObject) {
			if i < len(f.shown) {
				o.(*findingRow).set(&f.shown[i])
			}
		})
	f.list.arrow = f.step
	f.list.OnSelected = func(i widget.ListItemID) { f.pick(i) }
	bar := container.NewHBox()
	for l := range f.filter {
		f.filter[l] = newTicked(ed.typedKey, "", func(bool) { f.refresh() })
		f.filter[l].Checked = true
		bar.Add(f.filter[l])
	}
	f.search = newEntry(nil)
	f.search.SetPlaceHolder("Only those that name…")
	f.search.changed = func(string) { f.refresh() }
	head := container.NewBorder(nil, nil, bar, nil, container.New(padded{4, 0}, f.search))
	f.detail = container.NewVBox()
	f.scroll = container.NewVScroll(f.detail)
	split := container.NewHSplit(f.list, f.scroll)
	split.Offset = 0.56
	f.box = container.NewBorder(head, nil, nil, nil, split)
	f.refresh()
	return f
}

// refresh shows the findings that pass the filters, gravest first.
func (f *findingList) refresh() {
	if f.list == nil || f.detail == nil {
		return
	}
	var all []finding
	if have := f.ed.study.have; have != nil {
		all = have.findings
	}
	var n [severityCount]int
	f.shown = f.shown[:0:0]
	text := strings.ToLower(strings.TrimSpace(f.search.Text))
	for _, x := range all {
		n[x.Severity]++
		if f.filter[x.Severity].Checked && (text == "" || strings.Contains(strings.ToLower(x.names+" "+x.title+" "+x.Text+" "+x.StateName), text)) {
			f.shown = append(f.shown, x)
		}
	}
	for l := range f.filter {
		if label := fmt.Sprintf("%s %d", severityWord(check.Severity(l)), n[l]); f.filter[l].Text != label {
			f.filter[l].Text = label
			f.filter[l].Refresh()
		}
	}
	// The finding looked at stays in hand as long as it is found.
	f.at = -1
	for i := range f.shown {
		if f.id != "" && f.shown[i].ID == f.id {
			f.at = i
			break
		}
	}
	f.quiet = true
	f.list.UnselectAll()
	if f.at >= 0 {
		f.list.Select(f.at)
	}
	f.quiet = false
	f.list.Refresh()
	if f.at < 0 {
		f.id = ""
		f.describe(nil)
		return
	}
	f.describe(&f.shown[f.at])
}

// pick jumps to the place of a finding and says all about it. The operating
// state becomes the one it is worst in, so that all figures in sight agree.
func (f *findingList) pick(i int) {
	if f.quiet || i < 0 || i >= len(f.shown) {
		return
	}
	x := f.shown[i]
	f.at, f.id = i, x.ID
	other := x.State != f.ed.study.state && f.ed.doc().State(x.State) != nil
	if other {
		f.ed.setState(x.State)
	}
	f.describe(&x)
	if len(x.Items) > 0 {
		f.ed.jump(x.Items[0]) // the main one, so that its details can be mended
	}
	if other {
		f.ed.status.tell("the operating state is now " + x.StateName + ", in which this is worst")
	}
}

// step goes to the next finding, or by -1 to the one before.
func (f *findingList) step(by int) {
	n := len(f.shown)
	if n == 0 {
		return
	}
	at := f.at + by
	if f.at < 0 && by < 0 {
		at = n - 1
	}
	f.list.Select((at + n) % n)
}

func (f *findingList) describe(x *finding) {
	f.detail.Objects = nil
	if x == nil {
		text := "Press a finding to see it on the drawing, with the figures behind it."
		if have := f.ed.study.have; have == nil {
			text = "The checks are at work."
		} else if len(have.findings) == 0 {
			text = "The checks found nothing to say. That is no proof that the wiring is right: they only know what the drawing tells them."
		}
		f.detail.Add(remark(text).CanvasObject)
		f.detail.Refresh()
		return
	}
	title := widget.NewLabel(x.title)
	title.TextStyle.Bold = true
	title.Truncation = fyne.TextTruncateEllipsis
	look := shadeOf(x.Severity)
	f.detail.Add(container.NewBorder(nil, nil, container.New(padded{4, 0}, widget.NewIcon(iconIn(look.icon, look.color))), nil, title))
	f.detail.Add(wrapped(x.Text))
	for i, fix := range x.Fixes {
		b := widget.NewButton(sentence(fix.Label), func() { f.mend(fix) })
		if i == 0 {
			b.Importance = widget.HighImportance
		}
		f.detail.Add(container.New(remedyLayout{}, b, wrapped(fix.Effect)))
	}
	for _, r := range []struct{ name, text string }{
		{"Where", x.names}, {"Missing", x.Missing}, {"State", x.StateName}, {"Value", check.Figure(x.Value, x.Unit)}, {"Limit", check.Figure(x.Limit, x.Unit)},
		{"Margin", check.Figure(x.Margin, x.Unit)}, {"How", x.Formula}, {"Source", x.Source},
	} {
		if r.text != "" {
			f.detail.Add(row(r.name, wrapped(r.text)))
		}
	}
	f.detail.Refresh()
	f.scroll.ScrollToTop()
}

// remedyLayout puts what a remedy brings beside its button, or below it where
// room is short.
type remedyLayout struct{}

const remedyWords = 150 // least width of the words beside the button

func (remedyLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	b := o[0].MinSize()
	o[0].Move(fyne.NewPos(4, 0))
	o[0].Resize(fyne.NewSize(min(b.Width, max(0, size.Width-8)), b.Height))
	at := fyne.NewPos(b.Width+4, 0)
	if at.X+remedyWords > size.Width {
		at = fyne.NewPos(0, b.Height)
	}
	o[1].Resize(fyne.NewSize(max(0, size.Width-at.X), o[1].MinSize().Height))
	o[1].Move(at)
}

func (remedyLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	b, words := o[0].MinSize(), o[1].MinSize()
	if o[1].Position().Y > 0 {
		return fyne.NewSize(remedyWords, b.Height+words.Height)
	}
	return fyne.NewSize(remedyWords, max(b.Height, words.Height))
}

// mend applies a remedy. It was worked out for the document the checks saw, so
// it is only put in place while that is still the document.
func (f *findingList) mend(fix check.Fix) {
	have := f.ed.study.have
	if have == nil || have.doc != f.ed.doc() {
		f.ed.status.warn("the checks are at work on your last change: try again in a moment")
		return
	}
	f.ed.do(fix.Label, func(tx *edit.Tx) error {
		tx.Put(fix.Items...)
		return nil
	})
}

// sentence begins a text with a capital.
func sentence(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

func wrapped(s string) *widget.Label {
	l := widget.NewLabel(s)
	l.Wrapping = fyne.TextWrapWord
	return l
}

// findingRow is a line of the list: shape, word, items, what is wrong, figures.
type findingRow struct {
	widget.BaseWidget
	icon  *widget.Icon
	word  *widget.Label
	names *widget.Label
	text  *widget.Label
	value *widget.Label
}

func newFindingRow() *findingRow {
	r := &findingRow{icon: widget.NewIcon(nil)}
	for _, l := range []**widget.Label{&r.word, &r.names, &r.text, &r.value} {
		*l = widget.NewLabel("")
		(*l).Truncation = fyne.TextTruncateEllipsis
	}
	r.names.TextStyle.Bold = true
	r.ExtendBaseWidget(r)
	return r
}

func (r *findingRow) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(findingLayout{r}, r.icon, r.word, r.names, r.text, r.value))
}

// findingLayout lays a row out in columns. Where room is short the figures go
// first and then the word; the panel beside the list has both.
type findingLayout struct{ r *findingRow }

func (l findingLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	r := l.r
	show(r.value, size.Width >= 760)
	show(r.word, size.Width >= 380)
	widths, cells := columns{22}, []fyne.CanvasObject{r.icon}
	for _, c := range []struct {
		o fyne.CanvasObject
		w float32
	}{{r.word, 92}, {r.names, 92}, {r.text, 0}, {r.value, 170}} {
		if c.o.Visible() {
			widths, cells = append(widths, c.w), append(cells, c.o)
		}
	}
	widths.Layout(cells, size)
}

func (l findingLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(240, l.r.text.MinSize().Height)
}

func (r *findingRow) set(f *finding) {
	look := shadeOf(f.Severity)
	r.icon.SetResource(iconIn(look.icon, look.color))
	r.word.SetText(severityWord(f.Severity))
	r.names.SetText(f.names)
	text := f.Text
	if text == "" {
		text = f.title
	}
	r.text.SetText(text)
	value := check.Figure(f.Value, f.Unit)
	if limit := check.Figure(f.Limit, f.Unit); value != "" && limit != "" {
		value += ", limit " + limit
	}
	r.value.SetText(value)
}

// columns gives each object its own width; a width of 0 takes the rest.
type columns []float32

func (c columns) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	rest := size.Width
	for _, w := range c {
		rest -= w
	}
	x := float32(0)
	for i, o := range objs {
		w := c[i]
		if w == 0 {
			w = max(0, rest)
		}
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(w, size.Height))
		x += w
	}
}

func (c columns) MinSize(objs []fyne.CanvasObject) fyne.Size {
	var m fyne.Size
	for i, o := range objs {
		m.Height = max(m.Height, o.MinSize().Height)
		m.Width += c[i]
	}
	return m
}
