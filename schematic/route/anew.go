package route

import (
	"cmp"
	"context"
	"maps"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Vias are the bends of wires, by wire.
type Vias map[schematic.ID][]geom.Point

// Bends returns the Via that draws a path between the ends of a wire: nil where
// the wire is drawn so without any.
func Bends(path geom.Path, a, z Tip) []geom.Point {
	path = path.Clean()
	if slices.Equal(schematic.AutoPath(a.At, a.Dir, z.At, z.Dir), path) || len(path) < 2 {
		return nil
	}
	if len(path) == 2 {
		// A straight wire between pins that do not face each other needs a point
		// on the way, or it would be led round.
		return []geom.Point{geom.Pt((a.At.X+z.At.X)/2, (a.At.Y+z.At.Y)/2)}
	}
	return slices.Clone(path[1 : len(path)-1])
}

// leg is a wire to be led.
type leg struct {
	wire *schematic.Wire
	a, z Tip
	path geom.Path
}

func legOf(d *schematic.Doc, w *schematic.Wire) leg {
	a, z := TipOf(d, w, w.A), TipOf(d, w, w.B)
	return leg{wire: w, a: a, z: z, path: schematic.RoutePath(a.At, a.Dir, w.Via, z.At, z.Dir)}
}

// order puts short wires first: they have the least choice. Equal ones go by
// designation.
func order(legs []leg) {
	slices.SortFunc(legs, func(a, b leg) int {
		return cmp.Or(cmp.Compare(span(a.a.At, a.z.At), span(b.a.At, b.z.At)),
			schematic.CompareNames(a.wire.Name, b.wire.Name), a.wire.Key().Compare(b.wire.Key()))
	})
}

// legsOf returns the wires of a sheet that may be led anew, each once, in order.
func legsOf(d *schematic.Doc, sheet schematic.ID, wires []schematic.ID) []leg {
	var legs []leg
	for _, id := range wires {
		if w := d.Wire(id); w != nil && w.Sheet == sheet && !w.Locked {
			legs = append(legs, legOf(d, w))
		}
	}
	order(legs)
	return slices.CompactFunc(legs, func(a, b leg) bool { return a.wire == b.wire })
}

// rounds is how often a wire is led: first each in turn among those already led,
// then each once more among all.
const rounds = 2

// Anew finds new ways for wires of one sheet, whatever bends they have; the
// others and locked ones stay. It returns the bends of those that change, or the
// error of a context that was cancelled. Done, which may be nil, is told how far
// it is: n of so many steps.
func Anew(ctx context.Context, d *schematic.Doc, sheet schematic.ID, wires []schematic.ID, done func(of, n int)) (Vias, error) {
	return anew(ctx, d, sheet, legsOf(d, sheet, wires), done)
}

func anew(ctx context.Context, d *schematic.Doc, sheet schematic.ID, legs []leg, done func(of, n int)) (Vias, error) {
	ids := make([]schematic.ID, len(legs))
	for i, l := range legs {
		ids[i] = l.wire.ID
	}
	b := Of(d, sheet)
	b.Without(ids...)
	for round := range rounds {
		for i := range legs {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			if done != nil {
				done(rounds*len(legs), round*len(legs)+i)
			}
			l := &legs[i]
			if round > 0 {
				b.Without(l.wire.ID)
			}
			found := b.Way(l.a, l.z)
			l.path = found.Path
			b.AddWire(l.wire, l.path)
		}
	}
	return changes(legs), nil
}

// AnewAll is [Anew] for wires of any sheets, one sheet after the other; done counts
// over all of them.
func AnewAll(ctx context.Context, d *schematic.Doc, wires []schematic.ID, done func(of, n int)) (Vias, error) {
	sheets, steps := d.Sheets(), 0
	legs := make([][]leg, len(sheets))
	for i, s := range sheets {
		legs[i] = legsOf(d, s.ID, wires)
		steps += rounds * len(legs[i])
	}
	all, before := Vias{}, 0
	for i, s := range sheets {
		var tell func(of, n int)
		if done != nil {
			tell = func(_, n int) { done(steps, before+n) }
		}
		vias, err := anew(ctx, d, s.ID, legs[i], tell)
		if err != nil {
			return nil, err
		}
		maps.Copy(all, vias)
		before += rounds * len(legs[i])
	}
	return all, nil
}

// changes returns the bends of the wires that change. Ways that lead off any
// sheet, which no file could hold, are left alone.
func changes(legs []leg) Vias {
	out := Vias{}
	for _, l := range legs {
		via := Bends(l.path, l.a, l.z)
		off := slices.ContainsFunc(via, func(q geom.Point) bool { return !q.InRange() })
		if !off && !slices.Equal(via, l.wire.Via) {
			out[l.wire.ID] = via
		}
	}
	return out
}

// fillSteps bounds the work of [Fill] on one sheet: beyond it wires stay on
// their plain way.
const fillSteps = 6_000_000

// Fill finds bends for those of the wires that have none and whose plain way
// has faults: wires written by hand. It returns the document itself when there
// is nothing to do. The same document always gets the same bends.
func Fill(d *schematic.Doc, wires []schematic.ID) *schematic.Doc {
	bySheet := map[schematic.ID][]leg{}
	for _, id := range wires {
		if w := d.Wire(id); w != nil && len(w.Via) == 0 {
			bySheet[w.Sheet] = append(bySheet[w.Sheet], legOf(d, w))
		}
	}
	var puts []schematic.Put
	for sheet, legs := range bySheet {
		b := Of(d, sheet)
		legs = slices.DeleteFunc(legs, func(l leg) bool {
			b.LookPast(l.wire.ID)
			return b.Price(l.path, l.a, l.z).Faults == 0
		})
		order(legs)
		b.LookPast(schematic.ID{})
		for i := range legs {
			b.Without(legs[i].wire.ID)
		}
		for i := range legs {
			l := &legs[i]
			if b.steps < fillSteps {
				l.path = b.Way(l.a, l.z).Path
			}
			b.AddWire(l.wire, l.path)
		}
		for id, via := range changes(legs) {
			c := *d.Wire(id)
			c.Via = via
			puts = append(puts, schematic.Put{Key: c.Key(), Item: &c})
		}
	}
	if len(puts) == 0 {
		return d
	}
	return d.With(puts...)
}
