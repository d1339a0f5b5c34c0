package table

import (
	"fmt"
	"slices"
	"strings"
)

// WireLine is one row of a list of wires to be drawn, as typed or pasted: a text
// for each of [WireFields].
type WireLine [lineSheet + 1]string

// The fields of a list of wires, as [WireFields] and titles count them.
const (
	lineWire = iota
	lineFrom
	lineFromPin
	lineTo
	lineToPin
	lineSize
	LineColour // the field that holds a wire colour
	lineInsulation
	lineLength
	lineCircuit
	lineLoom
	lineRoute
	lineBuilt
	lineFromTerminal
	lineFromSeal
	lineToTerminal
	lineToSeal
	lineSlack
	lineMetal
	lineClass
	lineNotes
	lineSheet
)

// WireField is one column of a list of wires.
type WireField struct {
	Title, Help string
	Letters     int // usual width
}

// WireFields lists the columns of a list of wires in the order of the fields.
func WireFields() []WireField {
	return []WireField{
		lineWire:         {"Wire", "Its designation; left empty, it gets the next free one", 8},
		lineFrom:         {"From", "Part at its first end, or part and pin such as K1.30; \"loose\" lets the end hang", 11},
		lineFromPin:      {"Pin", "Pin or cavity there, by its name or by what it is for; empty where the part has only one", 8},
		lineTo:           {"To", "Part at its second end, or part and pin; \"loose\" lets the end hang", 11},
		lineToPin:        {"Pin", "Pin or cavity there", 8},
		lineSize:         {"Size", "Conductor size: mm², AWG or SAE", 10},
		LineColour:       {"Colour", "Insulation, as a code such as BU/WH, or blue/white", 12},
		lineInsulation:   {"Insulation", "Insulation family: FLRY, TXL …", 10},
		lineLength:       {"Length", "Length as measured, with its unit; a bare number is in mm", 10},
		lineCircuit:      {"Circuit", "What the wire is for", 18},
		lineLoom:         {"Loom", "The sub-harness it belongs to; empty is none", 10},
		lineRoute:        {"Route", "The segments of its loom from the first end to the second, with commas between", 14},
		lineBuilt:        {"Built", "How far the real wire has come: planned, cut, terminated, sleeved, fitted, tested or parked", 10},
		lineFromTerminal: {"Terminal at from", "What is crimped on at the first end", 15},
		lineFromSeal:     {"Seal at from", "The wire seal at the first end", 12},
		lineToTerminal:   {"Terminal at to", "What is crimped on at the second end", 15},
		lineToSeal:       {"Seal at to", "The wire seal at the second end", 12},
		lineSlack:        {"Slack", "What is added to the length of the route, both ends together", 9},
		lineMetal:        {"Metal", "Metal of the conductor: tinned copper or aluminium; empty is copper", 13},
		lineClass:        {"Temperature class", "What its insulation bears for good; empty is that of the insulation family", 13},
		lineNotes:        {"Notes", "What else is to be said", 20},
		lineSheet:        {"Sheet", "The sheet to draw it on; empty is the first that shows both ends", 12},
	}
}

// Empty reports whether the line says nothing.
func (l *WireLine) Empty() bool {
	return !slices.ContainsFunc(l[:], func(s string) bool { return strings.TrimSpace(s) != "" })
}

// maxWireLines bounds a list of wires.
const maxWireLines = 5000

// PasteWires puts a block of a spreadsheet into a list of wires and returns the
// list, longer where the block is, and the titles of columns it has no field
// for. With titles on top the columns go where the titles say, from line row on.
// Without, a block as wide as the table of wires is a copy of its rows; any other
// goes to the fields from col on.
func PasteWires(lines []WireLine, block [][]string, row, col int) (list []WireLine, strange []string, err error) {
	if len(block) == 0 {
		return nil, nil, fmt.Errorf("there is nothing to paste: copy some rows of a spreadsheet first")
	}
	widest := len(slices.MaxFunc(block, func(a, b []string) int { return len(a) - len(b) }))
	columns, titled := wireTitles(block[0])
	switch {
	case titled:
		for i, c := range columns {
			if c.field < 0 && block[0][i] != "" {
				strange = append(strange, block[0][i])
			}
		}
		block = block[1:]
	case widest == len(wireColumns()) && col == 0:
		columns, _ = wireTitles(tableTitles())
	case col+widest > len(WireFields()):
		return nil, nil, fmt.Errorf("the cells copied reach beyond the last column: paste them further to the left, or with titles on top")
	default:
		columns = nil
		for i := range widest {
			columns = append(columns, listColumn{field: col + i})
		}
	}
	if row+len(block) > maxWireLines {
		return nil, nil, fmt.Errorf("%d rows are more than %d: paste them in parts", row+len(block), maxWireLines)
	}
	list = slices.Clone(lines)
	for i, cells := range block {
		if row+i == len(list) {
			list = append(list, WireLine{})
		}
		for j, text := range cells {
			if j < len(columns) && columns[j].field >= 0 {
				list[row+i][columns[j].field] = columns[j].read(text)
			}
		}
	}
	return list, strange, nil
}

// Titled reports whether a block begins with the titles of a list of wires.
func Titled(block [][]string) bool {
	if len(block) == 0 {
		return false
	}
	_, ok := wireTitles(block[0])
	return ok
}

// WireLines returns the cells meant for the table of wires from one of its
// columns on as lines of a list of wires.
func WireLines(block [][]string, col int) ([]WireLine, error) {
	if Titled(block) {
		lines, _, err := PasteWires(nil, block, 0, 0)
		return lines, err
	}
	titles := tableTitles()
	wide := [][]string{titles}
	for i, cells := range block {
		if col+len(cells) > len(titles) {
			return nil, fmt.Errorf("line %d has %d cells, but only %d columns are left from here on", i+1, len(cells), len(titles)-col)
		}
		wide = append(wide, append(make([]string, col, col+len(cells)), cells...))
	}
	lines, _, err := PasteWires(nil, wide, 0, 0)
	return lines, err
}

// tableTitles are the titles of the table of wires.
func tableTitles() []string {
	var titles []string
	for _, c := range wireColumns() {
		titles = append(titles, c.Title)
	}
	return titles
}

// listColumn is a column of a pasted list: its field, -1 for none, and the unit
// that its title gives to bare numbers.
type listColumn struct {
	field int
	unit  string
}

// read returns the text of a cell for the field.
func (c listColumn) read(text string) string {
	text = strings.TrimSpace(text)
	switch {
	case c.field == lineLength && strings.HasSuffix(text, byRoute):
		return "" // follows from the route
	case c.unit == "" || text == "" || !bareNumber(text):
		return text
	case c.unit == "AWG" || c.unit == "SAE":
		return c.unit + " " + text
	}
	return text + " " + c.unit
}

// bareNumber reports whether a text is a number or a gauge such as 4/0.
func bareNumber(text string) bool { return strings.Trim(text, "0123456789.,/") == "" }
