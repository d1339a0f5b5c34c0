package table

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// Pins returns the table of all pins of all parts.
func Pins(f Facts) *Table {
	t := &Table{Noun: "pin", Facts: f, Columns: pinColumns()}
	for _, p := range partsByName(f.Doc) {
		for _, pin := range f.Doc.PinsOf(p) {
			t.Rows = append(t.Rows, Row{p.Key(), pin.Name})
		}
	}
	t.about(func(f check.Finding) []Row {
		var rows []Row
		for _, p := range f.Pins {
			rows = append(rows, Row{schematic.Key{Type: schematic.TypePart, ID: p.Part}, p.Pin})
		}
		return rows
	})
	return t
}

// PinsOf returns the table of the pins of one part.
func PinsOf(f Facts, part schematic.ID) *Table {
	t := Pins(f)
	t.Rows = slices.DeleteFunc(t.Rows, func(r Row) bool { return r.Key.ID != part })
	return t
}

func (t *Table) part(r Row) *schematic.Part {
	if p := t.Doc.Part(r.Key.ID); p != nil {
		return p
	}
	return &schematic.Part{}
}

func (t *Table) pin(r Row) schematic.Pin {
	pin, _ := t.Doc.PinOf(t.part(r), r.Pin)
	return pin
}

func (r Row) ref() schematic.PinRef { return schematic.PinRef{Part: r.Key.ID, Pin: r.Pin} }

func (t *Table) wiresAt(r Row) []*schematic.Wire { return t.Doc.WiresAt(r.ref()) }

// ofWires joins what the wires at a pin say; the same is said once.
func (t *Table) ofWires(r Row, text func(*schematic.Wire, *schematic.End) string) string {
	ws := slices.Clone(t.wiresAt(r))
	slices.SortFunc(ws, func(a, b *schematic.Wire) int { return schematic.CompareNames(a.Name, b.Name) })
	var all []string
	for _, w := range ws {
		e := &w.A
		if w.A.Ref() != r.ref() {
			e = &w.B
		}
		if s := text(w, e); s != "" && !slices.Contains(all, s) {
			all = append(all, s)
		}
	}
	return strings.Join(all, ", ")
}

func pinColumns() []Column {
	return []Column{
		{ID: "part", Title: "Part", Letters: 8, Help: "The designation of the part", text: func(t *Table, r Row) string { return t.part(r).Name }},
		{ID: "pin", Title: "Pin", Letters: 7, Help: "Pin or cavity; a part's own pins can be renamed", Editable: true,
			text: func(_ *Table, r Row) string { return r.Pin },
			set: func(t *Table, r Row, s string) (change, error) {
				if err := t.ownPins(r); err != nil {
					return nil, err
				}
				return func(tx *edit.Tx) error { return edit.RenamePin(tx, r.Key.ID, r.Pin, s) }, nil
			}},
		{ID: "name", Title: "What it is for", Letters: 18, Help: "What the pin is for; a part's own pins can be named", Editable: true,
			text: func(t *Table, r Row) string { return t.pin(r).Title },
			set: func(t *Table, r Row, s string) (change, error) {
				return t.setPin(r, func(p *schematic.Pin) { p.Title = s })
			}},
		{ID: "role", Title: "Role", Letters: 14, Help: "What the pin is electrically, where its part lets it be chosen", Editable: true,
			text: roleText, set: setRole},
		{ID: "wire", Title: "Wire", Letters: 9, Help: "The wires at the pin",
			text: func(t *Table, r Row) string {
				return t.ofWires(r, func(w *schematic.Wire, _ *schematic.End) string { return w.Name })
			}},
		{ID: "colour", Title: "Colour", Letters: 10, Help: "Insulation of its wire, as a code such as BK or BU/WH", Editable: true,
			text: func(t *Table, r Row) string {
				return t.ofWires(r, func(w *schematic.Wire, _ *schematic.End) string { return w.Color.String() })
			}, set: atWire(readColor)},
		{ID: "size", Title: "Size", Letters: 10, Number: true, Help: "Conductor size of its wire: mm², AWG or SAE", Editable: true,
			text: func(t *Table, r Row) string {
				return t.ofWires(r, func(w *schematic.Wire, _ *schematic.End) string { return sizeText(w.Size) })
			},
			value: func(t *Table, r Row) (float64, bool) {
				most, known := 0.0, false
				for _, w := range t.wiresAt(r) {
					if a, ok := w.Size.AreaMM2(); ok {
						most, known = max(most, a), true
					}
				}
				return most, known
			},
			set: atWire(readSize)},
		{ID: "goes-to", Title: "Goes to", Letters: 14, Help: "Where its wires end; the name of a pin, such as K1.30, draws a wire there or leads the one there is", Editable: true,
			text: func(t *Table, r Row) string {
				return t.ofWires(r, func(w *schematic.Wire, e *schematic.End) string {
					if e == &w.A {
						return t.endText(w.B)
					}
					return t.endText(w.A)
				})
			}, set: setGoesTo},
		pinEnd("terminal", "Terminal", "What is crimped on the wire here", func(e *schematic.End) *string { return &e.Terminal }),
		pinEnd("seal", "Seal", "The wire seal here", func(e *schematic.End) *string { return &e.Seal }),
		{ID: "net", Title: "Net", Letters: 16, Help: "What is joined by wires, splices and plugged contacts has one net", text: netText},
		{ID: "volts", Title: "Volts", Letters: 9, Number: true, Help: "Voltage against battery negative in the operating state looked at", text: voltText, value: pinVolt},
		{ID: "current", Title: "Current", Letters: 9, Number: true, Help: "What the wires bring to the pin in the operating state looked at, or, where only wires meet as in a splice, what goes through", text: pinAmpText, value: pinAmp},
		finding(),
		{ID: "purpose", Title: "Part does", Letters: 20, Help: "What the part is there for", text: func(t *Table, r Row) string { return t.part(r).Label }},
		{ID: "sheet", Title: "Sheet", Letters: 12, Help: "The sheets that show the pin", text: pinSheets},
	}
}

// ownPins returns an error for a part whose pins belong to its kind.
func (t *Table) ownPins(r Row) error {
	if k := t.Doc.KindOf(t.part(r)); k != nil && !k.OwnPins {
		return fmt.Errorf("the pins of a %s are those of its kind and stay as they are", strings.ToLower(k.Title))
	}
	return nil
}

func (t *Table) setPin(r Row, f func(*schematic.Pin)) (change, error) {
	if err := t.ownPins(r); err != nil {
		return nil, err
	}
	return func(tx *edit.Tx) error {
		return edit.SetPart(tx, r.Key.ID, func(p *schematic.Part) {
			for i := range p.Pins {
				if p.Pins[i].Name == r.Pin {
					f(&p.Pins[i])
				}
			}
		})
	}, nil
}

func roleTitle(r schematic.Role) string {
	if r.Title != "" {
		return r.Title
	}
	return r.Name
}

func roleText(t *Table, r Row) string {
	pin := t.pin(r)
	if k := t.Doc.KindOf(t.part(r)); k != nil {
		if role, ok := k.Role(pin.Role); ok {
			return roleTitle(role)
		}
	}
	return pin.Role
}

func setRole(t *Table, r Row, s string) (change, error) {
	if err := t.ownPins(r); err != nil {
		return nil, err
	}
	k := t.Doc.KindOf(t.part(r))
	if k == nil {
		return nil, fmt.Errorf("the kind of %s is not known, so its pins have no roles", t.part(r).Name)
	}
	var names []string
	for _, role := range k.Roles {
		if strings.EqualFold(role.Name, s) || strings.EqualFold(roleTitle(role), s) {
			return t.setPin(r, func(p *schematic.Pin) { p.Role = role.Name })
		}
		names = append(names, roleTitle(role))
	}
	return nil, fmt.Errorf("%q is not a role here: write one of %s", s, strings.Join(names, ", "))
}

// onlyWire returns the wire at a pin where there is exactly one.
func (t *Table) onlyWire(r Row) (*schematic.Wire, error) {
	switch ws := t.wiresAt(r); len(ws) {
	case 0:
		return nil, fmt.Errorf("no wire is at %s: say first where it goes to", t.NameOf(r))
	case 1:
		return ws[0], nil
	default:
		return nil, fmt.Errorf("%d wires are at %s: change them in the table of wires", len(ws), t.NameOf(r))
	}
}

// atWire makes a change of a wire one of the pin it is at.
func atWire(read func(string) (func(*schematic.Wire), error)) func(*Table, Row, string) (change, error) {
	return func(t *Table, r Row, s string) (change, error) {
		f, err := read(s)
		if err != nil {
			return nil, err
		}
		w, err := t.onlyWire(r)
		if err != nil {
			return nil, err
		}
		return func(tx *edit.Tx) error { return edit.SetWire(tx, w.ID, f) }, nil
	}
}

// pinEnd is a column for a text of the wire's end at a pin.
func pinEnd(id, title, help string, at func(*schematic.End) *string) Column {
	return Column{ID: id, Title: title, Letters: 12, Help: help, Editable: true,
		text: func(t *Table, r Row) string {
			return t.ofWires(r, func(_ *schematic.Wire, e *schematic.End) string { return *at(e) })
		},
		set: func(t *Table, r Row, s string) (change, error) {
			w, err := t.onlyWire(r)
			if err != nil {
				return nil, err
			}
			return func(tx *edit.Tx) error {
				return edit.SetWire(tx, w.ID, func(w *schematic.Wire) {
					for _, e := range []*schematic.End{&w.A, &w.B} {
						if e.Ref() == r.ref() {
							*at(e) = s
						}
					}
				})
			}, nil
		}}
}

func setGoesTo(t *Table, r Row, s string) (change, error) {
	ref, err := PinNamed(t.Doc, s)
	if err != nil {
		return nil, err
	}
	return func(tx *edit.Tx) error { return edit.ConnectPins(tx, r.ref(), ref, nil) }, nil
}

func netText(t *Table, r Row) string {
	if t.Solution == nil {
		return ""
	}
	n := t.Solution.Netlist
	i := n.NodeOf(r.ref())
	if i < 0 {
		return ""
	}
	return n.Nets[n.Nodes[i].Net].Name
}

func pinVolt(t *Table, r Row) (float64, bool) {
	if t.Solution == nil {
		return 0, false
	}
	return t.Solution.VoltAt(t.Solution.Netlist.NodeOf(r.ref()))
}

func voltText(t *Table, r Row) string {
	v, ok := pinVolt(t, r)
	switch {
	case t.Solution == nil:
		return ""
	case !ok:
		return "not known"
	}
	return unit.Format(unit.Volt, v, unit.SI)
}

// pinAmp is what the part takes or gives at a pin. Where nothing but wires
// meets, as in a splice, that would be nothing: there it is what they pass on
// to each other.
func pinAmp(t *Table, r Row) (float64, bool) {
	if t.Solution == nil || t.Solution.Err != nil {
		return 0, false
	}
	n := t.Solution.Netlist
	node := n.NodeOf(r.ref())
	if node < 0 {
		return 0, false
	}
	if !slices.ContainsFunc(n.At(node), func(branch int) bool { return n.Branches[branch].Role != netlist.RoleWire }) {
		return t.amongWires(r.ref())
	}
	amp := t.Solution.PinAmp(r.ref())
	return math.Abs(amp), !math.IsNaN(amp)
}

func pinAmpText(t *Table, r Row) string {
	amp, ok := pinAmp(t, r)
	return t.ampText(amp, ok)
}

func pinSheets(t *Table, r Row) string {
	p := t.part(r)
	pin := t.pin(r)
	var names []string
	for _, v := range p.Views {
		if name := t.sheetName(v.Sheet); v.Section == pin.Section && !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return strings.Join(names, ", ")
}
