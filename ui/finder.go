package ui

import (
	"cmp"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/ui/action"
	"loomwright/ui/view"
)

// chooser is a list in the middle of the window that a text narrows down: for
// commands, and for parts and wires. Enter takes the marked line.
type chooser struct {
	ed     *Editor
	box    *box
	none   *widget.Label // said when nothing is found
	input  *entry
	list   *rows
	lines  []chooserLine
	tall   tallLines
	find   func(string) []chooserLine
	at     int
	silent bool
}

// chooserLine is one thing to choose.
type chooserLine struct {
	title, side string
	words       string // more to find it by
	off         bool
	run         func()
}

// openChooser opens a list that typing narrows: find returns the lines for what
// is typed.
func (ed *Editor) openChooser(title, hint string, find func(string) []chooserLine) *chooser {
	c := &chooser{ed: ed, find: find, tall: tallLines{}}
	c.input = newEntry(nil)
	c.input.SetPlaceHolder(hint)
	c.input.SetIcon(icon("search"))
	c.input.changed = func(s string) { c.narrow(s) }
	c.input.key = c.key
	c.list = newRows(ed.typedKey, func() int { return len(c.lines) },
		func() fyne.CanvasObject {
			a, b := widget.NewLabel(""), widget.NewLabel("")
			a.Truncation = fyne.TextTruncateEllipsis
			b.Alignment = fyne.TextAlignTrailing
			return container.New(columns{0, chooserSide, 6}, a, b, gap(1)) // the last for the scroll bar
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			if i >= len(c.lines) {
				return
			}
			cells := o.(*fyne.Container).Objects
			a, b := cells[0].(*widget.Label), cells[1].(*widget.Label)
			a.Importance, b.Importance = widget.MediumImportance, widget.LowImportance
			if c.lines[i].off {
				a.Importance = widget.LowImportance
			}
			a.SetText(c.lines[i].title)
			if n := c.rows(i); n > 1 && len(c.lines) <= mostFitted {
				a.SetText(broken(c.lines[i].title, c.room(), n))
			}
			b.SetText(c.lines[i].side)
		})
	c.list.OnSelected = func(i widget.ListItemID) {
		if !c.silent {
			c.take(i)
		}
	}
	c.none = widget.NewLabel("Nothing found: try fewer or other words.")
	c.none.Wrapping, c.none.Importance = fyne.TextWrapWord, widget.LowImportance
	c.box = &box{title: title, size: fyne.NewSize(chooserWidth, 480), first: c.input,
		content: container.NewBorder(c.input, nil, nil, nil, container.NewStack(c.list, container.NewVBox(c.none))),
		answers: []answer{{text: "Close"}}}
	c.box.field(c.input)
	c.input.OnSubmitted = func(string) { c.take(c.at) }
	c.narrow("")
	ed.openBox(c.box)
	return c
}

func (c *chooser) key(k *fyne.KeyEvent) bool {
	switch k.Name {
	case fyne.KeyDown:
		c.mark(c.at + 1)
	case fyne.KeyUp:
		c.mark(c.at - 1)
	case fyne.KeyPageDown:
		c.mark(c.at + 10)
	case fyne.KeyPageUp:
		c.mark(c.at - 10)
	default:
		return false
	}
	return true
}

// Widths in a chooser: of the box, of what stands at the right of its lines, and
// of the edges of box, list and letters.
const (
	chooserWidth = 620
	chooserSide  = 170
	chooserEdges = 60
)

// room is the width that the words of a line have.
func (c *chooser) room() float32 {
	return min(chooserWidth, c.ed.win.Canvas().Size().Width-40) - chooserSide - chooserEdges
}

// rows is how many lines of text a line takes.
func (c *chooser) rows(i int) int {
	if fyne.MeasureText(c.lines[i].title, theme.TextSize(), fyne.TextStyle{}).Width <= c.room() {
		return 1
	}
	return min(linesIn(c.lines[i].title, c.room(), theme.TextSize()), 2)
}

func (c *chooser) narrow(text string) {
	c.lines = c.find(text)
	show(c.none, len(c.lines) == 0)
	c.tall.fit(&c.list.List, len(c.lines), c.rows)
	c.list.Refresh()
	c.mark(0)
}

func (c *chooser) mark(i int) {
	if len(c.lines) == 0 {
		return
	}
	c.at = max(0, min(i, len(c.lines)-1))
	c.silent = true
	c.list.Select(c.at)
	c.silent = false
}

func (c *chooser) take(i int) {
	if i < 0 || i >= len(c.lines) || c.lines[i].off {
		return
	}
	c.box.close()
	c.lines[i].run()
}

// commandList finds any command by its name and runs it.
func (ed *Editor) commandList() {
	ed.openChooser("Find a command", "Type what you want to do", func(text string) []chooserLine {
		var lines []chooserLine
		for _, a := range ed.recentFirst(text) {
			if a.ID == "help.list" {
				continue
			}
			side := strings.ReplaceAll(a.Menu, "/", " › ")
			if len(a.Keys) > 0 {
				side = keyText(a.Keys[0])
			}
			title, off := a.TitleNow(), !a.IsEnabled()
			if off {
				title += "  (" + a.Needs + ")"
			}
			lines = append(lines, chooserLine{title: title, side: side, off: off, run: func() { ed.store.rememberCommand(a.ID); a.Do() }})
		}
		return lines
	})
}

// recentFirst returns the commands that match a text; with no text those used
// last come first.
func (ed *Editor) recentFirst(text string) []*action.Action {
	found := ed.actions.Search(text)
	if strings.TrimSpace(text) != "" {
		return found
	}
	last := ed.store.Commands
	at := func(a *action.Action) int {
		if i := slices.Index(last, a.ID); i >= 0 {
			return i
		}
		return len(last)
	}
	slices.SortStableFunc(found, func(a, b *action.Action) int { return at(a) - at(b) })
	return found
}

// findDialog goes to a part, wire or note by its name.
func (ed *Editor) findDialog() {
	all := ed.namedThings()
	ed.openChooser("Find a part or wire", "Designation, purpose, kind, value, colour …", func(text string) []chooserLine { return narrow(all, text) })
}

// narrow returns the lines that hold every word of a text: the thing of that
// name first, then those whose names begin so.
func narrow(all []chooserLine, text string) []chooserLine {
	words := strings.Fields(strings.ToLower(text))
	var lines []chooserLine
	for _, x := range all {
		hay := strings.ToLower(x.title + " " + x.side + " " + x.words)
		fits := true
		for _, w := range words {
			fits = fits && strings.Contains(hay, w)
		}
		if fits {
			lines = append(lines, x)
		}
	}
	if len(words) == 0 {
		return lines
	}
	rank := func(x chooserLine) int {
		name, _, _ := strings.Cut(strings.ToLower(x.title), " ")
		switch {
		case name == words[0]:
			return 0
		case strings.HasPrefix(name, words[0]):
			return 1
		}
		return 2
	}
	slices.SortStableFunc(lines, func(a, b chooserLine) int { return rank(a) - rank(b) })
	return lines
}

// namedThings lists what can be gone to: parts, wires, notes.
func (ed *Editor) namedThings() []chooserLine {
	doc := ed.doc()
	where := func(k schematic.Key) string {
		if p, ok := view.PlaceOf(doc, k, ed.sheet); ok {
			return doc.Sheet(p.Sheet).Name
		}
		return ""
	}
	var lines []chooserLine
	for _, p := range sortedByName(doc.Parts()) {
		what := p.Label
		if k := doc.KindOf(p); k != nil {
			if what != "" {
				what += ", "
			}
			what += k.Title
		}
		words := []string{p.Number, p.Notes, ed.valueWords(p)}
		for _, pin := range p.Pins {
			words = append(words, pin.Title)
		}
		lines = append(lines, chooserLine{title: p.Name + "  " + what, side: where(p.Key()), words: strings.Join(words, " "), run: func() { ed.jump(p.Key()) }})
	}
	for _, w := range sortedByName(doc.Wires()) {
		text := w.Name + "  " + ed.details.endText(w.A) + " to " + ed.details.endText(w.B)
		if w.Circuit != "" {
			text += ", " + w.Circuit
		}
		words := []string{w.Color.String(), w.Insulation, w.Notes}
		if w.Size.Known() {
			words = append(words, w.Size.String())
		}
		lines = append(lines, chooserLine{title: text, side: where(w.Key()), words: strings.Join(words, " "), run: func() { ed.jump(w.Key()) }})
	}
	notes := slices.SortedFunc(doc.Notes(), func(a, b *schematic.Note) int {
		return cmp.Or(strings.Compare(a.Text, b.Text), a.Key().Compare(b.Key()))
	})
	for _, n := range notes {
		first, rest, _ := strings.Cut(n.Text, "\n")
		lines = append(lines, chooserLine{title: "Note  " + first, side: where(n.Key()), words: rest, run: func() { ed.jump(n.Key()) }})
	}
	return lines
}

// valueWords prints the values of a part to find it by: "30 A".
func (ed *Editor) valueWords(p *schematic.Part) string {
	k := ed.doc().KindOf(p)
	if k == nil {
		return ""
	}
	var words []string
	for _, prm := range k.Params {
		if v, ok := p.Values[prm.Name]; ok {
			words = append(words, unit.Format(prm.Quantity(), v, ed.system()))
		}
	}
	return strings.Join(words, " ")
}

// askText asks for one line of text; use says what is wrong with it.
func (ed *Editor) askText(title, name, text string, use func(string) error) *box {
	input := newEntry(nil)
	input.SetText(text)
	note := complaint()
	note.SizeName = theme.SizeNameCaptionText
	b := &box{title: title, size: fyne.NewSize(440, 0), first: input, content: container.NewVBox(gap(2), row(name, input), note)}
	b.answers = []answer{{text: "Use it", main: true, stays: true, deed: func() {
		if err := use(strings.TrimSpace(input.Text)); err != nil {
			b.complain(note, err)
			return
		}
		b.close()
	}}, {text: "Go back"}}
	b.field(input)
	b.ready = func() { input.TypedShortcut(&fyne.ShortcutSelectAll{}) }
	return ed.openBox(b)
}

// showKeys lists every key and what the mouse does.
func (ed *Editor) showKeys() {
	const roomForKeys = 1000 // in three columns, without cutting what the commands are called
	column := func(menus ...string) fyne.CanvasObject {
		box := container.NewVBox()
		for _, m := range menus {
			lines := ed.keyLines(m)
			if len(lines) == 0 {
				continue
			}
			h := widget.NewLabel(m)
			h.TextStyle.Bold = true
			box.Add(h)
			for _, l := range lines {
				k := widget.NewLabel(l.side)
				k.Importance = widget.HighImportance
				t := widget.NewLabel(l.title)
				t.Truncation = fyne.TextTruncateEllipsis
				box.Add(container.New(columns{112, 0}, k, t))
			}
		}
		return box
	}
	mouse := container.NewVBox()
	for _, part := range []struct {
		title string
		lines []chooserLine
	}{{"Mouse", mouseLines()}, {"Without a mouse", pointerLines()}} {
		h := widget.NewLabel(part.title)
		h.TextStyle.Bold = true
		mouse.Add(h)
		for _, l := range part.lines {
			k := widget.NewLabel(l.side)
			k.Importance = widget.HighImportance
			mouse.Add(container.New(stackTight{}, k, container.New(padded{12, 0}, wrapped(l.title))))
		}
	}
	first, second := column("File", "Edit"), column("Select", "Arrange", "View", "Draw", "Sheets", "Check", "Help")
	grid := container.NewGridWithColumns(3, first, second, mouse)
	if room := ed.win.Canvas().Size().Width; room < roomForKeys*2/3 {
		grid = container.NewVBox(first, second, mouse)
	} else if room < roomForKeys {
		grid = container.NewGridWithColumns(2, container.NewVBox(first, mouse), second)
	}
	content := container.NewVScroll(container.New(clearOfBar{}, grid))
	ed.openBox(&box{title: "Keys and mouse", about: "keys", content: content, size: fyne.NewSize(1020, 700), answers: []answer{{text: "Change keys…", deed: ed.changeKeys}, {text: "Close", main: true}}})
}

func mouseLines() []chooserLine {
	return []chooserLine{
		{side: "Press", title: "Select, or do what the tool in hand does"},
		{side: "Shift and press", title: "Add to the selection, or take out of it"},
		{side: "Alt and press", title: "Select what lies beneath, one deeper each time"},
		{side: "Drag from left to right", title: "Select what lies wholly in the area (solid frame)"},
		{side: "Drag from right to left", title: "Select what the area touches (dashed frame)"},
		{side: "Shift, Ctrl or Alt in such a drag", title: "Add to the selection, take out of it, select the other way"},
		{side: "Drag a thing", title: "Move it; with Ctrl a copy, with Alt off grid and guides"},
		{side: "Press twice", title: "Edit the details of a thing"},
		{side: "Wheel", title: "Zoom at the pointer; with Ctrl move the sheet"},
		{side: "Drag with the middle or right button", title: "Move the sheet"},
		{side: "Right button", title: "Commands for the thing under the pointer"},
	}
}

// keyLines lists the commands of a menu that have keys; arrow keys belong to
// Edit.
func (ed *Editor) keyLines(menu string) []chooserLine {
	var lines []chooserLine
	for _, a := range ed.actions.All() {
		if len(a.Keys) == 0 || menuOf(a) != menu {
			continue
		}
		lines = append(lines, chooserLine{title: a.Title, side: keyText(a.Keys[0])})
	}
	return lines
}

func menuOf(a *action.Action) string {
	top, _, _ := strings.Cut(a.Menu, "/")
	if top != "" {
		return top
	}
	if strings.HasPrefix(a.ID, "edit.") {
		return "Edit"
	}
	return ""
}
