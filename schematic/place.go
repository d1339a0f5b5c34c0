package schematic

import "loomwright/schematic/geom"

// Own pins stand one pitch apart along their box, one grid step outside it.
const (
	PinPitch = 2 * geom.Grid
	PinStub  = geom.Grid
	// charWidth is the width allowed for one letter of a pin title. Placement
	// must not depend on font metrics, so it is a generous constant.
	charWidth = 12
)

// PlacedPin is a pin where a view shows it on the sheet.
type PlacedPin struct {
	Pin  Pin
	At   geom.Point // where wires end
	Dir  geom.Dir   // the way a wire leaves
	Edge geom.Point // the end of the pin's stub on the body; equals At where the symbol draws its own leads
}

// PinsOf returns the part's pins: its own, or those of its kind. The slice is
// shared: do not write to it.
func (d *Doc) PinsOf(p *Part) []Pin {
	k := d.KindOf(p)
	if k == nil || k.OwnPins {
		return p.Pins
	}
	return k.Pins
}

// PinOf returns the named pin of a part.
func (d *Doc) PinOf(p *Part, name string) (Pin, bool) {
	for _, pin := range d.PinsOf(p) {
		if pin.Name == name {
			return pin, true
		}
	}
	return Pin{}, false
}

// PlacedPins returns the pins a view shows, in drawing order.
func (d *Doc) PlacedPins(p *Part, v View) []PlacedPin {
	local, _ := d.layout(p, v.Section)
	t := v.Transform()
	for i := range local {
		local[i].At = t.Apply(local[i].At)
		local[i].Edge = t.Apply(local[i].Edge)
		local[i].Dir = t.Orient.Dir(local[i].Dir)
	}
	return local
}

// Body returns the area of the view's symbol on the sheet without its pins'
// stubs and texts.
func (d *Doc) Body(p *Part, v View) geom.Rect {
	_, body := d.layout(p, v.Section)
	return v.Transform().Rect(body)
}

// Reach returns the area of the view's symbol with its pins.
func (d *Doc) Reach(p *Part, v View) geom.Rect {
	r := d.Body(p, v)
	for _, pp := range d.PlacedPins(p, v) {
		r = r.Extend(pp.At)
	}
	return r
}

// LocalBody returns the body of a section before placement, as drawing needs it.
func (d *Doc) LocalBody(p *Part, section string) geom.Rect {
	_, body := d.layout(p, section)
	return body
}

// LocalPins returns the pins of a section before placement.
func (d *Doc) LocalPins(p *Part, section string) []PlacedPin {
	pins, _ := d.layout(p, section)
	return pins
}

// layout returns pins and body of a section in the symbol's own coordinates.
func (d *Doc) layout(p *Part, section string) ([]PlacedPin, geom.Rect) {
	k := d.KindOf(p)
	var sec Section
	if k != nil {
		sec, _ = k.Section(section)
	}
	var pins []Pin
	for _, pin := range d.PinsOf(p) {
		if pin.Section == section {
			pins = append(pins, pin)
		}
	}
	switch {
	case k == nil || sec.Form == "box":
		return layoutBox(pins, sec)
	case sec.Form == "rows":
		return layoutRows(pins, sec)
	case sec.Form == "bar":
		return layoutBar(pins, sec)
	}
	placed := make([]PlacedPin, 0, len(pins))
	body := shapeBounds(sec.Shapes)
	for _, pin := range pins {
		placed = append(placed, PlacedPin{Pin: pin, At: pin.At, Dir: pin.Dir.Geom(), Edge: pin.At})
		if body.Empty() {
			body = body.Extend(pin.At)
		}
	}
	if body.Empty() {
		body = geom.RectOf(geom.Pt(-geom.Grid, -geom.Grid), geom.Pt(geom.Grid, geom.Grid))
	}
	return placed, body
}

func side(p Pin) geom.Dir {
	if s := p.Side.Geom(); s != geom.NoDir {
		return s
	}
	return geom.Left
}

// layoutBox lines the pins up along the sides of a box whose top left corner
// is the origin.
func layoutBox(pins []Pin, sec Section) ([]PlacedPin, geom.Rect) {
	var n [5]int
	var wide [5]int
	for _, p := range pins {
		s := side(p)
		n[s]++
		wide[s] = max(wide[s], len([]rune(p.Title)))
	}
	w := roundUp((wide[geom.Left]+wide[geom.Right])*charWidth + 2*PinPitch)
	w = max(w, roundUp(sec.MinWidth), 4*geom.Grid, PinPitch*(max(n[geom.Up], n[geom.Down])+1))
	h := PinPitch * (max(n[geom.Left], n[geom.Right], 1) + 1)
	if n[geom.Up]+n[geom.Down] > 0 {
		h = max(h, 2*PinPitch)
	}
	placed := make([]PlacedPin, 0, len(pins))
	var i [5]int
	for _, p := range pins {
		s := side(p)
		i[s]++
		along := i[s] * PinPitch
		var edge geom.Point
		switch s {
		case geom.Right:
			edge = geom.Pt(w, along)
		case geom.Up:
			edge = geom.Pt(along, 0)
		case geom.Down:
			edge = geom.Pt(along, h)
		default:
			edge = geom.Pt(0, along)
		}
		placed = append(placed, stubbed(p, edge, s))
	}
	return placed, geom.Rect{Max: geom.Pt(w, h)}
}

// layoutRows stacks numbered cavities; row order is pin order on both sides.
func layoutRows(pins []Pin, sec Section) ([]PlacedPin, geom.Rect) {
	w := max(roundUp(sec.MinWidth), 3*geom.Grid)
	placed := make([]PlacedPin, 0, len(pins))
	for i, p := range pins {
		s := side(p)
		edge := geom.Pt(0, PinPitch*i+PinPitch/2)
		if s == geom.Right {
			edge.X = w
		} else {
			s = geom.Left
		}
		placed = append(placed, stubbed(p, edge, s))
	}
	return placed, geom.Rect{Max: geom.Pt(w, PinPitch*max(len(pins), 1))}
}

// layoutBar hangs the pins on a horizontal rail.
func layoutBar(pins []Pin, sec Section) ([]PlacedPin, geom.Rect) {
	var n [5]int
	placed := make([]PlacedPin, 0, len(pins))
	for _, p := range pins {
		s := side(p)
		if s != geom.Up {
			s = geom.Down
		}
		placed = append(placed, stubbed(p, geom.Pt(PinPitch*n[s]+geom.Grid, 0), s))
		n[s]++
	}
	w := max(PinPitch*max(n[geom.Up], n[geom.Down], 1), roundUp(sec.MinWidth))
	return placed, geom.Rect{Max: geom.Pt(w, 0)}
}

func stubbed(p Pin, edge geom.Point, s geom.Dir) PlacedPin {
	v := s.Vec()
	return PlacedPin{Pin: p, At: edge.Add(geom.Pt(v.X*PinStub, v.Y*PinStub)), Dir: s, Edge: edge}
}

func roundUp(v int) int {
	return (v + 2*geom.Grid - 1) / (2 * geom.Grid) * (2 * geom.Grid)
}

func shapeBounds(shapes []Shape) geom.Rect {
	r := geom.EmptyRect()
	for _, s := range shapes {
		for _, q := range s.Points {
			if s.Type == "circle" || s.Type == "arc" {
				r = r.Union(geom.RectOf(q).Grow(s.Radius))
				continue
			}
			if s.Type != "text" {
				r = r.Extend(q)
			}
		}
	}
	return r
}
