package dc

import (
	"fmt"
	"math"
)

// Island is a set of nodes joined by conducting elements. A node without any closed element is an island of its own.
type Island struct {
	First    Node // its lowest node
	Nodes    int  // how many nodes it has
	Floating bool // it does not hold the reference node: its voltages are counted from First
}

// islands is the partition of the nodes, with the islands numbered by their lowest nodes.
type islands struct {
	of   []int32 // by node
	list []Island
	net  []float64 // by island: current that ideal sources push into it, A
	size []float64 // by island: the same, as absolute values
}

// findIslands joins the ends of all closed elements but current sources.
func (n *Network) findIslands() {
	is := &n.islands
	is.of = resize(is.of, n.nodes)
	root := is.of
	for v := range root {
		root[v] = int32(v)
	}
	find := func(v int32) int32 {
		for root[v] != v {
			root[v] = root[root[v]]
			v = root[v]
		}
		return v
	}
	for e, k := range n.kind {
		if k == KindCurrent || n.open[e] {
			continue
		}
		a, b := find(int32(n.a[e])), find(int32(n.b[e]))
		// The lower node is the root, so that roots come first in the loop below.
		root[max(a, b)] = min(a, b)
	}
	is.list = is.list[:0]
	for v := range root {
		r := root[v]
		if int(r) == v {
			root[v] = int32(len(is.list))
			is.list = append(is.list, Island{First: Node(v), Floating: true})
		} else {
			root[v] = root[r] // r is lower and already holds its island
		}
		is.list[root[v]].Nodes++
	}
	if n.reference != NoNode {
		is.list[root[n.reference]].Floating = false
	}
}

// NoReturnError says that ideal current sources push a current into a floating island that has no way out of it.
type NoReturnError struct {
	Island  int     // its number in Solution.Islands
	First   Node    // its lowest node
	Element Element // one of the sources
	Amp     float64 // what is pushed in beyond what is taken out, A
}

func (e *NoReturnError) Error() string {
	return fmt.Sprintf("current source %d pushes %g A into the island of node %d, which has no way back for it; connect the island or open the source",
		e.Element, e.Amp, e.First)
}

// checkReturns looks for floating islands with a net current from ideal sources.
func (n *Network) checkReturns() error {
	is := &n.islands
	if len(n.sources) == 0 {
		return nil
	}
	is.net, is.size = resize(is.net, len(is.list)), resize(is.size, len(is.list))
	clear(is.net)
	clear(is.size)
	for _, e := range n.sources {
		from, to := is.of[n.a[e]], is.of[n.b[e]]
		if from == to {
			continue
		}
		amp := n.inj[e]
		is.net[from] -= amp
		is.net[to] += amp
		is.size[from] += math.Abs(amp)
		is.size[to] += math.Abs(amp)
	}
	for _, e := range n.sources {
		from, to := is.of[n.a[e]], is.of[n.b[e]]
		if from == to || n.inj[e] == 0 {
			continue
		}
		for _, i := range [2]int32{from, to} {
			if is.list[i].Floating && math.Abs(is.net[i]) > RelativeTolerance*is.size[i] {
				return &NoReturnError{Island: int(i), First: is.list[i].First, Element: e, Amp: is.net[i]}
			}
		}
	}
	return nil
}
