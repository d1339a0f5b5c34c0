package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// Anchor is where a wire shall end: at a pin when Part is given, on another
// wire, which gets a splice there, when Wire is given, loose at At otherwise.
type Anchor struct {
	Part schematic.ID
	Pin  string
	View string // which symbol of the part; may stay empty
	Wire schematic.ID
	At   geom.Point // for a wire: near which place; for a loose end: where
}

// WireEnd names one of the two ends of a wire.
type WireEnd int

const (
	EndA WireEnd = iota
	EndB
)

// WirePrefix begins the designations of wires.
const WirePrefix = "W"

// AddWire draws a wire on a sheet and selects it. Via are its bends; none lets
// the best way be chosen. Like, which may be nil, is a wire whose conductor,
// insulation and colour the new one takes over.
func AddWire(tx *Tx, sheet schematic.ID, a, b Anchor, via []geom.Point, like *schematic.Wire) error {
	if tx.doc.Sheet(sheet) == nil {
		return fmt.Errorf("the sheet is no longer there: choose another one")
	}
	w := &schematic.Wire{ID: tx.NewID(), Sheet: sheet}
	if like != nil {
		w.Metal, w.Size, w.Insulation, w.TempC, w.Color = like.Metal, like.Size, like.Insulation, like.TempC, like.Color
	}
	var err error
	var half schematic.ID
	if w.A, half, err = tx.end(sheet, a); err != nil {
		return err
	}
	if b.Wire == a.Wire && half != (schematic.ID{}) && tx.nearer(half, b.Wire, b.At) {
		b.Wire = half
	}
	if w.B, _, err = tx.end(sheet, b); err != nil {
		return err
	}
	w.Name = tx.doc.FreeName(WirePrefix, nil)
	if err := tx.shape(w, via); err != nil {
		return err
	}
	if len(via) == 0 {
		w.Via = tx.way(w)
	}
	tx.Put(w)
	tx.Select(w.Key())
	return nil
}

// shape settles the bends of a wire between the ends it has now, and refuses a
// wire that leads nowhere.
func (tx *Tx) shape(w *schematic.Wire, via []geom.Point) error {
	if !w.A.Loose() && w.A.Ref() == w.B.Ref() {
		return fmt.Errorf("both ends of %s would be at pin %s of %s: end it somewhere else", w.Name, w.A.Pin, tx.doc.Part(w.A.Part).Name)
	}
	a, b := route.TipOf(tx.doc, w, w.A), route.TipOf(tx.doc, w, w.B)
	if w.A.Loose() && w.B.Loose() && a.At == b.At {
		return fmt.Errorf("%s would have no length: end it somewhere else", w.Name)
	}
	if err := onSheet(w.Name, append(slices.Clone(via), a.At, b.At)...); err != nil {
		return err
	}
	w.Via = nil
	if len(via) > 0 {
		w.Via = bendsOf(schematic.RoutePath(a.At, a.Dir, via, b.At, b.Dir), a, b)
	}
	return nil
}

// nearer reports whether p lies nearer to wire a than to wire b.
func (tx *Tx) nearer(a, b schematic.ID, p geom.Point) bool {
	wa, wb := tx.doc.Wire(a), tx.doc.Wire(b)
	if wa == nil || wb == nil {
		return wb == nil
	}
	da, _, _ := tx.doc.Path(wa).Dist(p)
	db, _, _ := tx.doc.Path(wb).Dist(p)
	return da < db
}

// end turns an anchor into a wire's end. Where it is on a wire that one is
// split, and the ID of the half that was added is returned.
func (tx *Tx) end(sheet schematic.ID, at Anchor) (e schematic.End, half schematic.ID, err error) {
	switch {
	case at.Part != schematic.ID{}:
		e, err = tx.pinEnd(sheet, at)
		return e, half, err
	case at.Wire != schematic.ID{}:
		return tx.splice(sheet, at.Wire, at.At)
	}
	return schematic.End{At: at.At}, half, onSheet("the loose end", at.At)
}

func (tx *Tx) pinEnd(sheet schematic.ID, at Anchor) (schematic.End, error) {
	p := tx.doc.Part(at.Part)
	if p == nil {
		return schematic.End{}, fmt.Errorf("the part to end at is no longer there: choose another pin")
	}
	e := schematic.End{Part: p.ID, Pin: at.Pin, View: at.View}
	if _, ok := tx.doc.PinOf(p, at.Pin); !ok {
		return e, fmt.Errorf("%s has no pin %q: choose one of its pins", p.Name, at.Pin)
	}
	if _, _, shown := tx.doc.EndAt(&schematic.Wire{Sheet: sheet}, e); !shown {
		return e, fmt.Errorf("pin %s of %s is not shown on this sheet: place another symbol of %s here first", at.Pin, p.Name, p.Name)
	}
	return e, nil
}

// ReconnectEnd leads one end of a wire to another place. The bends stay as far
// as they can. What was crimped on stays only within the same part.
func ReconnectEnd(tx *Tx, wire schematic.ID, which WireEnd, to Anchor) error {
	w := tx.doc.Wire(wire)
	if w == nil {
		return fmt.Errorf("the wire is no longer there")
	}
	if w.Locked {
		return lockedError(tx.doc, w.Key())
	}
	if to.Wire == wire {
		return fmt.Errorf("%s cannot end on itself: end it at a pin or on another wire", w.Name)
	}
	e, _, err := tx.end(w.Sheet, to)
	if err != nil {
		return fmt.Errorf("%s: %w", w.Name, err)
	}
	c := *w
	old := &c.A
	if which == EndB {
		old = &c.B
	}
	if !e.Loose() && e.Part == old.Part {
		e.Terminal, e.Seal, e.JointOhm, e.Extra = old.Terminal, old.Seal, old.JointOhm, old.Extra
	}
	*old = e
	if err := tx.shape(&c, nil); err != nil {
		return err
	}
	if err := tx.lead(tx.doc, []carried{{old: w, now: &c}}); err != nil {
		return err
	}
	tx.Select(c.Key())
	return nil
}
