// Package table shows the wires, pins, parts, segments and readings of a
// document as rows and columns: what each cell says, how rows are sorted and
// filtered, what typing into a cell changes, and the text that spreadsheets
// exchange.
//
// Start with [Wires], [Pins] or [Parts]. A [Table] is a view of one snapshot
// and never changes; cells are worked out when they are asked for, so that a
// table of ten thousand rows costs no more than the rows in sight.
package table

import (
	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
)

// Facts are what a table is made from. Only Doc is required.
type Facts struct {
	Doc *schematic.Doc
	// Solution is the operating state whose currents and voltages are shown. It
	// may belong to an older snapshot: what it does not know stays empty.
	Solution *netlist.Solution
	// Findings are in the order of [check.Run], the worst first.
	Findings []check.Finding
	// Units are those of lengths.
	Units unit.System
}

// Row names one row: an item, a pin of a part, or a segment of a loom.
type Row struct {
	Key schematic.Key
	Pin string // pin or segment, "" in a table of items
}

// Column is one column of a table.
type Column struct {
	ID    string // for files and scripts: "from", "volts"
	Title string
	Help  string // what it shows, and what may be typed
	// Letters is the usual width in letters.
	Letters int
	// Number columns are set to the right and sort by value.
	Number bool
	// Editable says that [Table.Edit] may take a text for it.
	Editable bool
	// Names tells that it is the designation of the row's item.
	Names bool

	text  func(*Table, Row) string
	input func(*Table, Row) string          // what editing begins with; nil is text
	value func(*Table, Row) (float64, bool) // what a Number column sorts by
	set   func(*Table, Row, string) (change, error)
}

// Table is a list of wires, pins, parts, segments or readings of one snapshot.
type Table struct {
	Noun string // what a row is: "wire", "pin", "reading"
	Facts
	Columns []Column
	// Rows are in natural order: by designation as people count.
	Rows []Row

	worst   map[Row]int                       // the first finding about a row
	names   func(Row) string                  // what messages call a row; nil is part and pin, or wire
	keys    func(*Table, Row) []schematic.Key // what a row is about, where that is not its key
	through map[Row][]schematic.Key           // segments: the wires that run through
}

// Keys returns what is selected on the drawing with a row: the wire, the part
// of the pin, the wires that run through the segment.
func (t *Table) Keys(r Row) []schematic.Key {
	if t.keys != nil {
		return t.keys(t, r)
	}
	return []schematic.Key{r.Key}
}

// At returns the index of the column with an ID, or -1.
func (t *Table) At(id string) int {
	for i := range t.Columns {
		if t.Columns[i].ID == id {
			return i
		}
	}
	return -1
}

// Text returns what a cell shows; "" is "not given", or not known.
func (t *Table) Text(r Row, col int) string { return t.Columns[col].text(t, r) }

// Input returns the text that editing a cell begins with.
func (t *Table) Input(r Row, col int) string {
	if c := t.Columns[col]; c.input != nil {
		return c.input(t, r)
	}
	return t.Text(r, col)
}

// NameOf returns the words by which messages call a row: "W3", "K1 pin 30".
func (t *Table) NameOf(r Row) string {
	if t.names != nil {
		return t.names(r)
	}
	name := schematic.NameOf(t.Doc.Get(r.Key))
	if r.Pin != "" {
		name += " pin " + r.Pin
	}
	return name
}

func (t *Table) wire(r Row) *schematic.Wire {
	if w := t.Doc.Wire(r.Key.ID); w != nil {
		return w
	}
	return &schematic.Wire{} // deleted meanwhile: an empty row
}

// length prints a length so that it can be read back.
func (t *Table) length(n schematic.Num) string {
	mm, ok := n.Get()
	switch {
	case !ok:
		return ""
	case t.Units == unit.Imperial:
		return unit.Format(unit.Length, mm, unit.Imperial)
	}
	return unit.Exact(unit.Length, mm)
}

// sheetName returns the name of a sheet, "" for none.
func (t *Table) sheetName(id schematic.ID) string {
	if s := t.Doc.Sheet(id); s != nil {
		return s.Name
	}
	return ""
}

// endText names a wire's end: the part, and its pin where it has several.
func (t *Table) endText(e schematic.End) string { return endText(t.Doc, e) }

func endText(d *schematic.Doc, e schematic.End) string {
	if e.Loose() {
		return looseEnd
	}
	p := d.Part(e.Part)
	if p == nil {
		return ""
	}
	if len(d.PinsOf(p)) < 2 {
		return p.Name
	}
	return p.Name + "." + e.Pin
}

// looseEnd stands in a cell for an end that is at no pin.
const looseEnd = "loose"

// about notes the first, which is the worst, open finding of every row.
func (t *Table) about(rows func(check.Finding) []Row) {
	t.worst = map[Row]int{}
	for i, f := range t.Findings {
		if !f.Open() {
			continue // accepted as it is
		}
		for _, r := range rows(f) {
			if _, seen := t.worst[r]; !seen {
				t.worst[r] = i
			}
		}
	}
}

// itemsOf returns the rows a finding is about in a table of items of a type.
func itemsOf(typ schematic.ItemType) func(check.Finding) []Row {
	return func(f check.Finding) []Row {
		var rows []Row
		for _, k := range f.Items {
			if k.Type == typ {
				rows = append(rows, Row{Key: k})
			}
		}
		return rows
	}
}

// finding is the column of the worst finding of each row.
func finding() Column {
	return Column{ID: "finding", Title: "Worst finding", Letters: 30, Help: "The gravest finding about it that is not accepted. An empty cell is no proof that all is well",
		text: func(t *Table, r Row) string {
			i, ok := t.worst[r]
			if !ok {
				return ""
			}
			f := t.Findings[i]
			return f.Severity.String() + ": " + f.Rule
		},
		value: func(t *Table, r Row) (float64, bool) {
			i, ok := t.worst[r]
			return float64(i), ok
		}}
}

// Worst returns the gravest finding about a row.
func (t *Table) Worst(r Row) (check.Finding, bool) {
	i, ok := t.worst[r]
	if !ok {
		return check.Finding{}, false
	}
	return t.Findings[i], true
}
