package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/netlist/table"
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/route"
)

// wireListForm draws wires from a list that is pasted or typed. What each row
// comes to is said while it is worked on.
type wireListForm struct {
	ed     *Editor
	lines  []table.WireLine
	checks []table.WireCheck
	grid   *grid
	box    *box
	word   *widget.Label // what is to be said of the row in hand
	tally  *widget.Label
	note   *widget.Label
	only   *ticked
	more   *ticked
}

// wireListColumn is the column before the fields: what a row comes to.
const wireListColumn = "In order?"

// emptyLines are in a list that begins from nothing.
const emptyLines = 12

// newWireList opens a list of wires, filled from the clipboard where that holds
// one with titles on top.
func (ed *Editor) newWireList() {
	f := &wireListForm{ed: ed, lines: make([]table.WireLine, emptyLines)}
	f.open()
	if block, err := table.Block(ed.app.Clipboard().Content()); err == nil && table.Titled(block) {
		f.grid.row, f.grid.col = 0, 0
		f.grid.paste()
		f.grid.col = 1
		f.grid.Refresh()
	}
}

// openWireList opens a list of wires with some lines.
func (ed *Editor) openWireList(lines []table.WireLine) {
	f := &wireListForm{ed: ed, lines: lines}
	f.open()
}

func (f *wireListForm) open() {
	f.grid = newGrid(f.ed, f)
	f.grid.StickyColumnCount = 1
	f.grid.col = 1
	f.grid.picked = f.say
	f.word, f.tally, f.note = widget.NewLabel(""), widget.NewLabel(""), complaint()
	f.word.Wrapping = fyne.TextWrapWord
	f.tally.TextStyle.Bold = true
	f.only = newTicked(f.ed.typedKey, "Draw only the rows in order", func(bool) { f.note.Hide() })
	f.more = newTicked(f.ed.typedKey, "Show a part on a second sheet where a wire needs it", func(bool) { f.check() })
	f.box = &box{title: "New wires from pasted rows", size: fyne.NewSize(1240, 700)}
	f.grid.escape, f.grid.done = f.box.escape, f.box.enter
	tool := func(text, tip string, deed func()) fyne.CanvasObject {
		return newButton(f.ed.tips, text, "", tip, deed)
	}
	bar := container.NewHBox(
		tool("Paste rows", "Put the clipboard in from the row in hand on (Ctrl+V in the table)", f.grid.paste),
		tool("Add a row", "One more row at the end", f.add),
		tool("Remove", "Take the selected rows out of the list", f.remove),
		tool("Next wrong row", "Go to the next row that is not in order", f.nextWrong))
	hint := remark("Copy the rows of your wire list with the titles of its columns on top: the columns may be in any order. Without titles they go into the columns as they stand here. Parts must be on the drawing already.").CanvasObject
	ticks := container.NewHBox(f.only, f.more)
	f.box.content = container.NewBorder(container.NewBorder(nil, nil, bar, f.tally), container.New(stackTight{}, f.word, ticks, hint, f.note), nil, nil, f.grid.box)
	f.box.answers = []answer{{text: "Draw the wires", main: true, stays: true, deed: f.take}, {text: "Go back"}}
	f.box.ready = func() { f.ed.win.Canvas().Focus(f.grid) }
	f.check()
	f.ed.openBox(f.box)
}

// check looks at all rows anew.
func (f *wireListForm) check() {
	f.checks = table.CheckWires(f.ed.doc(), f.lines, f.more.Checked)
	wires, wrong := table.InOrder(f.checks)
	text := count(len(wires), "wire") + " in order"
	switch {
	case len(wires) == 0 && wrong == 0:
		text = "No wires yet"
	case wrong == 1:
		text += ", 1 row is not"
	case wrong > 1:
		text += fmt.Sprintf(", %d rows are not", wrong)
	}
	f.tally.SetText(text)
	f.note.Hide()
	f.say()
	f.grid.Refresh()
}

// say tells what the row in hand comes to.
func (f *wireListForm) say() {
	text := ""
	if f.grid.row < len(f.checks) {
		switch k := f.checks[f.grid.row]; {
		case k.Bare:
		case k.Err != nil:
			text = fmt.Sprintf("Row %d: %v", f.grid.row+1, k.Err)
		default:
			text = fmt.Sprintf("Row %d is in order", f.grid.row+1)
			if k.Note != "" {
				text += "; " + k.Note
			}
			text += "."
		}
	}
	f.word.SetText(text)
}

func (f *wireListForm) add() {
	f.lines = append(slices.Clone(f.lines), table.WireLine{})
	f.check()
	f.grid.move(len(f.lines), 0, false)
	f.ed.win.Canvas().Focus(f.grid)
}

func (f *wireListForm) remove() {
	chosen := f.grid.rowsChosen()
	var left []table.WireLine
	for i, l := range f.lines {
		if !slices.Contains(chosen, i) {
			left = append(left, l)
		}
	}
	if len(left) == 0 {
		left = make([]table.WireLine, 1)
	}
	f.lines = left
	f.grid.row = min(f.grid.row, len(left)-1)
	f.grid.mark(nil)
	f.check()
}

// nextWrong takes the next row in hand that is not in order, round the end.
func (f *wireListForm) nextWrong() {
	for n := range f.checks {
		i := (f.grid.row + 1 + n) % len(f.checks)
		if f.checks[i].Err != nil {
			f.grid.pick(i, f.checks[i].At+1, 0)
			f.grid.bring(f.grid.row, f.grid.col)
			f.ed.win.Canvas().Focus(f.grid)
			return
		}
	}
}

// take draws the wires; where something is wrong the box stays open.
func (f *wireListForm) take() {
	if f.grid.editor.Visible() && !f.grid.commit() {
		return
	}
	f.check()
	wires, wrong := table.InOrder(f.checks)
	var err error
	switch {
	case wrong > 0 && !f.only.Checked:
		err = fmt.Errorf("nothing was drawn: %s not in order. Mend what is wrong, take it out, or tick %q", are(wrong, "row"), f.only.Text)
		f.grid.row = -1
		f.nextWrong()
	case len(wires) == 0:
		err = fmt.Errorf("there is nothing to draw: paste or write some rows first")
	default:
		err = f.draw(wires, wrong)
	}
	if err != nil {
		f.box.complain(f.note, err)
	}
}

// are is count with its verb.
func are(n int, noun string) string {
	if n == 1 {
		return "1 " + noun + " is"
	}
	return count(n, noun) + " are"
}

// draw puts the wires on the drawing as one step, on the ways found for them.
func (f *wireListForm) draw(wires []schematic.Wire, left int) error {
	showMore := f.more.Checked
	trial := edit.Begin(f.ed.doc(), nil)
	if err := edit.AddWires(trial, wires, showMore); err != nil {
		return err
	}
	var ids []schematic.ID
	for i, k := range trial.Selected() {
		wires[i].ID = k.ID // the same again below
		ids = append(ids, k.ID)
	}
	f.box.close()
	f.ed.waysFor(trial.Doc(), ids, func(vias route.Vias) {
		done := f.ed.do("draw "+count(len(wires), "wire")+" from a list", func(tx *edit.Tx) error {
			if err := edit.AddWires(tx, wires, showMore); err != nil {
				return err
			}
			return edit.SetBends(tx, vias)
		})
		if !done {
			return
		}
		f.ed.jump(f.ed.sess.Selection()...)
		told := "drew " + count(len(wires), "wire")
		if left > 0 {
			told += ", left out " + count(left, "row")
		}
		f.ed.status.tell(told)
	}, func() { f.ed.openBox(f.box) })
	return nil
}

// The grid's model: what a row comes to, then the fields.

func (f *wireListForm) columns() []gridColumn {
	cols := []gridColumn{{title: wireListColumn, help: "Whether the row can be drawn, and what is wrong where not", letters: 27}}
	for _, c := range table.WireFields() {
		cols = append(cols, gridColumn{title: c.Title, help: c.Help, letters: c.Letters, editable: true})
	}
	return cols
}

func (f *wireListForm) rows() int { return len(f.lines) }

func (f *wireListForm) face(row, col int) gridFace {
	k := f.checks[row]
	if col == 0 {
		switch {
		case k.Bare:
			return gridFace{}
		case k.Err != nil:
			return gridFace{text: "no: " + k.Err.Error(), color: theme.ColorNameError}
		case k.Note != "":
			return gridFace{text: "yes; " + k.Note}
		}
		return gridFace{text: "yes"}
	}
	g := gridFace{text: f.lines[row][col-1]}
	switch {
	case k.Err != nil && k.At == col-1:
		g.color = theme.ColorNameError
	case col-1 == table.LineColour:
		if c, err := table.ColorNamed(g.text); err == nil {
			g.wire = c
		}
	}
	return g
}

func (f *wireListForm) input(row, col int) string {
	if col == 0 {
		return ""
	}
	return f.lines[row][col-1]
}

// enter takes any text: what is wrong with it is said beside the row.
func (f *wireListForm) enter(rows []int, col int, text string) error {
	if col == 0 {
		return fmt.Errorf("%q follows from the row: work in the columns beside it", wireListColumn)
	}
	f.lines = slices.Clone(f.lines)
	for _, r := range rows {
		f.lines[r][col-1] = strings.TrimSpace(text)
	}
	f.check()
	return nil
}

func (f *wireListForm) paste(text string, chosen []int, row, col int) error {
	block, err := table.Block(text)
	if err != nil {
		return err
	}
	if len(block) == 1 && len(block[0]) == 1 && len(chosen) > 1 {
		return f.enter(chosen, col, block[0][0])
	}
	lines, strange, err := table.PasteWires(f.lines, block, row, max(0, col-1))
	if err != nil {
		return err
	}
	f.lines = lines
	f.check()
	if len(strange) > 0 {
		return fmt.Errorf("left out, for want of a column: %s", strings.Join(strange, ", "))
	}
	return nil
}

func (f *wireListForm) copied(rows []int) string {
	var b strings.Builder
	for _, r := range rows {
		b.WriteString(strings.Join(f.lines[r][:], "\t") + "\n")
	}
	return b.String()
}

// sort does nothing: the order is that of the list.
func (f *wireListForm) sort(int) {}

func (f *wireListForm) sorted() (int, bool) { return -1, false }
