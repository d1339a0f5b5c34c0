package table

import (
	"cmp"
	"slices"
	"strings"

	"loomwright/schematic"
)

// View says which rows are wanted and in what order. The zero value is all, in
// natural order.
type View struct {
	// Sorted, when set, sorts by the column By; equal rows keep their order.
	Sorted bool
	By     int
	Down   bool // largest first
	// Filter keeps rows in which every word occurs in some cell.
	Filter string
	// Sheet, when set, keeps what is drawn on that sheet.
	Sheet schematic.ID
	// Only, when not nil, keeps rows of these items, and pins at whose wires
	// these are.
	Only map[schematic.Key]bool
}

// Arrange returns the rows of a view. Cells that are empty or not known come
// last, whichever way it is sorted.
func (t *Table) Arrange(v View) []Row {
	words := strings.Fields(strings.ToLower(v.Filter))
	rows := make([]Row, 0, len(t.Rows))
	for _, r := range t.Rows {
		if t.drawnOn(r, v.Sheet) && t.among(r, v.Only) && t.holds(r, words) {
			rows = append(rows, r)
		}
	}
	if v.Sorted && v.By >= 0 && v.By < len(t.Columns) {
		t.sort(rows, v.By, v.Down)
	}
	return rows
}

func (t *Table) drawnOn(r Row, sheet schematic.ID) bool {
	if (sheet == schematic.ID{}) {
		return true
	}
	if r.Pin != "" && t.keys == nil { // only the symbol that has the pin counts
		section := t.pin(r).Section
		return slices.ContainsFunc(t.part(r).Views, func(v schematic.View) bool { return v.Sheet == sheet && v.Section == section })
	}
	return slices.ContainsFunc(t.Keys(r), func(k schematic.Key) bool {
		switch it := t.Doc.Get(k).(type) {
		case *schematic.Wire:
			return it.Sheet == sheet
		case *schematic.Part:
			return slices.ContainsFunc(it.Views, func(v schematic.View) bool { return v.Sheet == sheet })
		}
		return false
	})
}

func (t *Table) among(r Row, only map[schematic.Key]bool) bool {
	if only == nil || only[r.Key] {
		return true
	}
	if t.keys != nil {
		return slices.ContainsFunc(t.Keys(r), func(k schematic.Key) bool { return only[k] })
	}
	if r.Pin == "" {
		return false
	}
	return slices.ContainsFunc(t.wiresAt(r), func(w *schematic.Wire) bool { return only[w.Key()] })
}

func (t *Table) holds(r Row, words []string) bool {
	if len(words) == 0 {
		return true
	}
	var b strings.Builder
	for i := range t.Columns {
		b.WriteString(t.Text(r, i))
		b.WriteByte('\n')
	}
	hay := strings.ToLower(b.String())
	for _, w := range words {
		if !strings.Contains(hay, w) {
			return false
		}
	}
	return true
}

func (t *Table) sort(rows []Row, col int, down bool) {
	type keyed struct {
		row   Row
		text  string
		num   float64
		known bool
	}
	c := t.Columns[col]
	keys := make([]keyed, len(rows))
	for i, r := range rows {
		k := keyed{row: r}
		if c.value != nil {
			k.num, k.known = c.value(t, r)
		} else {
			k.text = c.text(t, r)
			k.known = k.text != ""
		}
		keys[i] = k
	}
	slices.SortStableFunc(keys, func(a, b keyed) int {
		if a.known != b.known {
			if a.known {
				return -1
			}
			return 1
		}
		n := cmp.Compare(a.num, b.num)
		if n == 0 {
			n = schematic.CompareNames(a.text, b.text)
		}
		if down {
			n = -n
		}
		return n
	})
	for i, k := range keys {
		rows[i] = k.row
	}
}
