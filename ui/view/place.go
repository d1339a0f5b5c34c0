package view

import (
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Place is where an item can be looked at: a sheet and the area it takes there.
type Place struct {
	Sheet schematic.ID
	Area  geom.Rect
}

// PlaceOf returns where an item is drawn, the sheet in sight first. It is false
// for items that are drawn nowhere, such as looms and states.
func PlaceOf(d *schematic.Doc, k schematic.Key, inSight schematic.ID) (Place, bool) {
	switch it := d.Get(k).(type) {
	case *schematic.Part:
		for _, want := range []bool{true, false} {
			area, sheet := geom.EmptyRect(), schematic.ID{}
			for _, v := range it.Views {
				if want && v.Sheet != inSight || !area.Empty() && v.Sheet != sheet {
					continue
				}
				area, sheet = area.Union(d.Reach(it, v)), v.Sheet
			}
			if !area.Empty() {
				return Place{sheet, area}, true
			}
		}
	case *schematic.Wire:
		return Place{it.Sheet, d.Path(it).Bounds()}, true
	case *schematic.Note:
		return Place{it.Sheet, NoteArea(it)}, true
	case *schematic.Sheet:
		return Place{it.ID, it.Area()}, true
	case *schematic.Group:
		for w := range d.Wires() {
			if w.Twist == it.ID || w.Screen == it.ID {
				return PlaceOf(d, w.Key(), inSight)
			}
		}
	case *schematic.Acceptance:
		if len(it.Items) > 0 {
			return PlaceOf(d, it.Items[0].Key(), inSight)
		}
	case *schematic.Reading:
		return PlaceOf(d, schematic.Key{Type: schematic.TypePart, ID: it.From.Part}, inSight)
	}
	return Place{}, false
}

// NoteArea returns about the area a note takes; text is taken as half as wide
// as it is tall.
func NoteArea(n *schematic.Note) geom.Rect {
	if n.Width > 0 && n.Height > 0 {
		return geom.Rect{Min: n.At, Max: n.At.Add(geom.Pt(n.Width, n.Height))}
	}
	size := n.TextSize()
	lines, widest, run := 1, 0, 0
	for _, r := range n.Text {
		if r == '\n' {
			lines++
			run = 0
			continue
		}
		run++
		widest = max(widest, run)
	}
	return geom.Rect{Min: n.At, Max: n.At.Add(geom.Pt(widest*size/2, lines*size*5/4))}
}

// Bounds returns the area a set of items takes on a sheet; it is empty when
// none of them is drawn there.
func Bounds(d *schematic.Doc, keys []schematic.Key, sheet schematic.ID) geom.Rect {
	r := geom.EmptyRect()
	for _, k := range keys {
		if p, ok := PlaceOf(d, k, sheet); ok && p.Sheet == sheet {
			r = r.Union(p.Area)
		}
	}
	return r
}

// Drawn returns the area of everything drawn on a sheet; it is empty for an
// empty sheet.
func Drawn(d *schematic.Doc, sheet schematic.ID) geom.Rect {
	r := geom.EmptyRect()
	for p := range d.Parts() {
		for _, v := range p.Views {
			if v.Sheet == sheet {
				r = r.Union(d.Reach(p, v))
			}
		}
	}
	for w := range d.Wires() {
		if w.Sheet == sheet {
			r = r.Union(d.Path(w).Bounds())
		}
	}
	for n := range d.Notes() {
		if n.Sheet == sheet {
			r = r.Union(NoteArea(n))
		}
	}
	return r
}

// All returns every item drawn on a sheet; with the zero ID on any.
func All(d *schematic.Doc, sheet schematic.ID) []schematic.Key {
	var keys []schematic.Key
	add := func(k schematic.Key) {
		if DrawnOn(d, k, sheet) {
			keys = append(keys, k)
		}
	}
	for p := range d.Parts() {
		add(p.Key())
	}
	for w := range d.Wires() {
		add(w.Key())
	}
	for n := range d.Notes() {
		add(n.Key())
	}
	return keys
}

// PinPlace returns where a part's pin is drawn on a sheet, in the named view or
// else the first that shows it.
func PinPlace(d *schematic.Doc, sheet, id schematic.ID, viewKey, pin string) (geom.Point, bool) {
	part := d.Part(id)
	if part == nil {
		return geom.Point{}, false
	}
	for _, exact := range []bool{true, false} {
		for _, v := range part.Views {
			if v.Sheet != sheet || exact && v.Key != viewKey {
				continue
			}
			for _, pp := range d.PlacedPins(part, v) {
				if pp.Pin.Name == pin {
					return pp.At, true
				}
			}
		}
	}
	return geom.Point{}, false
}
