package netlist

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// The search for shorts through contacts tries ways of up to mostContacts
// contacts and diodes, mostSteps steps for each source, and tells mostShorts.
const (
	mostContacts = 6
	mostSteps    = 20000
	mostShorts   = 8
)

// Shorts finds the ways from the plus to the minus of a source that lead
// through no load: those of wires, joints and fuses alone, and those through
// contacts and drivers that can be closed at the same time. It looks at every
// part's positions, but for relays only at what their contacts allow: whether
// the coil can be energised meanwhile is not asked.
func (n *Netlist) Shorts() []Oddity {
	zone := NewGroups(len(n.Nodes))
	for i := range n.Branches {
		if br := &n.Branches[i]; br.hard() {
			zone.Join(br.A, br.B)
		}
	}
	edges := map[int][]int{} // zone → contacts and diodes that leave it
	for i := range n.Branches {
		br := &n.Branches[i]
		a, b := zone.Of(br.A), zone.Of(br.B)
		if a == b || !br.switched() && !br.oneWay() {
			continue
		}
		edges[a] = append(edges[a], i)
		if !br.oneWay() {
			edges[b] = append(edges[b], i)
		}
	}
	var out []Oddity
	for i := range n.Branches {
		br := &n.Branches[i]
		if !br.IsSource() || br.A == br.B {
			continue
		}
		from, to := zone.Of(br.A), zone.Of(br.B)
		if from == to {
			way, _ := n.fewest(br.A, br.B, (*Branch).hard)
			out = append(out, Oddity{Kind: OddShort, Branches: way, Nodes: []int{br.A, br.B},
				Text: fmt.Sprintf("%s is shorted by %s.", br.Name(), n.through(way))})
			continue
		}
		s := shortSearch{n: n, zone: zone, edges: edges, goal: to, near: distances(n, zone, edges, to), held: map[string]stance{}}
		for s.depth = 1; s.depth <= mostContacts && len(s.found) < mostShorts; s.depth++ {
			s.walk(from, map[int]bool{from: true})
		}
		for _, f := range s.found {
			kind, text := OddSwitchShort, fmt.Sprintf("%s is shorted through %s", br.Name(), n.through(f.way))
			if f.when == "" {
				kind = OddDiodeShort
			} else {
				text += " when " + f.when
			}
			out = append(out, Oddity{Kind: kind, Branches: f.way, Nodes: []int{br.A, br.B}, Text: text + "."})
		}
	}
	return out
}

// stance is what contacts used on a way ask of the part that moves them.
type stance struct {
	positions []string // of a switch that all its contacts used allow
	energised bool     // of a relay coil
	words     string
}

type short struct {
	way  []int
	when string
}

// shortSearch walks from a source's plus through contacts that can be closed
// together.
type shortSearch struct {
	n     *Netlist
	zone  Groups
	edges map[int][]int
	goal  int
	near  map[int]int // zone → fewest contacts to the goal
	depth int
	steps int
	path  []int
	held  map[string]stance // by part and coil
	found []short
}

func (s *shortSearch) walk(at int, been map[int]bool) {
	if at == s.goal {
		if len(s.path) == s.depth {
			s.add()
		}
		return
	}
	for _, i := range s.edges[at] {
		br := &s.n.Branches[i]
		to := s.zone.Of(br.A)
		if to == at {
			to = s.zone.Of(br.B)
		}
		far, ok := s.near[to]
		if s.steps++; s.steps > mostSteps || len(s.found) >= mostShorts {
			return
		}
		if !ok || been[to] || len(s.path)+1+far > s.depth {
			continue
		}
		key, had, before, ok := s.hold(br)
		if !ok {
			continue
		}
		been[to] = true
		s.path = append(s.path, i)
		s.walk(to, been)
		s.path = s.path[:len(s.path)-1]
		delete(been, to)
		if had {
			s.held[key] = before
		} else {
			delete(s.held, key)
		}
	}
}

// hold asks the part of a contact to close it beside what it is asked already.
func (s *shortSearch) hold(br *Branch) (key string, had bool, before stance, ok bool) {
	if br.oneWay() {
		return "", false, stance{}, true
	}
	key = br.Part.ID.String() + "/" + br.Element.Coil
	var want stance
	switch {
	case br.Element.Coil != "":
		want.energised = !br.Element.Break
		want.words = br.Part.Name + " has pulled in"
		if !want.energised {
			want.words = br.Part.Name + " is at rest"
		}
	case len(br.Element.In) > 0:
		want.positions = br.Element.In
	default: // a driver
		key += br.Name()
		want.words = br.Name() + " is on"
	}
	before, had = s.held[key]
	if had {
		if before.energised != want.energised {
			return key, had, before, false
		}
		if want.positions != nil {
			want.positions = slices.DeleteFunc(slices.Clone(before.positions), func(p string) bool { return !slices.Contains(want.positions, p) })
			if len(want.positions) == 0 {
				return key, had, before, false
			}
		}
	}
	if len(want.positions) > 0 {
		want.words = fmt.Sprintf("%s is at %q", br.Part.Name, want.positions[0])
	}
	s.held[key] = want
	return key, had, before, true
}

// add takes a way found, unless a part of its contacts does it already.
func (s *shortSearch) add() {
	for _, f := range s.found {
		if !slices.ContainsFunc(f.way, func(i int) bool { return !slices.Contains(s.path, i) }) {
			return
		}
	}
	var when []string
	for _, st := range s.held {
		if st.words != "" {
			when = append(when, st.words)
		}
	}
	slices.Sort(when)
	s.found = append(s.found, short{slices.Clone(s.path), listOf(slices.Compact(when))})
}

// distances counts the contacts from every zone to a goal.
func distances(n *Netlist, zone Groups, edges map[int][]int, goal int) map[int]int {
	into := map[int][]int{} // zone → zones one contact away, against the current
	for _, from := range slices.Sorted(maps.Keys(edges)) {
		for _, i := range edges[from] {
			to := zone.Of(n.Branches[i].A)
			if to == from {
				to = zone.Of(n.Branches[i].B)
			}
			into[to] = append(into[to], from)
		}
	}
	dist := map[int]int{goal: 0}
	for todo := []int{goal}; len(todo) > 0; todo = todo[1:] {
		for _, z := range into[todo[0]] {
			if _, seen := dist[z]; !seen {
				dist[z] = dist[todo[0]] + 1
				todo = append(todo, z)
			}
		}
	}
	return dist
}

// fewest returns the fewest branches that lead from one node to another, in
// order, of those a current may go through; false when there is no way.
func (n *Netlist) fewest(from, to int, passes func(*Branch) bool) ([]int, bool) {
	by := map[int]int{from: -1}
	for todo := []int{from}; len(todo) > 0; todo = todo[1:] {
		node := todo[0]
		if node == to {
			var way []int
			for node != from {
				way = append(way, by[node])
				node = n.Branches[by[node]].Other(node)
			}
			slices.Reverse(way)
			return way, true
		}
		for _, i := range n.at[node] {
			br := &n.Branches[i]
			if _, seen := by[br.Other(node)]; !seen && passes(br) {
				by[br.Other(node)] = i
				todo = append(todo, br.Other(node))
			}
		}
	}
	return nil, false
}

// through lists the branches of a way in order.
func (n *Netlist) through(way []int) string {
	var names []string
	for _, i := range way {
		names = append(names, n.Branches[i].Name())
	}
	if len(names) > 6 {
		names = append(names[:6], fmt.Sprintf("%d more", len(names)-6))
	}
	return strings.Join(slices.Compact(names), ", ")
}
