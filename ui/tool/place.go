package tool

import (
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// placeHolding has a part at the pointer until Esc.
type placeHolding struct {
	kind   string
	orient geom.Orient
	at     geom.Point
	wire   schematic.ID // a splice would go on this wire
	shown  bool
}

func (placeHolding) Name() string { return "place.holding" }
func (placeHolding) Hint() string {
	return "Click or press Enter to place, again for another. R turns, M mirrors, Alt leaves the grid, Esc ends."
}

func (s placeHolding) Handle(e Event, env Env) (State, []Effect) {
	switch e := e.(type) {
	case Move:
		was := s
		s.point(env, e.At, e.Mods)
		if s == was {
			return s, nil
		}
		return s, []Effect{Preview{s.edit(env)}}
	case Press:
		s.point(env, e.At, e.Mods)
		do := s.edit(env)
		// The next one is shown when the pointer moves on: now it would only
		// cover this one.
		s.shown = false
		return s, []Effect{Preview{}, Commit{"place " + s.title(env), do}}
	case KeyPress:
		switch e.Name {
		case "R":
			s.orient = s.orient.Turn(1)
		case "M":
			s.orient = s.orient.Flip()
		default:
			return s, nil
		}
		if s.shown {
			return s, []Effect{Preview{s.edit(env)}}
		}
	case DocChanged:
		if env.Doc().Kind(s.kind) == nil {
			return s, []Effect{Preview{}, Done{}}
		}
		if env.Doc().Wire(s.wire) == nil {
			s.wire = schematic.ID{}
		}
		if s.shown {
			return s, []Effect{Preview{s.edit(env)}}
		}
	case Cancel:
		s.shown = false
		return s, []Effect{Preview{}, Done{}}
	}
	return s, nil
}

func (s *placeHolding) point(env Env, p geom.Point, mods Mods) {
	s.at, s.shown, s.wire = p, true, schematic.ID{}
	if mods&ModFree == 0 {
		s.at = p.Snap(geom.Grid)
	}
	if s.kind != edit.SpliceKind {
		return
	}
	// A splice belongs on the wire under it.
	if hit := env.Hit(p); hit.Ok && hit.Key.Type == schematic.TypeWire {
		if t, ok := targetOf(env, edit.Anchor{Wire: hit.Key.ID, At: p}); ok {
			s.wire, s.at = hit.Key.ID, t.at
		}
	}
}

func (s placeHolding) edit(env Env) func(*edit.Tx) error {
	sheet := env.Sheet()
	return func(tx *edit.Tx) error {
		if (s.wire != schematic.ID{}) {
			return edit.SplitWire(tx, s.wire, s.at)
		}
		return edit.PlacePart(tx, s.kind, sheet, s.at, s.orient)
	}
}

func (s placeHolding) title(env Env) string {
	if k := env.Doc().Kind(s.kind); k != nil && k.Title != "" {
		return k.Title
	}
	return s.kind
}
