package tool

import "loomwright/schematic/geom"

// selectGripping drags a piece of the selected wire.
type selectGripping struct {
	grip gripped
	from geom.Point
}

func (s selectGripping) Name() string {
	switch g := s.grip.(type) {
	case gripEnd:
		return "select.reconnecting"
	case gripPiece:
		if g.bend {
			return "select.bending"
		}
	case gripLabel:
		return "select.labelling"
	}
	return "select.pushing"
}

func (s selectGripping) Hint() string {
	switch s.grip.(type) {
	case gripLabel:
		return "Let go to put the label here. Esc cancels."
	case gripEnd:
		return "Let go on a pin or another wire, or anywhere to leave the end loose. Esc cancels."
	}
	return "Let go to reshape the wire. Alt leaves the grid, Esc cancels."
}

func (s selectGripping) Handle(e Event, env Env) (State, []Effect) {
	still := []Effect{Preview{}, Mark{}}
	switch e := e.(type) {
	case Press: // the release was lost
		next, effects := selectIdle{}.Handle(e, env)
		return next, append(still, effects...)
	case Move:
		do, marks := s.grip.to(e, s.from, env)
		return s, []Effect{Preview{do}, Mark{marks}}
	case Release:
		do, _ := s.grip.to(Move(e), s.from, env)
		if do == nil {
			return selectIdle{}, still
		}
		return selectIdle{}, append(still, Commit{s.grip.label(env.Doc()), do})
	case Cancel:
		return selectIdle{}, still
	case DocChanged:
		if !s.grip.alive(env.Doc()) {
			return selectIdle{}, still
		}
	}
	return s, nil
}
