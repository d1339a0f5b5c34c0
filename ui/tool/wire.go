package tool

import (
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// wireDrawing has a start and the bends clicked so far.
type wireDrawing struct {
	start target
	fixed []geom.Path // what each click has fixed, without its first point
	end   target      // where the wire would end now
	live  geom.Path   // from the last click to there
	flip  bool        // the live stretch takes its other elbow

	press draw.Point // where the button went down to start
	down  bool       // and is still held
}

func (wireDrawing) Name() string { return "wire.drawing" }
func (s wireDrawing) Hint() string {
	if s.end.locked {
		return lockedHint
	}
	if s.end.joins() && s.useful() {
		return "Click to end the wire here. Space takes the other corner, Backspace takes the last bend back."
	}
	return "Click for a bend, a pin or wire to end. Double click or Enter ends loose. Space takes the other corner, Esc cancels."
}

// lockedHint is what to do where a wire would join a locked one.
const lockedHint = "That wire is locked in place: unlock it first, or point somewhere else. Esc cancels."

func (s wireDrawing) Handle(e Event, env Env) (State, []Effect) {
	switch e := e.(type) {
	case Move:
		s.point(env, e.At, e.Mods)
		return s, s.show()
	case Press:
		s.point(env, e.At, e.Mods)
		return s.click(e, env)
	case Release:
		// Dragged from pin to pin: the wire is done.
		dragged := s.down && far(s.press, e.Pixels, env)
		s.down = false
		if dragged {
			if s.point(env, e.At, e.Mods); s.end.joins() && s.useful() && !s.end.locked {
				return s.finish(env)
			}
		}
	case KeyPress:
		return s.key(e, env)
	case Cancel:
		return wireIdle{}, []Effect{Ghost{}, Mark{}}
	case DocChanged:
		start, ok := targetOf(env, s.start.anchor)
		if !ok || start.at != s.start.at {
			return wireIdle{}, []Effect{Ghost{}, Mark{}}
		}
		if end, ok := targetOf(env, s.end.anchor); ok {
			s.end = end
		} else {
			s.end = hanging(s.end.at)
		}
		s.lead(env)
		return s, s.show()
	}
	return s, nil
}

func (s wireDrawing) click(e Press, env Env) (State, []Effect) {
	switch {
	case s.end.locked:
		return s, s.show()
	case e.Clicks >= 2:
		// The first click of the two has fixed the way to here.
		if len(s.fixed) > 0 && !s.end.joins() && s.last() == s.end.at && s.useful() {
			return s.finish(env)
		}
		fallthrough
	case s.end.joins():
		if !s.useful() {
			return s, s.show()
		}
		return s.finish(env)
	case s.end.at == s.last():
		return s, s.show()
	}
	s.fixed = append(s.fixed[:len(s.fixed):len(s.fixed)], s.live[1:])
	s.flip = false
	s.lead(env)
	return s, s.show()
}

func (s wireDrawing) key(e KeyPress, env Env) (State, []Effect) {
	switch e.Name {
	case "Space":
		s.flip = !s.flip
		s.lead(env)
		return s, s.show()
	case "Enter":
		if s.useful() && !s.end.locked {
			return s.finish(env)
		}
	case "BackSpace":
		n := len(s.fixed)
		if n == 0 {
			return wireIdle{}, []Effect{Ghost{}, Mark{}}
		}
		s.fixed, s.flip = s.fixed[:n-1:n-1], false
		s.lead(env)
		return s, s.show()
	}
	return s, nil
}

// point aims at a place; with Shift the stretch stays straight.
func (s *wireDrawing) point(env Env, p geom.Point, mods Mods) {
	s.end = aim(env, p, mods)
	if mods&ModAdd != 0 && !s.end.joins() {
		from, at := s.last(), s.end.at
		if d := at.Sub(from); max(d.X, -d.X) >= max(d.Y, -d.Y) {
			at.Y = from.Y
		} else {
			at.X = from.X
		}
		s.end = hanging(at)
	}
	s.lead(env)
}

// useful reports whether a wire to the present end would be one.
func (s wireDrawing) useful() bool {
	a, b := s.start.anchor, s.end.anchor
	if (a.Part != schematic.ID{}) {
		return a.Part != b.Part || a.Pin != b.Pin
	}
	return s.start.at != s.end.at
}

func (s wireDrawing) finish(env Env) (State, []Effect) {
	sheet, a, b, via := env.Sheet(), s.start.anchor, s.end.anchor, s.via()
	like := likeWire(env)
	label := "draw a wire"
	if from := s.start.called(env.Doc()); from != "" {
		label += " from " + from
	}
	if to := s.end.called(env.Doc()); to != "" {
		label += " to " + to
	}
	return wireIdle{}, []Effect{Ghost{}, Mark{}, Commit{label, func(tx *edit.Tx) error {
		return edit.AddWire(tx, sheet, a, b, via, like)
	}}}
}

func (s wireDrawing) show() []Effect {
	return []Effect{Ghost{s.path()}, Mark{append(s.start.marks(), s.end.marks()...)}}
}
