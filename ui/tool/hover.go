package tool

import (
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// hover shapes the pointer over what a press would take hold of of the selected
// wire.
func (s selectIdle) hover(e Move, env Env) (State, []Effect) {
	shape := Arrow
	hit := env.Hit(e.At)
	if _, ok := labelGrip(env, hit); ok {
		shape = Hand
	} else if w := soleWire(env); w != nil && e.Mods&(ModAdd|ModCopy) == 0 {
		if _, ok := endGrip(env, w, hit, e.At); ok {
			shape = Hand
		} else if hit.Key == w.Key() {
			if g, ok := wireGrip(env, w, hit, e.At); ok {
				shape = shapeOf(g)
			}
		}
	}
	if shape == s.shape {
		return s, nil
	}
	s.shape = shape
	return s, []Effect{Cursor{shape}}
}

// shapeOf is what the pointer looks like over a piece of a wire.
func shapeOf(g gripped) CursorShape {
	p, ok := g.(gripPiece)
	switch {
	case !ok || p.bend:
		return Hand
	case p.path[p.index].Y == p.path[p.index+1].Y:
		return UpDown
	}
	return Sideways
}

// bendOff is what a double click on a bend of the selected wire does: it takes
// the bend out.
func bendOff(env Env, hit Hit, e Press) (Effect, bool) {
	w := soleWire(env)
	if e.Clicks != 2 || w == nil || hit.Key != w.Key() || e.Mods&(ModAdd|ModCopy) != 0 {
		return nil, false
	}
	g, ok := wireGrip(env, w, hit, e.At)
	piece, bend := g.(gripPiece)
	if !ok || !bend || !piece.bend {
		return nil, false
	}
	return Commit{"take a bend out of " + w.Name, func(tx *edit.Tx) error { return edit.RemoveBend(tx, w.ID, piece.index) }}, true
}

// BendAt adds a bend to the selected wire at a place, or takes the one there
// out; false when the wire does not pass there.
func BendAt(env Env, at geom.Point) (Effect, bool) {
	w := soleWire(env)
	if w == nil {
		return nil, false
	}
	if do, ok := bendOff(env, Hit{Key: w.Key(), Ok: true}, Press{At: at, Clicks: 2}); ok {
		return do, true
	}
	path := env.Doc().Path(w)
	_, seg, near := path.Dist(at)
	if hit := env.Hit(at); hit.Key != w.Key() || near.Dist(at) > 4*geom.Grid {
		return nil, false
	}
	to := near.Snap(geom.Grid).Add(geom.Pt(0, 2*geom.Grid))
	if path[seg].X == path[seg+1].X {
		to = near.Snap(geom.Grid).Add(geom.Pt(2*geom.Grid, 0))
	}
	return Commit{"bend " + w.Name, func(tx *edit.Tx) error { return edit.AddBend(tx, w.ID, to) }}, true
}
