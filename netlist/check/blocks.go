package check

import "slices"

// edges returns the ends of every branch.
func (r *run) edges() []edge {
	if r.ends == nil {
		r.ends = make([]edge, len(r.n.Branches))
		for i := range r.n.Branches {
			r.ends[i] = edge{r.n.Branches[i].A, r.n.Branches[i].B}
		}
	}
	return r.ends
}

// blocks are the parts of a network that hang together by more than one point:
// two branches are in the same block when some loop runs through both
// (Hopcroft and Tarjan 1973).
type blocks struct {
	of     []int // branch → block, -1 for branches left out
	parent []int // node → branch it was first reached by, -1 at a root
	depth  []int
	other  func(branch, node int) int
}

// edge is a branch between two nodes.
type edge struct{ a, b int }

// findBlocks looks at the branches that use accepts.
func findBlocks(nodes int, edges []edge, use func(int) bool) *blocks {
	b := &blocks{of: make([]int, len(edges)), parent: make([]int, nodes), depth: make([]int, nodes)}
	b.other = func(i, node int) int {
		if edges[i].a == node {
			return edges[i].b
		}
		return edges[i].a
	}
	for i := range b.of {
		b.of[i] = -1
	}
	for i := range b.depth {
		b.depth[i], b.parent[i] = -1, -1
	}
	w := blockWalk{blocks: b, low: make([]int, nodes)}
	w.at, w.ptr = branchesAt(nodes, edges, use)
	w.next = slices.Clone(w.ptr)
	for root := range nodes {
		if b.depth[root] < 0 {
			w.from(root)
		}
	}
	return b
}

// branchesAt lists the branches that use accepts by their nodes: those at a
// node are at[ptr[node]:ptr[node+1]].
func branchesAt(nodes int, edges []edge, use func(int) bool) (at, ptr []int) {
	ptr = make([]int, nodes+1)
	in := make([]bool, len(edges))
	for i, e := range edges {
		if e.a != e.b && use(i) {
			in[i] = true
			ptr[e.a]++
			ptr[e.b]++
		}
	}
	total := 0
	for node, n := range ptr {
		total += n
		ptr[node] = total
	}
	at = make([]int, total)
	for i := len(edges) - 1; i >= 0; i-- {
		if !in[i] {
			continue
		}
		for _, node := range [2]int{edges[i].a, edges[i].b} {
			ptr[node]--
			at[ptr[node]] = i
		}
	}
	return at, ptr
}

// blockWalk goes through the branches depth first, without recursion: a harness
// may be one chain of any length.
type blockWalk struct {
	*blocks
	at, ptr, next []int // branches at the nodes; the next to go at each node
	low           []int // node → least depth reached from behind it
	pending       []int // branches of blocks not complete yet
	count         int   // blocks found
}

// from finds the blocks of all that hangs together with a node.
func (w *blockWalk) from(root int) {
	w.depth[root], w.low[root] = 0, 0
	stack := []int{root}
	for len(stack) > 0 {
		node := stack[len(stack)-1]
		if w.next[node] < w.ptr[node+1] {
			i := w.at[w.next[node]]
			w.next[node]++
			if to := w.other(i, node); w.step(node, to, i) {
				stack = append(stack, to)
			}
			continue
		}
		stack = stack[:len(stack)-1]
		if len(stack) == 0 {
			return
		}
		up := stack[len(stack)-1]
		w.low[up] = min(w.low[up], w.low[node])
		if w.low[node] >= w.depth[up] {
			w.close(w.parent[node])
		}
	}
}

// step looks along a branch; it reports whether the other node is new.
func (w *blockWalk) step(node, to, branch int) bool {
	switch {
	case branch == w.parent[node]:
	case w.depth[to] < 0:
		w.depth[to], w.parent[to] = w.depth[node]+1, branch
		w.low[to] = w.depth[to]
		w.pending = append(w.pending, branch)
		return true
	case w.depth[to] < w.depth[node]:
		w.pending = append(w.pending, branch)
		w.low[node] = min(w.low[node], w.depth[to])
	}
	return false
}

// close makes a block of everything since a branch.
func (w *blockWalk) close(first int) {
	for {
		i := w.pending[len(w.pending)-1]
		w.pending = w.pending[:len(w.pending)-1]
		w.of[i] = w.count
		if i == first {
			break
		}
	}
	w.count++
}

// between returns the blocks every way from one node to another leads through;
// false when there is no way.
func (b *blocks) between(from, to int) (map[int]bool, bool) {
	on := map[int]bool{}
	for from != to {
		if b.depth[from] < b.depth[to] {
			from, to = to, from
		}
		i := b.parent[from]
		if i < 0 {
			return nil, false
		}
		on[b.of[i]] = true
		from = b.other(i, from)
	}
	return on, true
}
