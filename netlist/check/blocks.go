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
	// The branches at a node are at[ptr[node]:ptr[node+1]].
	ptr := make([]int, nodes+1)
	for i, e := range edges {
		b.of[i] = -2
		if e.a != e.b && use(i) {
			b.of[i] = -1
			ptr[e.a]++
			ptr[e.b]++
		}
	}
	total := 0
	for node, n := range ptr {
		total += n
		ptr[node] = total
	}
	at := make([]int, total)
	for i := len(edges) - 1; i >= 0; i-- {
		if b.of[i] == -2 {
			b.of[i] = -1
			continue
		}
		for _, node := range [2]int{edges[i].a, edges[i].b} {
			ptr[node]--
			at[ptr[node]] = i
		}
	}
	for i := range b.depth {
		b.depth[i], b.parent[i] = -1, -1
	}
	count := 0
	low, next := make([]int, nodes), slices.Clone(ptr)
	var pending, stack []int
	for root := range nodes {
		if b.depth[root] >= 0 {
			continue
		}
		b.depth[root] = 0
		low[root] = 0
		stack = append(stack[:0], root)
		for len(stack) > 0 {
			node := stack[len(stack)-1]
			if next[node] < ptr[node+1] {
				i := at[next[node]]
				next[node]++
				to := b.other(i, node)
				switch {
				case i == b.parent[node]:
				case b.depth[to] < 0:
					b.depth[to], b.parent[to] = b.depth[node]+1, i
					low[to] = b.depth[to]
					pending = append(pending, i)
					stack = append(stack, to)
				case b.depth[to] < b.depth[node]:
					pending = append(pending, i)
					low[node] = min(low[node], b.depth[to])
				}
				continue
			}
			stack = stack[:len(stack)-1]
			if len(stack) == 0 {
				break
			}
			up := stack[len(stack)-1]
			low[up] = min(low[up], low[node])
			if low[node] >= b.depth[up] {
				// Everything since the branch to node is one block.
				for {
					i := pending[len(pending)-1]
					pending = pending[:len(pending)-1]
					b.of[i] = count
					if i == b.parent[node] {
						break
					}
				}
				count++
			}
		}
	}
	return b
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
