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
	of       []int32 // by node
	list     []Island
	floating bool // one of more than one node floats

	root   []int32 // by position: the position that stands for its island
	number []int32 // by such a position: the number of the island

	net  []float64 // by island: current that ideal sources push into it, A
	size []float64 // by island: the same, as absolute values
}

// islandsStale reports whether the islands may have changed. In a network without devices the factor tells: its
// columns without a star are the zeros of the floating islands, one each. Opening elements can only split islands and
// closing them can only join some, so that an unchanged count means unchanged islands; and there is only one way to be
// one island.
func (n *Network) islandsStale() bool {
	s := n.stale
	switch {
	case s.structure:
		return true
	case !s.opened && !s.closed:
		return false
	case len(n.devices) > 0:
		return true
	}
	count := n.fac.zeros
	if n.reference != NoNode {
		count++
	}
	return count != len(n.islands.list) || s.opened && s.closed && count > 1
}

// findIslands finds the islands.
func (n *Network) findIslands() {
	is := &n.islands
	is.root, is.number = resize(is.root, int(n.sym.size)+1), resize(is.number, int(n.sym.size)+1)
	if len(n.devices) == 0 {
		n.followLeads()
	} else {
		n.joinEnds()
	}
	is.list = is.list[:0]
	is.of = resize(is.of, n.nodes)
	last, begin, i := none, 0, int32(0) // of a run of nodes of one island
	for v, p := range n.sym.position {
		if r := is.root[p]; r != last {
			if v > 0 {
				is.list[i].Nodes += v - begin
			}
			last, begin, i = r, v, is.number[r]
			if i == none {
				i = int32(len(is.list))
				is.number[r] = i
				is.list = append(is.list, Island{First: Node(v), Floating: true})
			}
		}
		is.of[v] = i
	}
	if n.nodes > 0 {
		is.list[i].Nodes += n.nodes - begin
	}
	if n.reference != NoNode {
		is.list[is.of[n.reference]].Floating = false
	}
	is.floating = false
	for _, i := range is.list {
		is.floating = is.floating || i.Floating && i.Nodes > 1
	}
}

// followLeads finds the root of each position, and clears its number, from the factor: a column and the one that leads it are in the same
// island. Without devices all conductances are positive, and eliminating a column leaves each of its neighbours an arm
// to the lead of at least its own arm divided by the count of its neighbours, so that no path ever gets lost in rounding.
func (n *Network) followLeads() {
	root, number, stars, size := n.islands.root, n.islands.number, n.fac.star, n.sym.size
	root[size], number[size] = size, none
	for j := size - 1; j >= 0; j-- {
		if n.fac.inv[j] == 0 {
			root[j], number[j] = j, none
		} else {
			lead, _ := upright(stars[j].lead)
			root[j] = root[min(lead, size)]
		}
	}
}

// joinEnds does the same by joining the ends of all closed elements but current sources.
func (n *Network) joinEnds() {
	root := n.islands.root
	for p := range root {
		root[p], n.islands.number[p] = int32(p), none
	}
	for e, k := range n.kind {
		if k == KindCurrent || n.open[e] {
			continue
		}
		p, q := find(root, n.sym.ends[e].a), find(root, n.sym.ends[e].b)
		root[min(p, q)] = max(p, q)
	}
	for p := len(root) - 1; p >= 0; p-- {
		root[p] = root[root[p]] // the next one up is higher and has been through here
	}
}

// find returns the root of p and shortens the way to it.
func find(root []int32, p int32) int32 {
	for root[p] != p {
		root[p] = root[root[p]]
		p = root[p]
	}
	return p
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
