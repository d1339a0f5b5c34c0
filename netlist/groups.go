package netlist

// Groups are the numbers below a count, joined as circuits join their
// nodes or nets. The least number of a group stands for it.
type Groups []int

// NewGroups returns n groups of one number each.
func NewGroups(n int) Groups {
	g := make(Groups, n)
	for i := range g {
		g[i] = i
	}
	return g
}

// Of returns the number that stands for the group of i.
func (g Groups) Of(i int) int {
	for g[i] != i {
		g[i] = g[g[i]]
		i = g[i]
	}
	return i
}

// Join makes the groups of a and b one.
func (g Groups) Join(a, b int) {
	a, b = g.Of(a), g.Of(b)
	g[max(a, b)] = min(a, b)
}
