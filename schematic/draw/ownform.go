package draw

import (
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// ownForm draws the symbols of kinds whose parts bring their own pins. All of
// it is laid out as it lies on the sheet, so that text stays upright.
type ownForm struct {
	pen    *pen
	symbol *symbol
	place  placing
	sec    schematic.Section
}

const (
	textInset = 1.0 // mm from the edge of a box to a pin's title
	nameGap   = 0.6 // mm from a stub to the pin's name
)

// box draws a unit: outline, pins along its sides, their titles inside.
func (o ownForm) box() {
	body := boxMM(o.symbol.body)
	o.pen.fill(rectPath(body), InkFill)
	o.pen.stroke(rectPath(body), plainLine, InkSymbol)
	o.pen.shapes(o.sec.Shapes, o.place)
	var inside []Box
	for _, pp := range o.symbol.pins {
		o.stub(pp)
		o.stubName(pp, 0.4)
		glyph := o.glyph(pp)
		t := o.pinTitle(pp, body, glyph)
		o.pen.text(t)
		if t.S != "" {
			inside = append(inside, t.Box())
		}
		if !glyph.Empty() {
			inside = append(inside, glyph)
		}
	}
	if o.symbol.kind == nil {
		o.pen.text(middleText("?", middle(body), 0, 2*sizeName, true, InkText))
		return
	}
	o.boxTitle(body, inside)
}

// stub draws the line from the body to where the wire ends.
func (o ownForm) stub(pp schematic.PlacedPin) {
	path := polyline(mm(pp.Edge), mm(pp.At))
	o.pen.stroke(path, plainLine, InkSymbol)
	o.symbol.strokes = append(o.symbol.strokes, pathBox(path).Grow(plainLine/2))
}

// stubName writes the pin's name along its stub, off mm from its start.
func (o ownForm) stubName(pp schematic.PlacedPin, off float64) {
	edge, name := mm(pp.Edge), short(pp.Pin.Name)
	text := func(x, y float64, a align, angle float64) {
		o.pen.text(textAt(name, edge.add(x, y), a, angle, sizePin, false, InkFaint))
	}
	switch pp.Dir {
	case geom.Left:
		text(-off, -nameGap, atEnd, 0)
	case geom.Right:
		text(off, -nameGap, atStart, 0)
	case geom.Up:
		text(-nameGap, -off, atStart, up)
	case geom.Down:
		text(-nameGap, off, atEnd, up)
	}
}

// glyph draws what the pin's role looks like and returns the area it takes.
func (o ownForm) glyph(pp schematic.PlacedPin) Box {
	k := o.symbol.kind
	if k == nil {
		return emptyBox()
	}
	role, _ := k.Role(pp.Pin.Role)
	if len(role.Shapes) == 0 {
		return emptyBox()
	}
	from := len(o.pen.marks)
	// Mirrored symbols mirror the glyph too, so that a rail running from pin
	// to pin still meets its neighbours.
	o.pen.shapes(role.Shapes, placing{facing(pp.Dir, o.place.orient.Mirror), mm(pp.Edge)})
	b := emptyBox()
	for _, m := range o.pen.marks[from:] {
		b = b.Union(m.Bound)
	}
	return b
}

// facing returns the orientation that turns a glyph drawn for a pin that faces
// left into one that faces d.
func facing(d geom.Dir, mirror bool) geom.Orient {
	for turns := range 4 {
		o := geom.Orient{Turns: turns, Mirror: mirror}
		if o.Dir(geom.Left) == d {
			return o
		}
	}
	return geom.Orient{Mirror: mirror}
}

// pinTitle returns the pin's title (and value) inside the box, beyond the
// glyph of its role, cut to the room it has.
func (o ownForm) pinTitle(pp schematic.PlacedPin, body, glyph Box) *Text {
	s := join(pp.Pin.Title, pinValue(o.symbol.kind, o.symbol.part, &pp.Pin))
	edge := mm(pp.Edge)
	inset := textInset
	across := body.Max.X - body.Min.X
	if pp.Dir == geom.Up || pp.Dir == geom.Down {
		across = body.Max.Y - body.Min.Y
	}
	if !glyph.Empty() {
		switch pp.Dir {
		case geom.Left:
			inset = max(inset, glyph.Max.X-edge.X+0.6)
		case geom.Right:
			inset = max(inset, edge.X-glyph.Min.X+0.6)
		case geom.Up:
			inset = max(inset, glyph.Max.Y-edge.Y+0.6)
		case geom.Down:
			inset = max(inset, edge.Y-glyph.Min.Y+0.6)
		}
	}
	room := across - inset - textInset
	if o.faced(pp) {
		room = across/2 - inset - textInset/2
	}
	s = trim(s, room, sizeTitle, false)
	h := CapHeight(sizeTitle) / 2
	switch pp.Dir {
	case geom.Right:
		return textAt(s, edge.add(-inset, h), atEnd, 0, sizeTitle, false, InkText)
	case geom.Up:
		return textAt(s, edge.add(h, inset), atEnd, up, sizeTitle, false, InkText)
	case geom.Down:
		return textAt(s, edge.add(h, -inset), atStart, up, sizeTitle, false, InkText)
	}
	return textAt(s, edge.add(inset, h), atStart, 0, sizeTitle, false, InkText)
}

// faced reports whether another titled pin lies straight across the box.
func (o ownForm) faced(pp schematic.PlacedPin) bool {
	for _, q := range o.symbol.pins {
		if q.Pin.Title == "" || q.Dir.Vec() != pp.Dir.Vec().Neg() {
			continue
		}
		if pp.Dir == geom.Left || pp.Dir == geom.Right {
			if q.Edge.Y == pp.Edge.Y {
				return true
			}
		} else if q.Edge.X == pp.Edge.X {
			return true
		}
	}
	return false
}

// boxTitle writes what the unit is where the pins leave room; it is left to
// the designation where they leave none.
func (o ownForm) boxTitle(body Box, inside []Box) {
	title := boxName(o.symbol)
	w, h := body.Max.X-body.Min.X, body.Max.Y-body.Min.Y
	c := middle(body)
	level, upright := trim(title, w-2, sizeValue, false), trim(title, h-2, sizeValue, false)
	const zone = 2.2 // half of the pitch-wide strip no pin lies in
	places := []*Text{
		middleText(level, Point{c.X, body.Min.Y + zone}, 0, sizeValue, false, InkText),
		middleText(level, Point{c.X, body.Max.Y - zone}, 0, sizeValue, false, InkText),
		middleText(level, c, 0, sizeValue, false, InkText),
		middleText(upright, Point{body.Min.X + zone, c.Y}, up, sizeValue, false, InkText),
		middleText(upright, Point{body.Max.X - zone, c.Y}, up, sizeValue, false, InkText),
	}
	best := (*Text)(nil)
	for _, t := range places {
		if t.S != "" && !touchesAny(t.Box().Grow(0.2), inside) && (best == nil || best.S != title && t.S == title) {
			best = t
		}
	}
	if best != nil {
		o.pen.text(best)
		o.symbol.titled = best.S == title
	}
}

// boxName is what stands inside a box: what the part does, else what it is.
func boxName(s *symbol) string {
	if s.part.Label != "" {
		return strings.Join(strings.Fields(s.part.Label), " ")
	}
	return s.kind.Title
}

// bar draws a rail with its pins; titles stand on the free side.
func (o ownForm) bar() {
	body := boxMM(o.symbol.body)
	o.pen.stroke(polyline(body.Min, body.Max), railLine, InkSymbol)
	o.pen.shapes(o.sec.Shapes, o.place)
	type way struct {
		at  geom.Point
		dir geom.Dir
	}
	taken := map[way]bool{}
	for _, pp := range o.symbol.pins {
		taken[way{pp.Edge, pp.Dir}] = true
	}
	for _, pp := range o.symbol.pins {
		o.stub(pp)
		o.stubName(pp, railLine/2+0.2)
		o.glyph(pp)
		back := geom.DirOf(pp.Dir.Vec().Neg())
		if taken[way{pp.Edge, back}] {
			continue
		}
		s := trim(join(pp.Pin.Title, pinValue(o.symbol.kind, o.symbol.part, &pp.Pin)), 30, sizePin, false)
		edge, off, h := mm(pp.Edge), railLine/2+0.5, CapHeight(sizePin)/2
		switch back {
		case geom.Up:
			o.pen.text(textAt(s, edge.add(h, -off), atStart, up, sizePin, false, InkFaint))
		case geom.Down:
			o.pen.text(textAt(s, edge.add(h, off), atEnd, up, sizePin, false, InkFaint))
		case geom.Left:
			o.pen.text(textAt(s, edge.add(-off, h), atEnd, 0, sizePin, false, InkFaint))
		case geom.Right:
			o.pen.text(textAt(s, edge.add(off, h), atStart, 0, sizePin, false, InkFaint))
		}
	}
}

func middle(b Box) Point { return Point{(b.Min.X + b.Max.X) / 2, (b.Min.Y + b.Max.Y) / 2} }

func touchesAny(b Box, others []Box) bool {
	for _, o := range others {
		if b.Touches(o) {
			return true
		}
	}
	return false
}
