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
	clear(s.State)
}

// blank puts zeros in where nothing has been found.
func (s *Solution) blank() {
	clear(s.Volt)
	clear(s.Amp)
	clear(s.Watt)
}

// report puts the result into s.
func (n *Network) report(s *Solution) {
	w, b := &n.work, &n.work.balance
	n.reportVolts(s)
	s.GeneratedWatt = b.given
	s.DissipatedWatt = b.taken + n.reportAmps(s)
	s.ImbalanceWatt = s.GeneratedWatt - s.DissipatedWatt
	if n.nodes > 0 {
		s.ResidualAmp = math.Abs(w.residual[b.at])
		s.ResidualNode = n.sym.node[b.at]
	}
	for i := range n.devices {
		d := &n.devices[i]
		if !n.open[d.e] {
			s.State[d.e] = d.state(w.exactDrop(n.sym.ends[d.e], 0))
		}
	}
}

// reportVolts puts the voltages into s. Those of floating islands count from their lowest nodes.
func (n *Network) reportVolts(s *Solution) {
	x, is := n.work.x, &n.islands
	volts := s.Volt[:len(n.sym.position)]
	if !is.floating {
		for v, p := range n.sym.position {
			volts[v] = x[p].hi + x[p].lo
		}
		return
	}
	for v, p := range n.sym.position {
		if base := &is.list[is.of[v]]; base.Floating {
			volts[v] = x[p].minus(x[n.sym.position[base.First]])
		} else {
			volts[v] = x[p].hi + x[p].lo
		}
	}
}

// reportAmps puts currents and powers into s. It returns the power that the resistors take up.
func (n *Network) reportAmps(s *Solution) (watt float64) {
	place, amp := n.branches.place, n.work.amp
	kind, ohm := n.kind[:len(place)], n.rated[:len(place)]
	amps, watts := s.Amp[:len(place)], s.Watt[:len(place)]
	for e, p := range place {
		q, way := seat(p)
		i := amp[q]*way + 0 // no negative zeros
		amps[e] = i
		if kind[e] == KindResistor {
			p := i * i * ohm[e]
			watts[e] = p
			watt += p
		}
	}
	for _, e := range n.actives {
		watts[e] = n.work.exactDrop(n.sym.ends[e], 0) * amps[e]
	}
	return watt
}

// checkClosure compares the residuals, unless they are known to close, and the power balance with what is accepted.
// Not-a-number fails every comparison and so is an error.
func (n *Network) checkClosure(s *Solution, closed bool) error {
	miss := math.Abs(s.ImbalanceWatt)
	limit := RelativeTolerance*(s.GeneratedWatt+s.DissipatedWatt) + n.work.balance.room
	if closed && miss <= limit {
		return nil
	}
	floor, highest := floorAmp, 0.0
	for p := range n.sym.node {
		floor = max(floor, floorShare*n.gross(int32(p)))
		highest = max(highest, math.Abs(n.work.x[p].hi))
	}
	var worst *ClosureError
	ratio := 1.0
	for p, v := range n.sym.node {
		left := math.Abs(n.work.residual[p])
		limit := RelativeTolerance*n.gross(int32(p)) + floor
		if !(left <= ratio*limit) {
			worst = &ClosureError{Node: v, Amp: left, Limit: limit}
			ratio = left / limit
		}
	}
	if worst != nil {
		return worst
	}
	limit += floor * highest * float64(n.nodes)
	if !(miss <= limit) {
		return &ClosureError{Node: NoNode, Watt: miss, Limit: limit}
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
