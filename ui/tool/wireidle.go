package tool

import "loomwright/schematic/geom"

// wireIdle waits for the place where a wire starts.
type wireIdle struct {
	locked bool   // the pointer is on a wire that takes none
	like   string // what the wire takes over from another
}

func (wireIdle) Name() string { return "wire.idle" }
func (s wireIdle) Hint() string {
	if s.locked {
		return lockedHint
	}
	if s.like != "" {
		return "Click a pin, wire or empty place to start a wire: " + s.like + ". Esc ends."
	}
	return "Click a pin, a wire or an empty place to start a wire. Esc goes back to selecting."
}

// leave keeps the tool in hand while another sheet comes in sight.
func (wireIdle) leave(Env) (State, []Effect) { return wireIdle{}, []Effect{Mark{}} }

func (s wireIdle) Handle(e Event, env Env) (State, []Effect) {
	switch e := e.(type) {
	case Move:
		t := aim(env, e.At, e.Mods)
		s.locked, s.like = t.locked, likeWords(env)
		return s, []Effect{Mark{t.marks()}}
	case DocChanged:
		s.like = likeWords(env)
		return s, nil
	case Press:
		start := aim(env, e.At, e.Mods)
		if start.locked {
			s.locked = true
			return s, nil
		}
		return wireDrawing{start: start, end: start, live: geom.Path{start.at, start.at}, press: e.Pixels, down: true}, []Effect{Mark{start.marks()}}
	case Cancel:
		return s, []Effect{Mark{}, Done{}}
	}
	return s, nil
}
