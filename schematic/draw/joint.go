package draw

import (
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// dot marks a joint: a place where three or more lines that belong together meet.
type dot struct {
	at     geom.Point
	radius float64
	owner  schematic.Key // a wire there
}

const (
	minDot = 0.8 // mm
	// manyWires bounds the pairs of wires compared at one pin.
	manyWires = 64
)

// findDots finds the joints: pins where lines branch, and places where wires
// that leave a pin together part.
func (b *build) findDots() {
	// Every pin on the sheet has a slot; ends are sorted into them by counting.
	base := make([]int, len(b.symbols)+1)
	for i, s := range b.symbols {
		base[i+1] = base[i] + len(s.pins)
	}
	start := make([]int, base[len(b.symbols)]+1)
	each := func(f func(slot, line int, back bool)) {
		for i, at := range b.ends {
			for side, e := range at {
				if e.symbol >= 0 {
					f(base[e.symbol]+e.pin, i, side == 1)
				}
			}
		}
	}
	each(func(slot, _ int, _ bool) { start[slot+1]++ })
	for i := 1; i < len(start); i++ {
		start[i] += start[i-1]
	}
	sorted, filled := make([]wireEnd, start[len(start)-1]), slices.Clone(start)
	each(func(slot, line int, back bool) {
		sorted[filled[slot]] = wireEnd{line, back}
		filled[slot]++
	})
	for i, s := range b.symbols {
		for pin := range s.pins {
			slot := base[i] + pin
			if ends := sorted[start[slot]:start[slot+1]]; len(ends) > 1 {
				b.dotsAt(s, s.pins[pin], ends)
			}
		}
	}
	for _, d := range b.dots {
		box := emptyBox().extend(mm(d.at)).Grow(d.radius)
		b.room.take(taken{box: box, owner: noOwner, seg: -1})
	}
}

// wireEnd is an end of a line at a pin; back says that its path runs towards
// the pin.
type wireEnd struct {
	line int
	back bool
}

// dotsAt finds the dots of the wires that end at one pin: where they meet, and
// where they part.
func (b *build) dotsAt(s *symbol, pp schematic.PlacedPin, ends []wireEnd) {
	width := 0.0
	var ways [5]bool
	ways[geom.DirOf(pp.Dir.Vec().Neg())] = true
	paths := make([]geom.Path, len(ends))
	for i, e := range ends {
		l := b.lines[e.line]
		width = max(width, l.width)
		paths[i] = from(l.path, e.back)
		if len(paths[i]) > 1 {
			ways[geom.DirOf(paths[i][1].Sub(paths[i][0]))] = true
		}
	}
	radius, owner := max(minDot, 0.75*width), b.lines[ends[0].line].wire.Key()
	n := 0
	for _, w := range ways[geom.Right:] {
		if w {
			n++
		}
	}
	paths = paths[:min(len(paths), manyWires)]
	seen := map[geom.Point]bool{pp.At: true}
	for i, p := range paths {
		for _, q := range paths[:i] {
			if at, ok := parting(p, q); ok && !seen[at] {
				seen[at] = true
				b.dots = append(b.dots, dot{at, radius, owner})
			}
		}
	}
	// A symbol that covers its pin shows the joint itself, and wires that come to
	// it in one line do where they part.
	if !s.over && (n >= 3 || len(ends) >= 3 && len(seen) == 1) {
		b.dots = append(b.dots, dot{pp.At, radius, owner})
	}
}

// from returns the path starting at the pin.
func from(p geom.Path, back bool) geom.Path {
	if !back {
		return p
	}
	r := make(geom.Path, len(p))
	for i, q := range p {
		r[len(p)-1-i] = q
	}
	return r
}

// parting returns where two paths that start together part for good; it is
// false when one runs along the other to its end.
func parting(p, q geom.Path) (geom.Point, bool) {
	if len(p) == 0 || len(q) == 0 || p[0] != q[0] {
		return geom.Point{}, false
	}
	for i := 1; i < len(p) && i < len(q); i++ {
		if p[i] == q[i] {
			continue
		}
		dp, dq := p[i].Sub(p[i-1]), q[i].Sub(q[i-1])
		if geom.DirOf(dp) != geom.DirOf(dq) {
			return p[i-1], true
		}
		// One goes on straight where the other turns or ends.
		if p[i-1].Dist(p[i]) < q[i-1].Dist(q[i]) {
			return p[i], i+1 < len(p)
		}
		return q[i], i+1 < len(q)
	}
	return geom.Point{}, false
}

func (b *build) dotMarks() []Mark {
	var p pen
	for _, d := range b.dots {
		p.owner = d.owner
		p.fill(circlePath(mm(d.at), d.radius), InkJoint)
	}
	return p.marks
}
