package table

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// change is what typing into a cell does to the document.
type change = func(*edit.Tx) error

// Edit returns what a text typed into a cell changes, or why it cannot be taken.
// Nil means that the cell says so already. The text is read as the panel for
// details reads it: with units, decimal comma or point.
func (t *Table) Edit(r Row, col int, text string) (func(*edit.Tx) error, error) {
	c := t.Columns[col]
	text = strings.TrimSpace(text)
	switch {
	case text == strings.TrimSpace(t.Input(r, col)), text == strings.TrimSpace(t.Text(r, col)):
		return nil, nil
	case t.Doc.Get(r.Key) == nil:
		return nil, fmt.Errorf("the %s is no longer there", t.Noun)
	case !c.Editable:
		return nil, fmt.Errorf("%q cannot be typed in: it follows from the drawing", c.Title)
	}
	return c.set(t, r, text)
}

// Cell is a text meant for a cell.
type Cell struct {
	Row  Row
	Col  int
	Text string
}

// Change returns one edit for many cells. Where one text cannot be taken none
// is, and the error says which. Edits of one part or wire build on each other;
// designations are given all at once, so that two rows can swap theirs.
func (t *Table) Change(cells []Cell) (func(*edit.Tx) error, error) {
	type named struct {
		do   change
		name string
	}
	var all, late []named
	names := map[schematic.Key]string{}
	for _, c := range cells {
		name := t.NameOf(c.Row) + ", " + t.Columns[c.Col].Title
		f, err := t.Edit(c.Row, c.Col, c.Text)
		switch {
		case err != nil:
			return nil, fmt.Errorf("%s: %w", name, err)
		case f == nil:
		case t.Columns[c.Col].Names:
			names[c.Row.Key] = c.Text
		case t.Columns[c.Col].ID == "pin":
			late = append(late, named{f, name}) // the other cells still call it by the old one
		default:
			all = append(all, named{f, name})
		}
	}
	if all = append(all, late...); len(all) == 0 && len(names) == 0 {
		return nil, nil
	}
	return func(tx *edit.Tx) error {
		if err := edit.Rename(tx, names); err != nil {
			return err
		}
		for _, n := range all {
			if err := n.do(tx); err != nil {
				return fmt.Errorf("%s: %w", n.name, err)
			}
		}
		return nil
	}, nil
}

// wireCell makes a reader of texts one of cells.
func wireCell(read func(string) (func(*schematic.Wire), error)) func(*Table, Row, string) (change, error) {
	return func(_ *Table, r Row, s string) (change, error) {
		f, err := read(s)
		if err != nil {
			return nil, err
		}
		return func(tx *edit.Tx) error { return edit.SetWire(tx, r.Key.ID, f) }, nil
	}
}

func readColor(s string) (func(*schematic.Wire), error) {
	c, err := ColorNamed(s)
	return func(w *schematic.Wire) { w.Color = c }, err
}

func readSize(s string) (func(*schematic.Wire), error) {
	var z unit.Size
	if s != "" {
		var err error
		if z, err = unit.ParseSize(s); err != nil {
			return nil, err
		}
	}
	return func(w *schematic.Wire) { w.Size = z }, nil
}

func readLength(s string) (func(*schematic.Wire), error) {
	n, err := numOf(unit.Length, s)
	return func(w *schematic.Wire) { w.LengthMM = n }, err
}

func readSlack(s string) (func(*schematic.Wire), error) {
	n, err := numOf(unit.Length, s)
	return func(w *schematic.Wire) { w.SlackMM = n }, err
}

func readClass(s string) (func(*schematic.Wire), error) {
	n, err := numOf(unit.Temp, s)
	return func(w *schematic.Wire) { w.TempC = n }, err
}

// numOf reads a number with its unit; "" is not known.
func numOf(q unit.Quantity, s string) (schematic.Num, error) {
	if s == "" {
		return schematic.Num{}, nil
	}
	v, err := unit.Parse(q, s)
	if err != nil {
		return schematic.Num{}, err
	}
	return schematic.Some(v), nil
}

// readMetal reads the metal of a conductor; "" is copper.
func readMetal(s string) (func(*schematic.Wire), error) {
	metals := []schematic.Metal{schematic.Copper, schematic.Tinned, schematic.Aluminium}
	m := schematic.Metal(strings.ToLower(s))
	if m != "" && !slices.Contains(metals, m) {
		return nil, fmt.Errorf("%q is not a conductor metal: write one of %v", s, metals)
	}
	if m == schematic.Copper {
		m = ""
	}
	return func(w *schematic.Wire) { w.Metal = m }, nil
}

func readBuild(s string) (func(*schematic.Wire), error) {
	b, err := BuildNamed(s)
	return func(w *schematic.Wire) { w.Build = b }, err
}

// BuildNamed reads a build step; beginnings of the words do, "" is planned.
func BuildNamed(s string) (schematic.Build, error) {
	for _, b := range schematic.Builds() {
		if strings.HasPrefix(string(b), strings.ToLower(s)) {
			if b == schematic.Planned {
				b = ""
			}
			return b, nil
		}
	}
	return "", fmt.Errorf("%q is not a build step: write one of %v", s, schematic.Builds())
}

func setLoom(t *Table, r Row, s string) (change, error) {
	id, err := loomNamed(t.Doc, s)
	if err != nil {
		return nil, err
	}
	return func(tx *edit.Tx) error {
		return edit.SetWire(tx, r.Key.ID, func(w *schematic.Wire) { w.Loom = id })
	}, nil
}

// loomNamed returns the loom of a name; "" is none.
func loomNamed(d *schematic.Doc, s string) (schematic.ID, error) {
	var id schematic.ID
	var names []string
	for l := range d.Looms() {
		if strings.EqualFold(l.Name, s) {
			id = l.ID
		}
		names = append(names, l.Name)
	}
	if s == "" || (id != schematic.ID{}) {
		return id, nil
	}
	if len(names) == 0 {
		return id, fmt.Errorf("there is no loom %q: the document has none yet", s)
	}
	slices.SortFunc(names, schematic.CompareNames)
	return id, fmt.Errorf("there is no loom %q: write one of %s", s, strings.Join(names, ", "))
}

func setRoute(t *Table, r Row, s string) (change, error) {
	l := t.Doc.Loom(t.wire(r).Loom)
	if l == nil {
		return nil, fmt.Errorf("%s belongs to no loom: say to which one first", t.wire(r).Name)
	}
	route, err := routeNamed(l, s)
	if err != nil {
		return nil, err
	}
	return func(tx *edit.Tx) error {
		return edit.SetWire(tx, r.Key.ID, func(w *schematic.Wire) { w.Route = route })
	}, nil
}

// routeNamed returns the segments of a loom that a text names.
func routeNamed(l *schematic.Loom, s string) ([]schematic.ID, error) {
	var route []schematic.ID
	for _, name := range strings.Split(s, ",") {
		if name = strings.TrimSpace(name); name == "" {
			continue
		}
		i := slices.IndexFunc(l.Segments, func(seg schematic.Segment) bool {
			// People type a hyphen for the dash between two nodes.
			return strings.EqualFold(strings.ReplaceAll(SegmentName(l, seg), "–", "-"), strings.ReplaceAll(name, "–", "-"))
		})
		if i < 0 {
			var names []string
			for _, seg := range l.Segments {
				names = append(names, SegmentName(l, seg))
			}
			return nil, fmt.Errorf("loom %s has no segment %q: write some of %s", l.Name, name, strings.Join(names, ", "))
		}
		route = append(route, l.Segments[i].ID)
	}
	return route, nil
}

// PinNamed returns the pin a text such as "K1.30" names; the designation alone
// will do for a part with one pin. Designations and pin names may hold points.
func PinNamed(d *schematic.Doc, s string) (schematic.PinRef, error) {
	s = strings.TrimSpace(s)
	var known *schematic.Part
	for i, c := range s {
		if c != '.' && c != ':' && c != ' ' {
			continue
		}
		p := partNamed(d, s[:i])
		if p == nil {
			continue
		}
		known = p
		name := strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(s[i+1:]), "pin "))
		if _, ok := d.PinOf(p, name); ok {
			return schematic.PinRef{Part: p.ID, Pin: name}, nil
		}
	}
	if p := partNamed(d, s); p != nil {
		known = p
		if pins := d.PinsOf(p); len(pins) == 1 {
			return schematic.PinRef{Part: p.ID, Pin: pins[0].Name}, nil
		}
	}
	if known != nil {
		var names []string
		for _, p := range d.PinsOf(known) {
			names = append(names, p.Name)
		}
		if len(names) > 12 {
			names = append(names[:12], "…")
		}
		return schematic.PinRef{}, fmt.Errorf("%q names no pin of %s: write %s. and one of %s", s, known.Name, known.Name, strings.Join(names, ", "))
	}
	if i := strings.IndexByte(s, '.'); i > 0 {
		return schematic.PinRef{}, fmt.Errorf("%q names no pin: there is no part %q", s, s[:i])
	}
	return schematic.PinRef{}, fmt.Errorf("%q names no pin: write the designation of a part, a point and the pin, as in F3.1", s)
}
