package netlist

import (
	"container/heap"
	"math"
	"slices"

	"loomwright/schematic"
)

// dead finds the way a current would take through branch i (or the node from =
// to) and marks where it is interrupted.
func (s *Solution) dead(from, to, i int) Trace {
	t := Trace{Dead: true}
	used := map[int]bool{}
	if i >= 0 {
		used[i] = true
	}
	plus, minus := s.poles()
	// A diode or an odd end decides which side the source is on: the cheaper
	// pair of ways wins.
	up := s.way(from, plus, used)
	down := s.way(to, minus, with(used, up.branches))
	if from != to {
		upB := s.way(to, plus, used)
		downA := s.way(from, minus, with(used, upB.branches))
		if upB.cost+downA.cost < up.cost+down.cost {
			up, down = upB, downA
			from, to = to, from
		}
	}
	t.NoSource, t.NoGround = math.IsInf(up.cost, 1), math.IsInf(down.cost, 1)
	node := from
	for _, j := range up.branches {
		far := s.Netlist.Branches[j].Other(node)
		t.Main = append(t.Main, Step{Branch: j, From: far, To: node, Open: s.interrupts(j)})
		node = far
	}
	slices.Reverse(t.Main)
	if i >= 0 {
		t.Main = append(t.Main, Step{Branch: i, From: from, To: to, Open: s.interrupts(i)})
	}
	node = to
	for _, j := range down.branches {
		far := s.Netlist.Branches[j].Other(node)
		t.Main = append(t.Main, Step{Branch: j, From: node, To: far, Open: s.interrupts(j)})
		node = far
	}
	return t
}

func with(set map[int]bool, more []int) map[int]bool {
	out := make(map[int]bool, len(set)+len(more))
	for k := range set {
		out[k] = true
	}
	for _, k := range more {
		out[k] = true
	}
	return out
}

// interrupts reports whether the branch is what keeps a current from flowing.
func (s *Solution) interrupts(i int) bool {
	br := &s.Netlist.Branches[i]
	if br.Role != RoleElement {
		return false
	}
	switch br.Element.Type {
	case schematic.ElemContact, schematic.ElemOutput, schematic.ElemRegulator:
		return !s.Closed[i]
	case schematic.ElemOpen:
		return true
	}
	return len(br.Missing) > 0 && !s.carries(i)
}

func (s *Solution) poles() (plus, minus map[int]bool) {
	plus, minus = map[int]bool{}, map[int]bool{}
	for i := range s.Netlist.Branches {
		if br := &s.Netlist.Branches[i]; br.IsSource() {
			plus[br.A], minus[br.B] = true, true
		}
	}
	return plus, minus
}

// way is the cheapest way from a node to one of a set of nodes.
type way struct {
	branches []int
	cost     float64
}

// The price of a branch on the way of a dead circuit: rather through contacts
// that are open than through another load.
const (
	priceWire = 1
	priceOpen = 20
	priceLoad = 200
	priceNone = 2000 // an input that carries nothing by design
)

func (s *Solution) price(i int) float64 {
	br := &s.Netlist.Branches[i]
	switch {
	case br.Role != RoleElement:
		return priceWire
	case br.Element.Type == schematic.ElemOpen:
		return priceNone
	case br.IsLoad() || br.Element.Type == schematic.ElemDiode || br.Element.Type == schematic.ElemResistor:
		return priceLoad
	case s.interrupts(i):
		return priceOpen
	}
	return priceWire
}

func (s *Solution) way(from int, goal map[int]bool, used map[int]bool) way {
	n := s.Netlist
	dist := map[int]float64{from: 0}
	by := map[int]int{} // node → branch it was reached by
	q := &queue{{from, 0}}
	for q.Len() > 0 {
		at := heap.Pop(q).(queued)
		if at.cost > dist[at.node] {
			continue
		}
		if goal[at.node] {
			var w way
			w.cost = at.cost
			for node := at.node; node != from; {
				j := by[node]
				w.branches = append(w.branches, j)
				node = n.Branches[j].Other(node)
			}
			slices.Reverse(w.branches)
			return w
		}
		for _, j := range n.At(at.node) {
			if used[j] || n.Branches[j].IsSource() {
				continue
			}
			to := n.Branches[j].Other(at.node)
			c := at.cost + s.price(j)
			if d, ok := dist[to]; ok && d <= c {
				continue
			}
			dist[to], by[to] = c, j
			heap.Push(q, queued{to, c})
		}
	}
	return way{cost: math.Inf(1)}
}

type queued struct {
	node int
	cost float64
}

type queue []queued

func (q queue) Len() int { return len(q) }
func (q queue) Less(i, j int) bool {
	if q[i].cost != q[j].cost {
		return q[i].cost < q[j].cost
	}
	return q[i].node < q[j].node
}
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q *queue) Push(x any)   { *q = append(*q, x.(queued)) }
func (q *queue) Pop() any {
	old := *q
	x := old[len(old)-1]
	*q = old[:len(old)-1]
	return x
}
