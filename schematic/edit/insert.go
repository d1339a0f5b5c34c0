package edit

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// Insertion is something to draw into a harness. It is plain data: two equal
// ones draw the same.
type Insertion interface {
	Apply(*Tx) error
}

// InLine is a part to be put into a wire: a fuse near its source. The wire is
// cut in two there and keeps its bends; the part lies on it where there is room.
type InLine struct {
	Wire   schematic.ID
	Near   WireEnd // the end of the wire it shall lie near
	Kind   string
	Pins   [2]string // the pin towards that end, and the other
	Values map[string]float64
	// NearMM is the length of the new wire at that end and FarMM that of the
	// rest; unknown ones stay unknown.
	NearMM, FarMM schematic.Num
}

// onWire is a part of which two pins go into a line.
type onWire struct {
	part      *schematic.Part
	section   string
	near, far geom.Point // of the pins, in the symbol
}

// newOnWire makes the part, which is on no sheet yet.
func (tx *Tx) newOnWire(kind string, pins [2]string, values map[string]float64) (onWire, error) {
	p, err := tx.newPart(kind, map[string]bool{})
	if err != nil {
		return onWire{}, err
	}
	p.Values = maps.Clone(values)
	o := onWire{part: p}
	found := 0
	for i, name := range pins {
		pin, ok := tx.doc.PinOf(p, name)
		if !ok {
			return o, fmt.Errorf("part kind %q has no pin %q: choose another kind", kind, name)
		}
		o.section = pin.Section
		for _, pp := range tx.doc.LocalPins(p, pin.Section) {
			if pp.Pin.Name == name {
				*[]*geom.Point{&o.near, &o.far}[i] = pp.At
				found++
			}
		}
	}
	if found != 2 {
		return o, fmt.Errorf("part kind %q does not show the pins %s and %s: choose another kind", kind, pins[0], pins[1])
	}
	return o, nil
}

// view places the part with its near pin at a point.
func (o onWire) view(sheet schematic.ID, orient geom.Orient, near geom.Point) schematic.View {
	return schematic.View{Sheet: sheet, Section: o.section, Turns: orient.Turns, Mirror: orient.Mirror, At: near.Sub(orient.Apply(o.near))}
}

// Apply puts the part in and selects it.
func (in InLine) Apply(tx *Tx) error {
	w := tx.doc.Wire(in.Wire)
	if w == nil {
		return fmt.Errorf("the wire is no longer there")
	}
	if w.Locked {
		return lockedError(tx.doc, w.Key())
	}
	if tx.doc.Sheet(w.Sheet) == nil {
		return fmt.Errorf("%s is drawn on no sheet", w.Name)
	}
	o, err := tx.newOnWire(in.Kind, in.Pins, in.Values)
	if err != nil {
		return fmt.Errorf("%s: %w", w.Name, err)
	}
	o.part.Loom = w.Loom
	near, far := in.halves(tx, w, o.part)
	path := tx.doc.Path(w)
	if in.Near == EndB {
		slices.Reverse(path)
	}
	if !tx.inLine(in, o, w, path, near, far) {
		if err := tx.beside(in, o, w, path, near, far); err != nil {
			return err
		}
	}
	tx.Select(o.part.Key())
	return nil
}

// halves returns the two wires that come of one. The far one is the old wire:
// what was said of its route and size stays with it.
func (in InLine) halves(tx *Tx, w *schematic.Wire, p *schematic.Part) (near, far *schematic.Wire) {
	old := *w
	old.LengthMM, old.SlackMM, old.Build = in.FarMM, schematic.Num{}, ""
	fresh := old
	fresh.ID, fresh.Name, fresh.LengthMM, fresh.Route = tx.NewID(), tx.doc.FreeName(WirePrefix, nil), in.NearMM, nil
	fresh.Links = slices.Clone(w.Links)
	toNear, toFar := schematic.End{Part: p.ID, Pin: in.Pins[0]}, schematic.End{Part: p.ID, Pin: in.Pins[1]}
	if in.Near == EndA {
		fresh.B, old.A = toNear, toFar
	} else {
		fresh.A, old.B = toNear, toFar
	}
	return &fresh, &old
}

// inLine puts the part on a straight stretch of the path, which begins at the
// near end, as close to that end as there is room.
func (tx *Tx) inLine(in InLine, o onWire, w *schematic.Wire, path geom.Path, near, far *schematic.Wire) bool {
	free := roomOn(tx.doc, w.Sheet, w.ID)
	across := o.far.Sub(o.near)
	long := max(across.X, -across.X) + max(across.Y, -across.Y)
	for _, lead := range []int{2 * geom.Grid, geom.Grid} {
		for seg := 1; seg < len(path); seg++ {
			from, to := path[seg-1], path[seg]
			dir := geom.DirOf(to.Sub(from))
			step := dir.Vec()
			i := slices.IndexFunc(orients(), func(or geom.Orient) bool {
				v := or.Apply(across)
				return geom.DirOf(v) == dir && (v.X == 0 || v.Y == 0)
			})
			if dir == geom.NoDir || i < 0 {
				continue
			}
			room := max(to.X-from.X, from.X-to.X) + max(to.Y-from.Y, from.Y-to.Y)
			for s := lead; s+long+lead <= room; s += geom.Grid {
				q := from.Add(geom.Pt(step.X*s, step.Y*s))
				o.part.Views = []schematic.View{o.view(w.Sheet, orients()[i], q)}
				if !free.beside(tx.reach(o.part, o.part.Views[0]), dir) {
					continue
				}
				end := q.Add(geom.Pt(step.X*long, step.Y*long))
				tx.Put(o.part)
				tx.along(near, append(slices.Clone(path[:seg]), q), in.Near == EndB)
				tx.along(far, append(geom.Path{end}, path[seg:]...), in.Near == EndB)
				return true
			}
		}
	}
	return false
}

// along puts a wire that is drawn along a path between its ends.
func (tx *Tx) along(w *schematic.Wire, path geom.Path, back bool) {
	if back {
		path = slices.Clone(path)
		slices.Reverse(path)
	}
	w.Via = bendsOf(path, route.TipOf(tx.doc, w, w.A), route.TipOf(tx.doc, w, w.B))
	tx.Put(w)
}

// farAway is how far from its wire a part may come to lie, 0.1 mm.
const farAway = 1500

// Of the free places round the near end of a wire those up to roomMore beyond
// the nearest are looked at, and both wires led to so many of them; a bend is as
// bad as so much wire. Lengths in 0.1 mm.
const (
	roomMore   = 500
	mostTried  = 8
	bendLength = 200
)

// berth is a place for a part beside its wire.
type berth struct {
	view  schematic.View
	rough int // length of both wires, were they led straight
}

// beside puts the part where there is room near the near end and both wires
// reach it by short ways with few bends, and leads them there.
func (tx *Tx) beside(in InLine, o onWire, w *schematic.Wire, path geom.Path, near, far *schematic.Wire) error {
	berths := tx.berths(o, w, path)
	if len(berths) == 0 {
		return fmt.Errorf("%s: there is no room for %s near its end: move something, or put it in by hand", w.Name, o.part.Name)
	}
	best, least := 0, 0
	put := func(k int) int {
		p, n, f := *o.part, *near, *far
		p.Views = []schematic.View{berths[k].view}
		tx.Put(&p)
		return tx.lay(&n, w.ID) + tx.lay(&f, w.ID)
	}
	for k := range berths[:min(mostTried, len(berths))] {
		if cost := put(k); k == 0 || cost < least {
			best, least = k, cost
		}
	}
	put(best)
	return nil
}

// berths lists the free places for a part round the beginning of a path, those
// first from which it is not far to both of its ends.
func (tx *Tx) berths(o onWire, w *schematic.Wire, path geom.Path) []berth {
	free := roomOn(tx.doc, w.Sheet, w.ID)
	from := path[0]
	apart := func(a, b geom.Point) int { d := b.Sub(a); return max(d.X, -d.X) + max(d.Y, -d.Y) }
	a, z := route.TipOf(tx.doc, w, w.A), route.TipOf(tx.doc, w, w.B)
	if from != a.At {
		a, z = z, a
	}
	first, last := stem(a.At, a.Dir), stem(z.At, z.Dir)
	var out []berth
	most := farAway
	ringed(from, farAway, func(q geom.Point) bool {
		d := q.Sub(from)
		ring := max(d.X, -d.X, d.Y, -d.Y)
		if ring > most {
			return true
		}
		for _, or := range orients()[:4] {
			v := o.view(w.Sheet, or, q)
			p := *o.part
			p.Views = []schematic.View{v}
			if !free.free(tx.reach(&p, v), 2*geom.Grid) {
				continue
			}
			if out == nil {
				most = ring + roomMore
			}
			across := or.Apply(o.far.Sub(o.near))
			out = append(out, berth{v, apart(first, stem(q, geom.DirOf(geom.Point{}.Sub(across)))) + apart(stem(q.Add(across), geom.DirOf(across)), last)})
		}
		return false
	})
	slices.SortStableFunc(out, func(a, b berth) int { return cmp.Compare(a.rough, b.rough) })
	return out
}

// stem is where a wire that leaves a pin can turn.
func stem(pin geom.Point, dir geom.Dir) geom.Point {
	step := dir.Vec()
	return pin.Add(geom.Pt(step.X*2*geom.Grid, step.Y*2*geom.Grid))
}

// lay puts a wire on the way that suits it best, not minding the wires without,
// and returns how long it is with its bends.
func (tx *Tx) lay(w *schematic.Wire, without ...schematic.ID) int {
	b := route.Of(tx.doc, w.Sheet)
	b.Without(append(without, w.ID)...)
	a, z := route.TipOf(tx.doc, w, w.A), route.TipOf(tx.doc, w, w.B)
	way := b.Way(a, z).Path
	w.Via = route.Bends(way, a, z)
	tx.Put(w)
	cost := bendLength * len(w.Via)
	for i := 1; i < len(way); i++ {
		d := way[i].Sub(way[i-1])
		cost += max(d.X, -d.X) + max(d.Y, -d.Y)
	}
	return cost
}
