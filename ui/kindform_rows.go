package ui

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/netlist/table"
	"loomwright/schematic/draft"
)

// draftRows is a list of a kind as rows of a grid.
type draftRows struct {
	form *kindForm
	list *draft.List
	grid *grid
}

func (m *draftRows) columns() []gridColumn {
	var cols []gridColumn
	for _, c := range m.list.Columns {
		cols = append(cols, gridColumn{title: c.Title, help: c.Help, letters: c.Letters, editable: true})
	}
	return cols
}

func (m *draftRows) rows() int                    { return m.list.Len() }
func (m *draftRows) face(row, col int) gridFace   { return gridFace{text: m.list.Text(row, col)} }
func (m *draftRows) input(row, col int) string    { return m.list.Text(row, col) }
func (m *draftRows) sort(int)                     {}
func (m *draftRows) sorted() (col int, down bool) { return -1, false }

func (m *draftRows) enter(rows []int, col int, text string) error {
	defer m.form.changed()
	for _, r := range rows {
		if err := m.list.Set(r, col, text); err != nil {
			return err
		}
	}
	return nil
}

// paste puts a block into the list, which grows where the block is longer.
func (m *draftRows) paste(text string, _ []int, row, col int) error {
	block, err := cellBlock(text)
	if err != nil {
		return err
	}
	defer m.form.changed()
	const most = 400
	if row+len(block) > most {
		return fmt.Errorf("%d lines are more than a part kind can have", row+len(block))
	}
	for i, line := range block {
		for m.list.Len() <= row+i {
			m.list.Add()
		}
		for j, s := range line {
			if s == "" || col+j >= len(m.list.Columns) {
				continue
			}
			if err := m.list.Set(row+i, col+j, s); err != nil {
				return fmt.Errorf("line %d: %w", i+1, err)
			}
		}
	}
	return nil
}

// cellBlock reads a block of cells whose texts may hold commas, such as points:
// without tabs every line is one cell.
func cellBlock(text string) ([][]string, error) {
	if strings.Contains(text, "\t") {
		return table.Block(text)
	}
	var block [][]string
	for line := range strings.Lines(text) {
		if line = strings.TrimSpace(line); line != "" {
			block = append(block, []string{line})
		}
	}
	return block, nil
}

func (m *draftRows) copied(rows []int) string {
	var b strings.Builder
	for _, r := range rows {
		for c := range m.list.Columns {
			if c > 0 {
				b.WriteByte('\t')
			}
			b.WriteString(m.list.Text(r, c))
		}
		b.WriteByte('\n')
	}
	return b.String()
}

func (m *draftRows) move(by int) {
	if m.list.Move(m.grid.row, by) {
		m.grid.move(by, 0, false)
	}
}

func (m *draftRows) remove() {
	rows := m.grid.rowsChosen()
	slices.Reverse(rows)
	for _, r := range rows {
		m.list.Remove(r)
	}
	m.grid.mark(nil)
}
