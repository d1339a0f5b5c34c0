package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
	"loomwright/netlist/dc"
	"loomwright/schematic"
)

// groundNet is everything that wires, plugs and joints connect with battery
// negative. It answers how much resistance lies between a point of it and the
// battery.
type groundNet struct {
	n    *netlist.Netlist
	in   []bool       // node → part of it
	at   map[int]rung // nodes of the branching parts → the next one inwards
	core *dc.Network  // what is left: everything in loops
	row  map[int]dc.Node
	push map[int]dc.Element // node → current source from the battery to it
	memo map[int]float64
	sol  dc.Solution
}

// rung leads from a node of a branch of the ground towards its core.
type rung struct {
	branch, to int
	ohm        float64
}

func (r *run) groundNet() *groundNet {
	if r.grounds == nil {
		r.grounds = newGroundNet(r.n)
	}
	return r.grounds
}

func newGroundNet(n *netlist.Netlist) *groundNet {
	g := &groundNet{n: n, in: make([]bool, len(n.Nodes)), at: map[int]rung{}, row: map[int]dc.Node{},
		push: map[int]dc.Element{}, memo: map[int]float64{}}
	if n.Reference < 0 {
		return g
	}
	home := n.Nodes[n.Reference].Net
	left := map[int][]int{} // node → branches not yet taken away
	for i := range n.Branches {
		br := &n.Branches[i]
		if n.Nodes[br.A].Net == home && isGroundLine(br) && br.A != br.B {
			left[br.A] = append(left[br.A], i)
			left[br.B] = append(left[br.B], i)
		}
	}
	for _, node := range n.Nets[home].Nodes {
		g.in[node] = true
	}
	g.strip(left)
	g.build(left)
	return g
}

// isGroundLine reports whether a branch of the ground's net holds it together.
// One whose resistance nobody knows is taken for not there.
func isGroundLine(br *netlist.Branch) bool {
	return !unknownLine(br) && (br.Role != netlist.RoleElement || br.Element.Type == schematic.ElemJoint)
}

// strip takes loose ends away until only loops and the way to the battery are
// left: on a branch the resistance simply adds up.
func (g *groundNet) strip(left map[int][]int) {
	nodes := g.n.Nets[g.n.Nodes[g.n.Reference].Net].Nodes
	gone := map[int]bool{}
	todo := append([]int{}, nodes...)
	for len(todo) > 0 {
		node := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if node == g.n.Reference || len(left[node]) != 1 || gone[node] {
			continue
		}
		i := left[node][0]
		br := &g.n.Branches[i]
		to := br.Other(node)
		gone[node] = true
		g.at[node] = rung{i, to, math.Max(br.Ohm, 0)}
		delete(left, node)
		for k, j := range left[to] {
			if j == i {
				left[to] = append(append([]int{}, left[to][:k]...), left[to][k+1:]...)
				break
			}
		}
		todo = append(todo, to)
	}
}

// build makes a network of the loops.
func (g *groundNet) build(left map[int][]int) {
	nodes := g.n.Nets[g.n.Nodes[g.n.Reference].Net].Nodes
	for _, node := range nodes {
		if _, stripped := g.at[node]; !stripped {
			g.row[node] = dc.Node(len(g.row))
		}
	}
	g.core = dc.New(len(g.row))
	must(g.core.SetReference(g.row[g.n.Reference]))
	for i := range g.n.Branches {
		br := &g.n.Branches[i]
		a, okA := g.row[br.A]
		b, okB := g.row[br.B]
		if !okA || !okB || a == b || !isGroundLine(br) {
			continue
		}
		_, err := g.core.Resistor(a, b, math.Min(math.Max(br.Ohm, 1e-9), 1e9))
		must(err)
	}
	for _, node := range nodes {
		if row, ok := g.row[node]; ok && node != g.n.Reference {
			e, err := g.core.CurrentSource(g.row[g.n.Reference], row, 0)
			must(err)
			g.push[node] = e
		}
	}
}

// ohm returns the resistance from a node to battery negative; false when the
// node is no ground.
func (g *groundNet) ohm(node int) (float64, bool) {
	if node < 0 || !g.in[node] {
		return 0, false
	}
	sum := 0.0
	for {
		step, ok := g.at[node]
		if !ok {
			break
		}
		sum += step.ohm
		node = step.to
	}
	if node == g.n.Reference {
		return sum, true
	}
	inner, ok := g.memo[node]
	if !ok {
		must(g.core.SetAmp(g.push[node], 1))
		defer func() { must(g.core.SetAmp(g.push[node], 0)) }()
		if err := g.core.Solve(&g.sol); err != nil || g.sol.Floating(g.row[node]) {
			return 0, false
		}
		inner = g.sol.Volt[g.row[node]]
		g.memo[node] = inner
	}
	return sum + inner, true
}

// series lists the wires that alone connect a node with the core.
func (g *groundNet) series(node int) []int {
	var out []int
	for {
		step, ok := g.at[node]
		if !ok {
			return out
		}
		if g.n.Branches[step.branch].Role == netlist.RoleWire {
			out = append(out, step.branch)
		}
		node = step.to
	}
}

// must turns an error of the network's bookkeeping into a panic: nodes and
// values come from this package and lie within its limits.
func must(err error) {
	if err != nil {
		panic(fmt.Sprintf("check: %v", err))
	}
}
