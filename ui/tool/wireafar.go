package tool

import (
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// wireAfar is a wire begun at a pin on one sheet that goes on on another. Where
// it ends the part it comes from is shown once more, so that the wire itself
// stays on one sheet.
type wireAfar struct {
	from   schematic.PinRef
	part   string // designation of the part it comes from
	locked bool   // the pointer is on a wire that takes none
}

func (wireAfar) Name() string { return "wire.afar" }
func (s wireAfar) Hint() string {
	if s.locked {
		return lockedHint
	}
	return "Click the pin or wire that the wire from " + s.part + "." + s.from.Pin + " leads to: " + s.part + " is shown here too. Esc cancels."
}

// leave keeps the wire in hand while another sheet comes in sight.
func (s wireAfar) leave(Env) (State, []Effect) { return s, []Effect{Mark{}} }

// leave takes a wire that begins at a pin along to another sheet, without the
// bends it has here.
func (s wireDrawing) leave(env Env) (State, []Effect) {
	clean := []Effect{Ghost{}, Mark{}}
	p := env.Doc().Part(s.start.anchor.Part)
	if p == nil {
		return wireIdle{}, clean
	}
	return wireAfar{from: schematic.PinRef{Part: p.ID, Pin: s.start.anchor.Pin}, part: p.Name}, clean
}

func (s wireAfar) Handle(e Event, env Env) (State, []Effect) {
	switch e := e.(type) {
	case Move:
		t := aim(env, e.At, e.Mods)
		s.locked = t.locked
		return s, []Effect{Mark{t.marks()}}
	case Press:
		t := aim(env, e.At, e.Mods)
		s.locked = t.locked
		if t.locked || !t.joins() || t.anchor.Part == s.from.Part && t.anchor.Pin == s.from.Pin {
			return s, nil
		}
		sheet, from, like := env.Sheet(), s.from, likeWire(env)
		return wireIdle{}, []Effect{Mark{}, Commit{"draw a wire from " + s.part + "." + from.Pin + " to " + t.called(env.Doc()), func(tx *edit.Tx) error {
			return edit.AddWireFromAfar(tx, sheet, from, t.anchor, like)
		}}}
	case KeyPress:
		if e.Name == "BackSpace" {
			return wireIdle{}, []Effect{Mark{}}
		}
	case Cancel:
		return wireIdle{}, []Effect{Mark{}}
	case DocChanged:
		if p := env.Doc().Part(s.from.Part); p == nil {
			return wireIdle{}, []Effect{Mark{}}
		} else if _, ok := env.Doc().PinOf(p, s.from.Pin); !ok {
			return wireIdle{}, []Effect{Mark{}}
		}
	}
	return s, nil
}
