package geom

// Orient is one of the eight ways a symbol can lie on the sheet: a mirror
// about the vertical axis (x → −x) first, then quarter turns clockwise as seen
// on the sheet. The zero value is upright.
type Orient struct {
	Turns  int // quarter turns clockwise, 0..3
	Mirror bool
}

// Apply turns a point about the origin.
func (o Orient) Apply(p Point) Point {
	if o.Mirror {
		p.X = -p.X
	}
	switch o.Turns & 3 {
	case 1:
		return Point{-p.Y, p.X}
	case 2:
		return Point{-p.X, -p.Y}
	case 3:
		return Point{p.Y, -p.X}
	}
	return p
}

// Turn returns o followed by n quarter turns clockwise on the sheet.
func (o Orient) Turn(n int) Orient { return Orient{(o.Turns + n) & 3, o.Mirror} }

// Flip returns o followed by a mirror about the sheet's vertical axis.
func (o Orient) Flip() Orient { return Orient{-o.Turns & 3, !o.Mirror} }

// Transform places a symbol: orientation about its origin, then displacement.
type Transform struct {
	Orient Orient
	At     Point
}

func (t Transform) Apply(p Point) Point { return t.Orient.Apply(p).Add(t.At) }

// Rect returns the placed rectangle.
func (t Transform) Rect(r Rect) Rect {
	if r.Empty() {
		return r
	}
	return RectOf(t.Apply(r.Min), t.Apply(r.Max))
}
