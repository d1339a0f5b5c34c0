package edit

import (
	"fmt"
	"slices"
	"strconv"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Cavity is one line of a connector's pin table.
type Cavity struct {
	Was   string // the name it has now; "" is a new one
	Name  string
	Title string // what it is for
	// Wire, when not nil, is what the wire at the cavity is like: size, colour,
	// insulation and circuit of it count. It is drawn when there is none.
	Wire *schematic.Wire
	// To is the pin the wire leads to; the zero value leaves that open: a new
	// wire then ends loose a little way out.
	To schematic.PinRef
}

// SetPinout makes the cavities of a part with own pins those of a pin table, in
// its order: they are renamed, added and removed, and wires drawn, led and
// changed. A plugged half with the same cavities is kept in step. A cavity that
// has a wire cannot go.
func SetPinout(tx *Tx, id schematic.ID, rows []Cavity) error {
	p := tx.doc.Part(id)
	if p == nil {
		return fmt.Errorf("the connector is no longer there")
	}
	k := tx.doc.KindOf(p)
	if k == nil || !k.OwnPins || len(k.Roles) == 0 {
		return fmt.Errorf("%s: the pins of its kind stay as they are", p.Name)
	}
	if err := checkCavities(p, rows); err != nil {
		return err
	}
	halves := []schematic.ID{id}
	if q := tx.doc.Part(p.Mate); q != nil && samePins(p, q) {
		halves = append(halves, q.ID)
	}
	if err := tx.renameCavities(id, rows); err != nil {
		return err
	}
	for i, half := range halves {
		if err := tx.setCavities(half, rows, i == 0); err != nil {
			return err
		}
	}
	for _, r := range rows {
		if err := tx.wireCavity(id, r); err != nil {
			return fmt.Errorf("cavity %s: %w", r.Name, err)
		}
	}
	tx.Select(p.Key())
	return nil
}

func checkCavities(p *schematic.Part, rows []Cavity) error {
	if len(rows) == 0 {
		return fmt.Errorf("%s: a connector needs at least one cavity", p.Name)
	}
	seen, was := map[string]bool{}, map[string]bool{}
	for i, r := range rows {
		switch {
		case r.Name == "":
			return fmt.Errorf("line %d: the cavity needs a name", i+1)
		case seen[r.Name]:
			return fmt.Errorf("line %d: there are two cavities %s: give each its own name", i+1, r.Name)
		case r.Was != "" && was[r.Was]:
			return fmt.Errorf("line %d: cavity %s is there twice", i+1, r.Was)
		}
		seen[r.Name], was[r.Was] = true, true
	}
	return nil
}

func samePins(p, q *schematic.Part) bool {
	names := func(p *schematic.Part) []string {
		var all []string
		for _, pin := range p.Pins {
			all = append(all, pin.Name)
		}
		slices.Sort(all)
		return all
	}
	return slices.Equal(names(p), names(q))
}

// renameCavities goes over names nobody uses, so that two may be swapped.
func (tx *Tx) renameCavities(id schematic.ID, rows []Cavity) error {
	between := func(i int) string { return "\x00" + strconv.Itoa(i) }
	for i, r := range rows {
		if r.Was != "" && r.Was != r.Name {
			if err := RenamePin(tx, id, r.Was, between(i)); err != nil {
				return err
			}
		}
	}
	// A cavity that goes must not hold the name of one that stays.
	p := tx.doc.Part(id)
	for i, r := range rows {
		if r.Was == "" || r.Was == r.Name {
			continue
		}
		if slices.ContainsFunc(p.Pins, func(pin schematic.Pin) bool { return pin.Name == r.Name }) &&
			!slices.ContainsFunc(rows, func(o Cavity) bool { return o.Was == r.Name }) {
			if err := tx.dropPin(id, r.Name); err != nil {
				return err
			}
			if q := tx.doc.Part(p.Mate); q != nil {
				if err := tx.dropPin(q.ID, r.Name); err != nil {
					return err
				}
			}
		}
		if err := RenamePin(tx, id, between(i), r.Name); err != nil {
			return err
		}
	}
	return nil
}

func (tx *Tx) dropPin(id schematic.ID, name string) error {
	return SetPart(tx, id, func(p *schematic.Part) {
		p.Pins = slices.DeleteFunc(p.Pins, func(pin schematic.Pin) bool { return pin.Name == name })
	})
}

// setCavities gives a part the pins of the rows, which bear their names already.
func (tx *Tx) setCavities(id schematic.ID, rows []Cavity, titled bool) error {
	p := tx.doc.Part(id)
	k := tx.doc.KindOf(p)
	like := schematic.Pin{}
	if k != nil && len(k.Pins) > 0 {
		like = k.Pins[len(k.Pins)-1]
	}
	if len(p.Pins) > 0 {
		like.Section, like.Side, like.Role = p.Pins[0].Section, p.Pins[0].Side, p.Pins[0].Role
	}
	have := map[string]schematic.Pin{}
	for _, pin := range p.Pins {
		have[pin.Name] = pin
	}
	return SetPart(tx, id, func(p *schematic.Part) {
		p.Pins = nil
		for _, r := range rows {
			pin, ok := have[r.Name]
			if !ok {
				pin = like
				pin.Values = nil
			}
			pin.Name = r.Name
			if titled || !ok {
				pin.Title = r.Title
			}
			p.Pins = append(p.Pins, pin)
		}
	})
}

// wireCavity draws, leads and changes the wire at a cavity as its line says.
func (tx *Tx) wireCavity(id schematic.ID, r Cavity) error {
	here := schematic.PinRef{Part: id, Pin: r.Name}
	led := r.To != schematic.PinRef{}
	if r.Wire == nil && !led {
		return nil
	}
	if led {
		if err := ConnectPins(tx, here, r.To, r.Wire); err != nil {
			return err
		}
	}
	at := tx.doc.WiresAt(here)
	if len(at) == 0 {
		if err := HangWire(tx, here, r.Wire); err != nil {
			return err
		}
		at = tx.doc.WiresAt(here)
	}
	if r.Wire == nil {
		return nil
	}
	if len(at) > 1 {
		return fmt.Errorf("%d wires are there: change them on the drawing", len(at))
	}
	return SetWire(tx, at[0].ID, func(w *schematic.Wire) {
		w.Size, w.Color, w.Insulation, w.Circuit = r.Wire.Size, r.Wire.Color, r.Wire.Insulation, r.Wire.Circuit
	})
}

// Connector describes a connector to be made.
type Connector struct {
	Kind    string // of the tray; it brings its other half along where it has one
	Alone   bool   // without the other half
	Label   string
	Housing *schematic.Housing
	Rows    []Cavity
}

// MakeConnector places a connector with the cavities of a pin table, and draws
// its wires. It goes to the place given, or to the next free one to the right
// of it or below, and is selected together with its other half.
func MakeConnector(tx *Tx, c Connector, sheet schematic.ID, at geom.Point) error {
	if err := tx.makeConnector(c, sheet, at); err != nil {
		return err
	}
	keys := tx.selected
	if by := tx.stepAside(sheet, keys); by != (geom.Point{}) {
		if err := Move(tx, sheet, keys, by); err != nil {
			return err
		}
	}
	for _, r := range c.Rows {
		if err := tx.wireCavity(keys[0].ID, r); err != nil {
			return fmt.Errorf("cavity %s: %w", r.Name, err)
		}
	}
	tx.Select(keys...)
	return nil
}

// makeConnector places the connector without its wires.
func (tx *Tx) makeConnector(c Connector, sheet schematic.ID, at geom.Point) error {
	if err := PlacePart(tx, c.Kind, sheet, at, geom.Orient{}); err != nil {
		return err
	}
	keys := tx.selected
	first := keys[0].ID
	if c.Alone && len(keys) > 1 {
		if err := Unmate(tx, first); err != nil {
			return err
		}
		tx.Delete(keys[1:]...)
		keys = keys[:1]
	}
	rows := slices.Clone(c.Rows)
	for i := range rows {
		rows[i].Was, rows[i].Wire, rows[i].To = "", nil, schematic.PinRef{}
	}
	if err := SetPinout(tx, first, rows); err != nil {
		return err
	}
	if err := SetPart(tx, first, func(p *schematic.Part) { p.Label, p.Housing = c.Label, c.Housing }); err != nil {
		return err
	}
	tx.Select(keys...)
	return nil
}

// stepAside returns how far parts just placed must move to the right and down
// so that they lie over no other part or wire of the sheet; nothing when no place near
// by is free.
func (tx *Tx) stepAside(sheet schematic.ID, keys []schematic.Key) geom.Point {
	const step, far = 6 * geom.Grid, 12
	mine := geom.EmptyRect()
	var others []geom.Rect
	for p := range tx.doc.Parts() {
		r := geom.EmptyRect()
		for _, v := range p.Views {
			if v.Sheet == sheet {
				r = r.Union(tx.doc.Reach(p, v))
			}
		}
		switch {
		case r.Empty():
		case slices.Contains(keys, p.Key()):
			mine = mine.Union(r)
		default:
			others = append(others, r)
		}
	}
	for w := range tx.doc.Wires() {
		if w.Sheet != sheet {
			continue
		}
		path := tx.doc.Path(w)
		for i := 1; i < len(path); i++ {
			others = append(others, geom.RectOf(path[i-1], path[i]))
		}
	}
	mine = mine.Grow(geom.Grid)
	for n := 0; n <= far; n++ {
		for i := n; i >= 0; i-- {
			by := geom.Pt(i*step, (n-i)*step)
			if !slices.ContainsFunc(others, mine.Add(by).Touches) {
				return by
			}
		}
	}
	return geom.Point{}
}
