package draw

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
func (b *build) labels(p *pen) {
	for _, l := range b.lines {
		if t := b.label(l); t != nil {
			p.owner = l.wire.Key()
			p.text(t)
			b.room.block(t.Box())
		}
	}
}

// strip is a stretch beside a wire with its free gaps.
type strip struct {
	level bool
	base  float64 // the text's baseline, across the wire
	want  float64 // middle of the piece
	gaps  []span
}

func (b *build) label(l *line) *Text {
	if len(l.texts) == 0 {
		return nil
	}
	_, ink := inkBox(l.texts[0], sizeWire, false)
	shortest := Measure(l.texts[len(l.texts)-1], sizeWire, false)
	var strips []strip
	n := 0
	for _, seg := range l.longest(labelSegs) {
		if l.length(seg) < shortest+0.02 {
			break
		}
		for _, first := range [2]bool{true, false} {
			if n == len(b.strips) {
				b.strips = append(b.strips, strip{})
			}
			s := b.beside(b.strips[n], l, seg, first, ink)
			b.strips[n] = s
			n++
			if t := s.text(l.texts[0]); t != nil {
				return t
			}
			strips = b.strips[:n]
		}
	}
	for _, s := range l.texts[min(1, len(l.texts)):] {
		for _, st := range strips {
			if t := st.text(s); t != nil {
				return t
			}
		}
	}
	return b.labelAcross(l)
}

// beside returns the strip on the first (above, left) or other side of a piece.
func (b *build) beside(s strip, l *line, seg int, first bool, ink Box) strip {
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
	s.gaps = b.room.gaps(s.gaps, area, s.level, noOwner, labelPad)
	return s
}

// text returns the label in the strip's best gap, or nil.
func (s strip) text(text string) *Text {
	w := Measure(text, sizeWire, false)
	c, ok := fit(s.gaps, w+0.02, s.want)
	switch {
	case !ok:
		return nil
	case s.level:
		return textAt(text, Point{c, s.base}, atMiddle, 0, sizeWire, false, InkText)
	}
	return textAt(text, Point{s.base, c}, atMiddle, up, sizeWire, false, InkText)
}

// labelAcross places the bare designation beside a wire too short to carry it
// along.
func (b *build) labelAcross(l *line) *Text {
	text := l.texts[len(l.texts)-1]
	for _, seg := range l.longest(2) {
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
				return t
			}
		}
	}
	return nil
}
