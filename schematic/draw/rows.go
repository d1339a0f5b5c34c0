package draw

import (
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// rows draws a connector half: one cell per cavity with its number, the sort
// of contact at the mating edge, and a bold mating edge when it is plugged.
func (o ownForm) rows(local geom.Rect) {
	body := boxMM(o.symbol.body)
	o.pen.fill(rectPath(body), InkFill)
	o.pen.stroke(rectPath(body), plainLine, InkSymbol)
	w := float64(local.Width())
	pins := o.symbol.pins
	for i := 1; i < len(pins); i++ {
		y := float64(i * schematic.PinPitch)
		o.pen.stroke(polyline(o.place.pt(0, y), o.place.pt(w, y)), thinLine, InkSymbol)
	}
	o.pen.shapes(o.sec.Shapes, o.place)
	right := 0
	for i, pp := range pins {
		o.stub(pp)
		facesRight := pp.Pin.Side.Geom() == geom.Right
		if facesRight {
			right++
		}
		o.cavity(pp, i, w, facesRight)
	}
	if o.symbol.part.Mate == (schematic.ID{}) || right != 0 && right != len(pins) {
		return
	}
	x := w
	if right > 0 {
		x = 0
	}
	o.pen.stroke(polyline(o.place.pt(x, 0), o.place.pt(x, float64(local.Height()))), boldLine, InkSymbol)
}

// cavity fills one cell: x runs from the mating edge's far side to it.
func (o ownForm) cavity(pp schematic.PlacedPin, i int, w float64, facesRight bool) {
	y := float64(i*schematic.PinPitch + schematic.PinPitch/2)
	// at places a point by its distance from the stub's edge.
	at := func(x, dy float64) Point {
		if facesRight {
			x = w - x
		}
		return o.place.pt(x, y+dy)
	}
	gender := ""
	if h := o.symbol.part.Housing; h != nil {
		gender = h.Gender
	}
	contact := 0.0 // depth of the contact's mark, units
	switch gender {
	case "pin":
		contact = 16
		o.pen.fill(polygon(at(w-contact, -4), at(w, -4), at(w, 4), at(w-contact, 4)), InkSymbol)
	case "socket":
		contact = 12
		k := 9.
		o.pen.stroke([]Seg{
			{Verb: MoveTo, P: at(w, -k)},
			{Verb: CubeTo, C1: at(w-contact*4/3, -k), C2: at(w-contact*4/3, k), P: at(w, k)},
		}, plainLine, InkSymbol)
	}
	o.glyph(pp)
	number := short(pp.Pin.Name)
	title := join(pp.Pin.Title, pinValue(o.symbol.kind, o.symbol.part, &pp.Pin))
	level := pp.Dir == geom.Left || pp.Dir == geom.Right
	room := (w - contact) / geom.PerMM
	if !level {
		room = float64(schematic.PinPitch) / geom.PerMM
	}
	// A number and its title share a wide cell; in a narrow one the number
	// stands alone and the title beyond an unplugged mating edge.
	if both := join(number, title); level && title != "" && Measure(both, sizePin, false)+1.2 <= room {
		number, title = both, ""
	}
	o.pen.text(middleText(trim(number, room-0.4, sizePin, false), at((w-contact)/2, 0), 0, sizePin, false, InkText))
	if title == "" || o.symbol.part.Mate != (schematic.ID{}) {
		return
	}
	o.beyond(title, at(w, 0), pp.Dir)
}

// beyond writes a title outside the edge that lies opposite to a pin.
func (o ownForm) beyond(title string, edge Point, pinDir geom.Dir) {
	const gap = 0.9
	s := trim(title, 30, sizePin, false)
	h := CapHeight(sizePin) / 2
	switch pinDir {
	case geom.Left:
		o.pen.text(textAt(s, edge.add(gap, h), atStart, 0, sizePin, false, InkFaint))
	case geom.Right:
		o.pen.text(textAt(s, edge.add(-gap, h), atEnd, 0, sizePin, false, InkFaint))
	case geom.Up:
		o.pen.text(textAt(s, edge.add(h, gap), atEnd, up, sizePin, false, InkFaint))
	case geom.Down:
		o.pen.text(textAt(s, edge.add(h, -gap), atStart, up, sizePin, false, InkFaint))
	}
}
