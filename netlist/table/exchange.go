package table

import (
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Lines returns the text of some rows and columns as spreadsheets copy it: tabs
// between cells, a line for each row. Head puts the titles first.
func (t *Table) Lines(rows []Row, cols []int, head bool) string {
	var b strings.Builder
	line := func(cell func(col int) string) {
		for i, c := range cols {
			if i > 0 {
				b.WriteByte('\t')
			}
			b.WriteString(strings.Join(strings.Fields(cell(c)), " "))
		}
		b.WriteByte('\n')
	}
	if head {
		line(func(c int) string { return t.Columns[c].Title })
	}
	for _, r := range rows {
		line(func(c int) string { return t.Text(r, c) })
	}
	return b.String()
}

// WriteCSV writes some rows and columns with their titles as comma separated
// values (RFC 4180).
func (t *Table) WriteCSV(w io.Writer, rows []Row, cols []int) error {
	out := csv.NewWriter(w)
	record := make([]string, len(cols))
	write := func(cell func(col int) string) error {
		for i, c := range cols {
			record[i] = cell(c)
		}
		return out.Write(record)
	}
	if err := write(func(c int) string { return t.Columns[c].Title }); err != nil {
		return fmt.Errorf("write the table: %w", err)
	}
	for _, r := range rows {
		if err := write(func(c int) string { return t.Text(r, c) }); err != nil {
			return fmt.Errorf("write the table: %w", err)
		}
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return fmt.Errorf("write the table: %w", err)
	}
	return nil
}

// AllColumns returns the indices of all columns.
func (t *Table) AllColumns() []int {
	all := make([]int, len(t.Columns))
	for i := range all {
		all[i] = i
	}
	return all
}

// maxBlock bounds what is pasted at once.
const maxBlock = 1 << 20

// Block reads a block of cells as a spreadsheet copies it: separated by tabs,
// or, where there are none, by semicolons or commas with the quotes of RFC 4180.
// A comma between digits is a decimal comma, and one in a single line belongs
// to the text. Empty lines are left out.
func Block(text string) ([][]string, error) {
	if len(text) > maxBlock {
		return nil, fmt.Errorf("the text is longer than %d characters: paste it in parts", maxBlock)
	}
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	var lines [][]string
	comma := separator(text)
	r := csv.NewReader(strings.NewReader(text))
	r.Comma, r.FieldsPerRecord, r.LazyQuotes, r.TrimLeadingSpace = comma, -1, true, false
	for {
		rec, err := r.Read()
		if err == io.EOF {
			return lines, nil
		}
		if err != nil {
			return nil, fmt.Errorf("the text cannot be read as a table: %w", err)
		}
		for i := range rec {
			rec[i] = strings.TrimSpace(rec[i])
		}
		if slices.ContainsFunc(rec, func(s string) bool { return s != "" }) {
			lines = append(lines, rec)
		}
	}
}

func separator(text string) rune {
	if strings.Contains(text, "\t") {
		return '\t'
	}
	lines := strings.FieldsFunc(text, func(r rune) bool { return r == '\n' })
	if len(lines) > 0 && !slices.ContainsFunc(lines, func(l string) bool { return !strings.Contains(l, ";") }) {
		return ';'
	}
	if len(lines) > 1 && !slices.ContainsFunc(lines, func(l string) bool { return !splitByComma(l) }) {
		return ','
	}
	return '\t'
}

// splitByComma reports whether a line has a comma that is no decimal comma.
func splitByComma(line string) bool {
	digit := func(i int) bool { return i >= 0 && i < len(line) && line[i] >= '0' && line[i] <= '9' }
	for i := range len(line) {
		if line[i] == ',' && !(digit(i-1) && digit(i+1)) {
			return true
		}
	}
	return false
}

// Fill returns the cells that a pasted block means when its first cell goes to
// rows[at] in column cols[col]. One single cell fills all of chosen rows. It is
// an error when the block reaches beyond the last row or column.
func (t *Table) Fill(block [][]string, rows []Row, at int, chosen []Row, cols []int, col int) ([]Cell, error) {
	if len(block) == 0 {
		return nil, fmt.Errorf("there is nothing to paste: copy some cells first")
	}
	if len(block) == 1 && len(block[0]) == 1 && len(chosen) > 1 {
		var cells []Cell
		for _, r := range chosen {
			cells = append(cells, Cell{r, cols[col], block[0][0]})
		}
		return cells, nil
	}
	if at+len(block) > len(rows) {
		return nil, fmt.Errorf("%d lines were copied, but only %d rows are left from here on", len(block), len(rows)-at)
	}
	var cells []Cell
	for i, line := range block {
		if col+len(line) > len(cols) {
			return nil, fmt.Errorf("line %d has %d cells, but only %d columns are left from here on", i+1, len(line), len(cols)-col)
		}
		for j, text := range line {
			cells = append(cells, Cell{rows[at+i], cols[col+j], text})
		}
	}
	return cells, nil
}
