package netlist

import (
	"errors"
	"fmt"
	"math"

	"loomwright/netlist/dc"
	"loomwright/schematic"
)

// Solution is one operating state computed. Slices are by node and by branch
// of the netlist.
type Solution struct {
	Netlist *Netlist
	State   *schematic.State

	Volt    []float64       // V against battery negative; NaN where a node has no path to it
	Amp     []float64       // A from A through the branch to B
	FeedAmp map[int]float64 // A that regulators draw from their feed, by branch
	Closed  []bool          // whether the branch could conduct in this state

	ResidualAmp    float64 // worst sum of currents at a node, A
	GeneratedWatt  float64
	DissipatedWatt float64
	ImbalanceWatt  float64

	Limiting []int // sources and regulators that give their largest current, branches
	Starved  []int // loads of constant current or power that get less voltage than they work from: the supply has collapsed
	Over     []int // contacts, drivers and joints that carry more than their limit
	Reversed []int // loads with a polarity, fed the wrong way round
	Unsteady []int // wires without a steady temperature: they melt

	Pulled      []int    // relay coils that have pulled in, branches
	Chattering  []string // relay coils that cannot settle; the figures show one of their positions
	ChatterLoop string   // how they keep each other going, in words
	Racing      []string // relay coils that take each other's voltage away: which pulls in first decides, the figures show one outcome
	Notes       []string // what the state asks for and the parts do not have
	Err         error    // why the figures cannot be used

	ohm   []float64 // by branch: resistances that the current changed, else NaN
	tempC []float64 // by branch: conductor temperatures, else NaN
}

// Solve computes one operating state; see [Solver] for several.
func (n *Netlist) Solve(st *schematic.State) *Solution { return NewSolver(n).Solve(st) }

// SolveAll computes every operating state of the document, or the state at
// rest when it has none.
func (n *Netlist) SolveAll() []*Solution {
	return NewSolver(n).solveAll()
}

func (s *Solver) solveAll() []*Solution {
	states := s.n.Doc.States()
	if len(states) == 0 {
		return []*Solution{s.Solve(nil)}
	}
	out := make([]*Solution, 0, len(states))
	for _, st := range states {
		out = append(out, s.Solve(st))
	}
	return out
}

// LeastShownAmp is the current below which people are told that a wire carries
// none, A: what is left of the figures there is the leak through open contacts
// (judgement, no source).
const LeastShownAmp = 0.0005

// VoltAt returns the voltage of a node against battery negative; false where
// there is none to tell.
func (s *Solution) VoltAt(node int) (float64, bool) {
	if node < 0 || node >= len(s.Volt) || s.Err != nil || math.IsNaN(s.Volt[node]) {
		return 0, false
	}
	return s.Volt[node], true
}

// Across returns the voltage from A to B of a branch; false when either end
// has none.
func (s *Solution) Across(branch int) (float64, bool) {
	br := &s.Netlist.Branches[branch]
	a, okA := s.VoltAt(br.A)
	b, okB := s.VoltAt(br.B)
	return a - b, okA && okB
}

// WireAmp returns the current of a wire from its end A to its end B.
func (s *Solution) WireAmp(id schematic.ID) (float64, bool) {
	i := s.Netlist.WireBranch(id)
	if i < 0 || s.Err != nil {
		return 0, false
	}
	return s.Amp[i], true
}

// PinAmp returns the current that flows from the wires into a pin of a part.
func (s *Solution) PinAmp(r schematic.PinRef) float64 {
	node := s.Netlist.NodeOf(r)
	if node < 0 {
		return 0
	}
	sum := 0.0
	for _, i := range s.Netlist.At(node) {
		br := &s.Netlist.Branches[i]
		if br.Role != RoleWire || br.A == br.B {
			continue
		}
		if br.B == node {
			sum += s.Amp[i]
		} else {
			sum -= s.Amp[i]
		}
	}
	return sum
}

// MeterAmp returns the current, in A and never negative, that a meter put in
// line at a pin would show: what flows into the part there. Where nothing but
// wires meets, at a splice say, that is nothing at all; then through is true and
// amp is what passes from some of the wires to the others, half the sum of
// their currents taken without sign.
func (s *Solution) MeterAmp(r schematic.PinRef) (amp float64, through bool) {
	node := s.Netlist.NodeOf(r)
	if node < 0 {
		return 0, false
	}
	wires, all := 0, 0.0
	through = true
	for _, i := range s.Netlist.At(node) {
		br := &s.Netlist.Branches[i]
		if br.A == br.B {
			continue
		}
		through = through && br.Role == RoleWire
		if br.Role == RoleWire {
			wires, all = wires+1, all+math.Abs(s.Amp[i])
		}
	}
	if through && wires > 1 {
		return all / 2, true
	}
	return math.Abs(s.PinAmp(r)), false
}

// explain puts an error of the network into the words of the harness.
func (s *Solver) explain(err error) error {
	var closure *dc.ClosureError
	var conv *dc.ConvergenceError
	switch {
	case errors.As(err, &conv):
		return fmt.Errorf("the loads do not settle, worst at %s: %w", s.branchName(conv.Element), err)
	case errors.As(err, &closure):
		return fmt.Errorf("the currents do not add up: %w", err)
	}
	return fmt.Errorf("the network cannot be solved: %w", err)
}

func (s *Solver) branchName(e dc.Element) string {
	for i, x := range s.elem {
		if x == e {
			return s.n.Branches[i].Name()
		}
	}
	return "an unnamed element"
}
