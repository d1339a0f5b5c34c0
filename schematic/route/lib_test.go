package route_test

import (
	"fmt"
	"math/rand/v2"
	"strconv"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// rig is a sheet under construction. Places are in grid steps.
type rig struct {
	doc   *schematic.Doc
	sheet schematic.ID
	n     int
}

func newRig(w, h int) *rig {
	lib := schematic.NewLibrary(
		&schematic.Kind{Name: "box", OwnPins: true, Roles: []schematic.Role{{Name: "plain"}}, Sections: []schematic.Section{{Form: "box"}}},
		&schematic.Kind{
			Name: "block", Pins: []schematic.Pin{{Name: "1", At: geom.Pt(0, -50), Dir: "up"}, {Name: "2", At: geom.Pt(0, 50), Dir: "down"}},
			Sections: []schematic.Section{{Shapes: []schematic.Shape{{Type: "rect", Points: []geom.Point{geom.Pt(-25, -50), geom.Pt(25, 50)}}}}},
		},
		&schematic.Kind{Name: "splice", Pins: []schematic.Pin{{Name: "1"}},
			Sections: []schematic.Section{{Shapes: []schematic.Shape{{Type: "circle", Points: []geom.Point{{}}, Radius: 8}}}}},
	)
	r := &rig{doc: schematic.New(lib)}
	s := &schematic.Sheet{ID: r.id(), Name: "one", Width: w * geom.Grid, Height: h * geom.Grid}
	r.sheet = s.ID
	r.put(s)
	return r
}

func (r *rig) id() schematic.ID {
	r.n++
	return schematic.ID{12: byte(r.n >> 24), 13: byte(r.n >> 16), 14: byte(r.n >> 8), 15: byte(r.n)}
}

func (r *rig) put(items ...schematic.Item) {
	for _, it := range items {
		r.doc = r.doc.With(schematic.Put{Key: it.Key(), Item: it})
	}
}

func pt(x, y int) geom.Point { return geom.Pt(x*geom.Grid, y*geom.Grid) }

// block adds a solid part of 3 × 5 steps with pins above and below.
func (r *rig) block(x, y int) *schematic.Part {
	p := &schematic.Part{ID: r.id(), Kind: "block", Views: []schematic.View{{Sheet: r.sheet, At: pt(x, y)}}}
	r.put(p)
	return p
}

// box adds a part with n pins on each of two sides.
func (r *rig) box(x, y, n int) *schematic.Part {
	p := &schematic.Part{ID: r.id(), Name: "A" + strconv.Itoa(r.n), Kind: "box", Views: []schematic.View{{Sheet: r.sheet, At: pt(x, y)}}}
	for i := range 2 * n {
		side := schematic.Dir("left")
		if i >= n {
			side = "right"
		}
		p.Pins = append(p.Pins, schematic.Pin{Name: strconv.Itoa(i + 1), Role: "plain", Side: side})
	}
	r.put(p)
	return p
}

func end(p *schematic.Part, pin string) schematic.End { return schematic.End{Part: p.ID, Pin: pin} }

func loose(x, y int) schematic.End { return schematic.End{At: pt(x, y)} }

func (r *rig) wire(a, z schematic.End, via ...geom.Point) *schematic.Wire {
	w := &schematic.Wire{ID: r.id(), Sheet: r.sheet, A: a, B: z, Via: via}
	w.Name = "W" + strconv.Itoa(r.n)
	r.put(w)
	return w
}

func (r *rig) tips(w *schematic.Wire) (a, z route.Tip) {
	return route.TipOf(r.doc, w, w.A), route.TipOf(r.doc, w, w.B)
}

// crowd makes a sheet with about so many wires between neighbouring boxes.
func crowd(wires int, seed uint64) *rig {
	rng := rand.New(rand.NewPCG(seed, 1))
	const pins = 6
	n := 1
	for n*n*pins < wires {
		n++
	}
	r := newRig(n*44, n*34)
	at := make([][]*schematic.Part, n)
	var items []schematic.Item
	for y := range n {
		for x := range n {
			p := r.box(8+44*x+rng.IntN(9), 5+34*y+rng.IntN(9), pins)
			at[y] = append(at[y], p)
		}
	}
	used := map[string]bool{}
	for i := 0; i < wires; {
		x, y := rng.IntN(n), rng.IntN(n)
		x2, y2 := min(n-1, max(0, x+rng.IntN(3)-1)), min(n-1, max(0, y+rng.IntN(3)-1))
		a, z := end(at[y][x], strconv.Itoa(1+rng.IntN(2*pins))), end(at[y2][x2], strconv.Itoa(1+rng.IntN(2*pins)))
		i++
		if a.Ref() == z.Ref() || used[fmt.Sprint(a.Ref())] && rng.IntN(4) > 0 {
			continue
		}
		used[fmt.Sprint(a.Ref())] = true
		items = append(items, &schematic.Wire{ID: r.id(), Name: "W" + strconv.Itoa(r.n), Sheet: r.sheet, A: a, B: z})
	}
	puts := make([]schematic.Put, len(items))
	for i, it := range items {
		puts[i] = schematic.Put{Key: it.Key(), Item: it}
	}
	r.doc = r.doc.With(puts...)
	return r
}

func (r *rig) wires() (ids []schematic.ID) {
	for w := range r.doc.Wires() {
		ids = append(ids, w.ID)
	}
	return ids
}
