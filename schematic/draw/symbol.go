package draw

import (
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// symbol is one view of a part, drawn: everything but its designation, which
// is placed once all else on the sheet is known. It depends on the part, its
// kind and the view alone, so it is kept as long as those stay the same.
type symbol struct {
	part  *schematic.Part
	kind  *schematic.Kind
	view  int
	shown string // the view's key
	drawn int    // the build that used it last

	marks []Mark
	// over says that wires end inside the symbol (a splice's dot, a ring
	// terminal), so that it is painted after them.
	over    bool
	pins    []schematic.PlacedPin
	byName  map[string]int // only where there are many pins
	body    geom.Rect
	solid   Box   // the body in mm with the thickness of its edge
	texts   []Box // areas taken by the symbol's texts
	strokes []Box // areas taken by its lines outside the body: stubs
	titled  bool  // its label stands inside it
	tag     tag
}

// pin returns the index of the named pin among s.pins, or -1.
func (s *symbol) pin(name string) int {
	if s.byName != nil {
		if i, ok := s.byName[name]; ok {
			return i
		}
		return -1
	}
	for i := range s.pins {
		if s.pins[i].Pin.Name == name {
			return i
		}
	}
	return -1
}

const manyPins = 12

// draw makes the symbol's marks and all that is known of it alone.
func (s *symbol) draw(d *schematic.Doc) {
	p, k, v := s.part, s.kind, s.part.Views[s.view]
	s.shown, s.pins, s.body = v.Key, d.PlacedPins(p, v), d.Body(p, v)
	if len(s.pins) > manyPins {
		s.byName = make(map[string]int, len(s.pins))
		for i, pp := range s.pins {
			if _, seen := s.byName[pp.Pin.Name]; !seen {
				s.byName[pp.Pin.Name] = i
			}
		}
	}
	var sec schematic.Section
	form := "box"
	if k != nil {
		sec, _ = k.Section(v.Section)
		form = sec.Form
	}
	s.solid = boxMM(s.body).Grow(plainLine / 2)
	if form == "bar" {
		s.solid = boxMM(s.body).Grow(railLine / 2)
	}
	w := &pen{owner: p.Key()}
	o := ownForm{pen: w, symbol: s, place: placingOf(v), sec: sec}
	switch form {
	case "box":
		o.box()
	case "rows":
		o.rows(d.LocalBody(p, v.Section))
	case "bar":
		o.bar()
	default:
		w.shapes(sec.Shapes, o.place)
		o.fixedPinNames()
		s.over = endsInside(s.pins, s.body)
	}
	s.marks = w.marks
	for _, m := range s.marks {
		if t, ok := m.Op.(*Text); ok {
			s.texts = append(s.texts, t.Box())
		}
	}
	s.tag = newTag(s, v, sec)
}

// endsInside reports whether a wire's end would be drawn over the symbol.
func endsInside(pins []schematic.PlacedPin, body geom.Rect) bool {
	inner := body.Grow(-1)
	for _, pp := range pins {
		if !inner.Empty() && inner.Contains(pp.At) {
			return true
		}
	}
	return false
}

// fixedPinNames writes the terminal numbers of a symbol beside its leads: to
// the right of upright leads, above level ones, on the other side where the
// symbol's own lines are in the way. The 1 and 2 of things that may be fitted
// either way round are left out.
func (o ownForm) fixedPinNames() {
	if len(o.symbol.pins) <= 2 && trivialNames(o.symbol.pins) {
		return
	}
	var lines []Box
	letters := map[string]bool{}
	for _, m := range o.pen.marks {
		switch op := m.Op.(type) {
		case *Stroke:
			lines = append(lines, strokeBoxes(op)...)
		case *Text:
			lines = append(lines, op.Box())
			letters[op.S] = true
		}
	}
	for _, pp := range o.symbol.pins {
		if letters[pp.Pin.Name] {
			continue // the symbol says it itself
		}
		best, least := (*Text)(nil), 0
		for _, t := range leadTexts(pp) {
			n := 0
			for _, b := range lines {
				if b.Touches(t.Box()) {
					n++
				}
			}
			if best == nil || n < least {
				best, least = t, n
			}
			if n == 0 {
				break
			}
		}
		o.pen.text(best)
		lines = append(lines, best.Box())
	}
}

// leadTexts returns where a terminal number may stand, the best place first: on
// either side of the lead, else beyond it, clear of the wire that ends there.
func leadTexts(pp schematic.PlacedPin) []*Text {
	const gap, clear = 0.45, 0.75
	name := short(pp.Pin.Name)
	at := mm(pp.At)
	h := CapHeight(sizePin)
	text := func(x, y float64, a align) *Text {
		return textAt(name, at.add(x, y), a, 0, sizePin, false, InkFaint)
	}
	switch pp.Dir {
	case geom.Up: // the lead goes down from the pin
		return []*Text{text(gap, 0.3+h, atStart), text(-gap, 0.3+h, atEnd), text(clear, -0.4, atStart)}
	case geom.Down:
		return []*Text{text(gap, -0.3, atStart), text(-gap, -0.3, atEnd), text(clear, 0.4+h, atStart)}
	case geom.Left:
		return []*Text{text(0.2, -gap, atStart), text(0.2, gap+h, atStart), text(-0.2, -clear, atEnd)}
	case geom.Right:
		return []*Text{text(-0.2, -gap, atEnd), text(-0.2, gap+h, atEnd), text(0.2, -clear, atStart)}
	}
	return []*Text{text(gap, -gap, atStart), text(-gap, -gap, atEnd), text(gap, gap+h, atStart)}
}

func trivialNames(pins []schematic.PlacedPin) bool {
	for _, pp := range pins {
		if strings.Trim(pp.Pin.Name, "12") != "" {
			return false
		}
	}
	return true
}

// strokeBoxes returns the boxes of the pieces of a stroke.
func strokeBoxes(s *Stroke) []Box {
	var out []Box
	var at, start Point
	for _, g := range s.Path {
		b := emptyBox().extend(at)
		switch g.Verb {
		case MoveTo:
			at, start = g.P, g.P
			continue
		case LineTo:
			b = b.extend(g.P)
			at = g.P
		case CubeTo:
			b = b.extend(g.C1).extend(g.C2).extend(g.P)
			at = g.P
		case Close:
			b = b.extend(start)
			at = start
		}
		out = append(out, b.Grow(s.Width/2))
	}
	return out
}
