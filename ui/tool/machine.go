package tool

import "strings"

// Machine runs one tool at a time. The zero value selects.
type Machine struct{ state State }

// State returns what the machine is in; never nil.
func (m *Machine) State() State {
	if m.state == nil {
		return selectIdle{}
	}
	return m.state
}

// Tool returns the ID of the tool in hand: "select", "wire", "place" …
func (m *Machine) Tool() string {
	id, _, _ := strings.Cut(m.State().Name(), ".")
	return id
}

// Busy reports whether a gesture is under way, so that editing keys belong to
// the tool and not to commands.
func (m *Machine) Busy() bool {
	_, what, _ := strings.Cut(m.State().Name(), ".")
	return what != "idle"
}

// Use takes another tool in hand and lets go of the present one. The effects
// clean up after it and set the pointer.
func (m *Machine) Use(s State, env Env) []Effect {
	_, effects := m.State().Handle(Cancel{}, env)
	m.state = s
	return append(without(effects), Cursor{cursorFor(m.Tool())})
}

// Leave tells the tool in hand that another sheet comes in sight; env is still
// the old one. What cannot go on there is cancelled.
func (m *Machine) Leave(env Env) []Effect {
	goes, ok := m.State().(interface{ leave(Env) (State, []Effect) })
	if !ok {
		return m.Handle(Cancel{}, env)
	}
	next, effects := goes.leave(env)
	m.state = next
	return effects
}

// Handle gives an event to the tool in hand and returns what the window shall
// do, in order. A tool that is done gives way to selecting.
func (m *Machine) Handle(e Event, env Env) []Effect {
	next, effects := m.State().Handle(e, env)
	m.state = next
	for _, eff := range effects {
		if eff == (Done{}) {
			m.state = selectIdle{}
			return append(without(effects), Cursor{Arrow}, Done{})
		}
	}
	return effects
}

// without returns the effects but Done.
func without(effects []Effect) []Effect {
	var rest []Effect
	for _, e := range effects {
		if _, done := e.(Done); !done {
			rest = append(rest, e)
		}
	}
	return rest
}

func cursorFor(tool string) CursorShape {
	switch tool {
	case "wire", "place", "note", "trace":
		return Cross
	case "pan":
		return Hand
	}
	return Arrow
}
