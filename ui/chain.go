package ui

import (
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/ui/tool"
)

// chain is a traced circuit as the ladder shows it.
type chain struct {
	title string
	steps []step
	notes []string
	lit   map[schematic.Key]bool
	spots []draw.Spot
}

// step is one piece of a traced circuit on the way from source to ground.
type step struct {
	name     string
	what     string
	key      schematic.Key
	from, to float64 // V against battery negative
	known    bool    // both are known
	amp      float64
	load     bool // the piece is there to use the voltage
	open     bool // the circuit is interrupted here
}

// drop is the voltage lost in the step.
func (s step) drop() float64 { return s.from - s.to }

func chainOf(e *electricity, sol *netlist.Solution, h tool.Hit) *chain {
	if sol == nil || sol.Err != nil {
		return nil
	}
	var tr netlist.Trace
	switch h.Key.Type {
	case schematic.TypeWire:
		tr = sol.TraceWire(h.Key.ID)
	case schematic.TypePart:
		if h.Pin != "" {
			tr = sol.TracePin(schematic.PinRef{Part: h.Key.ID, Pin: h.Pin})
		} else {
			tr = sol.TracePart(h.Key.ID)
		}
	default:
		return nil
	}
	title := "Circuit of " + schematic.NameOf(e.doc.Get(h.Key))
	if h.Pin != "" {
		title += " pin " + h.Pin
	}
	return chainFrom(sol, tr, title, h.Key)
}

// chainFrom puts a way together for the drawing and the ladder; about is lit
// whether the way leads through it or not.
func chainFrom(sol *netlist.Solution, tr netlist.Trace, title string, about schematic.Key) *chain {
	net := sol.Netlist
	c := &chain{title: title, lit: map[schematic.Key]bool{about: true}}
	for _, st := range tr.Main {
		br := &net.Branches[st.Branch]
		if br.IsSource() {
			c.lit[br.Key()] = true
			continue // the ladder starts at its voltage
		}
		v := step{name: br.Name(), what: describeBranch(br), key: br.Key(), load: br.IsLoad(), open: st.Open, amp: math.Abs(sol.Amp[st.Branch])}
		a, okA := sol.VoltAt(st.From)
		b, okB := sol.VoltAt(st.To)
		v.from, v.to, v.known = a, b, okA && okB
		c.steps = append(c.steps, v)
		c.lit[v.key] = true
		if p := net.Doc.Part(v.key.ID); br.Role == netlist.RoleMate && p != nil {
			c.lit[schematic.Key{Type: schematic.TypePart, ID: p.Mate}] = true
		}
		for _, n := range []int{st.From, st.To} {
			node := net.Nodes[n]
			if volt, ok := sol.VoltAt(n); ok && (node.Pin != schematic.PinRef{}) {
				c.spot(node.Pin, volts(volt))
			}
		}
	}
	for _, i := range tr.Side {
		c.lit[net.Branches[i].Key()] = true
	}
	switch {
	case tr.NoSource && tr.NoGround:
		c.notes = append(c.notes, "It is connected to no source and no ground.")
	case tr.NoSource:
		c.notes = append(c.notes, "No way leads to it from a source.")
	case tr.NoGround:
		c.notes = append(c.notes, "No way leads from it back to the source: is a ground missing?")
	case tr.Dead:
		c.notes = append(c.notes, "No current flows in this operating state.")
	}
	return c
}

func (c *chain) spot(pin schematic.PinRef, text string) {
	for _, s := range c.spots {
		if s.Pin == pin {
			return
		}
	}
	c.spots = append(c.spots, draw.Spot{Pin: pin, Text: text})
}

// describeBranch says what a piece of a circuit is, for the ladder.
func describeBranch(br *netlist.Branch) string {
	switch br.Role {
	case netlist.RoleWire:
		s := "wire"
		if br.Wire.Size.Known() {
			s = br.Wire.Size.String()
		}
		if !br.Wire.Color.IsZero() {
			s += " " + br.Wire.Color.String()
		}
		if !br.OhmKnown {
			s += ", resistance assumed"
		}
		return s
	case netlist.RoleMate:
		return "plugged contact"
	}
	if br.Part.Label != "" {
		return br.Part.Label
	}
	return br.Kind.Title
}
