package tool

import (
	"cmp"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// carry is what a drag does to what it carries.
type carry struct {
	keys   []schematic.Key
	held   []edit.Symbol // what the pointer has taken hold of
	by     geom.Point
	copies bool
	lift   bool         // out of the wire that runs through it
	into   schematic.ID // a wire it is put into
}

// apply does it on a sheet.
func (c carry) apply(tx *edit.Tx, sheet schematic.ID) error {
	keys, by, err := c.start(tx, sheet)
	switch {
	case err != nil:
		return err
	case c.into != schematic.ID{}:
		return edit.PutIntoWire(tx, sheet, keys, by, c.into)
	case c.copies:
		return edit.Duplicate(tx, sheet, keys, by)
	}
	return edit.Move(tx, sheet, keys, by, c.held...)
}

// start does what comes before things are put down: it lifts them out of their
// wire, and makes the copy of what is to go into a wire. It returns what is to
// be put down, and how far from there.
func (c carry) start(tx *edit.Tx, sheet schematic.ID) ([]schematic.Key, geom.Point, error) {
	keys, by := c.keys, c.by
	if c.lift {
		if _, err := edit.TakeFromWire(tx, keys[0].ID); err != nil {
			return nil, by, err
		}
		keys = tx.Selected()
	}
	if c.copies && c.into != (schematic.ID{}) {
		if err := edit.Duplicate(tx, sheet, keys, by); err != nil {
			return nil, by, err
		}
		keys, by = tx.Selected(), geom.Point{}
	}
	return keys, by, nil
}

// withMate adds the other half of a connector that has no wires yet and lies
// against it: the two are one thing until they are wired.
func withMate(d *schematic.Doc, sheet schematic.ID, keys []schematic.Key) []schematic.Key {
	if len(keys) != 1 || keys[0].Type != schematic.TypePart {
		return keys
	}
	p := d.Part(keys[0].ID)
	if p == nil {
		return keys
	}
	mate := d.Part(p.Mate)
	if mate == nil || edit.Locked(d, mate.Key()) {
		return keys
	}
	both := []schematic.Key{keys[0], mate.Key()}
	if len(edit.Passages(d, sheet, both)) == 0 || len(wiredPins(d, sheet, both)) > 0 {
		return keys
	}
	one, two := d.Body(p, p.Views[0]), d.Body(mate, mate.Views[0])
	if len(p.Views) != 1 || len(mate.Views) != 1 || !one.Touches(two) {
		return keys
	}
	return both
}

// canLift reports whether the keys name one thing that a wire runs through.
func canLift(d *schematic.Doc, keys []schematic.Key) bool {
	if len(keys) == 0 || len(keys) > 2 || keys[0].Type != schematic.TypePart || !edit.CanJoin(d, keys[0].ID) {
		return false
	}
	return len(keys) == 1 || keys[1] == schematic.Key{Type: schematic.TypePart, ID: d.Part(keys[0].ID).Mate}
}

// land looks for a wire next to what is carried and, if what is carried can be
// put into it, notes that and returns the pins that would be wired.
func (c *carry) land(env Env) []geom.Point {
	c.into = schematic.ID{}
	if len(c.keys) > 2 { // one part, or the two halves of a connector
		return nil
	}
	try := *c
	try.into = schematic.ID{1} // any: a copy is made as for a wire
	tx := edit.Begin(env.Doc(), nil)
	keys, by, err := try.start(tx, env.Sheet())
	if err != nil {
		return nil
	}
	at := edit.Passages(tx.Doc(), env.Sheet(), keys)
	for i := range at {
		at[i] = at[i].Add(by)
	}
	for _, id := range wiresBy(env, tx.Doc(), at) {
		if edit.PutIntoWire(tx, env.Sheet(), keys, by, id) == nil {
			c.into = id
			return wiredPins(tx.Doc(), env.Sheet(), keys)
		}
	}
	return nil
}

// magnet is how near a wire draws in what can be put into it, in units.
const magnet = geom.Grid

// wiresBy returns the wires of a document that pass by one of the places, the
// nearest first.
func wiresBy(env Env, d *schematic.Doc, at []geom.Point) []schematic.ID {
	type found struct {
		wire *schematic.Wire
		dist float64
	}
	var near []found
	for _, p := range at {
		for _, k := range env.In(geom.RectOf(p).Grow(magnet), false) {
			w := d.Wire(k.ID)
			if k.Type != schematic.TypeWire || w == nil || w.Locked || w.Sheet != env.Sheet() {
				continue
			}
			if dist, _, _ := d.Path(w).Dist(p); dist <= magnet {
				near = append(near, found{w, dist})
			}
		}
	}
	slices.SortStableFunc(near, func(a, b found) int {
		return cmp.Or(cmp.Compare(a.dist, b.dist), schematic.CompareNames(a.wire.Name, b.wire.Name))
	})
	var ids []schematic.ID
	for _, f := range near {
		if !slices.Contains(ids, f.wire.ID) {
			ids = append(ids, f.wire.ID)
		}
	}
	return ids
}

// wiredPins returns where the pins of parts lie that have wires.
func wiredPins(d *schematic.Doc, sheet schematic.ID, keys []schematic.Key) []geom.Point {
	var at []geom.Point
	parts := make([]schematic.ID, len(keys))
	for i, k := range keys {
		parts[i] = k.ID
	}
	for _, w := range d.WiresOf(parts...) {
		for _, e := range []schematic.End{w.A, w.B} {
			if w.Sheet != sheet || !slices.Contains(keys, schematic.Key{Type: schematic.TypePart, ID: e.Part}) {
				continue
			}
			if p, _, ok := d.EndAt(w, e); ok && !slices.Contains(at, p) {
				at = append(at, p)
			}
		}
	}
	slices.SortFunc(at, func(p, q geom.Point) int { return cmp.Or(cmp.Compare(p.X, q.X), cmp.Compare(p.Y, q.Y)) })
	return at
}
