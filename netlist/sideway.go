package netlist

// SideWay is a way beside the main one of a traced circuit, in the direction of
// the current.
type SideWay struct {
	Fork  int // node where it leaves the main way or an earlier side way; else where a source or another circuit feeds it
	Join  int // node where it meets the main way or an earlier side way again; else where it ends at a source
	Forks bool
	Joins bool
	Steps []Step
}

// sideWays puts the branches beside a main way in order: along the main way,
// then along each way found, those that leave it in the order of the branches;
// last what feeds the circuit from elsewhere.
func (s *Solution) sideWays(main []Step, side []int) []SideWay {
	left := make(map[int]bool, len(side))
	for _, i := range side {
		left[i] = true
	}
	on := map[int]bool{}
	var nodes []int
	visit := func(steps []Step) {
		for _, st := range steps {
			for _, node := range []int{st.From, st.To} {
				if !on[node] {
					on[node] = true
					nodes = append(nodes, node)
				}
			}
		}
	}
	visit(main)
	var out []SideWay
	for at := 0; at < len(nodes) || len(left) > 0; {
		if at == len(nodes) {
			out = append(out, s.sideWay(s.springOf(side, left), left, on, false))
			visit(out[len(out)-1].Steps)
			continue
		}
		for _, i := range s.Netlist.At(nodes[at]) {
			if left[i] && s.tail(i) == nodes[at] {
				out = append(out, s.sideWay(i, left, on, true))
				visit(out[len(out)-1].Steps)
			}
		}
		at++
	}
	return out
}

// sideWay follows the largest currents from a branch on until something met
// before, or the end.
func (s *Solution) sideWay(i int, left, on map[int]bool, forks bool) SideWay {
	w := SideWay{Fork: s.tail(i), Forks: forks}
	been := map[int]bool{w.Fork: true}
	for {
		delete(left, i)
		node := s.head(i)
		w.Steps = append(w.Steps, Step{Branch: i, From: s.tail(i), To: node})
		w.Join = node
		if on[node] || been[node] {
			w.Joins = on[node]
			return w
		}
		been[node] = true
		i = -1
		for _, j := range s.Netlist.At(node) {
			if left[j] && s.tail(j) == node && (i < 0 || s.carriesMore(j, i)) {
				i = j
			}
		}
		if i < 0 {
			return w
		}
	}
}

// springOf returns the first branch left that no other one left leads into.
func (s *Solution) springOf(side []int, left map[int]bool) int {
	first := -1
	for _, i := range side {
		if !left[i] {
			continue
		}
		if first < 0 {
			first = i
		}
		fed := false
		for _, j := range s.Netlist.At(s.tail(i)) {
			fed = fed || left[j] && j != i && s.head(j) == s.tail(i)
		}
		if !fed {
			return i
		}
	}
	return first
}
