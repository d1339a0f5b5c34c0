package netlist

import (
	"slices"

	"loomwright/schematic"
)

// needsOfLoads returns the sets of switch positions and drivers that the loads
// need to work, each once, small ones first. Where there are several ways to
// switch a load on, each counts. With it come the loads for which the search
// ended before its end, so that sets of theirs may be missing.
func (n *Netlist) needsOfLoads() (sets []need, missed []int) {
	f := newNeedFinder(n)
	var out []need
	seen := map[string]bool{}
	own := n.ownCircuits(nil, 0)
	for i := range n.Branches {
		br := &n.Branches[i]
		if !br.IsLoad() || br.A == br.B {
			continue
		}
		f.cut = false
		found := f.load(i, 0)
		if f.cut || len(found) == 0 && own[i] {
			missed = append(missed, i)
		}
		for _, s := range found {
			if key := s.String(); len(s) > 0 && !seen[key] {
				seen[key] = true
				out = append(out, s)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b need) int { return len(a) - len(b) })
	return out, missed
}

// needFinder walks from sources to loads and back through contacts.
type needFinder struct {
	n           *Netlist
	zone        Groups
	edges       map[int][]int // zone → contacts, diodes and loads that leave it
	plus, minus map[int]bool  // zones at sources
	busy        map[int]bool  // coils being looked at
	memo        map[int][]need
	cut         bool // the search did not look at everything
}

// The walk passes up to needDepth contacts on each side and tries needSteps
// steps and needWays ways for each load; relays that feed relays are followed
// relayDepth deep.
const (
	needDepth  = 6
	needSteps  = 4000
	needWays   = 4
	relayDepth = 5
)

func newNeedFinder(n *Netlist) *needFinder {
	f := &needFinder{n: n, zone: NewGroups(len(n.Nodes)), edges: map[int][]int{}, plus: map[int]bool{}, minus: map[int]bool{}, busy: map[int]bool{}, memo: map[int][]need{}}
	for i := range n.Branches {
		if br := &n.Branches[i]; br.hard() || br.Role == RoleElement && br.Element.Type == schematic.ElemResistor && !br.IsLoad() {
			f.zone.Join(br.A, br.B)
		}
	}
	for i := range n.Branches {
		br := &n.Branches[i]
		switch {
		case br.IsSource():
			f.plus[f.zone.Of(br.A)], f.minus[f.zone.Of(br.B)] = true, true
		case br.Role == RoleElement && br.Element.Type == schematic.ElemRegulator:
			f.plus[f.zone.Of(br.A)], f.minus[f.zone.Of(br.B)] = true, true // fed by the unit's own supply
		case br.switched(), br.Role == RoleElement && br.Element.Type == schematic.ElemDiode, br.IsLoad():
			for _, node := range []int{br.A, br.B} {
				z := f.zone.Of(node)
				f.edges[z] = append(f.edges[z], i)
			}
		}
	}
	return f
}

// load returns the sets by which a load gets current.
func (f *needFinder) load(i, deep int) []need {
	if got, ok := f.memo[i]; ok {
		return got
	}
	if deep > relayDepth {
		f.cut = true
		return nil
	}
	if f.busy[i] {
		return nil
	}
	f.busy[i] = true
	defer delete(f.busy, i)
	br := &f.n.Branches[i]
	var out []need
	for _, through := range []bool{false, true} { // by way of other loads only where there is no other
		for _, ends := range [][2]int{{br.A, br.B}, {br.B, br.A}} {
			up := f.ways(ends[0], f.plus, i, false, through, deep)
			if len(up) == 0 {
				continue
			}
			for _, a := range up {
				for _, b := range f.ways(ends[1], f.minus, i, true, through, deep) {
					s, ok := joined(a, b)
					switch {
					case ok && len(out) < needWays:
						out = append(out, s)
					case ok:
						f.cut = true
					}
				}
			}
		}
		if len(out) > 0 {
			break
		}
	}
	if deep == 0 {
		f.memo[i] = out
	}
	return out
}

func joined(a, b need) (need, bool) {
	if !a.agrees(b) {
		return nil, false
	}
	s := need{}
	for k, v := range a {
		s[k] = v
	}
	for k, v := range b {
		s[k] = v
	}
	return s, true
}

// ways returns the sets that lead from a node to one of some zones, the fewest
// contacts first. down says that the current flows that way, which diodes mind.
func (f *needFinder) ways(from int, goal map[int]bool, load int, down, through bool, deep int) []need {
	var out []need
	steps := 0
	been := map[int]bool{}
	var walk func(z, left int, have need)
	walk = func(z, left int, have need) {
		if goal[z] {
			if left == 0 {
				out = append(out, have)
			}
			return
		}
		if left == 0 {
			return
		}
		if len(out) >= needWays {
			f.cut = true
			return
		}
		been[z] = true
		defer delete(been, z)
		for _, i := range f.edges[z] {
			br := &f.n.Branches[i]
			to := f.zone.Of(br.A)
			if to == z {
				to = f.zone.Of(br.B)
			}
			if steps++; steps > needSteps {
				f.cut = true
				return
			}
			if i == load || been[to] || br.IsLoad() && !through {
				continue
			}
			if br.Element.Type == schematic.ElemDiode && (f.zone.Of(br.A) == z) != down {
				continue
			}
			for _, s := range f.edge(i, deep) {
				if next, ok := joined(have, s); ok {
					walk(to, left-1, next)
				}
			}
		}
	}
	for depth := 0; depth <= needDepth && len(out) == 0; depth++ {
		steps = 0
		walk(f.zone.Of(from), depth, need{})
	}
	return out
}

// edge returns the sets that close a contact; one empty set for what is always
// there.
func (f *needFinder) edge(i, deep int) []need {
	br := &f.n.Branches[i]
	switch {
	case br.IsLoad() || br.Element.Type == schematic.ElemDiode:
		return []need{{}}
	case br.Element.Type == schematic.ElemOutput:
		item := br.Element.Name
		if br.Pin != nil {
			item = br.Pin.Name
		}
		return []need{{setKey{br.Part.ID, item}: "on"}}
	case br.Element.Coil != "":
		if br.Element.Break {
			return []need{{}}
		}
		for _, j := range f.n.parts[br.Part.ID] {
			if c := &f.n.Branches[j]; c.Role == RoleElement && c.Element.Name == br.Element.Coil && samePin(c, br) {
				return f.load(j, deep+1)
			}
		}
		return nil
	}
	var out []need
	for _, pos := range br.Element.In {
		out = append(out, need{setKey{br.Part.ID, ""}: pos})
	}
	return out
}
