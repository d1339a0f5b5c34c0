package check

import (
	"fmt"
	"slices"

	"loomwright/netlist"
)

// guard is what stands between a wire and the sources.
type guard struct {
	wire int // branch
	fed
}

// guards lists the guard of every wire that can be fed, in the order of the
// branches.
func (r *run) guards() []guard {
	if r.guarded != nil {
		return r.guarded
	}
	r.guarded = []guard{}
	z, s := r.zones(), r.sides()
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleWire || z.of(br.A) == ground {
			continue
		}
		f := z.feed(z.of(br.A))
		if f.amp == 0 || f.unfused() {
			continue // dead, or the business of another rule
		}
		r.guarded = append(r.guarded, guard{i, s.stronger(i, z.of(br.A))})
	}
	return r.guarded
}

// sides tells for every wire which fuses feed its zone on either side of it.
type sides struct {
	z       *zones
	bridge  []bool        // branch → its zone falls apart without it
	below   map[int][]int // bridge → feeding links on the side away from the root
	tip     map[int]int   // bridge with such links → its end away from the root
	feeders map[int][]int // zone → links that feed it
	memo    map[string]fed
}

func (r *run) sides() *sides {
	if r.side != nil {
		return r.side
	}
	z := r.zones()
	s := &sides{z: z, bridge: make([]bool, len(r.n.Branches)), below: map[int][]int{}, tip: map[int]int{}, feeders: map[int][]int{}, memo: map[string]fed{}}
	b := findBlocks(len(r.n.Nodes), r.edges(), func(i int) bool {
		br := &r.n.Branches[i]
		return carriesOn(br) && z.of(br.A) != ground && z.of(br.A) == z.of(br.B)
	})
	size := map[int]int{}
	for _, block := range b.of {
		if block >= 0 {
			size[block]++
		}
	}
	for i, block := range b.of {
		s.bridge[i] = block >= 0 && size[block] == 1
	}
	for zone := range z.live {
		if len(z.at[zone]) > 1 && !z.live[zone] {
			s.enter(r.n, b, zone)
		}
	}
	r.side = s
	return s
}

// enter finds the feeders of a zone and enters each at the bridges between it
// and the root of its zone.
func (s *sides) enter(n *netlist.Netlist, b *blocks, zone int) {
	z := s.z
	for _, l := range z.at[zone] {
		far := z.links[l].far(zone)
		if !z.live[far] && len(z.at[far]) == 1 || z.feedBy(zone, func(i int) bool { return i == l }).amp == 0 {
			continue
		}
		s.feeders[zone] = append(s.feeders[zone], l)
		br := &n.Branches[z.links[l].branch]
		node := br.A
		if z.of(node) != zone {
			node = br.B
		}
		for i := b.parent[node]; i >= 0; i = b.parent[node] {
			if s.bridge[i] {
				s.below[i], s.tip[i] = append(s.below[i], l), node
			}
			node = b.other(i, node)
		}
	}
}

// stronger returns what can come into a wire from the end that lets more
// through. Where both ends hang together without it, everything can.
func (s *sides) stronger(wire, zone int) fed {
	below, above, apart := s.ends(wire, zone)
	if !apart {
		return s.z.feed(zone)
	}
	if above.amp > below.amp {
		return above
	}
	return below
}

// ends returns what can come into a wire from its end away from the root and
// from the other; false where both ends hang together without it, or only one
// link feeds them.
func (s *sides) ends(wire, zone int) (below, above fed, apart bool) {
	all := s.feeders[zone]
	if len(all) < 2 || !s.bridge[wire] {
		return fed{}, fed{}, false
	}
	var rest []int
	for _, l := range all {
		if !slices.Contains(s.below[wire], l) {
			rest = append(rest, l)
		}
	}
	return s.by(zone, s.below[wire]), s.by(zone, rest), true
}

// by is what some of its links let into a zone; many wires ask the same.
func (s *sides) by(zone int, links []int) fed {
	key := fmt.Sprint(zone, links)
	f, ok := s.memo[key]
	if !ok {
		f = s.z.feedBy(zone, func(i int) bool { return slices.Contains(links, i) })
		s.memo[key] = f
	}
	return f
}
