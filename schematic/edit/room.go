package edit

import (
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// room tells where on a sheet nothing is drawn yet.
type room struct {
	area  geom.Rect
	taken []geom.Rect
}

// roomOn looks at a sheet without some wires and parts.
func roomOn(d *schematic.Doc, sheet schematic.ID, without ...schematic.ID) *room {
	r := &room{}
	if s := d.Sheet(sheet); s != nil {
		r.area = s.Area().Grow(-4 * geom.Grid)
	}
	for p := range d.Parts() {
		if slices.Contains(without, p.ID) {
			continue
		}
		for _, v := range p.Views {
			if v.Sheet == sheet {
				r.taken = append(r.taken, d.Reach(p, v))
			}
		}
	}
	for w := range d.Wires() {
		if w.Sheet != sheet || slices.Contains(without, w.ID) {
			continue
		}
		path := d.Path(w)
		for i := 1; i < len(path); i++ {
			r.taken = append(r.taken, geom.RectOf(path[i-1], path[i]))
		}
	}
	for n := range d.Notes() {
		if n.Sheet == sheet && (n.Width <= 0 || n.Height <= 0) { // frames are there to hold parts
			r.taken = append(r.taken, geom.Rect{Min: n.At, Max: n.At.Add(geom.Pt(10*n.TextSize(), 2*n.TextSize()))})
		}
	}
	return r
}

// free reports whether an area is clear of everything by a margin.
func (r *room) free(area geom.Rect, margin int) bool {
	return r.area.Encloses(area) && r.clear(area.Grow(margin))
}

// beside is free for what lies on a wire: along it no margin is needed.
func (r *room) beside(area geom.Rect, along geom.Dir) bool {
	wide := area
	if along == geom.Up || along == geom.Down {
		wide.Min.X, wide.Max.X = wide.Min.X-geom.Grid, wide.Max.X+geom.Grid
	} else {
		wide.Min.Y, wide.Max.Y = wide.Min.Y-geom.Grid, wide.Max.Y+geom.Grid
	}
	return r.area.Encloses(area) && r.clear(wide)
}

func (r *room) clear(area geom.Rect) bool {
	for _, t := range r.taken {
		if t.Touches(area) {
			return false
		}
	}
	return true
}

// writing is the room a designation takes at the right of a symbol.
const writing = 4 * geom.Grid

// reach is the area of a part that is in no document yet, with its writing.
func (tx *Tx) reach(p *schematic.Part, v schematic.View) geom.Rect {
	r := tx.doc.Reach(p, v)
	r.Max.X += writing
	return r
}

// orients are the ways a symbol can lie, unmirrored ones first.
func orients() []geom.Orient {
	var all []geom.Orient
	for _, mirror := range []bool{false, true} {
		for turns := range 4 {
			all = append(all, geom.Orient{Turns: turns, Mirror: mirror})
		}
	}
	return all
}

// ringed calls try for the grid places round a point, the nearest first, until
// it is content or they are further away than most.
func ringed(at geom.Point, most int, try func(geom.Point) bool) bool {
	const step = 2 * geom.Grid
	at = at.Snap(geom.Grid)
	for d := 0; d <= most; d += step {
		for x := -d; x <= d; x += step {
			for y := -d; y <= d; y += step {
				if max(x, -x, y, -y) == d && try(at.Add(geom.Pt(x, y))) {
					return true
				}
			}
		}
	}
	return false
}
