package draw

import (
	"cmp"
	"slices"

	"loomwright/schematic"
)

// A run is a stretch where wires of a group lie side by side.
type run struct {
	level bool
	span  span // along the wires
	lanes []lane
}

type lane struct {
	member int     // index into the group's lines
	at     float64 // across the run, mm
	width  float64
}

const (
	minRun   = 4.0  // mm, shorter stretches are not side by side
	maxApart = 40.0 // mm between the wires of one run
)

// groups draws the screens round wires and the crossings of twisted ones.
func (b *build) groups() []Mark {
	twisted, screened := map[schematic.ID][]*line{}, map[schematic.ID][]*line{}
	for _, l := range b.lines {
		if id := l.wire.Twist; id != (schematic.ID{}) {
			twisted[id] = append(twisted[id], l)
		}
		if id := l.wire.Screen; id != (schematic.ID{}) {
			screened[id] = append(screened[id], l)
		}
	}
	if len(twisted)+len(screened) == 0 {
		return nil
	}
	var p pen
	for g := range b.doc.Groups() {
		p.owner = g.Key()
		switch g.Type {
		case schematic.TwistGroup:
			for _, r := range runsOf(twisted[g.ID]) {
				b.twist(&p, r)
			}
		case schematic.ScreenGroup:
			for i, r := range runsOf(screened[g.ID]) {
				b.screen(&p, r, g, i == 0)
			}
		}
	}
	return p.marks
}

// screen draws a dashed closed line round the conductors and names it.
func (b *build) screen(p *pen, r run, g *schematic.Group, named bool) {
	s := r.span
	if s.to-s.from > 12 {
		s = span{s.from + 2.5, s.to - 2.5}
	}
	first, last := r.lanes[0], r.lanes[len(r.lanes)-1]
	box := r.box(s, first.at-first.width/2-1.4, last.at+last.width/2+1.4)
	path := roundRect(box, 2.2)
	p.dashed(path, plainLine, InkSymbol, 1.6, 1)
	for _, e := range strokeBoxes(&Stroke{Path: path, Width: plainLine}) {
		b.room.take(taken{box: e, owner: noOwner, seg: -1})
	}
	if !named {
		return
	}
	name := short(g.Name)
	for _, t := range []*Text{
		textAt(name, Point{box.Min.X, box.Min.Y - 0.6}, atStart, 0, sizePin, false, InkFaint),
		textAt(name, Point{box.Max.X, box.Min.Y - 0.6}, atEnd, 0, sizePin, false, InkFaint),
		textAt(name, Point{box.Min.X, box.Max.Y + 0.6 + CapHeight(sizePin)}, atStart, 0, sizePin, false, InkFaint),
		textAt(name, Point{box.Max.X, box.Max.Y + 0.6 + CapHeight(sizePin)}, atEnd, 0, sizePin, false, InkFaint),
	} {
		if t.S != "" && b.room.crowd(t.Box().Grow(0.2)) == 0 {
			p.text(t)
			b.room.block(t.Box())
			return
		}
	}
}

// twist draws a crossing of two strokes over the run, again every so often.
func (b *build) twist(p *pen, r run) {
	if len(r.lanes) < 2 {
		return
	}
	const every = 30.0
	first, last := r.lanes[0], r.lanes[len(r.lanes)-1]
	half := max(1.8, min(5, 0.45*(last.at-first.at), (r.span.to-r.span.from)/2))
	n := max(1, min(6, int((r.span.to-r.span.from)/every)))
	step := (r.span.to - r.span.from) / float64(n)
	for i := range n {
		c := r.span.from + step*(float64(i)+0.5)
		for _, ends := range [2][2]float64{{first.at, last.at}, {last.at, first.at}} {
			path := []Seg{
				{Verb: MoveTo, P: r.pt(c-half, ends[0])},
				{Verb: CubeTo, C1: r.pt(c, ends[0]), C2: r.pt(c, ends[1]), P: r.pt(c+half, ends[1])},
			}
			p.stroke(path, plainLine, InkSymbol)
		}
		b.room.take(taken{box: r.box(span{c - half, c + half}, first.at, last.at), owner: noOwner, seg: -1})
	}
}

func (r run) pt(along, across float64) Point {
	if r.level {
		return Point{along, across}
	}
	return Point{across, along}
}

func (r run) box(s span, lo, hi float64) Box {
	return emptyBox().extend(r.pt(s.from, lo)).extend(r.pt(s.to, hi))
}

// runsOf gathers lines into stretches where they lie side by side, as many as
// possible in one. A line that lies beside no other has a run of its own.
func runsOf(lines []*line) []run {
	left := make([]int, len(lines))
	for i := range left {
		left[i] = i
	}
	var runs []run
	for len(left) > 0 {
		best, found := run{}, false
		order, n := lines[left[0]].longest()
		for _, seg := range order[:n] {
			r := runAt(lines, left, seg)
			if !found || len(r.lanes) > len(best.lanes) ||
				len(r.lanes) == len(best.lanes) && r.span.to-r.span.from > best.span.to-best.span.from {
				best, found = r, true
			}
		}
		used := left[:1:1]
		if found {
			used = used[:0:0]
			for _, l := range best.lanes {
				used = append(used, l.member)
			}
			slices.SortFunc(best.lanes, func(a, b lane) int { return cmp.Compare(a.at, b.at) })
			runs = append(runs, best)
		}
		left = slices.DeleteFunc(left, func(m int) bool { return slices.Contains(used, m) })
	}
	return runs
}

// runAt returns the run along one segment of the first member left.
func runAt(lines []*line, left []int, seg int) run {
	l := lines[left[0]]
	level, s, at := l.axis(seg)
	r := run{level: level, span: s, lanes: []lane{{left[0], at, l.width}}}
	for _, m := range left[1:] {
		best, lead := span{}, lane{member: -1}
		for i := 1; i < len(lines[m].path); i++ {
			lv, s, across := lines[m].axis(i)
			if lv != level || across-at > maxApart || at-across > maxApart {
				continue
			}
			s = span{max(s.from, r.span.from), min(s.to, r.span.to)}
			if s.to-s.from >= minRun && s.to-s.from > best.to-best.from {
				best, lead = s, lane{m, across, lines[m].width}
			}
		}
		if lead.member >= 0 {
			r.span, r.lanes = best, append(r.lanes, lead)
		}
	}
	return r
}

// axis returns whether a segment is level, its stretch and its place across.
func (l *line) axis(i int) (level bool, s span, at float64) {
	b := boxMM(segRect(l, i))
	if l.path[i-1].Y == l.path[i].Y {
		return true, span{b.Min.X, b.Max.X}, b.Min.Y
	}
	return false, span{b.Min.Y, b.Max.Y}, b.Min.X
}
