package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// Readings returns the table of measured values, oldest first.
func Readings(f Facts) *Table {
	t := &Table{Noun: "reading", Facts: f, Columns: readingColumns(), keys: func(t *Table, r Row) []schematic.Key {
		m := t.reading(r)
		keys := []schematic.Key{{Type: schematic.TypePart, ID: m.From.Part}}
		if m.To.Part != m.From.Part && m.To != (schematic.PinRef{}) {
			keys = append(keys, schematic.Key{Type: schematic.TypePart, ID: m.To.Part})
		}
		return keys
	}}
	t.names = func(r Row) string { m := t.reading(r); return "reading of " + m.Date + " at " + t.pinText(m.From) }
	all := slices.Collect(f.Doc.Readings())
	slices.SortFunc(all, func(a, b *schematic.Reading) int {
		if c := strings.Compare(a.Date, b.Date); c != 0 {
			return c
		}
		return a.Key().Compare(b.Key())
	})
	for _, m := range all {
		t.Rows = append(t.Rows, Row{Key: m.Key()})
	}
	return t
}

func (t *Table) reading(r Row) *schematic.Reading {
	if m, ok := t.Doc.Get(r.Key).(*schematic.Reading); ok {
		return m
	}
	return &schematic.Reading{}
}

func (t *Table) pinText(r schematic.PinRef) string {
	return t.endText(schematic.End{Part: r.Part, Pin: r.Pin})
}

// quantityOf returns what a reading measures.
func quantityOf(m *schematic.Reading) unit.Quantity {
	switch m.Quantity {
	case "amp":
		return unit.Amp
	case "ohm":
		return unit.Ohm
	}
	return unit.Volt
}

// expected is what the computation says to a reading, where it is of the
// operating state looked at.
func (t *Table) expected(m *schematic.Reading) (float64, bool) {
	if t.Solution == nil || t.Solution.State == nil || m.State != t.Solution.State.ID {
		return 0, false
	}
	n := t.Solution.Netlist
	switch m.Quantity {
	case "volt":
		a, ok := t.Solution.VoltAt(n.NodeOf(m.From))
		if m.To == (schematic.PinRef{}) || !ok {
			return a, ok
		}
		b, ok := t.Solution.VoltAt(n.NodeOf(m.To))
		return a - b, ok
	case "amp":
		if n.NodeOf(m.From) < 0 || t.Solution.Err != nil {
			return 0, false
		}
		amp, _ := t.Solution.MeterAmp(m.From)
		return amp, !math.IsNaN(amp)
	}
	return 0, false
}

// throughWires reports whether a current was measured where only wires meet, so
// that the computed one is what passes through there.
func (t *Table) throughWires(m *schematic.Reading) bool {
	if m.Quantity != "amp" {
		return false
	}
	_, through := t.Solution.MeterAmp(m.From)
	return through
}

func readingColumns() []Column {
	set := func(change func(*schematic.Reading)) func(Row) change {
		return func(r Row) func(*edit.Tx) error {
			return func(tx *edit.Tx) error { return edit.SetReading(tx, r.Key.ID, change) }
		}
	}
	pin := func(id, title, help string, at func(*schematic.Reading) *schematic.PinRef) Column {
		return Column{ID: id, Title: title, Letters: 12, Help: help, Editable: true,
			text: func(t *Table, r Row) string {
				if ref := *at(t.reading(r)); ref != (schematic.PinRef{}) {
					return t.pinText(ref)
				}
				return ""
			},
			set: func(t *Table, r Row, s string) (change, error) {
				ref := schematic.PinRef{}
				if s != "" {
					var err error
					if ref, err = PinNamed(t.Doc, s); err != nil {
						return nil, err
					}
				}
				return set(func(m *schematic.Reading) { *at(m) = ref })(r), nil
			}}
	}
	return []Column{
		{ID: "date", Title: "Date", Letters: 12, Editable: true, Help: "As 2026-11-25",
			text: func(t *Table, r Row) string { return t.reading(r).Date },
			set: func(_ *Table, r Row, s string) (change, error) {
				return set(func(m *schematic.Reading) { m.Date = s })(r), nil
			}},
		{ID: "quantity", Title: "Measured", Letters: 10, Editable: true, Help: "volt, amp or ohm",
			text: func(t *Table, r Row) string { return t.reading(r).Quantity },
			set: func(_ *Table, r Row, s string) (change, error) {
				for _, q := range []string{"volt", "amp", "ohm"} {
					if s != "" && strings.HasPrefix(q, strings.ToLower(s)) {
						return set(func(m *schematic.Reading) { m.Quantity = q })(r), nil
					}
				}
				return nil, fmt.Errorf("%q cannot be measured here: write volt, amp or ohm", s)
			}},
		pin("from", "At", "The pin the reading was taken at", func(m *schematic.Reading) *schematic.PinRef { return &m.From }),
		pin("to", "Against", "The other pin; empty is battery negative", func(m *schematic.Reading) *schematic.PinRef { return &m.To }),
		{ID: "state", Title: "Operating state", Letters: 16, Editable: true, Help: "The operating state it was taken in",
			text: func(t *Table, r Row) string {
				if s := t.Doc.State(t.reading(r).State); s != nil {
					return s.Name
				}
				return ""
			},
			set: func(t *Table, r Row, s string) (change, error) {
				var id schematic.ID
				var names []string
				for _, st := range t.Doc.States() {
					if strings.EqualFold(st.Name, s) {
						id = st.ID
					}
					names = append(names, st.Name)
				}
				if s != "" && (id == schematic.ID{}) {
					return nil, fmt.Errorf("there is no operating state %q: write one of %s", s, strings.Join(names, ", "))
				}
				return set(func(m *schematic.Reading) { m.State = id })(r), nil
			}},
		{ID: "value", Title: "Value", Letters: 10, Number: true, Editable: true, Help: "What the meter showed",
			text: func(t *Table, r Row) string {
				m := t.reading(r)
				return unit.Exact(quantityOf(m), m.Value)
			},
			value: func(t *Table, r Row) (float64, bool) { return t.reading(r).Value, true },
			set: func(t *Table, r Row, s string) (change, error) {
				v, err := unit.Parse(quantityOf(t.reading(r)), s)
				if err != nil {
					return nil, err
				}
				return set(func(m *schematic.Reading) { m.Value = v })(r), nil
			}},
		{ID: "expected", Title: "Computed", Letters: 14, Number: true, Help: "What the computation says for it, shown while its operating state is looked at. A current at a splice is what passes through it: half the sum of its wires' currents",
			text: func(t *Table, r Row) string {
				m := t.reading(r)
				v, ok := t.expected(m)
				if !ok {
					return ""
				}
				text := unit.Format(quantityOf(m), v, unit.SI)
				if t.throughWires(m) {
					text += " through"
				}
				return text
			},
			value: func(t *Table, r Row) (float64, bool) { return t.expected(t.reading(r)) }},
		{ID: "difference", Title: "Difference", Letters: 10, Number: true, Help: "The reading less the computed value",
			text: func(t *Table, r Row) string {
				m := t.reading(r)
				v, ok := t.expected(m)
				if !ok {
					return ""
				}
				return unit.Format(quantityOf(m), m.Value-v, unit.SI)
			},
			value: func(t *Table, r Row) (float64, bool) {
				m := t.reading(r)
				v, ok := t.expected(m)
				return math.Abs(m.Value - v), ok
			}},
		{ID: "notes", Title: "Notes", Letters: 26, Editable: true, Help: "Meter, conditions",
			text: func(t *Table, r Row) string { return t.reading(r).Notes },
			set: func(_ *Table, r Row, s string) (change, error) {
				return set(func(m *schematic.Reading) { m.Notes = s })(r), nil
			}},
	}
}
