package ui

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/unit"
	"loomwright/netlist/table"
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// connectorForm makes a connector with its pin table, or edits that of a part.
type connectorForm struct {
	ed    *Editor
	part  schematic.ID // zero: a new one
	at    geom.Point   // where a new one goes
	lines []table.PinLine
	grid  *grid
	box   *box
	note  *widget.Label

	count  *entry
	kind   *pick
	label  *entry
	gender *pick
	sealed *ticked
	size   [2]*entry // smallest and largest wire of a terminal, mm²
	width  *entry
}

// connectorWays are what a new connector can be, with the kind it is made of.
func connectorWays() []struct {
	title, kind string
	alone       bool
} {
	return []struct {
		title, kind string
		alone       bool
	}{
		{"In-line pair, plugged", "connector-plug", false},
		{"Plug half alone", "connector-plug", true},
		{"Receptacle half alone", "connector-receptacle", true},
		{"Header on a unit, with its plug", "connector-header", false},
		{"Header on a unit alone", "connector-header", true},
	}
}

const gendersUnknown = "contacts not given"

func genders() []string { return []string{gendersUnknown, "pin contacts", "socket contacts"} }

// newConnector asks what connector to make.
func (ed *Editor) newConnector() {
	f := &connectorForm{ed: ed, lines: table.NewPinLines(4), at: ed.aimPoint().Snap(geom.Grid)}
	f.open("New connector", "Make it")
}

// ownPinsSelected returns the one selected part that brings its own pins, or the
// first of two halves plugged together.
func (ed *Editor) ownPinsSelected() *schematic.Part {
	ps := ed.selectedParts()
	if len(ps) != 1 && (len(ps) != 2 || ps[0].Mate != ps[1].ID) {
		return nil
	}
	if k := ed.doc().KindOf(ps[0]); k == nil || !k.OwnPins {
		return nil
	}
	return ps[0]
}

// editPinTable opens the pin table of the selected part.
func (ed *Editor) editPinTable() {
	p := ed.ownPinsSelected()
	f := &connectorForm{ed: ed, part: p.ID, lines: table.PinLinesOf(ed.doc(), p.ID)}
	f.open("Pin table of "+p.Name, "Use it")
}

func (f *connectorForm) fresh() bool { return f.part == schematic.ID{} }

// open opens the form; verb is the answer that takes what it says.
func (f *connectorForm) open(title, verb string) {
	f.grid = newGrid(f.ed, f)
	f.grid.col = 1 // cavities have their numbers already
	f.note = complaint()
	f.count = newEntry(nil)
	f.count.SetText(strconv.Itoa(len(f.lines)))
	f.count.changed = func(s string) { f.resize(s) }
	f.box = &box{title: title, size: fyne.NewSize(860, 640), first: f.count}
	f.grid.escape, f.grid.done = f.box.escape, f.box.enter
	f.box.field(f.count)
	add := newButton(f.ed.tips, "Add a cavity", "plus", "One more line", func() { f.count.SetText(strconv.Itoa(len(f.lines) + 1)) })
	paste := newButton(f.ed.tips, "Paste a table", "", "Fill the table from a spreadsheet; titles on top are understood (Ctrl+V in the table)", func() {
		f.grid.row, f.grid.col = 0, 0
		f.grid.paste()
	})
	count := container.NewBorder(nil, nil, nil, container.NewHBox(add, paste), f.count)
	hint := remark("Name a pin such as F3.1 under \"Goes to\" to draw the wire there, or write \"loose\". Enter edits a cell, Ctrl+V pastes from a spreadsheet, Ctrl+D fills down, Ctrl+Enter is done.").CanvasObject
	head := container.NewVBox(row("Cavities", count))
	if f.fresh() {
		head = container.NewVBox(container.NewGridWithColumns(2, f.leftFields(count), f.rightFields()))
	}
	f.box.content = container.NewBorder(head, container.New(stackTight{}, hint, f.note), nil, nil, f.grid.box)
	f.box.answers = []answer{{text: verb, main: true, stays: true, deed: f.take}, {text: "Go back"}}
	f.box.ready = func() { f.count.TypedShortcut(&fyne.ShortcutSelectAll{}) }
	f.ed.openBox(f.box)
}

func (f *connectorForm) leftFields(count fyne.CanvasObject) fyne.CanvasObject {
	var titles []string
	for _, w := range connectorWays() {
		titles = append(titles, w.title)
	}
	f.kind = newPick(f.ed.typedKey, titles, nil)
	f.kind.Selected = titles[0]
	f.label = newEntry(nil)
	f.label.SetPlaceHolder("engine bay to dash")
	f.box.field(f.label)
	return container.NewVBox(row("Cavities", count), row("Sort", f.kind), row("What it does", f.label))
}

func (f *connectorForm) rightFields() fyne.CanvasObject {
	f.gender = newPick(f.ed.typedKey, genders(), nil)
	f.gender.Selected = gendersUnknown
	f.sealed = newTicked(f.ed.typedKey, "Sealed", nil)
	for i, hint := range []string{"from 0.35 mm²", "to 1 mm²"} {
		f.size[i] = newEntry(nil)
		f.size[i].SetPlaceHolder(hint)
		f.box.field(f.size[i])
	}
	f.width = newEntry(nil)
	f.width.SetPlaceHolder("2.8 mm")
	f.box.field(f.width)
	return container.NewVBox(
		row("Contacts", container.NewBorder(nil, nil, nil, f.sealed, f.gender)),
		row("Contact width", f.width),
		row("Terminal takes", container.NewGridWithColumns(2, f.size[0], f.size[1])))
}

// resize follows the number of cavities while it is typed.
func (f *connectorForm) resize(s string) {
	n, err := strconv.Atoi(strings.TrimSpace(s))
	if err != nil {
		return // not yet a number
	}
	lines, err := table.Resize(f.lines, n)
	f.grid.say(err)
	if err == nil {
		f.lines = lines
		f.grid.Refresh()
	}
}

// take makes the connector or changes its pin table; mistakes keep the box open.
func (f *connectorForm) take() {
	if f.grid.editor.Visible() && !f.grid.commit() {
		return
	}
	rows, err := table.Cavities(f.ed.doc(), f.lines)
	if err == nil && f.fresh() {
		err = f.make(rows)
	} else if err == nil {
		err = f.ed.try("set pin table of "+schematic.NameOf(f.ed.doc().Part(f.part)), func(tx *edit.Tx) error { return edit.SetPinout(tx, f.part, rows) })
	}
	if err != nil {
		f.box.complain(f.note, err)
		return
	}
	f.box.close()
	f.ed.chosen()
}

func (f *connectorForm) make(rows []edit.Cavity) error {
	h, err := f.housing()
	if err != nil {
		return err
	}
	way := connectorWays()[max(0, slices.Index(f.kind.Options, f.kind.Selected))]
	c := edit.Connector{Kind: way.kind, Alone: way.alone, Label: strings.TrimSpace(f.label.Text), Housing: h, Rows: rows}
	err = f.ed.try("make a connector", func(tx *edit.Tx) error { return edit.MakeConnector(tx, c, f.ed.sheet, f.at) })
	if sel := f.ed.sess.Selection(); err == nil && len(sel) > 0 {
		f.ed.bringItem(sel[0])
	}
	return err
}

// housing reads what the form says of the connector's body.
func (f *connectorForm) housing() (*schematic.Housing, error) {
	h := &schematic.Housing{Sealed: f.sealed.Checked}
	if g := slices.Index(genders(), f.gender.Selected); g > 0 {
		h.Gender = []string{"", "pin", "socket"}[g]
	}
	for _, n := range []struct {
		name string
		in   *entry
		q    unit.Quantity
		to   *schematic.Num
	}{{"contact width", f.width, unit.Length, &h.ContactMM}, {"smallest wire of a terminal", f.size[0], unit.Area, &h.WireMinMM2}, {"largest wire of a terminal", f.size[1], unit.Area, &h.WireMaxMM2}} {
		if strings.TrimSpace(n.in.Text) == "" {
			continue
		}
		v, err := unit.Parse(n.q, n.in.Text)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", n.name, err)
		}
		*n.to = schematic.Some(v)
	}
	if reflect.DeepEqual(h, &schematic.Housing{}) {
		return nil, nil
	}
	return h, nil
}

// The grid's model.

func (f *connectorForm) columns() []gridColumn {
	var cols []gridColumn
	help := []string{"The name of the cavity", "What it is for", "Code such as BU/WH, or red, blue/white", "mm², AWG or SAE", "A pin such as F3.1, or loose"}
	for i, title := range table.PinFields() {
		cols = append(cols, gridColumn{title: title, help: help[i], letters: []int{10, 32, 16, 16, 24}[i], editable: true})
	}
	return cols
}

func (f *connectorForm) rows() int { return len(f.lines) }

func (f *connectorForm) face(row, col int) gridFace {
	g := gridFace{text: *f.lines[row].Field(col)}
	if col == 2 {
		if c, err := table.ColorNamed(g.text); err == nil {
			g.wire = c
		}
	}
	return g
}

func (f *connectorForm) input(row, col int) string { return *f.lines[row].Field(col) }

func (f *connectorForm) enter(rows []int, col int, text string) error {
	if err := table.CheckPinField(f.ed.doc(), col, text); err != nil {
		return err
	}
	f.lines = slices.Clone(f.lines)
	for _, r := range rows {
		*f.lines[r].Field(col) = strings.TrimSpace(text)
	}
	f.grid.Refresh()
	return nil
}

func (f *connectorForm) paste(text string, _ []int, row, col int) error {
	block, err := table.Block(text)
	if err != nil {
		return err
	}
	lines, err := table.PastePins(f.lines, block, row, col)
	if err != nil {
		return err
	}
	f.lines = lines
	f.count.SetText(strconv.Itoa(len(lines)))
	f.grid.Refresh()
	return nil
}

func (f *connectorForm) copied(rows []int) string {
	var b strings.Builder
	for _, r := range rows {
		for c := range table.PinFields() {
			if c > 0 {
				b.WriteByte('\t')
			}
			b.WriteString(*f.lines[r].Field(c))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

// sort does nothing: the order of the lines is that of the cavities.
func (f *connectorForm) sort(int) {}

func (f *connectorForm) sorted() (int, bool) { return -1, false }
