package dc

// none marks the absence of an index.
const none int32 = -1

// graph is an undirected graph without loops and without double edges: the neighbours of v are adj[ptr[v]:ptr[v+1]].
type graph struct {
	ptr, adj []int32
}

func (g graph) len() int32 { return int32(len(g.ptr) - 1) }

// newGraph builds the graph of m vertices with the edges (from[i], to[i]). Edges with an end at m or above are left
// out, double edges become one.
func newGraph(m int32, from, to []int32) graph {
	ptr := make([]int32, m+1)
	for i, u := range from {
		if v := to[i]; u < m && v < m {
			ptr[u]++
			ptr[v]++
		}
	}
	total := int32(0)
	for v := range m {
		total += ptr[v]
		ptr[v] = total
	}
	ptr[m] = total
	adj := make([]int32, total)
	for i := len(from) - 1; i >= 0; i-- {
		if u, v := from[i], to[i]; u < m && v < m {
			ptr[u]--
			adj[ptr[u]] = v
			ptr[v]--
			adj[ptr[v]] = u
		}
	}
	// Drop the double edges in place.
	seen := make([]int32, m)
	for v := range seen {
		seen[v] = none
	}
	w := int32(0)
	for v := range m {
		begin := w
		for _, u := range adj[ptr[v]:ptr[v+1]] {
			if seen[u] != v {
				seen[u] = v
				adj[w] = u
				w++
			}
		}
		ptr[v] = begin
	}
	ptr[m] = w
	return graph{ptr: ptr, adj: adj[:w]}
}

// eliminationOrder returns the vertices in an order that keeps the factor sparse, with the vertices in last at its end.
// Loose ends go first, again and again, which costs no fill and time in proportion to the tree; what is left, where
// every vertex has two neighbours or more, goes by minimum degree. entries is about how many entries the factor will
// have.
func eliminationOrder(g graph, last []int32) (order []int32, entries int) {
	order, left := stripLeaves(g, last)
	entries = len(order)
	if len(left) == 0 {
		return order, entries
	}
	core := make([]int32, g.len())
	for v := range core {
		core[v] = none
	}
	for i, v := range left {
		core[v] = int32(i)
	}
	sub := graph{ptr: make([]int32, 1, len(left)+1)}
	for _, v := range left {
		for _, u := range g.adj[g.ptr[v]:g.ptr[v+1]] {
			if core[u] != none {
				sub.adj = append(sub.adj, core[u])
			}
		}
		sub.ptr = append(sub.ptr, int32(len(sub.adj)))
	}
	late := make([]int32, len(last))
	for i, v := range last {
		late[i] = core[v]
	}
	rest, more := minimumDegree(sub, late)
	for _, i := range rest {
		order = append(order, left[i])
	}
	return order, entries + more
}

// stripLeaves takes vertices with at most one remaining neighbour until there are none but those to keep, and returns
// them in the order taken, and the vertices left.
func stripLeaves(g graph, keep []int32) (taken, left []int32) {
	const kept = 1 << 30 // neighbours that are never there, nor taken
	m := g.len()
	degree := make([]int32, m)
	for _, v := range keep {
		degree[v] = kept
	}
	last := make([]int32, m) // all remaining neighbours xored: the neighbour itself once there is one only
	taken = make([]int32, 0, m)
	for v := range m {
		for _, u := range g.adj[g.ptr[v]:g.ptr[v+1]] {
			last[v] ^= u
		}
		degree[v] += g.ptr[v+1] - g.ptr[v]
		if degree[v] <= 1 {
			taken = append(taken, v)
		}
	}
	for i := 0; i < len(taken); i++ {
		v := taken[i]
		if degree[v] == 0 {
			continue
		}
		u := last[v]
		degree[v] = 0
		last[u] ^= v
		degree[u]--
		if degree[u] == 1 {
			taken = append(taken, u)
		}
	}
	for v := range m {
		if degree[v] > 1 {
			left = append(left, v)
		}
	}
	return taken, left
}
