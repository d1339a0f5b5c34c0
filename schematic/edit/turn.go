package edit

import (
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Rotate turns what is selected on a sheet by quarter turns clockwise about
// the group's centre on the grid. Wires inside the group turn with it, others
// follow. Text stays upright.
func Rotate(tx *Tx, sheet schematic.ID, keys []schematic.Key, turns int, held ...Symbol) error {
	turns &= 3
	if turns == 0 {
		return nil
	}
	keys, err := unlocked(tx.doc, keys)
	if err != nil {
		return err
	}
	return rotation(tx, sheet, keys, turns, false, held...)
}

func rotation(tx *Tx, sheet schematic.ID, keys []schematic.Key, turns int, onto bool, held ...Symbol) error {
	g := gather(tx.doc, sheet, keys, held...)
	c := center(tx.doc, g)
	m := turning(c, geom.Orient{Turns: turns}, func(v geom.Orient) geom.Orient { return v.Turn(turns) })
	m.onto = onto
	return m.apply(tx, g)
}

// Mirror swaps left and right of what is selected on a sheet about the
// group's centre on the grid. Text stays readable.
func Mirror(tx *Tx, sheet schematic.ID, keys []schematic.Key, held ...Symbol) error {
	return mirror(tx, sheet, keys, geom.Orient{Mirror: true}, held)
}

// MirrorUpright is Mirror for top and bottom.
func MirrorUpright(tx *Tx, sheet schematic.ID, keys []schematic.Key, held ...Symbol) error {
	return mirror(tx, sheet, keys, geom.Orient{Mirror: true, Turns: 2}, held)
}

func mirror(tx *Tx, sheet schematic.ID, keys []schematic.Key, o geom.Orient, held []Symbol) error {
	keys, err := unlocked(tx.doc, keys)
	if err != nil {
		return err
	}
	g := gather(tx.doc, sheet, keys, held...)
	c := center(tx.doc, g)
	return turning(c, o, func(v geom.Orient) geom.Orient { return v.Flip().Turn(o.Turns) }).apply(tx, g)
}

func turning(c geom.Point, o geom.Orient, orient func(geom.Orient) geom.Orient) movement {
	point := func(q geom.Point) geom.Point { return o.Apply(q.Sub(c)).Add(c) }
	return movement{
		point: point,
		view: func(v *schematic.View) {
			w := orient(v.Transform().Orient)
			v.At, v.Turns, v.Mirror = point(v.At), w.Turns, w.Mirror
		},
		note: func(n *schematic.Note) {
			a, b := point(n.At), point(n.At.Add(geom.Pt(n.Width, n.Height)))
			n.At = geom.Pt(min(a.X, b.X), min(a.Y, b.Y))
			if o.Turns&1 == 1 && n.Width > 0 && n.Height > 0 {
				n.Width, n.Height = n.Height, n.Width
			}
		},
	}
}

// center returns the grid point nearest to the middle of the group. Between
// two grid points the first part's own orientation decides, so that four
// quarter turns, or two mirrors, lead back to the start.
func center(d *schematic.Doc, g group) geom.Point {
	area := geom.EmptyRect()
	var own geom.Orient
	first := true
	for _, p := range g.parts {
		for _, v := range p.Views {
			if !g.moves(p, v) {
				continue
			}
			if first {
				own, first = v.Transform().Orient, false
			}
			area = area.Union(d.Reach(p, v))
		}
	}
	for _, n := range g.notes {
		area = area.Union(geom.RectOf(n.At, n.At.Add(geom.Pt(n.Width, n.Height))))
	}
	for id := range g.wires {
		w := d.Wire(id)
		for _, e := range []schematic.End{w.A, w.B} {
			if e.Loose() {
				area = area.Extend(e.At)
			}
		}
	}
	if area.Empty() {
		return geom.Point{}
	}
	back := own
	if !own.Mirror {
		back.Turns = -own.Turns & 3
	}
	a, b := back.Apply(area.Min), back.Apply(area.Max)
	return own.Apply(geom.Pt(middle(a.X+b.X), middle(a.Y+b.Y)))
}

// middle returns the multiple of the grid next to half of sum. Rounding down
// at every place alike keeps it the same however far the group lies away.
func middle(sum int) int {
	const whole = 2 * geom.Grid
	n := (sum + geom.Grid) / whole
	if (sum+geom.Grid)%whole < 0 {
		n--
	}
	return n * geom.Grid
}
