package draw

import "loomwright/schematic/geom"

// Wire labels stand along the wire: above level pieces, left of upright ones
// (turned to read from the right), on the other side where the first is taken.
const (
	labelGap   = 0.45 // mm between a wire's edge and its label
	labelClear = 0.3  // mm between a label and anything above or below it
	labelPad   = 1.2  // mm between a label and the next thing in its line
	labelSegs  = 4    // pieces of a wire that are tried, longest first
)

// labels writes the wires' labels where there is room, shortened where there
// is little and left out where there is none: the wire's own colour and the
// inspector still tell it.
func (b *build) labels() []Mark {
	out := make([]Mark, 0, len(b.lines))
	// Those the user has placed come first: the others keep clear of them.
	for _, placed := range [2]bool{true, false} {
		for _, l := range b.lines {
			if placed != (l.wire.Tag != geom.Point{}) {
				continue
			}
			if !b.settled(l) {
				b.place(l, placed)
			}
			if l.labelled {
				b.room.block(l.label.Bound)
				out = append(out, *l.label)
			}
		}
	}
	return out
}

// place finds room for the label of a line.
func (b *build) place(l *line, placed bool) {
	before := l.label
	if !l.labelled {
		before = nil
	}
	var t Text
	if l.known = true; placed {
		t, l.labelled = l.placedLabel()
	} else {
		t, l.labelled = b.label(l)
	}
	if l.labelled && (l.label == nil || *l.label.Op.(*Text) != t) {
		l.label = &Mark{Op: &t, Owner: l.wire.Key(), Bound: t.Box()}
	}
	if before != nil && !(l.labelled && l.label == before) {
		b.dirty.add(before.Bound)
	}
	if l.labelled && l.label != before {
		b.dirty.add(l.label.Bound)
	}
}

// uprightWithin is how near in mm to an upright piece a label placed by the user
// stands upright too.
const uprightWithin = 5.0

// placedLabel is the label where the user has put it: whole, whatever is there.
func (l *line) placedLabel() (Text, bool) {
	if len(l.texts) == 0 {
		return Text{}, false
	}
	at := l.path.Middle().Add(l.wire.Tag)
	dist, seg, _ := l.path.Dist(at)
	angle := 0.0
	if p, q := l.path[seg], l.path[seg+1]; p.X == q.X && p.Y != q.Y && dist <= uprightWithin*geom.PerMM {
		angle = up
	}
	return *middleText(l.texts[0], mm(at), angle, sizeWire, false, InkText), true
}

// strip is a stretch beside a wire with its free gaps.
type strip struct {
	level bool
	base  float64 // the text's baseline, across the wire
	want  float64 // middle of the piece
	gaps  []span
}

// label places the text of a wire beside one of its longest pieces: the whole of
// it where there is room, else a shorter one, else across the wire. It is false
// where none fits.
func (b *build) label(l *line) (Text, bool) {
	if len(l.texts) == 0 {
		return Text{}, false
	}
	shortest := l.wide[len(l.wide)-1]
	var strips [2 * labelSegs]strip
	n := 0
	order, segs := l.longest()
	for _, seg := range order[:segs] {
		if l.length(seg) < shortest+0.02 {
			break
		}
		for _, first := range [2]bool{true, false} {
			strips[n] = b.beside(b.gaps[n], l, seg, first)
			b.gaps[n] = strips[n].gaps
			if t, ok := strips[n].text(l, 0); ok {
				return t, true
			}
			n++
		}
	}
	for i := 1; i < len(l.texts); i++ {
		for _, st := range strips[:n] {
			if t, ok := st.text(l, i); ok {
				return t, true
			}
		}
	}
	return b.labelAcross(l)
}

// beside returns the strip on the first (above, left) or other side of a piece.
func (b *build) beside(reuse []span, l *line, seg int, first bool) (s strip) {
	ink := l.ink
	e := boxMM(segRect(l, seg))
	off := l.width/2 + rimWidth + labelGap
	s.level = l.path[seg-1].Y == l.path[seg].Y
	area := e
	if s.level {
		s.base, s.want = e.Min.Y-off-ink.Max.Y, middle(e).X
		if !first {
			s.base = e.Min.Y + off - ink.Min.Y
		}
		area.Min.Y, area.Max.Y = s.base+ink.Min.Y-labelClear, s.base+ink.Max.Y+labelClear
	} else {
		s.base, s.want = e.Min.X-off-ink.Max.Y, middle(e).Y
		if !first {
			s.base = e.Min.X + off - ink.Min.Y
		}
		area.Min.X, area.Max.X = s.base+ink.Min.Y-labelClear, s.base+ink.Max.Y+labelClear
	}
	s.gaps = b.room.gaps(reuse, area, s.level, noOwner, labelPad)
	return s
}

// text returns the line's i-th text in the strip's best gap.
func (s *strip) text(l *line, i int) (Text, bool) {
	w := l.wide[i]
	c, ok := fit(s.gaps, w+0.02, s.want)
	t := Text{At: Point{c - w/2, s.base}, Size: sizeWire, Ink: InkText, S: l.texts[i]}
	if !s.level {
		t.At, t.Angle = Point{s.base, c + w/2}, up
	}
	return t, ok
}

// labelAcross places the bare designation beside a wire too short to carry it
// along.
func (b *build) labelAcross(l *line) (Text, bool) {
	text := l.texts[len(l.texts)-1]
	order, n := l.longest()
	for _, seg := range order[:min(n, 2)] {
		c := middle(boxMM(segRect(l, seg)))
		h := CapHeight(sizeWire) / 2
		off := l.width/2 + rimWidth + labelGap
		try := [2]*Text{
			textAt(text, c.add(off, h), atStart, 0, sizeWire, false, InkText),
			textAt(text, c.add(-off, h), atEnd, 0, sizeWire, false, InkText),
		}
		if l.path[seg-1].Y == l.path[seg].Y {
			try = [2]*Text{
				textAt(text, c.add(0, -off), atMiddle, 0, sizeWire, false, InkText),
				textAt(text, c.add(0, off+2*h), atMiddle, 0, sizeWire, false, InkText),
			}
		}
		for _, t := range try {
			if b.room.crowd(t.Box().Grow(labelClear)) == 0 {
				return *t, true
			}
		}
	}
	return Text{}, false
}
