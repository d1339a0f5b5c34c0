package tool

import (
	"math"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// Guide tells what a thing on the move is in line with: a line from a place of
// its own to one that stays, both pins or both edges.
type Guide struct {
	From, To geom.Point
	Pins     bool
}

const (
	// pull is how near a pin in hand must come to the line of another to be
	// drawn onto it, in units: less than a grid step, so that the next grid
	// place can always be reached.
	pull = geom.Grid * 7 / 10
	// nearby is how far away, along the line, a thing may be to be lined up
	// with, in units.
	nearby = 1200
	// mostPins is how many pins on the move are lined up: of a large group the
	// first ones stand for all.
	mostPins = 200
)

// guides line up what is being moved with what stays. They are made when a
// gesture begins and never change; nil guides nothing.
type guides struct {
	pins  []geom.Point // of what moves, before it moved
	edges []geom.Rect  // its bodies
	wires []bond
	// What stays, by the coordinate to line up with.
	pinX, pinY, edgeX, edgeY map[int][]geom.Point
}

// bond is a wire that has one end on what moves and the other on what stays.
type bond struct{ moves, stays geom.Point }

func newGuides() *guides {
	return &guides{pinX: map[int][]geom.Point{}, pinY: map[int][]geom.Point{}, edgeX: map[int][]geom.Point{}, edgeY: map[int][]geom.Point{}}
}

// guidesFor lines a selection up with the rest of the sheet.
func guidesFor(env Env, keys []schematic.Key, held ...edit.Symbol) *guides {
	if !env.Guided() {
		return nil
	}
	d, sheet, g := env.Doc(), env.Sheet(), newGuides()
	moves := map[schematic.Key]bool{}
	for _, k := range keys {
		moves[k] = !edit.Locked(d, k)
	}
	stay := edit.Staying(d, sheet, keys, held...)
	for p := range d.Parts() {
		for _, v := range p.Views {
			if v.Sheet != sheet {
				continue
			}
			if moves[p.Key()] && !stay[edit.Symbol{Part: p.ID, View: v.Key}] {
				g.take(d, p, v)
			} else {
				g.pass(d, p, v)
			}
		}
	}
	for w := range d.Wires() {
		if w.Sheet != sheet {
			continue
		}
		on := func(e schematic.End) bool {
			if e.Loose() {
				return moves[w.Key()]
			}
			if s, ok := edit.SymbolAt(d, sheet, e); len(stay) > 0 && ok && stay[s] {
				return false
			}
			return moves[schematic.Key{Type: schematic.TypePart, ID: e.Part}]
		}
		a, _, okA := d.EndAt(w, w.A)
		b, _, okB := d.EndAt(w, w.B)
		switch {
		case !okA || !okB || on(w.A) == on(w.B):
		case on(w.A):
			g.wires = append(g.wires, bond{a, b})
		default:
			g.wires = append(g.wires, bond{b, a})
		}
	}
	return g
}

// guidesToPlace lines up a part that is not in the document yet; an edit that
// places it at the origin tells what it looks like.
func guidesToPlace(env Env, place func(tx *edit.Tx) error) *guides {
	g := guidesFor(env, nil)
	if g == nil {
		return nil
	}
	tx := edit.Begin(env.Doc(), nil)
	if place(tx) != nil {
		return nil
	}
	for _, k := range tx.Selected() {
		if p := tx.Doc().Part(k.ID); p != nil {
			for _, v := range p.Views {
				g.take(tx.Doc(), p, v)
			}
		}
	}
	return g
}

func (g *guides) take(d *schematic.Doc, p *schematic.Part, v schematic.View) {
	if len(g.pins) > mostPins {
		return
	}
	for _, pin := range d.PlacedPins(p, v) {
		g.pins = append(g.pins, pin.At)
	}
	g.edges = append(g.edges, d.Body(p, v))
}

func (g *guides) pass(d *schematic.Doc, p *schematic.Part, v schematic.View) {
	for _, pin := range d.PlacedPins(p, v) {
		g.pinX[pin.At.X] = append(g.pinX[pin.At.X], pin.At)
		g.pinY[pin.At.Y] = append(g.pinY[pin.At.Y], pin.At)
	}
	for _, q := range corners(d.Body(p, v)) {
		g.edgeX[q.X] = append(g.edgeX[q.X], q)
		g.edgeY[q.Y] = append(g.edgeY[q.Y], q)
	}
}

func corners(r geom.Rect) [4]geom.Point {
	return [4]geom.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, {X: r.Min.X, Y: r.Max.Y}, r.Max}
}

// snap returns how far to move for a pointer that has gone this far: in whole
// grid steps, but where that brings a pin into line with another, onto that
// line. A wire that becomes straight so counts more than a mere line.
func (g *guides) snap(by geom.Point) geom.Point {
	out := by.Snap(geom.Grid)
	if g == nil {
		return out
	}
	if d, ok := g.nearest(by, true); ok {
		out.X = by.X + d
	}
	if d, ok := g.nearest(by, false); ok {
		out.Y = by.Y + d
	}
	return out
}

// nearest returns the least step along one axis that brings a pin into line.
func (g *guides) nearest(by geom.Point, alongX bool) (step int, ok bool) {
	axis := func(p geom.Point) (at, across int) {
		if alongX {
			return p.X, p.Y
		}
		return p.Y, p.X
	}
	best := pull + 1
	for _, w := range g.wires {
		from, _ := axis(w.moves.Add(by))
		to, _ := axis(w.stays)
		if d := to - from; max(d, -d) < max(best, -best) {
			best = d
		}
	}
	if max(best, -best) <= pull {
		return best, true
	}
	stay := g.pinY
	if alongX {
		stay = g.pinX
	}
	for _, p := range g.pins {
		from, mine := axis(p.Add(by))
		for d := -pull; d <= pull; d++ {
			if max(d, -d) >= max(best, -best) {
				continue
			}
			for _, q := range stay[from+d] {
				if _, across := axis(q); max(across-mine, mine-across) <= nearby {
					best = d
					break
				}
			}
		}
	}
	return best, max(best, -best) <= pull
}

// lines returns what is in line after a move: for either axis the wire that is
// straight now, else the nearest pin, else the nearest edge.
func (g *guides) lines(by geom.Point) []Guide {
	if g == nil {
		return nil
	}
	var out []Guide
	for _, alongX := range []bool{true, false} {
		if l, ok := g.line(by, alongX); ok {
			out = append(out, l)
		}
	}
	return out
}

// line returns the nearest guide upright (alongX) or level that holds for things
// moved by so much: of pins that a wire joins before other pins, of pins before
// edges.
func (g *guides) line(by geom.Point, alongX bool) (best Guide, ok bool) {
	same := func(a, b geom.Point) bool { return a != b && (alongX && a.X == b.X || !alongX && a.Y == b.Y) }
	for _, w := range g.wires {
		if from := w.moves.Add(by); same(from, w.stays) {
			return Guide{from, w.stays, true}, true
		}
	}
	far := math.Inf(1)
	look := func(from geom.Point, stay map[int][]geom.Point, pins bool) {
		at := from.Y
		if alongX {
			at = from.X
		}
		for _, to := range stay[at] {
			if dist := from.Dist(to); same(from, to) && dist <= nearby && dist < far {
				best, far, ok = Guide{from, to, pins}, dist, true
			}
		}
	}
	pins, edges := g.pinY, g.edgeY
	if alongX {
		pins, edges = g.pinX, g.edgeX
	}
	for _, p := range g.pins {
		look(p.Add(by), pins, true)
	}
	if ok {
		return best, true
	}
	for _, r := range g.edges {
		for _, q := range corners(r.Add(by)) {
			look(q, edges, false)
		}
	}
	return best, ok
}
