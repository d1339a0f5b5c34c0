package netlist

import (
	"fmt"
	"math"
	"slices"

	"loomwright/netlist/dc"
	"loomwright/schematic"
)

// Bench is how things stand while resistance is measured.
type Bench struct {
	// State gives the switch positions; nil is everything at rest. Nothing is
	// under power, so relays are at rest and drivers off.
	State *schematic.State
	// Unplugged parts all connectors and takes everything off but wires,
	// splices, studs, ring terminals and fuses: the bare harness on the bench,
	// its ground eyes on no metal.
	Unplugged bool
}

// MeterReading is what an ohmmeter between two points shows.
type MeterReading struct {
	Ohm  float64 // +Inf where nothing conducts
	Path []Step  // the way most of the meter's current takes, from the first point to the second
	// Missing lists the branches on a way of the current whose resistance is
	// not known: something stands in for it, so Ohm is not to be relied on.
	Missing []int
	// Unclear lists loads beside the way of which nobody can tell what a meter
	// sees in them: electronics, motors without stall current. They count as
	// open.
	Unclear []int
}

// Open reports whether the meter shows no connection.
func (r MeterReading) Open() bool { return math.IsInf(r.Ohm, 1) }

// Continuity returns what an ohmmeter between two nodes would show: sources are
// disconnected; the meter's 0.3 V open no diode or other junction; filaments
// and fuses are cold, motors show what they have at a standstill; wires have
// the temperature of the air.
func Continuity(n *Netlist, a, b int, bench Bench) (MeterReading, error) {
	if a < 0 || b < 0 || a >= len(n.Nodes) || b >= len(n.Nodes) {
		return MeterReading{}, fmt.Errorf("measure resistance: there are %d points, not %d and %d; give nodes of the netlist", len(n.Nodes), a, b)
	}
	if a == b {
		return MeterReading{}, nil
	}
	st := bench.State
	if st == nil {
		st = &schematic.State{}
	}
	set := settingsOf(n.Doc, st)
	net := dc.New(len(n.Nodes))
	must(net.SetReference(dc.Node(b)))
	elem := make([]dc.Element, len(n.Branches))
	for i := range n.Branches {
		elem[i] = noElement
		br := &n.Branches[i]
		if ohm, ok := n.meterOhm(br, set, bench); ok && br.A != br.B {
			e, err := net.Resistor(dc.Node(br.A), dc.Node(br.B), bounded(ohm))
			must(err)
			elem[i] = e
		}
	}
	_, err := net.CurrentSource(dc.Node(b), dc.Node(a), 1)
	must(err)
	var sol dc.Solution
	solved := net.Solve(&sol)
	out := MeterReading{Ohm: math.Inf(1), Unclear: n.unclear(&sol, a, b, elem, bench)}
	if sol.Island[a] != sol.Island[b] {
		return out, nil
	}
	if solved != nil {
		return MeterReading{}, fmt.Errorf("measure resistance: %w", solved)
	}
	out.Ohm = sol.Volt[a] - sol.Volt[b]
	for i, e := range elem {
		if e != noElement && n.Branches[i].standsIn() && math.Abs(sol.Amp[e]) > 1e-9 {
			out.Missing = append(out.Missing, i)
		}
	}
	out.Path = n.meterPath(&sol, elem, a, b)
	return out, nil
}

// standsIn reports whether a value nobody gave is made up for the branch.
func (b *Branch) standsIn() bool {
	if b.Role == RoleElement && b.Element.Type == schematic.ElemFuse {
		return len(b.Missing) > 0 && !b.OhmKnown
	}
	return !b.OhmKnown && (b.Role != RoleElement || !b.isDevice())
}

// meterOhm returns the resistance a meter sees in a branch; false where it sees
// none.
func (n *Netlist) meterOhm(br *Branch, set *settings, bench Bench) (float64, bool) {
	if br.Role != RoleElement {
		return br.ohmOr(assumedOhm), br.Role == RoleWire || !bench.Unplugged
	}
	if bench.Unplugged {
		switch br.Element.Type {
		case schematic.ElemFuse:
			return br.fuse().cold, true
		case schematic.ElemJoint:
			onMetal := n.Nodes[br.A].Ground != "" || n.Nodes[br.B].Ground != ""
			return br.ohmOr(assumedOhm), br.Pin == nil && !onMetal
		}
		return 0, false
	}
	if len(br.Element.When) > 0 && !slices.Contains(br.Element.When, schematic.EngineOff) {
		return 0, false
	}
	switch br.Element.Type {
	case schematic.ElemJoint:
		return br.ohmOr(assumedOhm), true
	case schematic.ElemFuse:
		return br.fuse().cold, true
	case schematic.ElemContact:
		if br.Element.Coil != "" {
			return br.ohmOr(assumedOhm), br.Element.Break
		}
		return br.ohmOr(assumedOhm), set.position(br)
	case schematic.ElemResistor, schematic.ElemCoil:
		return br.Ohm, len(br.Missing) == 0
	case schematic.ElemLamp, schematic.ElemMotor:
		ohm, ok := br.startOhm().Get()
		return ohm, ok
	}
	return 0, false
}

// unclear lists loads a meter may or may not see something in, between points
// of different voltage or at the parts of an open way.
func (n *Netlist) unclear(sol *dc.Solution, a, b int, elem []dc.Element, bench Bench) []int {
	var out []int
	if bench.Unplugged {
		return nil
	}
	beside := func(node int) bool { return sol.Island[node] == sol.Island[a] || sol.Island[node] == sol.Island[b] }
	for i := range n.Branches {
		br := &n.Branches[i]
		if elem[i] != noElement || !br.IsLoad() || br.A == br.B || !beside(br.A) || !beside(br.B) {
			continue
		}
		if sol.Island[br.A] != sol.Island[br.B] || math.Abs(sol.Volt[br.A]-sol.Volt[br.B]) > 1e-6 {
			out = append(out, i)
		}
	}
	return out
}

// meterPath follows the largest current from one node to another.
func (n *Netlist) meterPath(sol *dc.Solution, elem []dc.Element, from, to int) []Step {
	var path []Step
	used := map[int]bool{}
	for node := from; node != to; {
		best, most := -1, 0.0
		for _, i := range n.at[node] {
			if elem[i] == noElement || used[i] {
				continue
			}
			amp := sol.Amp[elem[i]]
			if n.Branches[i].B == node {
				amp = -amp
			}
			if amp > most {
				best, most = i, amp
			}
		}
		if best < 0 {
			return path
		}
		used[best] = true
		next := n.Branches[best].Other(node)
		path = append(path, Step{Branch: best, From: node, To: next})
		node = next
	}
	return path
}
