package draw

import (
	"slices"

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
	texts []string

	hops  []hop
	drawn []Seg
	marks []Mark
}

// place is where an end of a wire lies and the way it leaves.
type place struct {
	at  geom.Point
	dir geom.Dir
}

func newLine(w *schematic.Wire, ends [2]place) *line {
	return &line{
		wire: w, ends: ends, width: WireWidth(w), texts: wireTexts(w),
		path: schematic.RoutePath(ends[0].at, ends[0].dir, w.Via, ends[1].at, ends[1].dir),
	}
}

// withHops returns the line drawn with the given bridges: itself if it is.
func (l *line) withHops(hops []hop) *line {
	if l.marks != nil && slices.Equal(l.hops, hops) {
		return l
	}
	n := *l
	n.hops = hops
	n.drawn = hopPath(n.path, hops)
	p := pen{owner: n.wire.Key(), marks: make([]Mark, 0, 3)}
	p.wireStrokes(n.wire, n.drawn)
	for i, e := range [2]schematic.End{n.wire.A, n.wire.B} {
		if e.Loose() {
			p.looseEnd(mm(n.ends[i].at), n.width)
		}
	}
	n.marks = p.marks
	return &n
}

// looseEnd rings an end that is at no pin: it must not look connected.
func (p *pen) looseEnd(at Point, width float64) {
	ring := circlePath(at, 0.45+width/2)
	p.fill(ring, InkPaper)
	p.stroke(ring, plainLine, InkSymbol)
}

// seg returns the box of the segment that ends at point i of the path.
func (l *line) seg(i int) Box { return boxMM(segRect(l, i)).Grow(l.width/2 + rimWidth) }

func segRect(l *line, i int) geom.Rect { return geom.RectOf(l.path[i-1], l.path[i]) }

// length returns the length of that segment in mm.
func (l *line) length(i int) float64 { return l.path[i-1].Dist(l.path[i]) / geom.PerMM }

// longest returns the indices of the segments, longest first, at most n.
func (l *line) longest(n int) []int {
	order := make([]int, 0, len(l.path))
	for i := 1; i < len(l.path); i++ {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return int(l.length(j)*10) - int(l.length(i)*10)
	})
	return order[:min(n, len(order))]
}
