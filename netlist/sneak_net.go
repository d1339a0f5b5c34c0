package netlist

import (
	"fmt"
	"maps"
	"slices"

	"loomwright/schematic"
)

// twoFuses lists the circuits that several fuses feed from one source in a
// state: what lies behind them stays live when one is pulled.
func (s *Solution) twoFuses() []Sneak {
	n := s.Netlist
	zone := NewGroups(len(n.Nodes))
	var fuses []int
	for i := range n.Branches {
		br := &n.Branches[i]
		switch {
		case br.Role == RoleElement && br.Element.Type == schematic.ElemFuse:
			fuses = append(fuses, i)
		case br.hard(), br.switched() && s.Closed[i]:
			zone.Join(br.A, br.B)
		}
	}
	if len(fuses) < 2 {
		return nil
	}
	g := newFuseGraph(s, zone, fuses)
	feeders := map[int][]int{} // zone → fuses that feed it
	for _, f := range g.looped(fuses) {
		a, b := zone.Of(n.Branches[f].A), zone.Of(n.Branches[f].B)
		if a == b || g.minus[a] || g.minus[b] {
			continue
		}
		for _, z := range [2][2]int{{a, b}, {b, a}} {
			if len(g.plus[z[0]]) == 0 && len(g.at[z[0]]) > 1 && len(g.sourcesOf(z[1], z[0])) > 0 {
				feeders[z[0]] = append(feeders[z[0]], f)
			}
		}
	}
	var out []Sneak
	for _, z := range slices.Sorted(maps.Keys(feeders)) {
		if x, ok := s.shared(g, z, feeders[z]); ok {
			out = append(out, x)
		}
	}
	return out
}

// shared makes a finding of a zone where two of its fuses get their current
// from the same source.
func (s *Solution) shared(g *fuseGraph, z int, fuses []int) (Sneak, bool) {
	n := s.Netlist
	var same []int
	for _, f := range fuses {
		for _, h := range fuses {
			if f != h && meet(g.sourcesOf(g.far(f, z), z), g.sourcesOf(g.far(h, z), z)) {
				same = append(same, f)
				break
			}
		}
	}
	if len(same) < 2 {
		return Sneak{}, false
	}
	at := n.Branches[same[0]].A
	if g.zone.Of(at) != z {
		at = n.Branches[same[0]].B
	}
	x := Sneak{Kind: SneakTwo, In: s, State: s.State, Fault: -1, Items: same, Pins: []int{at}, Path: s.TraceBranch(same[0]),
		Text: fmt.Sprintf("In %q %s feed the same circuit at %s: it stays live when one of them is pulled, and together they let through more than either.",
			s.State.Name, listOf(n.Names(same)), n.Nodes[at].Name)}
	return x, true
}

func meet(a, b map[int]bool) bool {
	for k := range a {
		if b[k] {
			return true
		}
	}
	return false
}

// fuseGraph is a harness as zones joined by fuses.
type fuseGraph struct {
	n     *Netlist
	zone  Groups
	at    map[int][]int // zone → fuses
	plus  map[int][]int // zone → sources whose plus lies in it
	minus map[int]bool
	memo  map[[2]int]map[int]bool
}

func newFuseGraph(s *Solution, zone Groups, fuses []int) *fuseGraph {
	n := s.Netlist
	g := &fuseGraph{n: n, zone: zone, at: map[int][]int{}, plus: map[int][]int{}, minus: map[int]bool{}, memo: map[[2]int]map[int]bool{}}
	for _, f := range fuses {
		a, b := zone.Of(n.Branches[f].A), zone.Of(n.Branches[f].B)
		if a != b {
			g.at[a], g.at[b] = append(g.at[a], f), append(g.at[b], f)
		}
	}
	for i := range n.Branches {
		if br := &n.Branches[i]; br.IsSource() && s.Closed[i] {
			z := zone.Of(br.A)
			g.plus[z] = append(g.plus[z], i)
			g.minus[zone.Of(br.B)] = true
		}
	}
	for z := range g.plus {
		delete(g.minus, z) // the link between two batteries in series
	}
	return g
}

// looped returns the fuses that may lie on a ring of fuses: those left when
// zones with a single fuse are taken away again and again. Most harnesses are
// trees and have none.
func (g *fuseGraph) looped(fuses []int) []int {
	count := map[int]int{}
	var ends []int
	for _, z := range slices.Sorted(maps.Keys(g.at)) {
		if count[z] = len(g.at[z]); count[z] == 1 {
			ends = append(ends, z)
		}
	}
	gone := map[int]bool{}
	for len(ends) > 0 {
		z := ends[len(ends)-1]
		ends = ends[:len(ends)-1]
		for _, f := range g.at[z] {
			if gone[f] {
				continue
			}
			gone[f] = true
			to := g.far(f, z)
			if count[to]--; count[to] == 1 {
				ends = append(ends, to)
			}
		}
	}
	return slices.DeleteFunc(slices.Clone(fuses), func(f int) bool { return gone[f] })
}

// far returns the zone at the other side of a fuse.
func (g *fuseGraph) far(fuse, z int) int {
	if a := g.zone.Of(g.n.Branches[fuse].A); a != z {
		return a
	}
	return g.zone.Of(g.n.Branches[fuse].B)
}

// sourcesOf returns the sources that feed a zone through fuses without going
// through another zone.
func (g *fuseGraph) sourcesOf(z, without int) map[int]bool {
	key := [2]int{z, without}
	if m, ok := g.memo[key]; ok {
		return m
	}
	out := map[int]bool{}
	seen := map[int]bool{z: true, without: true}
	for todo := []int{z}; len(todo) > 0; todo = todo[1:] {
		for _, src := range g.plus[todo[0]] {
			out[src] = true
		}
		for _, f := range g.at[todo[0]] {
			if to := g.far(f, todo[0]); !seen[to] && !g.minus[to] {
				seen[to] = true
				todo = append(todo, to)
			}
		}
	}
	g.memo[key] = out
	return out
}

// groundLoops lists sensor grounds and screens that reach battery negative
// without going through the unit that is to ground them.
func (n *Netlist) groundLoops() []Sneak {
	if n.Reference < 0 {
		return nil
	}
	var out []Sneak
	for i := range n.Nodes {
		node := &n.Nodes[i]
		signal := n.signalOf(node)
		if signal != "sensor-ground" && signal != "screen" {
			continue
		}
		way, ok := n.groundWay(i, node.Part)
		if !ok {
			continue
		}
		what := "The sensor ground "
		if signal == "screen" {
			what = "The screen at "
		}
		out = append(out, Sneak{Kind: SneakLoop, Fault: -1, Items: way, Pins: []int{i},
			Text: fmt.Sprintf("%s%s has a second way to ground, by %s: currents of others flow through it.", what, node.Name, n.through(way))})
	}
	return out
}

// signalOf returns what an own pin says it is for.
func (n *Netlist) signalOf(node *Node) string {
	if node.Part == nil || node.Inner {
		return ""
	}
	for _, i := range n.at[n.pins[node.Pin]] {
		if br := &n.Branches[i]; br.Pin != nil && br.Part == node.Part && br.Pin.Name == node.Pin.Pin {
			role, _ := br.Kind.Role(br.Pin.Role)
			return role.Signal
		}
	}
	return ""
}

// groundWay finds a way from a pin to battery negative through wires, plugs and
// joints of other parts.
func (n *Netlist) groundWay(from int, own *schematic.Part) ([]int, bool) {
	return n.fewest(from, n.Reference, func(br *Branch) bool {
		return br.sameNet() && (br.Part != own || br.Role != RoleElement)
	})
}
