package dc

import (
	"math"
	"slices"
)

// minimumDegree orders the vertices of g by approximate minimum degree, with those in last at the end. entries is a bound of
// the entries that the columns of all but these and the densest will have.
//
// Source: P. Amestoy, T. Davis, I. Duff, "An approximate minimum degree ordering algorithm", SIAM J. Matrix Anal.
// Appl. 17 (1996) 886-905. The graph of what is left is kept as a quotient graph: each eliminated pivot becomes a
// clique that is stored as one list of its members. Vertices that have become indistinguishable are merged and
// eliminated together.
func minimumDegree(g graph, last []int32) (order []int32, entries int) {
	q := newQuotient(g, last)
	for q.left > 0 {
		q.eliminate()
	}
	return append(append(q.order, q.dense...), last...), q.entries
}

// quotient is the quotient graph. A live vertex v has the list iw[start[v]:], first cliques[v] numbers of cliques,
// then vertices[v] numbers of neighbour vertices. A live clique e has the list iw[start[e]:end[e]] of members.
type quotient struct {
	iw         []int32
	start, end []int32
	cliques    []int32
	vertices   []int32
	weight     []int32 // vertices merged into this one; negative while it is a member of the pivot's clique; 0: gone
	degree     []int32 // of a vertex: bound of its degree; of a clique: weight of its members
	alive      []bool  // clique not yet absorbed

	outside      []int32 // of a clique: weight of its members outside the pivot's clique, valid if outsideRound fits
	outsideRound []int32
	seen         []int32 // marks for comparing lists
	round, mark  int32

	head, next, prev []int32 // vertices by degree
	low              int32   // no vertex has a smaller degree

	bucket, bucketNext []int32 // vertices of the pivot's clique by hash
	hash               []uint32

	mergedNext, mergedLast []int32 // the vertices merged into each, as a list

	order []int32
	dense []int32
	left  int32 // vertices not yet eliminated

	entries int // so far, of the columns eliminated
}

func newQuotient(g graph, last []int32) *quotient {
	m := g.len()
	block := make([]int32, 16*int(m))
	row := func() []int32 {
		r := block[:m:m]
		block = block[m:]
		return r
	}
	q := &quotient{
		iw:    slices.Grow(slices.Clone(g.adj), len(g.adj)),
		start: row(), end: row(), cliques: row(), vertices: row(), weight: row(), degree: row(),
		alive:   make([]bool, m),
		outside: row(), outsideRound: row(), seen: row(),
		head: row(), next: row(), prev: row(),
		bucket: row(), bucketNext: row(), mergedNext: row(), mergedLast: row(),
		hash:  make([]uint32, m),
		order: make([]int32, 0, m),
	}
	// A vertex that touches a great part of the graph goes last: updating its long lists at every step would cost more
	// than the fill it makes.
	limit := max(16, int32(10*math.Sqrt(float64(m))))
	for v := range m {
		q.head[v], q.bucket[v], q.mergedNext[v], q.mergedLast[v] = none, none, none, v
	}
	for v := m - 1; v >= 0; v-- {
		q.start[v] = g.ptr[v]
		q.vertices[v] = g.ptr[v+1] - g.ptr[v]
		q.weight[v] = 1
		q.degree[v] = q.vertices[v]
		if slices.Contains(last, v) {
			q.weight[v] = 0
			continue
		}
		if q.degree[v] > limit {
			q.weight[v] = 0
			q.dense = append(q.dense, v)
			continue
		}
		q.link(v)
		q.left++
	}
	slices.SortStableFunc(q.dense, func(u, v int32) int { return int(q.degree[u] - q.degree[v]) })
	return q
}

func (q *quotient) link(v int32) {
	d := q.degree[v]
	q.prev[v], q.next[v] = none, q.head[d]
	if q.head[d] != none {
		q.prev[q.head[d]] = v
	}
	q.head[d] = v
	q.low = min(q.low, d)
}

func (q *quotient) unlink(v int32) {
	if q.prev[v] != none {
		q.next[q.prev[v]] = q.next[v]
	} else {
		q.head[q.degree[v]] = q.next[v]
	}
	if q.next[v] != none {
		q.prev[q.next[v]] = q.prev[v]
	}
}

// eliminate takes one vertex of smallest degree, with all merged into it, and puts its clique in its place.
func (q *quotient) eliminate() {
	for q.head[q.low] == none {
		q.low++
	}
	pivot := q.head[q.low]
	q.unlink(pivot)
	merged := int(q.weight[pivot])
	q.left -= q.weight[pivot]
	q.weight[pivot] = 0
	begin, end := q.formClique(pivot)
	q.measureOverlap(begin, end)
	q.updateMembers(pivot, begin, end)
	q.mergeAlike(begin, end)
	q.finishClique(pivot, begin, end)
	q.entries += merged * (int(q.degree[pivot]) + merged/2)
	for v := pivot; v != none; v = q.mergedNext[v] {
		q.order = append(q.order, v)
	}
}

// formClique lists all neighbours of the pivot, negates their weights as a mark, and absorbs the pivot's cliques.
func (q *quotient) formClique(pivot int32) (begin, end int32) {
	p := q.start[pivot]
	inPlace := q.cliques[pivot] == 0
	if inPlace {
		begin, end = p, p
	} else {
		begin = int32(len(q.iw))
		end = begin
	}
	take := func(v int32) {
		if q.weight[v] <= 0 {
			return
		}
		q.weight[v] = -q.weight[v]
		q.unlink(v)
		if inPlace {
			q.iw[end] = v
		} else {
			q.iw = append(q.iw, v)
		}
		end++
	}
	for i := p; i < p+q.cliques[pivot]; i++ {
		e := q.iw[i]
		if !q.alive[e] {
			continue
		}
		for j := q.start[e]; j < q.end[e]; j++ {
			take(q.iw[j])
		}
		q.alive[e] = false
	}
	p += q.cliques[pivot]
	for i := p; i < p+q.vertices[pivot]; i++ {
		take(q.iw[i])
	}
	return begin, end
}

// measureOverlap finds, for every clique that touches the pivot's clique, the weight of its members outside of it.
func (q *quotient) measureOverlap(begin, end int32) {
	q.round++
	for p := begin; p < end; p++ {
		v := q.iw[p]
		for i := q.start[v]; i < q.start[v]+q.cliques[v]; i++ {
			e := q.iw[i]
			if !q.alive[e] {
				continue
			}
			if q.outsideRound[e] != q.round {
				q.outsideRound[e] = q.round
				q.outside[e] = q.degree[e]
			}
			q.outside[e] += q.weight[v] // the weight is negative
		}
	}
}

// updateMembers prunes the lists of the pivot's neighbours, puts the new clique into them and bounds their degrees.
// A neighbour with nothing outside the clique is eliminated together with the pivot.
func (q *quotient) updateMembers(pivot, begin, end int32) {
	for p := begin; p < end; p++ {
		v := q.iw[p]
		first := q.start[v]
		w := first
		sum, hash := int32(0), uint32(0)
		i := first
		for ; i < first+q.cliques[v]; i++ {
			e := q.iw[i]
			if !q.alive[e] {
				continue
			}
			if q.outside[e] <= 0 {
				q.alive[e] = false // the new clique covers it
				continue
			}
			sum += q.outside[e]
			q.iw[w] = e
			w++
			hash += uint32(e)
		}
		firstVertex := w
		for stop := i + q.vertices[v]; i < stop; i++ {
			u := q.iw[i]
			if q.weight[u] <= 0 {
				continue
			}
			sum += q.weight[u]
			q.iw[w] = u
			w++
			hash += uint32(u)
		}
		if sum == 0 {
			q.left += q.weight[v]
			q.weight[v] = 0
			q.append(pivot, v)
			continue
		}
		// There is room for the clique: the pivot or one of its cliques has just been dropped from this list.
		q.iw[w] = q.iw[firstVertex]
		q.iw[firstVertex] = q.iw[first]
		q.iw[first] = pivot
		q.cliques[v] = firstVertex - first + 1
		q.vertices[v] = w - firstVertex
		q.degree[v] = min(q.degree[v], sum)
		q.hash[v] = hash
		b := hash % uint32(len(q.bucket))
		q.bucketNext[v] = q.bucket[b]
		q.bucket[b] = v
	}
}

// mergeAlike merges members of the pivot's clique that have the same lists.
func (q *quotient) mergeAlike(begin, end int32) {
	for p := begin; p < end; p++ {
		v := q.iw[p]
		if q.weight[v] == 0 {
			continue
		}
		b := q.hash[v] % uint32(len(q.bucket))
		v = q.bucket[b]
		q.bucket[b] = none
		for ; v != none && q.bucketNext[v] != none; v = q.bucketNext[v] {
			q.mark++
			// The first entry is the new clique in all of them.
			for i := q.start[v] + 1; i < q.start[v]+q.cliques[v]+q.vertices[v]; i++ {
				q.seen[q.iw[i]] = q.mark
			}
			before := v
			for u := q.bucketNext[v]; u != none; u = q.bucketNext[u] {
				if !q.alike(v, u) {
					before = u
					continue
				}
				q.weight[v] += q.weight[u]
				q.weight[u] = 0
				q.append(v, u)
				q.bucketNext[before] = q.bucketNext[u]
			}
		}
	}
}

// alike reports whether the lists of u hold the same as those of v, whose entries are marked.
func (q *quotient) alike(v, u int32) bool {
	if q.cliques[u] != q.cliques[v] || q.vertices[u] != q.vertices[v] || q.hash[u] != q.hash[v] {
		return false
	}
	for i := q.start[u] + 1; i < q.start[u]+q.cliques[u]+q.vertices[u]; i++ {
		if q.seen[q.iw[i]] != q.mark {
			return false
		}
	}
	return true
}

// finishClique gives the remaining members their degrees and drops the others from the clique.
func (q *quotient) finishClique(pivot, begin, end int32) {
	total := int32(0)
	for p := begin; p < end; p++ {
		total -= q.weight[q.iw[p]]
	}
	w := begin
	for p := begin; p < end; p++ {
		v := q.iw[p]
		if q.weight[v] == 0 {
			continue
		}
		q.weight[v] = -q.weight[v]
		q.degree[v] = min(q.degree[v]+total-q.weight[v], q.left-q.weight[v])
		q.link(v)
		q.iw[w] = v
		w++
	}
	q.start[pivot], q.end[pivot] = begin, w
	q.degree[pivot] = total
	q.alive[pivot] = w > begin
}

// append puts u and all merged into it at the end of the list of v.
func (q *quotient) append(v, u int32) {
	q.mergedNext[q.mergedLast[v]] = u
	q.mergedLast[v] = q.mergedLast[u]
}
