package tool

// traceIdle lights up circuits, one click after the other.
type traceIdle struct{}

func (traceIdle) Name() string { return "trace.idle" }
func (traceIdle) Hint() string {
	return "Click a pin, a wire or a part to light up its circuit, or empty sheet to end. Esc goes back to selecting."
}

func (s traceIdle) Handle(e Event, env Env) (State, []Effect) {
	switch e := e.(type) {
	case Move:
		return s, []Effect{Mark{aim(env, e.At, e.Mods|ModFree).marks()}}
	case Press:
		return s, []Effect{Trace{env.Hit(e.At)}}
	case Cancel:
		return s, []Effect{Mark{}, Done{}}
	}
	return s, nil
}
