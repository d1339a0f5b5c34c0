package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// MoveSegment pushes one straight stretch of a wire sideways; seg counts the
// stretches of [schematic.Doc.Path] from end A. Pins stay where they are and
// keep a short straight stub; a loose end goes along.
func MoveSegment(tx *Tx, wire schematic.ID, seg int, by geom.Point) error {
	w, path, err := tx.drawn(wire, seg)
	if err != nil {
		return err
	}
	p, q := path[seg], path[seg+1]
	if p.Y == q.Y {
		by.X = 0
	} else {
		by.Y = 0
	}
	if by == (geom.Point{}) {
		return nil
	}
	c := *w
	out := slices.Clone(path[:seg])
	switch {
	case seg > 0:
		out = append(out, p.Add(by))
	case w.A.Loose():
		c.A.At = w.A.At.Add(by)
		out = append(out, c.A.At)
	default:
		s := stub(p, q)
		out = append(out, p, s, s.Add(by))
	}
	return tx.redraw(&c, append(out, towardsB(&c, path, seg, p, by)...))
}

// towardsB is the path from the far end of a stretch that was pushed by by, on
// to end B. A pin there keeps a stub towards from; a loose end of c goes along.
func towardsB(c *schematic.Wire, path geom.Path, seg int, from, by geom.Point) geom.Path {
	q := path[seg+1]
	switch {
	case seg+2 < len(path):
		return append(geom.Path{q.Add(by)}, path[seg+2:]...)
	case c.B.Loose():
		c.B.At = c.B.At.Add(by)
		return geom.Path{c.B.At}
	}
	s := stub(q, from)
	return geom.Path{s.Add(by), s, q}
}

// MoveBend drags one bend of a wire and with it the two stretches that meet
// there; bend counts the inner points of [schematic.Doc.Path] from 0.
func MoveBend(tx *Tx, wire schematic.ID, bend int, by geom.Point) error {
	w, path, err := tx.drawn(wire, bend+1)
	if err != nil {
		return err
	}
	after := path[bend+1].Sub(path[bend+2])
	if err := MoveSegment(tx, wire, bend+1, by); err != nil {
		return err
	}
	want := path[bend+1].Add(by)
	if after.X == 0 {
		want.Y = path[bend+1].Y
	} else {
		want.X = path[bend+1].X
	}
	// Where the first stretch has shrunk to nothing there is no second to move.
	if path = tx.doc.Path(tx.doc.Wire(w.ID)); bend+1 >= len(path) || path[bend+1] != want {
		return nil
	}
	return MoveSegment(tx, wire, bend, by)
}

// stub returns the place on the way from a pin to the other end of its segment
// where the wire may turn off: one pin pitch out, or a third of the way where
// there is not that much room.
func stub(pin, to geom.Point) geom.Point {
	v := to.Sub(pin)
	n := min(max(v.X, -v.X, v.Y, -v.Y)/3/geom.Grid*geom.Grid, schematic.PinPitch)
	u := geom.DirOf(v).Vec()
	return pin.Add(geom.Pt(u.X*n, u.Y*n))
}

// AddBend breaks the wire where it passes nearest to at: what follows towards
// end B up to the next bend is drawn through at. An end at a pin keeps a stub.
func AddBend(tx *Tx, wire schematic.ID, at geom.Point) error {
	w, path, err := tx.drawn(wire, 0)
	if err != nil {
		return err
	}
	_, seg, on := path.Dist(at)
	p, q := path[seg], path[seg+1]
	by := at.Sub(on)
	if p.Y == q.Y {
		on, by.X = geom.Pt(gridOn(p, q, at).X, p.Y), 0
	} else {
		on, by.Y = geom.Pt(p.X, gridOn(p, q, at).Y), 0
	}
	if by == (geom.Point{}) {
		return fmt.Errorf("%s already passes there: point beside the wire where it shall go", w.Name)
	}
	c := *w
	out := append(slices.Clone(path[:seg+1]), on, on.Add(by))
	return tx.redraw(&c, append(out, towardsB(&c, path, seg, on, by)...))
}

// RemoveBend takes the step at the given bend out of a wire; bend counts the
// inner points of [schematic.Doc.Path] from 0. When the ends leave no other
// way the bends are chosen anew.
func RemoveBend(tx *Tx, wire schematic.ID, bend int) error {
	w, path, err := tx.drawn(wire, 0)
	if err != nil {
		return err
	}
	if bend < 0 || bend >= len(path)-2 {
		return fmt.Errorf("%s has no bend %d: it has %d", w.Name, bend+1, len(path)-2)
	}
	// The bends i and i+1 bound the stretch that goes; what lies before and
	// after it runs parallel and becomes one line.
	i := min(bend+1, len(path)-3)
	if i < 1 {
		return Straighten(tx, wire)
	}
	before, after := path[i-1], path[i+2]
	level := before.Y == path[i].Y
	out := slices.Delete(slices.Clone(path), i, i+2)
	switch {
	case i+2 < len(path)-1:
		slide(&out[i], before, level)
	case i-1 > 0:
		slide(&out[i-1], after, level)
	default:
		return Straighten(tx, wire)
	}
	return tx.redraw(w, out)
}

// Straighten forgets the bends of a wire and chooses its way anew.
func Straighten(tx *Tx, wire schematic.ID) error {
	w := tx.doc.Wire(wire)
	switch {
	case w == nil:
		return fmt.Errorf("the wire is no longer there")
	case w.Locked:
		return lockedError(tx.doc, w.Key())
	}
	tx.rebend(w, tx.way(w))
	return nil
}

// rebend puts a wire with other bends.
func (tx *Tx) rebend(w *schematic.Wire, via []geom.Point) {
	c := *w
	c.Via = orNil(slices.Clone(via))
	c.Tag = keepLabel(w.Tag, tx.doc.Path(w), tx.doc.Path(&c))
	tx.Put(&c)
}

// SetBends gives wires bends that were found for this snapshot; wires that are
// gone or locked are passed over.
func SetBends(tx *Tx, vias route.Vias) error {
	for id, via := range vias {
		w := tx.doc.Wire(id)
		if w == nil || w.Locked {
			continue
		}
		if err := onSheet(w.Name, via...); err != nil {
			return err
		}
		tx.rebend(w, via)
	}
	return nil
}

// drawn returns a wire to be drawn otherwise and its path, which has a segment seg.
func (tx *Tx) drawn(wire schematic.ID, seg int) (*schematic.Wire, geom.Path, error) {
	w := tx.doc.Wire(wire)
	if w == nil {
		return nil, nil, fmt.Errorf("the wire is no longer there")
	}
	if w.Locked {
		return nil, nil, lockedError(tx.doc, w.Key())
	}
	path := tx.doc.Path(w)
	if seg < 0 || seg+1 >= len(path) {
		return nil, nil, fmt.Errorf("%s has no stretch %d: it has %d", w.Name, seg+1, len(path)-1)
	}
	return w, path, nil
}

// redraw puts the wire with this path.
func (tx *Tx) redraw(w *schematic.Wire, path geom.Path) error {
	if err := onSheet(w.Name, path...); err != nil {
		return err
	}
	c := *w
	c.Via = bendsOf(path, route.TipOf(tx.doc, &c, c.A), route.TipOf(tx.doc, &c, c.B))
	c.Tag = keepLabel(w.Tag, tx.doc.Path(tx.doc.Wire(w.ID)), tx.doc.Path(&c))
	tx.Put(&c)
	return nil
}
