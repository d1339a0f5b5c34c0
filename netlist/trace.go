package netlist

import (
	"math"
	"slices"

	"loomwright/schematic"
)

// Step is one branch of a traced circuit, in the direction of the current.
type Step struct {
	Branch   int
	From, To int  // nodes
	Open     bool // an open contact, or a load nothing flows through: where a dead circuit ends
}

// Trace is a circuit from source to ground.
type Trace struct {
	// Main is the way of the largest current from the source's positive pole,
	// through what was asked for, to its negative pole; without a current, the
	// shortest way there would be.
	Main []Step
	// Side holds the other branches the circuit's current goes through:
	// parallel feeds, and everything else a traced feed supplies.
	Side []int
	// Branches puts Side in order: ways beside the main one, each from the
	// point where it leaves the main way or an earlier branch.
	Branches []SideWay
	// Dead tells that no current flows through what was asked for.
	Dead bool
	// NoSource and NoGround tell that there is no way at all from a source, or
	// back to one.
	NoSource, NoGround bool
}

// quiet is the current below which a branch counts as carrying none, A. It is
// far above the solver's residual and the leakage of a blocking diode, and far
// below the smallest quiescent current of interest.
const quiet = 1e-6

// TracePin traces the circuit through a pin.
func (s *Solution) TracePin(r schematic.PinRef) Trace {
	node := s.Netlist.NodeOf(r)
	if node < 0 {
		return Trace{Dead: true, NoSource: true, NoGround: true}
	}
	if best := s.strongest(s.Netlist.At(node)); best >= 0 && s.carries(best) {
		return s.TraceBranch(best)
	}
	return s.dead(node, node, -1)
}

// TraceWire traces the circuit through a wire.
func (s *Solution) TraceWire(id schematic.ID) Trace {
	i := s.Netlist.WireBranch(id)
	if i < 0 {
		return Trace{Dead: true, NoSource: true, NoGround: true}
	}
	return s.TraceBranch(i)
}

// TracePart traces the circuit through the part's element with the largest
// current. A part that only joins wires, such as a stud or a bus bar, is traced
// at the pin where most passes, also where nothing goes through its joint.
func (s *Solution) TracePart(id schematic.ID) Trace {
	n := s.Netlist
	best := s.strongest(n.PartBranches(id))
	if best >= 0 && !n.onlyJoins(id) {
		return s.TraceBranch(best)
	}
	var passing []int
	var pins []schematic.PinRef
	if p := n.Doc.Part(id); p != nil {
		for _, pin := range n.Doc.PinsOf(p) {
			pins = append(pins, schematic.PinRef{Part: id, Pin: pin.Name})
			if node := n.NodeOf(pins[len(pins)-1]); node >= 0 {
				passing = append(passing, n.At(node)...)
			}
		}
	}
	if i := s.strongest(passing); i >= 0 && s.carries(i) {
		return s.TraceBranch(i)
	}
	if best >= 0 {
		return s.TraceBranch(best)
	}
	for _, pin := range pins {
		if t := s.TracePin(pin); len(t.Main) > 0 {
			return t
		}
	}
	return Trace{Dead: true, NoSource: true, NoGround: true}
}

// strongest returns the branch with the largest current, -1 of none.
func (s *Solution) strongest(branches []int) int {
	best := -1
	for _, i := range branches {
		if best < 0 || math.Abs(s.Amp[i]) > math.Abs(s.Amp[best]) {
			best = i
		}
	}
	return best
}

// onlyJoins reports whether a part has joints and nothing else.
func (n *Netlist) onlyJoins(id schematic.ID) bool {
	for _, i := range n.parts[id] {
		if br := &n.Branches[i]; br.Role == RoleElement && br.Element.Type != schematic.ElemJoint {
			return false
		}
	}
	return true
}

// TraceBranch traces the circuit through a branch.
func (s *Solution) TraceBranch(i int) Trace {
	br := &s.Netlist.Branches[i]
	if !s.carries(i) {
		return s.dead(br.A, br.B, i)
	}
	if br.IsSource() && s.Amp[i] < 0 {
		// A source's circuit is that of the largest current it feeds. One that
		// takes current up, like a battery on charge, is traced like a load.
		best := -1
		for _, j := range s.Netlist.At(br.A) {
			if j != i && s.carries(j) && s.tail(j) == br.A && (best < 0 || math.Abs(s.Amp[j]) > math.Abs(s.Amp[best])) {
				best = j
			}
		}
		if best < 0 {
			return s.dead(br.A, br.B, i)
		}
		i = best
	}
	up := s.follow(i, s.tail, s.head)
	down := s.follow(i, s.head, s.tail)
	var t Trace
	slices.Reverse(up)
	for _, j := range append(append(up, i), down...) {
		t.Main = append(t.Main, Step{Branch: j, From: s.tail(j), To: s.head(j)})
	}
	t.Side = s.side(i, t.Main)
	t.Branches = s.sideWays(t.Main, t.Side)
	return t
}

// carriesMore reports whether branch i carries clearly more than j: of equal
// currents the earlier branch counts, whatever the last digits say.
func (s *Solution) carriesMore(i, j int) bool {
	return math.Abs(s.Amp[i]) > math.Abs(s.Amp[j])*(1+1e-6)
}

func (s *Solution) carries(i int) bool { return math.Abs(s.Amp[i]) > quiet }

// tail and head are the nodes where the current enters and leaves a branch.
func (s *Solution) tail(i int) int {
	if s.Amp[i] >= 0 {
		return s.Netlist.Branches[i].A
	}
	return s.Netlist.Branches[i].B
}

func (s *Solution) head(i int) int { return s.Netlist.Branches[i].Other(s.tail(i)) }

// follow goes from branch i through node near(i) on along the largest current
// until a source is reached; near is where branches are left, far where the
// next ones are entered from.
func (s *Solution) follow(i int, near, far func(int) int) []int {
	var way []int
	visited := map[int]bool{i: true}
	for node := near(i); ; {
		best := -1
		for _, j := range s.Netlist.At(node) {
			if visited[j] || !s.carries(j) || far(j) != node {
				continue
			}
			if s.Netlist.Branches[j].IsSource() {
				return way
			}
			if best < 0 || s.carriesMore(j, best) {
				best = j
			}
		}
		if best < 0 {
			return way
		}
		visited[best] = true
		way = append(way, best)
		node = near(best)
	}
}

// side collects every other branch that feeds the traced one or is fed by it.
func (s *Solution) side(i int, main []Step) []int {
	seen := map[int]bool{}
	for _, st := range main {
		seen[st.Branch] = true
	}
	var out []int
	spread := func(near, far func(int) int) {
		been := map[int]bool{}
		for todo := []int{near(i)}; len(todo) > 0; {
			node := todo[0]
			todo = todo[1:]
			if been[node] {
				continue
			}
			been[node] = true
			for _, j := range s.Netlist.At(node) {
				if !s.carries(j) || far(j) != node || s.Netlist.Branches[j].IsSource() {
					continue
				}
				if !seen[j] {
					seen[j] = true
					out = append(out, j)
				}
				todo = append(todo, near(j))
			}
		}
	}
	spread(s.tail, s.head)
	spread(s.head, s.tail)
	slices.Sort(out)
	return out
}
