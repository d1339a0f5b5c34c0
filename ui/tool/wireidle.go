package tool

import "loomwright/schematic/geom"

// wireIdle waits for the place where a wire starts.
type wireIdle struct{}

func (wireIdle) Name() string { return "wire.idle" }
func (wireIdle) Hint() string {
	return "Click a pin, a wire or an empty place to start a wire. Esc goes back to selecting."
}

func (s wireIdle) Handle(e Event, env Env) (State, []Effect) {
	switch e := e.(type) {
	case Move:
		return s, []Effect{Mark{aim(env, e.At, e.Mods).marks()}}
	case Press:
		start := aim(env, e.At, e.Mods)
		return wireDrawing{start: start, end: start, live: geom.Path{start.at, start.at}, press: e.Pixels, down: true}, []Effect{Mark{start.marks()}}
	case Cancel:
		return s, []Effect{Mark{}, Done{}}
	}
	return s, nil
}
