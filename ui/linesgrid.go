package ui

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/netlist/table"
)

// lineRows is a short list of lines of texts as rows of a grid, in which lines
// can be added, moved, removed and pasted.
type lineRows struct {
	titles []gridColumn
	lines  [][]string
	check  func(col int, text string) error
	grid   *grid
}

// maxLines bounds what a person means to type.
const maxLines = 200

func (m *lineRows) columns() []gridColumn      { return m.titles }
func (m *lineRows) rows() int                  { return len(m.lines) }
func (m *lineRows) face(row, col int) gridFace { return gridFace{text: m.lines[row][col]} }
func (m *lineRows) input(row, col int) string  { return m.lines[row][col] }
func (m *lineRows) sort(int)                   {}
func (m *lineRows) sorted() (int, bool)        { return -1, false }

func (m *lineRows) enter(rows []int, col int, text string) error {
	if err := m.check(col, text); err != nil {
		return err
	}
	for _, r := range rows {
		m.lines[r][col] = strings.TrimSpace(text)
	}
	m.grid.Refresh()
	return nil
}

func (m *lineRows) paste(text string, _ []int, row, col int) error {
	block, err := table.Block(text)
	if err != nil {
		return err
	}
	if row+len(block) > maxLines {
		return fmt.Errorf("%d lines are too many: %d at most", row+len(block), maxLines)
	}
	lines := make([][]string, len(m.lines))
	for i := range lines {
		lines[i] = slices.Clone(m.lines[i])
	}
	for i, line := range block {
		for len(lines) <= row+i {
			lines = append(lines, make([]string, len(m.titles)))
		}
		for j, s := range line {
			if col+j >= len(m.titles) {
				return fmt.Errorf("line %d has %d cells, but only %d columns are left from here on", i+1, len(line), len(m.titles)-col)
			}
			if err := m.check(col+j, s); err != nil {
				return fmt.Errorf("line %d: %w", i+1, err)
			}
			lines[row+i][col+j] = s
		}
	}
	m.lines = lines
	m.grid.Refresh()
	return nil
}

func (m *lineRows) copied(rows []int) string {
	var b strings.Builder
	for _, r := range rows {
		b.WriteString(strings.Join(m.lines[r], "\t") + "\n")
	}
	return b.String()
}

// add appends an empty line and takes it in hand.
func (m *lineRows) add() {
	if len(m.lines) == maxLines {
		return
	}
	m.lines = append(m.lines, make([]string, len(m.titles)))
	m.grid.move(len(m.lines)-1-m.grid.row, -m.grid.col, false)
	m.grid.Refresh()
	m.grid.ed.win.Canvas().Focus(m.grid)
}

func (m *lineRows) remove() {
	rows := m.grid.rowsChosen()
	slices.Reverse(rows)
	for _, r := range rows {
		m.lines = slices.Delete(m.lines, r, r+1)
	}
	m.grid.row = max(0, min(m.grid.row, len(m.lines)-1))
	m.grid.mark(nil)
}
