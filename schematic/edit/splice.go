package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// SpliceKind is the name of the part kind that joins wires where one is led to
// another.
const SpliceKind = "splice"

// SplitWire puts a splice on a wire at the place nearest to at and selects it.
// Both halves keep what the wire was made of and share its length as drawn; what
// was built of the whole wire is no longer known of its halves.
func SplitWire(tx *Tx, wire schematic.ID, at geom.Point) error {
	w := tx.doc.Wire(wire)
	if w == nil {
		return fmt.Errorf("the wire is no longer there")
	}
	e, _, err := tx.splice(w.Sheet, wire, at)
	if err != nil {
		return err
	}
	tx.Select(schematic.Key{Type: schematic.TypePart, ID: e.Part})
	return nil
}

// splice returns an end on the wire near at: the pin that is already there, or
// a new splice. Half is the second half when the wire had to be split.
func (tx *Tx) splice(sheet, wire schematic.ID, at geom.Point) (e schematic.End, half schematic.ID, err error) {
	w := tx.doc.Wire(wire)
	switch {
	case w == nil:
		return e, half, fmt.Errorf("the wire to end on is no longer there: choose another one")
	case w.Sheet != sheet:
		return e, half, fmt.Errorf("%s is drawn on another sheet: a wire ends where it is drawn", w.Name)
	case w.Locked:
		return e, half, lockedError(tx.doc, w.Key())
	}
	path := tx.doc.Path(w)
	_, seg, q := path.Dist(at)
	q = gridOn(path[seg], path[seg+1], q)
	if q == path[0] && !w.A.Loose() {
		return schematic.End{Part: w.A.Part, Pin: w.A.Pin, View: w.A.View}, half, nil
	}
	if q == path[len(path)-1] && !w.B.Loose() {
		return schematic.End{Part: w.B.Part, Pin: w.B.Pin, View: w.B.View}, half, nil
	}
	if e, err = tx.addSplice(w, q); err != nil {
		return e, half, err
	}
	return e, tx.endAt(w, q, e), nil
}

// endAt lets a wire end at a pin that lies on it at q: from both sides, the ID of
// the half that is added is returned, or with its loose end there.
func (tx *Tx) endAt(w *schematic.Wire, q geom.Point, e schematic.End) (half schematic.ID) {
	path := tx.doc.Path(w)
	c := *w
	switch q {
	case path[0]:
		c.A.Part, c.A.Pin, c.A.View = e.Part, e.Pin, e.View
		tx.Put(&c)
	case path[len(path)-1]:
		c.B.Part, c.B.Pin, c.B.View = e.Part, e.Pin, e.View
		tx.Put(&c)
	default:
		_, seg, _ := path.Dist(q)
		half = tx.halve(w, append(slices.Clone(path[:seg+1]), q), append(geom.Path{q}, path[seg+1:]...), e, e)
	}
	return half
}

// addSplice puts a splice whose pin lies at q.
func (tx *Tx) addSplice(w *schematic.Wire, q geom.Point) (schematic.End, error) {
	p, err := tx.newPart(SpliceKind, map[string]bool{})
	if err != nil {
		return schematic.End{}, fmt.Errorf("%s cannot be joined: %w", w.Name, err)
	}
	section := sectionsShown(tx.doc.KindOf(p), p)[0]
	pins := tx.doc.LocalPins(p, section)
	if len(pins) == 0 {
		return schematic.End{}, fmt.Errorf("%s cannot be joined: part kind %q has no pin", w.Name, SpliceKind)
	}
	p.Views = []schematic.View{{Sheet: w.Sheet, Section: section, At: q.Sub(pins[0].At)}}
	p.Loom = w.Loom
	if err := onSheet(p.Name, p.Views[0].At); err != nil {
		return schematic.End{}, err
	}
	tx.Put(p)
	return schematic.End{Part: p.ID, Pin: pins[0].Pin.Name}, nil
}

// OnWire returns the place on a wire, near to a point, where another wire would
// join it.
func OnWire(d *schematic.Doc, w *schematic.Wire, near geom.Point) geom.Point {
	path := d.Path(w)
	_, seg, q := path.Dist(near)
	return gridOn(path[seg], path[seg+1], q)
}

// gridOn returns the grid place nearest to q on the segment from a to b; the
// segment's own ends count as places.
func gridOn(a, b, q geom.Point) geom.Point {
	box := geom.RectOf(a, b)
	s := q.Snap(geom.Grid)
	if a.Y == b.Y {
		s.Y = a.Y
	} else {
		s.X = a.X
	}
	s.X = max(box.Min.X, min(box.Max.X, s.X))
	s.Y = max(box.Min.Y, min(box.Max.Y, s.Y))
	return s
}
