package table

import (
	"fmt"
	"slices"
	"strings"

	"github.com/google/uuid"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// Segments returns the table of the segments of all looms. A row's key is that
// of the loom, its pin the ID of the segment.
func Segments(f Facts) *Table {
	t := &Table{Noun: "segment", Facts: f, Columns: segmentColumns(), keys: segmentKeys}
	looms := slices.Collect(f.Doc.Looms())
	slices.SortFunc(looms, func(a, b *schematic.Loom) int { return schematic.CompareNames(a.Name, b.Name) })
	for _, l := range looms {
		for _, s := range l.Segments {
			t.Rows = append(t.Rows, Row{l.Key(), s.ID.String()})
		}
	}
	t.names = func(r Row) string {
		l, s := t.segment(r)
		return l.Name + ", segment " + SegmentName(l, s)
	}
	return t
}

// SegmentOf returns the loom and the segment of a row of [Segments].
func SegmentOf(r Row) (loom, segment schematic.ID) {
	id, err := uuid.Parse(r.Pin)
	if err != nil {
		return r.Key.ID, schematic.ID{}
	}
	return r.Key.ID, id
}

func (t *Table) segment(r Row) (*schematic.Loom, schematic.Segment) {
	loom, id := SegmentOf(r)
	l := t.Doc.Loom(loom)
	if l == nil {
		return &schematic.Loom{}, schematic.Segment{}
	}
	s, _ := l.Segment(id)
	return l, s
}

// segmentKeys are the wires that run through a segment.
func segmentKeys(t *Table, r Row) []schematic.Key {
	loom, id := SegmentOf(r)
	if t.through == nil {
		t.through = map[Row][]schematic.Key{}
		for w := range t.Doc.Wires() {
			for _, seg := range w.Route {
				at := Row{loomKey(w.Loom), seg.String()}
				t.through[at] = append(t.through[at], w.Key())
			}
		}
	}
	return t.through[Row{loomKey(loom), id.String()}]
}

func segmentColumns() []Column {
	set := func(change func(*schematic.Segment)) func(*Table, Row) change {
		return func(_ *Table, r Row) func(*edit.Tx) error {
			loom, id := SegmentOf(r)
			return func(tx *edit.Tx) error {
				return edit.SetLoom(tx, loom, func(l *schematic.Loom) {
					for i := range l.Segments {
						if l.Segments[i].ID == id {
							change(&l.Segments[i])
						}
					}
				})
			}
		}
	}
	num := func(q unit.Quantity, at func(*schematic.Segment) *schematic.Num) func(*Table, Row, string) (change, error) {
		return func(t *Table, r Row, s string) (change, error) {
			n := schematic.Num{}
			if s != "" {
				v, err := unit.Parse(q, s)
				if err != nil {
					return nil, err
				}
				n = schematic.Some(v)
			}
			return set(func(x *schematic.Segment) { *at(x) = n })(t, r), nil
		}
	}
	end := func(id, title string, to bool) Column {
		return Column{ID: id, Title: title, Letters: 16, Editable: true, Help: "The node where it ends; another name makes a new node there, or joins it to one there is",
			text: func(t *Table, r Row) string {
				l, s := t.segment(r)
				at := s.From
				if to {
					at = s.To
				}
				return l.NodeName(at)
			},
			set: func(_ *Table, r Row, text string) (change, error) {
				loom, seg := SegmentOf(r)
				return func(tx *edit.Tx) error { return edit.SetSegmentEnd(tx, loom, seg, to, text) }, nil
			}}
	}
	return []Column{
		{ID: "loom", Title: "Loom", Letters: 12, Editable: true, Help: "The sub-harness; another name renames it",
			text: func(t *Table, r Row) string { l, _ := t.segment(r); return l.Name },
			set: func(_ *Table, r Row, s string) (change, error) {
				return func(tx *edit.Tx) error {
					return edit.SetLoom(tx, r.Key.ID, func(l *schematic.Loom) { l.Name = s })
				}, nil
			}},
		{ID: "segment", Title: "Segment", Letters: 20, Editable: true, Help: "Its name; without one it is called after its nodes",
			text:  func(t *Table, r Row) string { l, s := t.segment(r); return SegmentName(l, s) },
			input: func(t *Table, r Row) string { _, s := t.segment(r); return s.Name },
			set: func(t *Table, r Row, text string) (change, error) {
				return set(func(x *schematic.Segment) { x.Name = text })(t, r), nil
			}},
		end("from", "From", false),
		end("to", "To", true),
		{ID: "length", Title: "Length", Letters: 10, Number: true, Editable: true, Help: "From node to node",
			text:  func(t *Table, r Row) string { _, s := t.segment(r); return t.length(s.LengthMM) },
			value: func(t *Table, r Row) (float64, bool) { _, s := t.segment(r); return s.LengthMM.Get() },
			set:   num(unit.Length, func(s *schematic.Segment) *schematic.Num { return &s.LengthMM })},
		{ID: "ambient", Title: "Air", Letters: 8, Number: true, Editable: true, Help: "Air temperature where it lies; empty is that of the document",
			text: func(t *Table, r Row) string {
				_, s := t.segment(r)
				v, ok := s.AmbientC.Get()
				switch {
				case !ok:
					return ""
				case t.Units == unit.Imperial:
					return unit.Format(unit.Temp, v, unit.Imperial)
				}
				return unit.Exact(unit.Temp, v)
			},
			value: func(t *Table, r Row) (float64, bool) { _, s := t.segment(r); return s.AmbientC.Get() },
			set:   num(unit.Temp, func(s *schematic.Segment) *schematic.Num { return &s.AmbientC })},
		{ID: "sleeve", Title: "Sleeve", Letters: 20, Editable: true, Help: "What covers it: corrugated tube, tape …",
			text: func(t *Table, r Row) string { _, s := t.segment(r); return s.Sleeve },
			set: func(t *Table, r Row, text string) (change, error) {
				return set(func(x *schematic.Segment) { x.Sleeve = text })(t, r), nil
			}},
		{ID: "holes", Title: "Panels it passes", Letters: 26, Help: "Panels it passes through with their holes and grommets; the button Holes edits them", text: holesText},
		{ID: "count", Title: "Wires", Letters: 7, Number: true, Help: "How many wires run through it",
			text:  func(t *Table, r Row) string { return fmt.Sprint(len(segmentKeys(t, r))) },
			value: func(t *Table, r Row) (float64, bool) { return float64(len(segmentKeys(t, r))), true }},
		{ID: "wires", Title: "Which wires", Letters: 30, Help: "The wires that run through it", text: func(t *Table, r Row) string {
			var names []string
			for _, k := range segmentKeys(t, r) {
				names = append(names, schematic.NameOf(t.Doc.Get(k)))
			}
			slices.SortFunc(names, schematic.CompareNames)
			return strings.Join(names, ", ")
		}},
	}
}
