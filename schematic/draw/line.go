package draw

import (
	"slices"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// line is one wire, drawn. It depends on the wire, where its ends lie and what
// it crosses, and is kept as long as those stay the same.
type line struct {
	wire  *schematic.Wire
	ends  [2]place
	path  geom.Path
	width float64
	texts []string  // its label, the full one first
	wide  []float64 // the widths of texts, mm
	ink   Box       // of the full one
	label *Mark     // as written last: most labels stay where they were
	// known says that the label has been placed, labelled that there was room.
	known, labelled bool
	drawnIn         int // the build that used it last

	hops    []hop
	bridged bool // hops are those it needs, not left out
	drawn   []Seg
	marks   []Mark
}

// place is where an end of a wire lies and the way it leaves.
type place struct {
	at  geom.Point
	dir geom.Dir
}

// route works out all that does not depend on other wires.
func (l *line) route(show unit.Show, words []schematic.WireWord) {
	l.width, l.texts = WireWidth(l.wire), wireTexts(l.wire, show, words)
	l.path = schematic.RoutePath(l.ends[0].at, l.ends[0].dir, l.wire.Via, l.ends[1].at, l.ends[1].dir)
	for i, s := range l.texts {
		wide, ink := inkBox(s, sizeWire, false)
		l.wide = append(l.wide, wide)
		if i == 0 {
			l.ink = ink
		}
	}
}

// draw makes the line's marks for the given bridges, unless it has them.
func (l *line) draw(hops []hop) {
	if l.marks != nil && slices.Equal(l.hops, hops) {
		return
	}
	l.hops = slices.Clone(hops)
	l.drawn = hopPath(l.path, hops)
	p := pen{owner: l.wire.Key(), marks: make([]Mark, 0, 3)}
	p.wireStrokes(l.wire, l.drawn)
	for i, e := range [2]bool{l.wire.A.Loose(), l.wire.B.Loose()} {
		if e {
			p.looseEnd(mm(l.ends[i].at), l.width)
		}
	}
	l.marks = p.marks
}

// looseEnd rings an end that is at no pin: it must not look connected.
func (p *pen) looseEnd(at Point, width float64) {
	ring := circlePath(at, 0.45+width/2)
	p.fill(ring, InkPaper)
	p.stroke(ring, plainLine, InkSymbol)
}

// hopBox is the area of a bridge.
func (l *line) hopBox(h hop) Box {
	y := mm(l.path[h.seg]).Y
	return Box{Point{h.x - h.radius, y - h.radius}, Point{h.x + h.radius, y}}.Grow(l.width/2 + rimWidth)
}

// seg returns the box of the segment that ends at point i of the path.
func (l *line) seg(i int) Box { return boxMM(segRect(l, i)).Grow(l.width/2 + rimWidth) }

// track returns the line that segment lies on.
func (l *line) track(i int) track {
	if p, q := l.path[i-1], l.path[i]; p.Y == q.Y {
		return track{true, p.Y}
	}
	return track{false, l.path[i].X}
}

func segRect(l *line, i int) geom.Rect { return geom.RectOf(l.path[i-1], l.path[i]) }

// length returns the length of that segment in mm.
func (l *line) length(i int) float64 { return l.path[i-1].Dist(l.path[i]) / geom.PerMM }

// longest returns the indices of the segments, longest first, at most
// labelSegs, and how many there are.
func (l *line) longest() (order [labelSegs]int, n int) {
	var far [labelSegs]int
	for i := 1; i < len(l.path); i++ {
		p, q := l.path[i-1], l.path[i]
		d := max(p.X-q.X, q.X-p.X) + max(p.Y-q.Y, q.Y-p.Y)
		at := n
		for at > 0 && far[at-1] < d {
			at--
		}
		if at == labelSegs {
			continue
		}
		n = min(n+1, labelSegs)
		copy(order[at+1:n], order[at:])
		copy(far[at+1:n], far[at:])
		order[at], far[at] = i, d
	}
	return order, n
}
