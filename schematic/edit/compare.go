package edit

import (
	"cmp"
	"slices"

	"loomwright/schematic"
)

// Difference is one item that two documents do not both hold as it is.
type Difference struct {
	// Before is the item in the first document, After in the second; nil where
	// it is missing.
	Before, After schematic.Item
	// Fields are what a changed item says differently, in the order of the
	// file. Added and removed items list none.
	Fields []FieldDifference
	// About says in short what an added or removed item is: where a wire goes,
	// what kind a part is of.
	About string
}

// FieldDifference is one thing that an item says differently, in words. An
// empty value is one that is not given.
type FieldDifference struct {
	Name, Before, After string
	// Drawn marks what only says where or how the item is drawn.
	Drawn bool
}

// What says what happened to the item: "added", "removed" or "changed".
func (d Difference) What() string {
	switch {
	case d.Before == nil:
		return "added"
	case d.After == nil:
		return "removed"
	}
	return "changed"
}

// Item returns the item as it is in the second document, or was in the first.
func (d Difference) Item() schematic.Item {
	if d.After != nil {
		return d.After
	}
	return d.Before
}

// Compare lists the differences between two documents for people, by type and
// designation; those of items that are only drawn elsewhere come last. Items are matched by ID, and those that have no match by
// designation, so that files that were made apart can be compared. [Diff] lists
// the same for programs.
func Compare(a, b *schematic.Doc) []Difference {
	m := match(a, b)
	wa, wb := &words{doc: a, same: m.ids}, &words{doc: b}
	var out []Difference
	for _, p := range m.pairs {
		if Equal(p.Before, p.After) {
			continue
		}
		if fields := differences(wa.fields(p.Before), wb.fields(p.After)); len(fields) > 0 {
			out = append(out, Difference{Before: p.Before, After: p.After, Fields: fields})
		}
	}
	for _, it := range m.removed {
		out = append(out, Difference{Before: it, About: wa.about(it)})
	}
	for _, it := range m.added {
		out = append(out, Difference{After: it, About: wb.about(it)})
	}
	slices.SortStableFunc(out, func(x, y Difference) int {
		i, j := x.Item(), y.Item()
		return cmp.Or(cmp.Compare(rank(x), rank(y)), cmp.Compare(i.Key().Type, j.Key().Type), schematic.CompareNames(callName(i), callName(j)), i.Key().Compare(j.Key()))
	})
	return out
}

// rank puts what is only drawn elsewhere last.
func rank(d Difference) int {
	if d.OnlyDrawn() {
		return 1
	}
	return 0
}

// matches says which items of two documents are the same thing.
type matches struct {
	pairs          []Pair
	removed, added []schematic.Item
	ids            map[schematic.ID]schematic.ID // of the first document to those of the second, where they differ
}

func match(a, b *schematic.Doc) matches {
	m := matches{ids: map[schematic.ID]schematic.ID{}}
	type call struct {
		typ  schematic.ItemType
		name string
	}
	unmatched := map[call][]schematic.Item{} // of b
	var rest []schematic.Item                // of a
	for it := range a.All() {
		if other := b.Get(it.Key()); other != nil {
			m.pairs = append(m.pairs, Pair{it, other})
		} else {
			rest = append(rest, it)
		}
	}
	for it := range b.All() {
		if a.Get(it.Key()) == nil {
			c := call{it.Key().Type, callName(it)}
			unmatched[c] = append(unmatched[c], it)
		}
	}
	taken := map[schematic.Key]bool{}
	for _, it := range rest {
		c := call{it.Key().Type, callName(it)}
		if c.name == "" || len(unmatched[c]) == 0 {
			m.removed = append(m.removed, it)
			continue
		}
		other := unmatched[c][0]
		unmatched[c] = unmatched[c][1:]
		taken[other.Key()] = true
		m.ids[it.Key().ID] = other.Key().ID
		m.pairs = append(m.pairs, Pair{it, other})
		m.inside(it, other)
	}
	for it := range b.All() {
		if a.Get(it.Key()) == nil && !taken[it.Key()] {
			m.added = append(m.added, it)
		}
	}
	return m
}

// inside matches the nodes of two looms by their names, and the segments by
// theirs or by the nodes they join.
func (m *matches) inside(a, b schematic.Item) {
	la, ok := a.(*schematic.Loom)
	if !ok {
		return
	}
	lb := b.(*schematic.Loom)
	for _, n := range la.Nodes {
		for _, o := range lb.Nodes {
			if n.Name == o.Name {
				m.ids[n.ID] = o.ID
			}
		}
	}
	for _, s := range la.Segments {
		for _, o := range lb.Segments {
			if s.Name == o.Name && (s.Name != "" || m.ids[s.From] == o.From && m.ids[s.To] == o.To) {
				m.ids[s.ID] = o.ID
			}
		}
	}
}

// callName is what tells items of one type apart where IDs do not.
func callName(it schematic.Item) string {
	switch it := it.(type) {
	case *schematic.Sheet:
		return it.Name
	case *schematic.State:
		return it.Name
	case *schematic.Kind:
		return it.Name
	case *schematic.Note:
		return it.Text
	case *schematic.Reading:
		return it.Date + " " + it.Quantity
	case *schematic.Acceptance:
		return it.Rule + " " + it.Detail
	}
	return schematic.NameOf(it)
}

// differences compares two lists of fields by their paths. Of a list element
// that is on one side only the element is named, not all it says.
func differences(a, b []fieldText) []FieldDifference {
	other := make(map[string]fieldText, len(b))
	for _, f := range b {
		other[f.path] = f
	}
	mine := make(map[string]bool, len(a))
	var out []FieldDifference
	var whole string // an element that is on one side only
	skip := func(path string) bool { return whole != "" && len(path) > len(whole) && path[:len(whole)] == whole }
	add := func(f fieldText, before, after string) {
		if f.element {
			whole = f.path + "."
		}
		out = append(out, FieldDifference{f.label, before, after, f.drawn && !f.element})
	}
	for _, f := range a {
		mine[f.path] = true
		g, both := other[f.path]
		switch {
		case skip(f.path):
		case !both:
			add(f, f.text, "")
		case f.same() != g.same():
			add(f, f.text, g.text)
		}
	}
	whole = ""
	for _, g := range b {
		if !mine[g.path] && !skip(g.path) {
			add(g, "", g.text)
		}
	}
	return out
}
