package draw

import (
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// tag is the block of text beside a symbol: designation, what the part does,
// its main value.
type tag struct {
	lines []tagLine
	w, h  float64
	body  Box
	side  geom.Dir // Up is above the symbol, Right beside it, …
	// fixed is the first place tried, where the kind names one for the way
	// the symbol lies; moved says that the user put it there.
	fixed  *tagPlace
	moved  bool
	last   []Mark // as drawn at lastAt: most tags stay where they were
	lastAt tagPlace
}

type tagLine struct {
	s    string
	size float64
	bold bool
	base float64 // baseline below the block's top
}

type tagPlace struct {
	at    Point // top left of the block
	align align
}

const maxLabel = 34 // mm, then it is wrapped

func newTag(s *symbol, v schematic.View, sec schematic.Section) tag {
	t := tag{body: s.solid}
	t.add(short(s.part.Name), sizeName, true)
	switch {
	case s.kind == nil:
		t.add("unknown kind", sizeValue, false)
		t.add(trim(s.part.Kind, maxLabel, sizeValue, false), sizeValue, false)
	case s.part.Label != "" && !s.titled:
		for _, l := range wrap(strings.Join(strings.Fields(s.part.Label), " "), maxLabel, sizeValue, false, 2) {
			t.add(trim(l, maxLabel, sizeValue, false), sizeValue, false)
		}
	}
	t.add(mainValue(s.kind, s.part), sizeValue, false)
	if len(t.lines) > 0 {
		last := t.lines[len(t.lines)-1]
		t.h = last.base + Descent(last.size)
	}
	t.prefer(v, sec)
	return t
}

func (t *tag) add(s string, size float64, bold bool) {
	if s == "" {
		return
	}
	base := CapHeight(size)
	if n := len(t.lines); n > 0 {
		base = t.lines[n-1].base + lineSpace*size
	}
	t.lines = append(t.lines, tagLine{s, size, bold, base})
	t.w = max(t.w, Measure(s, size, bold))
}

// prefer works out where the tag stands if nothing is in the way.
func (t *tag) prefer(v schematic.View, sec schematic.Section) {
	t.side = geom.Up
	if sec.TagSide == "right" {
		t.side = geom.Right
	}
	if o := v.Transform().Orient; sec.Tag != (geom.Point{}) && o == (geom.Orient{}) {
		at := placingOf(v).point(sec.Tag)
		first, last := 0.0, 0.0
		if n := len(t.lines); n > 0 {
			first, last = t.lines[0].base, t.lines[n-1].base
		}
		if t.side == geom.Right {
			t.fixed = &tagPlace{at.add(0, -first), atStart}
		} else {
			t.fixed = &tagPlace{at.add(0, -last), atStart}
		}
	} else if sec.Tag != (geom.Point{}) {
		t.side = sideOf(t.body, placingOf(v).point(sec.Tag))
	}
	if v.Tag != (geom.Point{}) {
		p := t.first()
		d := mm(v.Tag)
		p.at = p.at.add(d.X, d.Y)
		t.fixed, t.moved = &p, true
	}
}

// sideOf says on which side of a box a point lies.
func sideOf(b Box, p Point) geom.Dir {
	switch {
	case p.X >= b.Max.X:
		return geom.Right
	case p.X <= b.Min.X:
		return geom.Left
	case p.Y >= b.Max.Y:
		return geom.Down
	}
	return geom.Up
}

// places yields where the block may stand, best first: on the preferred side,
// then on the others, close by and then a module further out.
func (t *tag) places(yield func(tagPlace) bool) {
	if t.fixed != nil && !yield(*t.fixed) {
		return
	}
	sides := [5]geom.Dir{t.side, geom.Right, geom.Up, geom.Left, geom.Down}
	const gap, clear = 1.2, 0.9
	b, c := t.body, middle(t.body)
	for _, far := range [2]float64{0, 2.5} {
		for i, side := range sides {
			if i > 0 && side == t.side {
				continue
			}
			if side == geom.Left || side == geom.Right {
				x, a := b.Max.X+gap+far, atStart
				if side == geom.Left {
					x, a = b.Min.X-gap-far-t.w, atEnd
				}
				for _, y := range [5]float64{c.Y - t.h/2, b.Min.Y, b.Max.Y - t.h, c.Y - clear - t.h, c.Y + clear} {
					if !yield(tagPlace{Point{x, y}, a}) {
						return
					}
				}
				continue
			}
			y := b.Min.Y - clear - far - t.h
			if side == geom.Down {
				y = b.Max.Y + clear + far
			}
			for i, x := range [5]float64{b.Min.X, c.X - t.w/2, b.Max.X - t.w, c.X + clear, c.X - clear - t.w} {
				if !yield(tagPlace{Point{x, y}, [5]align{atStart, atMiddle, atEnd, atStart, atEnd}[i]}) {
					return
				}
			}
		}
	}
}

// first returns the best place.
func (t *tag) first() (first tagPlace) {
	for p := range t.places {
		return p
	}
	return first
}

func (t *tag) box(p tagPlace) Box { return Box{p.at, p.at.add(t.w, t.h)} }

// write returns the tag drawn in what room there is, and takes that room. A
// designation is never left out: where everything is taken, the least crowded
// place serves.
func (t *tag) write(owner schematic.Key, s *space) []Mark {
	if len(t.lines) == 0 {
		return nil
	}
	best, least := tagPlace{}, -1
	for q := range t.places {
		n := s.crowd(t.box(q).Grow(0.25))
		if least < 0 || n < least {
			best, least = q, n
		}
		if n == 0 || t.moved {
			break
		}
	}
	if t.last == nil || t.lastAt != best {
		p, x := pen{owner: owner}, 0.0
		switch best.align {
		case atMiddle:
			x = t.w / 2
		case atEnd:
			x = t.w
		}
		for _, l := range t.lines {
			p.text(textAt(l.s, best.at.add(x, l.base), best.align, 0, l.size, l.bold, InkText))
		}
		t.last, t.lastAt = p.marks, best
	}
	for i := range t.last {
		s.block(t.last[i].Bound)
	}
	return t.last
}
