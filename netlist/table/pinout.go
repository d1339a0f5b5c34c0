package table

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// PinLine is one line of a connector's pin table, as typed or pasted.
type PinLine struct {
	Was    string // the cavity's present name; "" is a new one
	Cavity string
	Name   string // what it is for
	Color  string
	Size   string
	GoesTo string // "F3.1", "loose", or nothing

	part schematic.ID
	had  *PinLine // as it was read from the drawing
}

// The fields of a pin table, as [PinFields] and headings count them.
const (
	fieldCavity = iota
	fieldName
	fieldColor
	fieldSize
	fieldGoesTo
)

// PinFields lists the titles of a pin table in the order of the fields.
func PinFields() []string {
	return []string{
		fieldCavity: "Cavity", fieldName: "What it is for", fieldColor: "Wire colour",
		fieldSize: "Wire size", fieldGoesTo: "Goes to",
	}
}

// Field returns the text of a field, counted as [PinFields] does.
func (l *PinLine) Field(i int) *string {
	return []*string{
		fieldCavity: &l.Cavity, fieldName: &l.Name, fieldColor: &l.Color,
		fieldSize: &l.Size, fieldGoesTo: &l.GoesTo,
	}[i]
}

// bare reports whether the line says nothing but its cavity.
func (l *PinLine) bare() bool { return l.Name == "" && l.Color == "" && l.Size == "" && l.GoesTo == "" }

// NewPinLines returns n lines with the cavities 1 to n.
func NewPinLines(n int) []PinLine {
	lines := make([]PinLine, max(n, 0))
	for i := range lines {
		lines[i].Cavity = fmt.Sprint(i + 1)
	}
	return lines
}

// PinLinesOf returns the pin table of a part as it stands.
func PinLinesOf(d *schematic.Doc, part schematic.ID) []PinLine {
	t := PinsOf(Facts{Doc: d}, part)
	var lines []PinLine
	for _, r := range t.Rows {
		l := PinLine{part: part, Was: r.Pin, Cavity: r.Pin, Name: t.Text(r, t.At("name")), Color: t.Text(r, t.At("colour")), Size: t.Text(r, t.At("size")), GoesTo: t.Text(r, t.At("goes-to"))}
		had := l
		l.had = &had
		lines = append(lines, l)
	}
	return lines
}

// headings are the words by which people title the columns of pin tables.
func headings() [][]string {
	return [][]string{
		fieldCavity: {"cavity", "cav", "cav.", "pin", "pin no", "pin no.", "pin number", "position", "pos", "pos.", "terminal no", "no", "no.", "nr", "nr.", "number", "#", "contact", "way"},
		fieldName:   {"what it is for", "name", "function", "signal", "description", "use", "purpose", "circuit", "designation", "title"},
		fieldColor:  {"wire colour", "wire color", "colour", "color", "insulation colour", "insulation color", "col", "col."},
		fieldSize:   {"wire size", "size", "gauge", "area", "mm2", "mm²", "awg", "cross section", "cross-section", "csa", "wire gauge", "conductor"},
		fieldGoesTo: {"goes to", "to", "destination", "connects to", "connected to", "other end", "far end", "from/to", "target"},
	}
}

// header returns which field each column of a line of titles is, -1 for none,
// and whether the line is one of titles.
func header(line []string) (fields []int, ok bool) {
	known, filled := 0, 0
	for _, cell := range line {
		word := strings.ToLower(strings.TrimSpace(cell))
		field := slices.IndexFunc(headings(), func(words []string) bool { return slices.Contains(words, word) })
		if field >= 0 && slices.Contains(fields, field) {
			field = -1 // the second "to" of a table is something else
		}
		fields = append(fields, field)
		if word != "" {
			filled++
		}
		if field >= 0 {
			known++
		}
	}
	return fields, known > 0 && 2*known >= filled && (known > 1 || filled == 1)
}

// PastePins puts a block of a spreadsheet into a pin table and returns the
// table, longer where the block is. With titles on top its columns go where
// the titles say, from the first line on; without, they go to the fields from
// col on, from line row on.
func PastePins(lines []PinLine, block [][]string, row, col int) ([]PinLine, error) {
	if len(block) == 0 {
		return nil, fmt.Errorf("there is nothing to paste: copy some cells first")
	}
	lines = slices.Clone(lines)
	fields, titled := header(block[0])
	sizeUnit := ""
	if titled {
		for i, f := range fields {
			if f == fieldSize {
				sizeUnit = map[string]string{"awg": "AWG ", "mm2": " mm²", "mm²": " mm²"}[strings.ToLower(block[0][i])]
			}
		}
		block, row = block[1:], 0
	} else {
		fields = nil
		for i := range slices.MaxFunc(block, func(a, b []string) int { return len(a) - len(b) }) {
			if col+i >= len(PinFields()) {
				return nil, fmt.Errorf("the cells copied reach beyond the last column: paste them further to the left")
			}
			fields = append(fields, col+i)
		}
	}
	if row+len(block) > maxPins {
		return nil, fmt.Errorf("%d lines are more than the %d cavities a connector can have", row+len(block), maxPins)
	}
	for i, cells := range block {
		if row+i == len(lines) {
			lines = append(lines, PinLine{Cavity: nextCavity(lines)})
		}
		l := &lines[row+i]
		for j, text := range cells {
			if j >= len(fields) || fields[j] < 0 {
				continue
			}
			if fields[j] == fieldSize && text != "" && strings.Trim(text, "0123456789.,/") == "" {
				if sizeUnit == "AWG " {
					text = sizeUnit + text
				} else {
					text += sizeUnit
				}
			}
			*l.Field(fields[j]) = text
		}
	}
	return lines, nil
}

// maxPins bounds the cavities of one connector.
const maxPins = 400

// nextCavity counts on from the last cavity: 5 after 4, A25 after A24.
func nextCavity(lines []PinLine) string {
	last := "0"
	if len(lines) > 0 {
		last = lines[len(lines)-1].Cavity
	}
	for {
		last = schematic.NextName(last)
		if !slices.ContainsFunc(lines, func(l PinLine) bool { return l.Cavity == last }) {
			return last
		}
	}
}

// Resize returns the table with n lines: longer with the next numbers, or
// shorter from the end, but never without a line that says something.
func Resize(lines []PinLine, n int) ([]PinLine, error) {
	if n < 1 || n > maxPins {
		return nil, fmt.Errorf("%d cavities: write a number from 1 to %d", n, maxPins)
	}
	lines = slices.Clone(lines)
	for len(lines) < n {
		lines = append(lines, PinLine{Cavity: nextCavity(lines)})
	}
	for i := n; i < len(lines); i++ {
		if !lines[i].bare() {
			return nil, fmt.Errorf("cavity %s is in use: empty its line first", lines[i].Cavity)
		}
	}
	return lines[:n], nil
}

// Cavities reads a pin table for [edit.SetPinout]. Mistakes name the cavity.
func Cavities(d *schematic.Doc, lines []PinLine) ([]edit.Cavity, error) {
	rows := make([]edit.Cavity, 0, len(lines))
	for i := range lines {
		l := &lines[i]
		c := edit.Cavity{Was: l.Was, Name: strings.TrimSpace(l.Cavity), Title: strings.TrimSpace(l.Name)}
		if err := readWire(d, l, &c); err != nil {
			return nil, fmt.Errorf("cavity %s: %w", c.Name, err)
		}
		rows = append(rows, c)
	}
	return rows, nil
}

// readWire reads what a line says of its wire. What stands as it was read from
// the drawing is left alone, also where several wires are at the cavity.
func readWire(d *schematic.Doc, l *PinLine, c *edit.Cavity) error {
	had := PinLine{}
	if l.had != nil {
		had = *l.had
	}
	to := strings.TrimSpace(l.GoesTo)
	if to != had.GoesTo && to != "" && !strings.EqualFold(to, looseEnd) {
		ref, err := PinNamed(d, to)
		if err != nil {
			return err
		}
		c.To = ref
	}
	if l.Color == had.Color && l.Size == had.Size && (to == had.GoesTo || c.To != schematic.PinRef{} && had.GoesTo != "") {
		return nil
	}
	w := &schematic.Wire{}
	if at := d.WiresAt(schematic.PinRef{Part: l.part, Pin: l.Was}); len(at) == 1 && l.Was != "" {
		*w = *at[0]
	} else if strings.TrimSpace(l.Color) == "" && strings.TrimSpace(l.Size) == "" && to == "" {
		return nil
	}
	var err error
	if w.Color, err = ColorNamed(l.Color); err != nil {
		return err
	}
	w.Size = unit.Size{}
	if s := strings.TrimSpace(l.Size); s != "" {
		if w.Size, err = unit.ParseSize(s); err != nil {
			return err
		}
	}
	c.Wire = w
	return nil
}

// CheckPinField says what is wrong with a text for a field, counted as
// [PinFields] does.
func CheckPinField(d *schematic.Doc, field int, text string) error {
	l := PinLine{Cavity: "1"}
	text = strings.TrimSpace(text)
	if field == fieldCavity && text == "" {
		return fmt.Errorf("a cavity needs a name")
	}
	*l.Field(field) = text
	return readWire(d, &l, &edit.Cavity{})
}
