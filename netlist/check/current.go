package check

import (
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
)

// quiet is the current below which a branch counts as carrying none, A: the
// figure that tracing uses.
const quiet = 1e-6

// usable returns the operating states whose figures can be used.
func (r *run) usable() []*netlist.Solution {
	if r.good == nil {
		r.good = []*netlist.Solution{}
		for _, s := range r.sols {
			if s.Err == nil {
				r.good = append(r.good, s)
			}
		}
	}
	return r.good
}

// worst returns the operating state with the largest current in a branch and
// that current's amount; nil where nothing flows.
func (r *run) worst(branch int, counts func(*netlist.Solution) bool) (*netlist.Solution, float64) {
	var at *netlist.Solution
	most := quiet
	for _, s := range r.usable() {
		if a := math.Abs(s.Amp[branch]); a > most && counts(s) {
			at, most = s, a
		}
	}
	if at == nil {
		return nil, 0
	}
	return at, most
}

func anyState(*netlist.Solution) bool    { return true }
func cranking(s *netlist.Solution) bool  { return s.State.Engine == schematic.EngineCranking }
func sustained(s *netlist.Solution) bool { return !cranking(s) }

// loaded counts, by loom segment, the wires that heat their neighbours in an
// operating state.
func (r *run) loaded(s *netlist.Solution) map[schematic.ID]int {
	if m, ok := r.crowd[s]; ok {
		return m
	}
	floor, _ := r.limit(limitLoaded)
	m := map[schematic.ID]int{}
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleWire || math.Abs(s.Amp[i]) < floor {
			continue
		}
		for _, id := range br.Wire.Route {
			m[id]++
		}
	}
	if r.crowd == nil {
		r.crowd = map[*netlist.Solution]map[schematic.ID]int{}
	}
	r.crowd[s] = m
	return m
}

// bundled returns how many loaded wires lie together where a wire has the most
// neighbours, itself included. A wire that is on no route lies alone.
func (r *run) bundled(branch int, s *netlist.Solution) int {
	floor, _ := r.limit(limitLoaded)
	self := 0
	if math.Abs(s.Amp[branch]) >= floor {
		self = 1
	}
	most, m := 0, r.loaded(s)
	for _, id := range r.n.Branches[branch].Wire.Route {
		most = max(most, m[id]-self)
	}
	return most + 1
}

// of fills in the operating state of a finding.
func of(s *netlist.Solution, f Finding) Finding {
	f.State, f.StateName = s.State.ID, s.State.Name
	return f
}
