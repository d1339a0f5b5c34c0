package dc

import (
	"fmt"
	"math"
	"slices"
)

// Solution is the state of a network: the zero value is ready for [Network.Solve], which fills it. It belongs to the
// caller.
type Solution struct {
	// By node.
	Volt   []float64 // V against the reference, or in a floating island against its lowest node
	Island []int32   // number of the node's island

	// By element.
	Amp   []float64 // A from a through the element to b
	Watt  []float64 // W taken up; negative where power is given out
	State []State   // where on its curve a device works; StateNormal for other elements

	Islands []Island // by their lowest nodes, ascending

	// How well the solution closes.
	ResidualAmp    float64 // largest absolute sum of the currents at a node, A
	ResidualNode   Node    // where that is, NoNode in a network without nodes
	GeneratedWatt  float64 // sum of the power given out, W
	DissipatedWatt float64 // sum of the power taken up, W
	ImbalanceWatt  float64 // their difference, W

	Refinements int  // steps of iterative refinement
	Iterations  int  // linear solutions made for the devices; 0 without devices
	Converged   bool // the devices are on their curves; true without devices
}

// Floating reports whether the node has no path to the reference, so that its voltage says nothing against it. It is
// true for a node that does not exist.
func (s *Solution) Floating(node Node) bool {
	if node < 0 || int(node) >= len(s.Island) {
		return true
	}
	return s.Islands[s.Island[node]].Floating
}

// ClosureError says that a solution does not satisfy Kirchhoff's current law at a node or, with Node = NoNode, the
// power balance.
type ClosureError struct {
	Node  Node
	Amp   float64 // the sum of the currents at the node, A
	Watt  float64 // the power that is missing, W
	Limit float64 // what would be accepted, A or W
}

func (e *ClosureError) Error() string {
	if e.Node == NoNode {
		return fmt.Sprintf("the solution does not close: %g W of power given and taken do not match, %g W are accepted; look for resistances of very different size",
			e.Watt, e.Limit)
	}
	return fmt.Sprintf("the solution does not close: the currents at node %d sum to %g A, %g A are accepted; look for resistances of very different size around it",
		e.Node, e.Amp, e.Limit)
}

// begin sizes the solution and puts in what is known before the voltages.
func (s *Solution) begin(n *Network) {
	elements := len(n.kind)
	*s = Solution{
		Volt:         resize(s.Volt, n.nodes),
		Island:       append(s.Island[:0], n.islands.of...),
		Amp:          resize(s.Amp, elements),
		Watt:         resize(s.Watt, elements),
		State:        resize(s.State, elements),
		Islands:      append(s.Islands[:0], n.islands.list...),
		ResidualNode: NoNode,
	}
	clear(s.Volt)
	clear(s.Amp)
	clear(s.Watt)
	clear(s.State)
}

// fill puts the result of the last solution into s and checks that it closes.
func (n *Network) fill(s *Solution) error {
	w := &n.work
	for i := range n.devices {
		d := &n.devices[i]
		if !n.open[d.e] {
			s.State[d.e] = d.state(n.exactDrop(n.sym.ends[d.e], 0))
		}
	}
	copy(s.Amp, w.amp)
	for e, at := range n.sym.ends {
		p := n.exactDrop(at, 0) * w.amp[e]
		s.Watt[e] = p
		if p > 0 {
			s.DissipatedWatt += p
		} else {
			s.GeneratedWatt -= p
		}
	}
	s.ImbalanceWatt = s.GeneratedWatt - s.DissipatedWatt
	largest := n.fillVolts(s)
	return n.checkClosure(s, largest)
}

// fillVolts copies the voltages and counts those of floating islands from their lowest nodes. It returns the largest
// absolute voltage before that.
func (n *Network) fillVolts(s *Solution) (largest float64) {
	w := &n.work
	for v, p := range n.sym.position {
		base := n.islands.list[n.islands.of[v]]
		s.Volt[v] = w.hi[p] + w.lo[p]
		largest = max(largest, math.Abs(s.Volt[v]))
		if base.Floating {
			first := n.sym.position[base.First]
			s.Volt[v] = (w.hi[p] - w.hi[first]) + (w.lo[p] - w.lo[first])
		}
	}
	return largest
}

// checkClosure finds the worst node and the power balance. Not-a-number fails every comparison and so is an error.
func (n *Network) checkClosure(s *Solution, largest float64) error {
	w := &n.work
	var worst *ClosureError
	ratio := 1.0
	s.ResidualAmp = math.Inf(-1)
	floor := floorAmp
	for _, gross := range w.gross {
		floor = max(floor, floorShare*gross)
	}
	for v, p := range n.sym.position {
		r := math.Abs(w.residual[p])
		if r > s.ResidualAmp || r != r {
			s.ResidualAmp, s.ResidualNode = r, Node(v)
		}
		limit := RelativeTolerance*w.gross[p] + floor
		if !(r <= ratio*limit) {
			worst = &ClosureError{Node: Node(v), Amp: r, Limit: limit}
			ratio = r / limit
		}
	}
	if n.nodes == 0 {
		s.ResidualAmp = 0
	}
	if worst != nil {
		return worst
	}
	limit := RelativeTolerance*(s.GeneratedWatt+s.DissipatedWatt) + floor*largest*float64(n.nodes) + w.powerRoom
	if !(math.Abs(s.ImbalanceWatt) <= limit) {
		return &ClosureError{Node: NoNode, Watt: math.Abs(s.ImbalanceWatt), Limit: limit}
	}
	return nil
}

// Clone returns a copy that shares nothing with s.
func (s *Solution) Clone() *Solution {
	c := *s
	c.Volt, c.Island = slices.Clone(s.Volt), slices.Clone(s.Island)
	c.Amp, c.Watt, c.State = slices.Clone(s.Amp), slices.Clone(s.Watt), slices.Clone(s.State)
	c.Islands = slices.Clone(s.Islands)
	return &c
}
