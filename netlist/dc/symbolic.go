package dc

import "slices"

// symbolic is everything about the factor that depends on what is connected to what, not on values. Nodes are
// renumbered to positions: 0..size-1 in the order of elimination, the reference, if any, at position size.
type symbolic struct {
	size     int32
	position []int32 // by node
	node     []Node  // by position
	ends     []ends  // by element

	parent []int32 // elimination tree: the next column that column j changes, none at a root

	// The pattern of the factor below the diagonal, by column and by row.
	colPtr, rows   []int32
	rowPtr         []int32
	rowCol, rowPos []int32 // column, and place of the entry in that column
}

// ends are the positions of the two nodes of an element.
type ends struct{ a, b int32 }

// analyse renumbers the nodes and finds the pattern of the factor. Open elements are part of it, so that closing one
// needs no new analysis.
func (n *Network) analyse() {
	s := &n.sym
	size := int32(n.nodes)
	if n.reference != NoNode {
		size--
	}
	s.size = size
	// First numbering: as they come, without the reference.
	s.position = make([]int32, n.nodes)
	next := int32(0)
	for v := range s.position {
		if Node(v) == n.reference {
			s.position[v] = size
			continue
		}
		s.position[v] = next
		next++
	}
	count := len(n.kind) - len(n.sources)
	from, to := make([]int32, 0, count), make([]int32, 0, count)
	for e, k := range n.kind {
		if k != KindCurrent {
			from = append(from, s.position[n.a[e]])
			to = append(to, s.position[n.b[e]])
		}
	}
	g := newGraph(size, from, to)

	order, entries := eliminationOrder(g, n.sourceEnds())
	parent := eliminationTree(g, order, invert(order))
	var post []int32
	if entries < levelsBelow*int(size) {
		post = levelOrder(order, parent, laterElements(from, to, order))
	} else {
		post = postorder(parent)
	}
	// Second numbering, for the sake of memory.
	s.parent = make([]int32, size)
	final := make([]int32, size+1)
	final[size] = size
	place := invert(post)
	for j, old := range post {
		s.parent[j] = none
		if p := parent[old]; p != none {
			s.parent[j] = place[p]
		}
		post[j] = order[old]
		final[post[j]] = int32(j)
	}
	s.node = make([]Node, n.nodes)
	for v, p := range s.position {
		s.position[v] = final[p]
		s.node[final[p]] = Node(v)
	}
	s.ends = make([]ends, len(n.kind))
	for e := range s.ends {
		s.ends[e] = ends{s.position[n.a[e]], s.position[n.b[e]]}
	}
	s.findPattern(g, post, final)
}

// maxLate is how many nodes may be put last in the order.
const maxLate = 8

// sourceEnds returns the vertices with voltage sources, if they are few. At the end of the order they keep the current
// that a source would drive through a short circuit, which the factor works with, from being carried through nodes
// with small currents, whose digits it would cover.
func (n *Network) sourceEnds() []int32 {
	late := make([]int32, 0, maxLate+2)
	for _, e := range n.voltages {
		for _, v := range [2]int32{n.sym.position[n.a[e]], n.sym.position[n.b[e]]} {
			if v < n.sym.size && !slices.Contains(late, v) {
				late = append(late, v)
			}
		}
		if len(late) > maxLate {
			return nil
		}
	}
	return late
}

func invert(perm []int32) []int32 {
	inv := make([]int32, len(perm))
	for i, v := range perm {
		inv[v] = int32(i)
	}
	return inv
}

// eliminationTree returns the parent of each column (J. Liu, "The role of elimination trees in sparse factorization",
// SIAM J. Matrix Anal. Appl. 11 (1990) 134-172). order lists the vertices, place is its inverse.
func eliminationTree(g graph, order, place []int32) []int32 {
	parent := make([]int32, len(order))
	ancestor := make([]int32, len(order))
	for j, v := range order {
		j := int32(j)
		parent[j], ancestor[j] = none, none
		for _, u := range g.adj[g.ptr[v]:g.ptr[v+1]] {
			for k := place[u]; k < j; {
				up := ancestor[k]
				if up == j {
					break
				}
				ancestor[k] = j
				if up == none {
					parent[k] = j
					break
				}
				k = up
			}
		}
	}
	return parent
}

// findPattern finds the entries of the factor row by row: row i holds every column on the way up the tree from its
// neighbours to i. order lists the vertices by position, place is its inverse.
func (s *symbolic) findPattern(g graph, order, place []int32) {
	m := s.size
	s.colPtr = make([]int32, m+1)
	s.rowPtr = make([]int32, m+1)
	s.rowCol = make([]int32, 0, len(g.adj)/2)
	reached := make([]int32, m)
	for i := range m {
		reached[i] = i
		v := order[i]
		for _, u := range g.adj[g.ptr[v]:g.ptr[v+1]] {
			for k := place[u]; k < i && reached[k] != i; k = s.parent[k] {
				reached[k] = i
				s.rowCol = append(s.rowCol, k)
				s.colPtr[k+1]++
			}
		}
		s.rowPtr[i+1] = int32(len(s.rowCol))
	}
	for j := range m {
		s.colPtr[j+1] += s.colPtr[j]
	}
	s.rows = make([]int32, len(s.rowCol))
	s.rowPos = make([]int32, len(s.rowCol))
	next := reached
	copy(next, s.colPtr)
	for i := range m {
		for q := s.rowPtr[i]; q < s.rowPtr[i+1]; q++ {
			p := next[s.rowCol[q]]
			next[s.rowCol[q]]++
			s.rows[p] = i
			s.rowPos[q] = p
		}
	}
}
