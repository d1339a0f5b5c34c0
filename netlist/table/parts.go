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

// Parts returns the table of all parts.
func Parts(f Facts) *Table {
	t := &Table{Noun: "part", Facts: f, Columns: partColumns()}
	for _, p := range partsByName(f.Doc) {
		t.Rows = append(t.Rows, Row{Key: p.Key()})
	}
	t.about(itemsOf(schematic.TypePart))
	return t
}

// partsByName returns the parts in the order people count them.
func partsByName(d *schematic.Doc) []*schematic.Part {
	return slices.SortedFunc(d.Parts(), schematic.CompareItems)
}

func partColumns() []Column {
	name := partText("part", "Part", 9, "The designation of the part", func(p *schematic.Part) *string { return &p.Name })
	name.Names = true
	return []Column{
		name,
		partText("purpose", "What it does", 24, "What the part is there for", func(p *schematic.Part) *string { return &p.Label }),
		{ID: "kind", Title: "Kind", Letters: 24, Help: "What sort of part it is; the title of another kind makes it one of that, with its wires, where the pins allow", Editable: true,
			text: kindText, set: setKind},
		{ID: "value", Title: "Value", Letters: 18, Number: true, Help: "The figure it is known by: amperes of a fuse, watts of a lamp, what a relay carries. What nobody gave counts with its default", Editable: true,
			text: valueText, input: valueInput, value: partValue, set: setValue},
		{ID: "values", Title: "Other values given", Letters: 26, Help: "What else is given for it; the details panel edits it", text: otherValues},
		partText("number", "Part number", 14, "What to order it by", func(p *schematic.Part) *string { return &p.Number }),
		{ID: "loom", Title: "Loom", Letters: 10, Help: "The sub-harness the part belongs to; empty is none", Editable: true,
			text: func(t *Table, r Row) string { return schematic.NameOf(t.Doc.Get(loomKey(t.part(r).Loom))) }, set: setPartLoom},
		{ID: "node", Title: "Node", Letters: 12, Help: "The node of its loom where it sits", Editable: true, text: nodeText, set: setNode},
		{ID: "plugged", Title: "Plugged into", Letters: 11, Help: "The other half of a plugged connector", text: func(t *Table, r Row) string {
			if m := t.Doc.Part(t.part(r).Mate); m != nil {
				return m.Name
			}
			return ""
		}},
		{ID: "pins", Title: "Pins wired", Letters: 10, Help: "How many of its pins have a wire", text: pinsWired,
			Number: true, value: func(t *Table, r Row) (float64, bool) {
				return float64(len(t.Doc.PinsOf(t.part(r)))), true
			}},
		{ID: "current", Title: "Current", Letters: 9, Number: true, Help: "What goes through its busiest pin in the operating state looked at",
			text: partAmpText, value: partAmp},
		finding(),
		{ID: "built", Title: "Built", Letters: 10, Help: "How far the real part has come: planned, cut, terminated, sleeved, fitted, tested or parked", Editable: true,
			text: func(t *Table, r Row) string { return buildText(t.part(r).Build) },
			set: func(_ *Table, r Row, s string) (change, error) {
				b, err := BuildNamed(s)
				if err != nil {
					return nil, err
				}
				return setPart(r, func(p *schematic.Part) { p.Build = b }), nil
			}},
		partText("notes", "Notes", 24, "What else is to be said", func(p *schematic.Part) *string { return &p.Notes }),
		{ID: "sheet", Title: "Sheet", Letters: 14, Help: "The sheets that show it", text: partSheets},
	}
}

func setPart(r Row, f func(*schematic.Part)) change {
	return func(tx *edit.Tx) error { return edit.SetPart(tx, r.Key.ID, f) }
}

// partText is a column for a plain text of a part.
func partText(id, title string, letters int, help string, at func(*schematic.Part) *string) Column {
	return Column{ID: id, Title: title, Letters: letters, Help: help, Editable: true,
		text: func(t *Table, r Row) string { c := *t.part(r); return *at(&c) },
		set: func(_ *Table, r Row, s string) (change, error) {
			return setPart(r, func(p *schematic.Part) { *at(p) = s }), nil
		}}
}

func kindTitle(k *schematic.Kind) string {
	if k.Title != "" {
		return k.Title
	}
	return k.Name
}

func kindText(t *Table, r Row) string {
	if k := t.Doc.KindOf(t.part(r)); k != nil {
		return kindTitle(k)
	}
	return t.part(r).Kind
}

func setKind(t *Table, r Row, s string) (change, error) {
	k, err := KindNamed(t.Doc, s)
	if err != nil {
		return nil, err
	}
	return func(tx *edit.Tx) error { return edit.ChangeKind(tx, r.Key.ID, k.Name) }, nil
}

// KindNamed returns the kind of a title or name; words that only one kind has
// will do.
func KindNamed(d *schematic.Doc, s string) (*schematic.Kind, error) {
	var kinds []*schematic.Kind
	for k := range d.OwnKinds() {
		kinds = append(kinds, k)
	}
	for _, name := range d.Library().Names() {
		if d.Kind(name) == d.Library().Kind(name) {
			kinds = append(kinds, d.Library().Kind(name))
		}
	}
	words := strings.Fields(strings.ToLower(s))
	if len(words) == 0 {
		return nil, fmt.Errorf("a part needs a kind: write the title of one")
	}
	var near []*schematic.Kind
	for _, k := range kinds {
		if strings.EqualFold(k.Title, s) || strings.EqualFold(k.Name, s) {
			return k, nil
		}
		title := strings.ToLower(k.Title)
		if !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(title, w) }) {
			near = append(near, k)
		}
	}
	slices.SortFunc(near, func(a, b *schematic.Kind) int { return strings.Compare(kindTitle(a), kindTitle(b)) })
	switch len(near) {
	case 0:
		return nil, fmt.Errorf("no part kind is called %q: write its title as the parts tray has it", s)
	case 1:
		return near[0], nil
	}
	var names []string
	for i, k := range near {
		if i == 8 {
			names = append(names, "…")
			break
		}
		names = append(names, fmt.Sprintf("%q", kindTitle(k)))
	}
	return nil, fmt.Errorf("%d part kinds are called %q: write one of %s", len(near), s, strings.Join(names, ", "))
}

// mainParam returns what the value of a part is, and the number: its own, or
// (given is false) that of the kind.
func (t *Table) mainParam(r Row) (prm schematic.Param, v schematic.Num, given bool) {
	p := t.part(r)
	k := t.Doc.KindOf(p)
	if k == nil {
		return prm, v, false
	}
	prm, ok := k.MainParam()
	if !ok {
		return prm, v, false
	}
	_, given = p.Values[prm.Name]
	return prm, k.ParamValue(p, nil, prm.Name), given
}

func valueText(t *Table, r Row) string {
	prm, n, given := t.mainParam(r)
	v, ok := n.Get()
	switch {
	case prm.Name == "":
		return ""
	case !ok && needed(prm):
		return "not known"
	case !ok:
		return ""
	case given:
		return unit.Format(prm.Quantity(), v, t.Units)
	}
	return unit.Format(prm.Quantity(), v, t.Units) + " by default"
}

// needed reports whether nothing stands in for a value nobody gave.
func needed(prm schematic.Param) bool { return prm.Source == "" }

func valueInput(t *Table, r Row) string {
	prm, n, given := t.mainParam(r)
	v, ok := n.Get()
	switch {
	case !ok || !given:
		return ""
	case t.Units == unit.Imperial:
		return unit.Format(prm.Quantity(), v, t.Units)
	}
	return unit.Exact(prm.Quantity(), v)
}

func partValue(t *Table, r Row) (float64, bool) {
	_, n, _ := t.mainParam(r)
	return n.Get()
}

func setValue(t *Table, r Row, s string) (change, error) {
	prm, _, _ := t.mainParam(r)
	if prm.Name == "" {
		return nil, fmt.Errorf("parts of the kind %q have no value", kindText(t, r))
	}
	n := schematic.Num{}
	if s != "" {
		v, err := unit.Parse(prm.Quantity(), s)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", prm.Title, err)
		}
		n = schematic.Some(v)
	}
	return setPart(r, func(p *schematic.Part) {
		v, known := n.Get()
		if !known {
			delete(p.Values, prm.Name)
			return
		}
		if p.Values == nil {
			p.Values = map[string]float64{}
		}
		p.Values[prm.Name] = v
	}), nil
}

// otherValues names what is given for a part beside its main value.
func otherValues(t *Table, r Row) string {
	p := t.part(r)
	k := t.Doc.KindOf(p)
	if k == nil {
		return ""
	}
	main, _ := k.MainParam()
	var said []string
	for _, prm := range k.Params {
		if v, ok := p.Values[prm.Name]; ok && prm.Name != main.Name {
			said = append(said, prm.Title+" "+unit.Format(prm.Quantity(), v, t.Units))
		}
	}
	return strings.Join(said, ", ")
}

func setPartLoom(t *Table, r Row, s string) (change, error) {
	id, err := loomNamed(t.Doc, s)
	if err != nil {
		return nil, err
	}
	return setPart(r, func(p *schematic.Part) { p.Loom = id }), nil
}

func nodeText(t *Table, r Row) string {
	p := t.part(r)
	if l := t.Doc.Loom(p.Loom); l != nil {
		return l.NodeName(p.Node)
	}
	return ""
}

func setNode(t *Table, r Row, s string) (change, error) {
	p := t.part(r)
	if s == "" {
		return setPart(r, func(p *schematic.Part) { p.Node = schematic.ID{} }), nil
	}
	l := t.Doc.Loom(p.Loom)
	if l == nil {
		return nil, fmt.Errorf("%s belongs to no loom: say to which one first", p.Name)
	}
	var names []string
	for _, n := range l.Nodes {
		if strings.EqualFold(n.Name, s) {
			return setPart(r, func(p *schematic.Part) { p.Node = n.ID }), nil
		}
		names = append(names, n.Name)
	}
	if len(names) == 0 {
		return nil, fmt.Errorf("loom %s has no nodes yet: add a segment to it first", l.Name)
	}
	slices.SortFunc(names, schematic.CompareNames)
	return nil, fmt.Errorf("loom %s has no node %q: write one of %s", l.Name, s, strings.Join(names, ", "))
}

func pinsWired(t *Table, r Row) string {
	pins, wired := t.Doc.PinsOf(t.part(r)), map[schematic.PinRef]bool{}
	for _, w := range t.Doc.WiresOf(r.Key.ID) {
		wired[w.A.Ref()], wired[w.B.Ref()] = true, true
	}
	n := 0
	for _, pin := range pins {
		if wired[schematic.PinRef{Part: r.Key.ID, Pin: pin.Name}] {
			n++
		}
	}
	return fmt.Sprintf("%d of %d", n, len(pins))
}

// partAmp is the largest current through a pin of a part, A: what its wires
// bring or take away.
func partAmp(t *Table, r Row) (float64, bool) {
	if t.Solution == nil || t.Solution.Err != nil {
		return 0, false
	}
	most, known := 0.0, false
	for _, pin := range t.Doc.PinsOf(t.part(r)) {
		ref := schematic.PinRef{Part: r.Key.ID, Pin: pin.Name}
		if t.Solution.Netlist.NodeOf(ref) < 0 {
			continue
		}
		amp, ok := t.amongWires(ref)
		if !ok {
			return 0, false
		}
		most, known = max(most, amp), true
	}
	return most, known
}

// amongWires is what the wires at a pin bring to it or take away from it, A,
// whichever is more: what goes through a splice.
func (t *Table) amongWires(ref schematic.PinRef) (float64, bool) {
	in, out := 0.0, 0.0
	for _, w := range t.Doc.WiresAt(ref) {
		amp, ok := t.Solution.WireAmp(w.ID)
		if !ok || math.IsNaN(amp) {
			return 0, false
		}
		if w.A.Ref() == ref { // signed from A to B
			amp = -amp
		}
		in, out = in+max(0, amp), out+max(0, -amp)
	}
	return max(in, out), true
}

func partAmpText(t *Table, r Row) string {
	amp, ok := partAmp(t, r)
	return t.ampText(amp, ok)
}

func partSheets(t *Table, r Row) string {
	var names []string
	for _, v := range t.part(r).Views {
		if name := t.sheetName(v.Sheet); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}
