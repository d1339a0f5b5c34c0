package dc

// symbolic is everything about the factor that depends on what is connected to what, not on values. Nodes are
// renumbered to positions: 0..size-1 in the order of elimination, the reference, if any, at position size.
type symbolic struct {
	size     int32
	position []int32 // by node
	ends     []ends  // by element
	column   []int32 // by element: the column of the matrix it stands in, none for a current source

	parent []int32 // elimination tree: the next column that column j changes, none at a root

	// The pattern of the factor below the diagonal, by column and by row.
	colPtr, rows   []int32
	rowPtr         []int32
	rowCol, rowPos []int32 // column, and place of the entry in that column

	// The elements of each column of the matrix, with the row they stand in.
	elemPtr, elem, elemRow []int32
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

	order := eliminationOrder(g)
	place := invert(order)
	parent := eliminationTree(g, order, place)
	post := postorder(parent)
	// Second numbering: children right before their parents, so that neighbours are near in memory.
	postPlace := invert(post)
	s.parent = make([]int32, size)
	for j, old := range post {
		s.parent[j] = none
		if p := parent[old]; p != none {
			s.parent[j] = postPlace[p]
		}
	}
	final := make([]int32, size+1)
	for v := range size {
		final[v] = postPlace[place[v]]
	}
	final[size] = size
	for v, p := range s.position {
		s.position[v] = final[p]
	}
	for j, old := range post {
		post[j] = order[old]
	}
	s.findPattern(g, post, final)
	s.sortElements(n)
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

// postorder lists the columns so that every subtree is a run that ends with its root.
func postorder(parent []int32) []int32 {
	m := int32(len(parent))
	first, next := make([]int32, m), make([]int32, m)
	for v := range first {
		first[v] = none
	}
	for v := m - 1; v >= 0; v-- {
		if p := parent[v]; p != none {
			next[v] = first[p]
			first[p] = v
		}
	}
	post := make([]int32, 0, m)
	stack := make([]int32, 0, 64)
	for root := range m {
		if parent[root] != none {
			continue
		}
		stack = append(stack, root)
		for len(stack) > 0 {
			v := stack[len(stack)-1]
			if c := first[v]; c != none {
				first[v] = none
				for ; c != none; c = next[c] {
					stack = append(stack, c)
				}
				continue
			}
			stack = stack[:len(stack)-1]
			post = append(post, v)
		}
	}
	return post
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

// sortElements files the elements under the columns of the matrix.
func (s *symbolic) sortElements(n *Network) {
	s.ends = make([]ends, len(n.kind))
	s.column = make([]int32, len(n.kind))
	s.elemPtr = make([]int32, s.size+1)
	for e, k := range n.kind {
		a, b := s.position[n.a[e]], s.position[n.b[e]]
		s.ends[e] = ends{a, b}
		s.column[e] = none
		if k != KindCurrent {
			s.column[e] = min(a, b)
			s.elemPtr[min(a, b)]++
		}
	}
	total := int32(0)
	for j := range s.size {
		total += s.elemPtr[j]
		s.elemPtr[j] = total
	}
	s.elemPtr[s.size] = total
	s.elem = make([]int32, total)
	s.elemRow = make([]int32, total)
	for e := len(n.kind) - 1; e >= 0; e-- {
		j := s.column[e]
		if j == none {
			continue
		}
		s.elemPtr[j]--
		s.elem[s.elemPtr[j]] = int32(e)
		s.elemRow[s.elemPtr[j]] = max(s.ends[e].a, s.ends[e].b)
	}
}
