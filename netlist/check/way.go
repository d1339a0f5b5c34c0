package check

import (
	"math"
	"slices"

	"loomwright/netlist"
	"loomwright/schematic"
)

// flow tells at every node of a solved operating state by which branch the
// largest current comes in and goes out.
type flow struct {
	s       *netlist.Solution
	in, out []int // node → branch, -1 for none
	both    map[int][2]way
	lines   []int // of the ways found so far
}

func (r *run) flow(s *netlist.Solution) *flow {
	if f, ok := r.flows[s]; ok {
		return f
	}
	n := r.n
	f := &flow{s: s, in: make([]int, len(n.Nodes)), out: make([]int, len(n.Nodes))}
	for i := range n.Nodes {
		f.in[i], f.out[i] = -1, -1
	}
	// A source at a node is where the way ends, whatever else meets there.
	better := func(i, have int) bool {
		if have < 0 {
			return true
		}
		a, b := isSupply(&n.Branches[i]), isSupply(&n.Branches[have])
		return a && !b || a == b && math.Abs(s.Amp[i]) > math.Abs(s.Amp[have])
	}
	for i := range n.Branches {
		br := &n.Branches[i]
		if math.Abs(s.Amp[i]) <= quiet || br.A == br.B {
			continue
		}
		from, to := br.A, br.B
		if s.Amp[i] < 0 {
			from, to = to, from
		}
		if (br.IsSource() || !isSupply(br)) && better(i, f.out[from]) {
			f.out[from] = i // what goes back into a regulator came in by its feed
		}
		if better(i, f.in[to]) {
			f.in[to] = i
		}
	}
	if r.flows == nil {
		r.flows = map[*netlist.Solution]*flow{}
	}
	r.flows[s] = f
	return f
}

// isSupply reports whether a branch is where a circuit gets its voltage from.
func isSupply(br *netlist.Branch) bool {
	return br.IsSource() || br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemRegulator
}

// isLine reports whether a branch is there to carry current on, so that volts
// lost in it are lost.
func isLine(br *netlist.Branch) bool {
	if br.Role != netlist.RoleElement {
		return true
	}
	switch br.Element.Type {
	case schematic.ElemJoint, schematic.ElemContact, schematic.ElemFuse, schematic.ElemOutput:
		return true
	case schematic.ElemDiode, schematic.ElemResistor:
		return !br.IsLoad() && !isPartOfLoad(br)
	}
	return false
}

// unknownLine reports whether a line's resistance is assumed.
func unknownLine(br *netlist.Branch) bool {
	return len(br.Missing) > 0 || br.Role != netlist.RoleElement && !br.OhmKnown
}

// way is one side of a load's circuit, from the load outwards.
type way struct {
	lines   []int   // branches that carry the current on
	volt    float64 // V lost in them
	supply  int     // branch of the source at its end, -1 if it has none
	unknown []int   // lines whose resistance is assumed
}

// follow goes from a node along the largest currents, as far as the source or
// the node stop.
func (f *flow) follow(node int, next []int, stop int) way {
	begin := len(f.lines)
	w := f.walk(node, next, stop)
	w.lines = f.lines[begin:len(f.lines):len(f.lines)]
	w.unknown = slices.Clip(w.unknown)
	return w
}

func (f *flow) walk(node int, next []int, stop int) way {
	w := way{supply: -1}
	n := f.s.Netlist
	for range len(n.Nodes) { // currents of rounding size may run in a ring
		i := next[node]
		if i < 0 || node == stop {
			return w
		}
		br := &n.Branches[i]
		if isSupply(br) {
			w.supply = i
			return w
		}
		node = br.Other(node)
		if !isLine(br) {
			continue
		}
		v, _ := f.s.Across(i)
		f.lines = append(f.lines, i)
		w.volt += math.Abs(v)
		if unknownLine(br) {
			w.unknown = append(w.unknown, i)
		}
	}
	return w
}

// sides returns the feed and the return of a load that draws current. The
// return of what hangs on a regulator ends where the regulator is grounded.
func (f *flow) sides(load int) (feed, back way) {
	w, ok := f.both[load]
	if !ok {
		w[0], w[1] = f.findSides(load)
		if f.both == nil {
			f.both = map[int][2]way{}
		}
		f.both[load] = w
	}
	return w[0], w[1]
}

func (f *flow) findSides(load int) (feed, back way) {
	br := &f.s.Netlist.Branches[load]
	plus, minus := br.A, br.B
	if f.s.Amp[load] < 0 {
		plus, minus = minus, plus
	}
	feed = f.follow(plus, f.in, -1)
	stop := -1
	if feed.supply >= 0 && !f.s.Netlist.Branches[feed.supply].IsSource() {
		stop = f.s.Netlist.Branches[feed.supply].B
	}
	return feed, f.follow(minus, f.out, stop)
}
