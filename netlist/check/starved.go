package check

import (
	"slices"

	"loomwright/netlist"
)

// shaded returns, by branch, the loads of unknown current that would draw
// through it in some operating state: its own current is more than the figures
// say, so a small one is no pass.
func (r *run) shaded() map[int][]int {
	if r.shades != nil {
		return r.shades
	}
	r.shades = map[int][]int{}
	for _, s := range r.usable() {
		r.shade(s, r.shades)
	}
	for i := range r.shades {
		slices.Sort(r.shades[i])
		r.shades[i] = slices.Compact(r.shades[i])
	}
	return r.shades
}

// shade enters what the loads would draw through in one operating state: all
// that lies on some way from one pin of the load to the other, not through
// other loads.
func (r *run) shade(s *netlist.Solution, shades map[int][]int) {
	var loads []int
	for i := range r.n.Branches {
		if br := &r.n.Branches[i]; br.IsLoad() && len(br.Missing) > 0 {
			loads = append(loads, i)
		}
	}
	if len(loads) == 0 {
		return
	}
	b := findBlocks(len(r.n.Nodes), r.edges(), func(i int) bool {
		br := &r.n.Branches[i]
		return s.Closed[i] && (isLine(br) || br.IsSource())
	})
	source := map[int]bool{}
	members := map[int][]int{}
	for i, block := range b.of {
		if block >= 0 {
			members[block] = append(members[block], i)
			source[block] = source[block] || r.n.Branches[i].IsSource()
		}
	}
	for _, load := range loads {
		on, ok := b.between(r.n.Branches[load].A, r.n.Branches[load].B)
		if !ok {
			continue
		}
		fed := false
		for block := range on {
			fed = fed || source[block]
		}
		if !fed {
			continue // two pins at the same potential
		}
		for block := range on {
			for _, i := range members[block] {
				shades[i] = append(shades[i], load)
			}
		}
	}
}

// starved reports whether a branch carries less in the figures than it will.
func (r *run) starved(branch int) bool { return len(r.shaded()[branch]) > 0 }
