// Package route finds ways for wires: orthogonal paths that leave pins the way
// they face, go round part bodies, foreign pins and designations, do not run on
// top of other wires or touch their corners, and have few bends and crossings.
//
// Start with [Of], which looks at a sheet of a document, and [Board.Way]. The
// same sheet gives the same ways on every system.
package route

import (
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Tip is one end of a way. The zero Pin is a loose end, or a place on a wire.
type Tip struct {
	At  geom.Point
	Dir geom.Dir // the way the wire leaves; NoDir for any
	Pin schematic.PinRef
}

// TipOf returns an end of a wire as drawn in a document.
func TipOf(d *schematic.Doc, w *schematic.Wire, e schematic.End) Tip {
	at, dir, _ := d.EndAt(w, e)
	return Tip{at, dir, e.Ref()}
}

// Found is a way and how good it is.
type Found struct {
	Path geom.Path
	Price
}

// Price is what a way costs.
type Price struct {
	// Cost adds up length, bends, crossings and faults; see the constants.
	Cost int
	// Faults counts what a drawing should not have: places where the way runs
	// through a part or over a foreign pin, on top of another wire or onto its
	// bends, or leaves a pin back through its part.
	Faults int
	// Crossings counts the wires crossed that end somewhere else.
	Crossings int
}

// Extra is what a way costs beside its length and bends: what is near and in
// its way.
func (f Found) Extra() int { return f.Cost - bare(f.Path) }

// Plain returns the plainest way between two tips, whatever is in its way, at
// its place among the wires of the neighbour pins. It takes no search.
func (b *Board) Plain(a, z Tip) Found {
	path := schematic.AutoPath(a.At, a.Dir, z.At, z.Dir)
	if a.At == z.At {
		return Found{Path: path}
	}
	return b.settle(Found{path, b.Price(path, a, z)}, a, z)
}

// Way returns the best way between two tips. There always is one: where
// everything is blocked it runs through what blocks it and has faults.
func (b *Board) Way(a, z Tip) Found {
	best := b.Plain(a, z)
	if a.At == z.At || best.Faults == 0 && best.Extra() == 0 {
		return best
	}
	if path := b.search(a, z); path != nil {
		if q := b.settle(Found{path, b.Price(path, a, z)}, a, z); q.better(best.Price) {
			return q
		}
	}
	return best
}

// better reports whether a price is lower than another one.
func (p Price) better(q Price) bool {
	return p.Faults < q.Faults || p.Faults == q.Faults && p.Cost < q.Cost
}

// Effort tells how much work the ways found on the board have taken so far, in
// steps of about 10 ns on a plain processor. Unlike time, it is the same on every
// system.
func (b *Board) Effort() int { return 2*b.steps + b.laid }

// Costs in quarters of a unit of length (0.1 mm of paper), chosen so that a
// bend is worth a detour of ten grid steps and a crossing one of six. What is
// a fault costs more than any detour worth making.
const (
	perUnit   = 4
	bendCost  = 40 * geom.Grid
	crossCost = 24 * geom.Grid
	// friendTouch is for a bend on a wire that ends at the same pin: the two
	// part there, which is drawn as a joint.
	friendTouch = 2 * geom.Grid
	// friendCross is for passing across such a wire, which reads as a joint that
	// was forgotten: joining it is better.
	friendCross = 2 * crossCost
	cornerCost  = 1200 * geom.Grid // on another wire's bend or loose end, or a bend on it
	// A wire that passes a step before a foreign pin is in the way of that pin's
	// own wire, more so with a bend there.
	mouthCost = 16 * geom.Grid
	mouthBend = 240 * geom.Grid
	// stubBend is for a bend right at the wire's own pin, where the pin's name is.
	stubBend = 16 * geom.Grid

	// More per unit of length:
	nearPart   = 2  // within a grid step of a body
	nearWire   = 3  // beside another wire, closer than two grid steps: no label fits between
	onFriend   = 2  // together with a wire that ends at the same pin
	onText     = 8  // over a designation or a note
	beyond     = 24 // outside the frame of the sheet
	onWire     = 48 * geom.Grid / 5
	throughPin = 2400 * geom.Grid // each; only where there is no other way
	through    = 800              // through a body; only where there is no other way
	aside      = 100 * geom.Grid  // leaving a pin sideways: only where the plain way does
	backwards  = 2000 * geom.Grid // or back through its part
)

// bare is what a path costs where nothing else is near.
func bare(p geom.Path) int {
	n := bendCost * max(0, len(p)-2)
	for i := 1; i < len(p); i++ {
		n += perUnit * span(p[i-1], p[i])
	}
	return n
}

// span is the length of a straight stretch in units.
func span(p, q geom.Point) int { return max(p.X-q.X, q.X-p.X) + max(p.Y-q.Y, q.Y-p.Y) }

// Least is what a way between two tips costs at the very least.
func Least(a, z Tip) int { return perUnit * span(a.At, z.At) }
