package netlist

import "loomwright/schematic"

// throughput bounds the current of a wire by what can draw through it. The
// currents of a network are lines that leave a source, go through at least one
// thing that draws, and come back; none runs in a circle without a source. So
// those that pass a wire one way are no more than what all things draw to
// which a way leads on from its end, and from which a way leads to its beginning.
type throughput struct {
	n     *Netlist
	loads []bool  // by branch: whether it draws
	draws []draw  // how much
	ways  [][]hop // by node
	seen  []int   // node → the last search that came to it
	turn  int
	todo  []int
}

// draw is something that takes up to amp from node in to node out.
type draw struct {
	in, out int
	amp     float64 // A
}

// hop is a branch that leads on from a node, to or against its direction.
type hop struct {
	branch, to int
	ahead      bool // current may go this way
	back       bool // current may come this way
}

func newThroughput(n *Netlist) *throughput {
	t := &throughput{n: n, loads: n.drawing(), ways: make([][]hop, len(n.Nodes)), seen: make([]int, len(n.Nodes))}
	for i := range n.Branches {
		br := &n.Branches[i]
		if br.A == br.B || t.loads[i] || br.IsSource() || br.isOpen() || br.isRegulator() {
			continue
		}
		oneWay := br.Role == RoleElement && br.Element.Type == schematic.ElemDiode
		t.ways[br.A] = append(t.ways[br.A], hop{i, br.B, true, !oneWay})
		t.ways[br.B] = append(t.ways[br.B], hop{i, br.A, !oneWay, true})
	}
	return t
}

func (b *Branch) isRegulator() bool {
	return b.Role == RoleElement && b.Element.Type == schematic.ElemRegulator
}

// drawing tells which branches draw: loads, and diodes and resistors straight
// across one, like those that suppress a coil.
func (n *Netlist) drawing() []bool {
	draws := make([]bool, len(n.Branches))
	across := map[[2]int]bool{}
	for i := range n.Branches {
		if br := &n.Branches[i]; br.IsLoad() {
			draws[i] = true
			across[[2]int{br.A, br.B}], across[[2]int{br.B, br.A}] = true, true
		}
	}
	for i := range n.Branches {
		if br := &n.Branches[i]; br.Role == RoleElement && (br.Element.Type == schematic.ElemDiode || br.Element.Type == schematic.ElemResistor) {
			draws[i] = draws[i] || across[[2]int{br.A, br.B}]
		}
	}
	return draws
}

// take sets what draws to the most that any of some solutions shows; times says
// how much more a branch may draw than in one of them.
func (t *throughput) take(sols []*Solution, times func(sol, branch int) float64) {
	t.draws = t.draws[:0]
	for i := range t.n.Branches {
		br := &t.n.Branches[i]
		if !t.loads[i] && !br.IsSource() && !br.isRegulator() {
			continue
		}
		var along, against, fed float64
		for k, s := range sols {
			if s.Err == nil {
				along, against = max(along, s.Amp[i]*times(k, i)), max(against, -s.Amp[i]*times(k, i))
				fed = max(fed, s.FeedAmp[i])
			}
		}
		if along > quiet {
			t.draws = append(t.draws, draw{br.A, br.B, along})
		}
		if against > quiet && t.loads[i] {
			t.draws = append(t.draws, draw{br.B, br.A, against})
		}
		if fed > quiet && br.Feed >= 0 {
			t.draws = append(t.draws, draw{br.Feed, br.B, fed})
		}
	}
}

// through returns what can flow through a wire from its end A to B, or the
// other way, in A.
func (t *throughput) through(wire int, aToB bool) float64 {
	from, to := t.n.Branches[wire].A, t.n.Branches[wire].B
	if !aToB {
		from, to = to, from
	}
	sum := 0.0
	t.search(to, wire, func(h hop) bool { return h.ahead })
	for _, d := range t.draws {
		if t.seen[d.in] == t.turn {
			sum += d.amp
		}
	}
	t.search(from, wire, func(h hop) bool { return h.back })
	for _, d := range t.draws {
		if t.seen[d.out] == t.turn {
			sum += d.amp
		}
	}
	return sum
}

// search marks the nodes that a way leads to without a branch.
func (t *throughput) search(from, without int, use func(hop) bool) {
	t.turn++
	t.seen[from] = t.turn
	t.todo = append(t.todo[:0], from)
	for k := 0; k < len(t.todo); k++ {
		for _, h := range t.ways[t.todo[k]] {
			if h.branch != without && t.seen[h.to] != t.turn && use(h) {
				t.seen[h.to] = t.turn
				t.todo = append(t.todo, h.to)
			}
		}
	}
}
