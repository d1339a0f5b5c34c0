package edit

import (
	"fmt"
	"math"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// inline is how a wire runs through a part, in the coordinates of its symbol:
// in at one pin and out at another that faces the other way. Of a connector
// with another half each half has one of the pins.
type inline struct {
	in, out schematic.PlacedPin
	halves  bool
}

// FitsOnWire reports whether parts of a kind can be put into a wire: those with
// two pins in line, connectors with another half, and splices.
func FitsOnWire(d *schematic.Doc, kind string) bool {
	_, ok := inlineOf(d, kind)
	return ok || kind == SpliceKind
}

func inlineOf(d *schematic.Doc, kind string) (inline, bool) {
	one, pins, ok := asPlaced(d, kind)
	if !ok {
		return inline{}, false
	}
	other := d.Kind(kind).OtherHalf
	if other == "" {
		if len(pins) != 2 {
			return inline{}, false
		}
		return inline{in: pins[0], out: pins[1]}, opposite(pins[0], pins[1])
	}
	two, more, ok := asPlaced(d, other)
	if !ok {
		return inline{}, false
	}
	x := besides(d, one, two)
	for _, p := range pins {
		for _, q := range more {
			q.At.X += x
			if p.Pin.Name == q.Pin.Name && opposite(p, q) {
				return inline{in: p, out: q, halves: true}, true
			}
		}
	}
	return inline{}, false
}

// asPlaced returns a part as it would be placed, if it is drawn in one symbol.
func asPlaced(d *schematic.Doc, kind string) (*schematic.Part, []schematic.PlacedPin, bool) {
	k := d.Kind(kind)
	if k == nil {
		return nil, nil, false
	}
	p := &schematic.Part{Kind: k.Name}
	if k.OwnPins {
		p.Pins = k.Pins
	}
	sections := sectionsShown(k, p)
	if len(sections) != 1 {
		return nil, nil, false
	}
	p.Views = []schematic.View{{Section: sections[0]}}
	return p, d.LocalPins(p, sections[0]), true
}

// opposite reports whether a wire can run straight in at one pin and out at the
// other.
func opposite(p, q schematic.PlacedPin) bool {
	return p.Dir != geom.NoDir && p.Dir.Vec() == q.Dir.Vec().Neg() && geom.DirOf(q.At.Sub(p.At)) == q.Dir
}

// PlaceOnWire places a part of a kind into a wire near a place: the wire ends
// at one pin of it and a new one goes on from the other. The part is turned to
// lie along the wire. A splice is put on it as it is.
func PlaceOnWire(tx *Tx, kind string, wire schematic.ID, at geom.Point, orient geom.Orient) error {
	if kind == SpliceKind {
		return SplitWire(tx, wire, at)
	}
	w := tx.doc.Wire(wire)
	if w == nil {
		return fmt.Errorf("the wire is no longer there")
	}
	if _, ok := inlineOf(tx.doc, kind); !ok {
		return fmt.Errorf("a part of kind %q has no two pins for %s to run through: place it beside the wire", kind, w.Name)
	}
	if err := tx.placePart(kind, w.Sheet, at, orient); err != nil {
		return err
	}
	return PutIntoWire(tx, w.Sheet, tx.Selected(), geom.Point{}, wire)
}

// onto returns where a symbol's origin goes so that its pins near and far lie
// on the stretch from p to q, near the place at, and as far as there is room a
// grid step off its ends.
func onto(p, q, at, near, far geom.Point) geom.Point {
	slide := func(p, q, at, near, far int) int {
		if q < p {
			return max(q-far+geom.Grid, min(p-near-geom.Grid, at))
		}
		return min(q-far-geom.Grid, max(p-near+geom.Grid, at))
	}
	if p.Y == q.Y {
		return geom.Pt(slide(p.X, q.X, at.X, near.X, far.X), p.Y-near.Y)
	}
	return geom.Pt(p.X-near.X, slide(p.Y, q.Y, at.Y, near.Y, far.Y))
}

// runsOn reports whether q lies from p the given way.
func runsOn(p, q geom.Point, dir geom.Dir) bool { return geom.DirOf(q.Sub(p)) == dir }

// halve makes two wires of one: it goes on to end at one place and a new wire,
// whose ID is returned, from another. Both keep what the wire was made of. A
// measured length is shared as the halves are drawn; what was built of the
// whole is no longer known of them.
func (tx *Tx) halve(w *schematic.Wire, head, tail geom.Path, end, start schematic.End) schematic.ID {
	first := *w
	first.Route, first.Build, first.Tag = nil, "", geom.Point{}
	second := first
	second.ID, second.Name = tx.NewID(), tx.doc.FreeName(WirePrefix, nil)
	second.Links = slices.Clone(w.Links)
	first.LengthMM, second.LengthMM = share(w.LengthMM, head.Length(), tail.Length())
	first.SlackMM, second.SlackMM = share(w.SlackMM, 1, 1)
	first.B, second.A = end, start
	first.Via = bendsOf(head, route.TipOf(tx.doc, &first, first.A), route.TipOf(tx.doc, &first, end))
	second.Via = bendsOf(tail, route.TipOf(tx.doc, &second, start), route.TipOf(tx.doc, &second, second.B))
	tx.Put(&first, &second)
	return second.ID
}

// share splits a length in whole millimetres in the ratio a to b.
func share(mm schematic.Num, a, b float64) (first, second schematic.Num) {
	v, known := mm.Get()
	if !known || a+b == 0 {
		return mm, mm
	}
	part := math.Round(v * a / (a + b))
	return schematic.Some(part), schematic.Some(v - part)
}
