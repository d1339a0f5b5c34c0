package ui

// This file is what the grid of a table shows and edits: its gridModel.

import (
	"fmt"
	"strings"

	"loomwright/netlist/check"
	"loomwright/netlist/table"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

func (t *tablePanel) columns() []gridColumn { return t.titles }

func (t *tablePanel) rows() int { return len(t.shown) }

func (t *tablePanel) face(row, col int) gridFace {
	r := t.shown[row]
	f := gridFace{text: t.table.Text(r, col)}
	switch t.table.Columns[col].ID {
	case "colour":
		if c, err := schematic.ParseColor(f.text); err == nil {
			f.wire = c
		}
	case "finding":
		if x, ok := t.table.Worst(r); ok && x.Severity <= check.Warning {
			f.color = shadeOf(x.Severity).color
		}
	default:
		if f.text == "not known" {
			f.color = colorFaint
		}
	}
	return f
}

func (t *tablePanel) input(row, col int) string { return t.table.Input(t.shown[row], col) }

func (t *tablePanel) enter(rows []int, col int, text string) error {
	cells := make([]table.Cell, len(rows))
	for i, r := range rows {
		cells[i] = table.Cell{Row: t.shown[r], Col: col, Text: text}
	}
	if len(rows) == 1 { // said at the cell: no need to name it
		f, err := t.table.Edit(cells[0].Row, col, text)
		return t.apply(f, err, "set "+strings.ToLower(t.table.Columns[col].Title)+" of "+t.table.NameOf(cells[0].Row))
	}
	f, err := t.table.Change(cells)
	return t.apply(f, err, "set "+strings.ToLower(t.table.Columns[col].Title)+" of "+count(len(rows), t.noun))
}

// apply makes a change of the table one step of the history. What is selected
// stays selected, also when the change draws wires.
func (t *tablePanel) apply(f func(*edit.Tx) error, err error, label string) error {
	if err != nil || f == nil {
		return err
	}
	keys, before := t.ed.sess.Selection(), t.ed.doc()
	t.quiet, t.held = true, true
	defer func() { t.quiet, t.typed = false, t.ed.doc() }()
	err = t.ed.try(label, func(tx *edit.Tx) error {
		if err := f(tx); err != nil {
			return err
		}
		tx.Select(keys...)
		return nil
	})
	if err == nil {
		t.ed.edited(before)
	}
	return err
}

func (t *tablePanel) paste(text string, chosen []int, row, col int) error {
	block, err := table.Block(text)
	if err != nil {
		return err
	}
	var rows []table.Row
	for _, i := range chosen {
		rows = append(rows, t.shown[i])
	}
	var rest [][]string
	if n := max(0, len(t.shown)-row); t.beyond != nil && len(block) > n || t.beyond != nil && table.Titled(block) {
		if table.Titled(block) {
			n = 0 // a list with titles is one of new rows
		}
		block, rest = block[:n], block[n:]
	}
	if len(block) == 0 && len(rest) > 0 {
		return t.beyond(rest, col)
	}
	cells, err := t.table.Fill(block, t.shown, row, rows, t.table.AllColumns(), col)
	if err != nil {
		return err
	}
	f, err := t.table.Change(cells)
	if err := t.apply(f, err, fmt.Sprintf("paste %d cells", len(cells))); err != nil || len(rest) == 0 {
		return err
	}
	return t.beyond(rest, col)
}

func (t *tablePanel) copied(rows []int) string {
	list := make([]table.Row, len(rows))
	for i, r := range rows {
		list[i] = t.shown[r]
	}
	return t.table.Lines(list, t.table.AllColumns(), false)
}

// sort sorts by a column; pressed again the other way round, then not at all.
func (t *tablePanel) sort(col int) {
	switch {
	case !t.view.Sorted || t.view.By != col:
		t.view.Sorted, t.view.By, t.view.Down = true, col, false
	case t.held: // edits left the order behind: bring it up to date first
	case !t.view.Down:
		t.view.Down = true
	default:
		t.view.Sorted = false
	}
	t.anew()
}

func (t *tablePanel) sorted() (int, bool) {
	if !t.view.Sorted {
		return -1, false
	}
	return t.view.By, t.view.Down
}
