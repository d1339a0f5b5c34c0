package edit

import (
	"fmt"
	"slices"
	"strconv"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// plainPrefix names parts whose kind has no letters of its own.
const plainPrefix = "A"

// PlacePart adds a part of the named kind to a sheet and selects it. It gets
// the lowest free designation and its own copy of the kind's start pins. A
// kind in several sections shows them side by side; a kind with another half
// brings that half along, mated.
//
// Wires that it comes to lie on are led round it.
func PlacePart(tx *Tx, kind string, sheet schematic.ID, at geom.Point, orient geom.Orient) error {
	before := tx.doc
	if err := tx.placePart(kind, sheet, at, orient); err != nil {
		return err
	}
	tx.dodge(before, sheet, idsOf(tx.Selected()))
	return nil
}

func (tx *Tx) placePart(kind string, sheet schematic.ID, at geom.Point, orient geom.Orient) error {
	if tx.doc.Sheet(sheet) == nil {
		return fmt.Errorf("the sheet is no longer there: choose another one")
	}
	taken := map[string]bool{}
	p, err := tx.newPart(kind, taken)
	if err != nil {
		return err
	}
	if err := tx.layOut(p, sheet, at, orient, 0); err != nil {
		return err
	}
	other := tx.doc.KindOf(p).OtherHalf
	if other == "" {
		tx.Put(p)
		tx.Select(p.Key())
		return nil
	}
	q, err := tx.newPart(other, taken)
	if err != nil {
		return fmt.Errorf("the other half of %s: %w", kind, err)
	}
	if err := tx.layOut(q, sheet, at, orient, besides(tx.doc, p, q)); err != nil {
		return err
	}
	p.Mate, q.Mate = q.ID, p.ID
	tx.Put(p, q)
	tx.Select(p.Key(), q.Key())
	return nil
}

// newPart returns a part of the kind that is on no sheet yet.
func (tx *Tx) newPart(kind string, taken map[string]bool) (*schematic.Part, error) {
	k := tx.doc.Kind(kind)
	if k == nil {
		return nil, fmt.Errorf("there is no part kind %q: choose one from the tray", kind)
	}
	tx.carry(k)
	prefix := k.Prefix
	if prefix == "" {
		prefix = plainPrefix
	}
	p := &schematic.Part{ID: tx.NewID(), Name: tx.doc.FreeName(prefix, taken), Kind: k.Name}
	taken[p.Name] = true
	if k.OwnPins {
		p.Pins = slices.Clone(k.Pins)
	}
	return p, nil
}

// besides returns how far right of part p's symbol that of its other half lies,
// in the symbols' own coordinates: bodies edge to edge, on the side where p has
// no wires.
func besides(d *schematic.Doc, p, q *schematic.Part) int {
	one := d.LocalBody(p, p.Views[0].Section)
	two := d.LocalBody(q, sectionsShown(d.KindOf(q), q)[0])
	faces := func(dir geom.Dir) bool {
		return slices.ContainsFunc(d.LocalPins(p, p.Views[0].Section), func(pin schematic.PlacedPin) bool { return pin.Dir == dir })
	}
	if faces(geom.Right) && !faces(geom.Left) {
		return one.Min.X - two.Max.X
	}
	return one.Max.X - two.Min.X
}

// layOut gives the part, which is not shared yet, a view of every section, each
// right of the one before; the first lies x right of the pointer in the
// symbol's own coordinates.
func (tx *Tx) layOut(p *schematic.Part, sheet schematic.ID, at geom.Point, orient geom.Orient, x int) error {
	const gap = 2 * schematic.PinPitch
	for i, name := range sectionsShown(tx.doc.KindOf(p), p) {
		body := tx.doc.LocalBody(p, name)
		v := schematic.View{Sheet: sheet, Section: name, Turns: orient.Turns & 3, Mirror: orient.Mirror}
		if i > 0 {
			x += gap - body.Min.X
			v.Key = strconv.Itoa(i + 1)
		}
		v.At = at.Add(orient.Apply(geom.Pt(x, 0)))
		if err := onSheet(p.Name, v.At); err != nil {
			return err
		}
		p.Views = append(p.Views, v)
		x += body.Max.X
	}
	return nil
}

// sectionsShown lists the sections a new part shows: all of a fixed kind, and
// those with pins of a kind whose parts bring their own.
func sectionsShown(k *schematic.Kind, p *schematic.Part) []string {
	var names []string
	for _, s := range k.Sections {
		used := !k.OwnPins || slices.ContainsFunc(p.Pins, func(pin schematic.Pin) bool { return pin.Section == s.Name })
		if used && !slices.Contains(names, s.Name) {
			names = append(names, s.Name)
		}
	}
	if len(names) == 0 {
		names = []string{""}
		if len(k.Sections) > 0 {
			names[0] = k.Sections[0].Name
		}
	}
	return names
}

// ShowPart adds one more symbol of a part to a sheet: a ground stud on every
// sheet that uses it, a relay's contact away from its coil.
func ShowPart(tx *Tx, id, sheet schematic.ID, section string, at geom.Point, orient geom.Orient) error {
	p := tx.doc.Part(id)
	switch {
	case p == nil:
		return fmt.Errorf("the part is no longer there")
	case tx.doc.Sheet(sheet) == nil:
		return fmt.Errorf("%s: the sheet is no longer there: choose another one", p.Name)
	}
	if k := tx.doc.KindOf(p); k != nil {
		if _, ok := k.Section(section); !ok {
			return fmt.Errorf("%s: part kind %q has no section %q", p.Name, k.Name, section)
		}
	}
	if err := onSheet(p.Name, at); err != nil {
		return err
	}
	v := schematic.View{Sheet: sheet, Section: section, At: at, Turns: orient.Turns & 3, Mirror: orient.Mirror}
	for n := len(p.Views); ; n++ {
		if n > 0 {
			v.Key = strconv.Itoa(n + 1)
		}
		if _, taken := p.View(v.Key); !taken {
			break
		}
	}
	tx.EditPart(id, func(p *schematic.Part) { p.Views = append(slices.Clone(p.Views), v) })
	tx.Select(p.Key())
	return nil
}
