package dc

import "math"

// marks say what has to be computed again. With a column all above it in the elimination tree are marked, but for what
// is pushed into a single one.
type marks struct {
	column  columnSet // whose numbers in the factor
	carried columnSet // whose carried current
	pushed  columnSet // what the elements push into which
}

// columnSet is a set of columns, one bit each.
type columnSet []uint64

func (b columnSet) has(j int32) bool { return b[j>>6]&(1<<(j&63)) != 0 }
func (b columnSet) add(j int32)      { b[j>>6] |= 1 << (j & 63) }

// all makes room for the columns below size and marks them.
func (m *marks) all(size int) {
	for _, set := range []*columnSet{&m.column, &m.carried, &m.pushed} {
		*set = resize(*set, (size+63)/64)
		for i := range *set {
			(*set)[i] = math.MaxUint64
		}
		if tail := size & 63; tail != 0 {
			(*set)[len(*set)-1] = 1<<tail - 1
		}
	}
}

// conductance marks what depends on a conductance between two positions.
func (m *marks) conductance(s *symbolic, at ends) {
	for j := min(at.a, at.b); j != none && !m.column.has(j); j = s.parent[j] {
		m.column.add(j)
		m.carried.add(j)
	}
}

// push marks what depends on the currents pushed into two positions.
func (m *marks) push(s *symbolic, at ends) {
	for _, j := range [2]int32{at.a, at.b} {
		if j == s.size {
			continue
		}
		m.pushed.add(j)
		for ; j != none && !m.carried.has(j); j = s.parent[j] {
			m.carried.add(j)
		}
	}
}
