package check

// stems are the branches of a feed that lead from a core to loose ends: what
// flows in one flows in all before it, and their resistances add up.
type stems struct {
	up   []int     // node → branch that leads towards the core, -1 in the core
	root []int     // node → where its stem leaves the core, itself in the core
	sum  []float64 // node → resistance from there, Ω
}

// strip takes loose ends away, one after the other, until sources, metal and
// loops are left.
func (p *prospect) strip() {
	n := p.n
	p.stems = stems{make([]int, len(n.Nodes)), make([]int, len(n.Nodes)), make([]float64, len(n.Nodes))}
	degree := make([]int, len(n.Nodes))
	for i := range n.Nodes {
		p.up[i], p.root[i] = -1, i
		if n.Nodes[i].Ground != "" || i == n.Reference {
			degree[i]++ // stays
		}
	}
	for i, ohm := range p.ohm {
		if ohm > 0 {
			degree[n.Branches[i].A]++
			degree[n.Branches[i].B]++
		}
	}
	for _, s := range p.emf {
		degree[n.Branches[s.branch].A] += 2
		degree[n.Branches[s.branch].B] += 2
	}
	var order, todo []int
	for i, d := range degree {
		if d == 1 && n.Nodes[i].Ground == "" && i != n.Reference {
			todo = append(todo, i)
		}
	}
	for len(todo) > 0 {
		node := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		if degree[node] != 1 {
			continue // the other end of the last line was taken first
		}
		for _, i := range n.At(node) {
			to := n.Branches[i].Other(node)
			if p.ohm[i] == 0 || p.up[to] == i {
				continue
			}
			p.up[node] = i
			order = append(order, node)
			degree[node]--
			if degree[to]--; degree[to] == 1 && n.Nodes[to].Ground == "" && to != n.Reference {
				todo = append(todo, to)
			}
			break
		}
	}
	for k := len(order) - 1; k >= 0; k-- {
		node := order[k]
		to := n.Branches[p.up[node]].Other(node)
		p.root[node], p.sum[node] = p.root[to], p.sum[to]+p.ohm[p.up[node]]
	}
}
