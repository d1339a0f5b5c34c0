package check

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

// The names of the limits while cranking.
const (
	limitCrankUnit = "crank_unit_volt"
	limitCrankCoil = "crank_coil_volt"
)

func crankLimits() []Limit {
	scaled := func(at12 float64, src tables.Source) func(float64) (float64, tables.Source) {
		return func(volts float64) (float64, tables.Source) { return at12 * volts / 12, src }
	}
	return []Limit{
		{Name: limitCrankUnit, Title: "least voltage at a control unit while cranking", Unit: "V",
			value: scaled(8, tables.Source{Title: "ISO 16750-2", Place: "starting profile, level I, 8 V in a 12 V system", FromMemory: true})},
		{Name: limitCrankCoil, Title: "least voltage at an ignition coil while cranking", Unit: "V", value: scaled(9, practice("below it the spark weakens"))},
	}
}

var crankVolt = Rule{
	ID:    "voltage while cranking",
	Title: "What control units and ignition coils get while the starter turns",
	Help: "In every operating state that cranks the engine and in which the starter draws current: the voltage between supply and ground inside " +
		"control units, and at the supply of ignition coils against battery negative. A unit with a lowest working voltage of its own above the limit " +
		"is held against that.",
	Source: "ISO 16750-2, starting profile (from memory); common practice, no source, for coils",
	run:    (*run).crankVolts,
}

// igniter is a control unit's electronics or the primary of an ignition coil.
type igniter struct {
	branch int
	coil   bool
}

func (r *run) crankVolts() {
	if r.n.Reference < 0 || len(r.doc.States()) == 0 {
		return // other rules say so
	}
	var all []igniter
	for i := range r.n.Branches {
		if x, ok := r.igniter(i); ok {
			all = append(all, x)
		}
	}
	if len(all) == 0 {
		return
	}
	states, lacks := r.crankStates()
	if lacks != "" {
		f := Finding{Severity: NotAssessed, Missing: lacks}
		var parts []int
		for _, x := range all {
			parts = append(parts, x.branch)
		}
		f.Items = r.keys(parts)
		f.Text = fmt.Sprintf("What %s %s while cranking is not assessed: %s is missing.", list(r.partNames(parts)), verb(len(f.Items), "get"), lacks)
		r.add(f)
		return
	}
	for _, x := range all {
		r.crankVolt(x, states)
	}
}

// igniter tells whether a branch is what needs voltage while cranking: the
// electronics of a unit that gives sensors their supply, or the feed of an
// ignition coil.
func (r *run) igniter(i int) (igniter, bool) {
	br := &r.n.Branches[i]
	if !br.IsLoad() || len(br.Missing) > 0 {
		return igniter{}, false
	}
	relay, unit := false, false
	for _, j := range r.n.PartBranches(br.Part.ID) {
		switch r.n.Branches[j].Element.Type {
		case schematic.ElemCoil:
			relay = true
		case schematic.ElemRegulator:
			unit = true
		}
	}
	switch {
	case br.Element.Load == "coil" && !relay:
		return igniter{i, true}, r.wired(br.A)
	case unit && br.Element.Load == "electronics" && r.fedBySupply(br):
		return igniter{i, false}, true
	}
	return igniter{}, false
}

// fedBySupply reports whether an element is fed from where the regulator of its
// part is: standby circuits are not.
func (r *run) fedBySupply(br *netlist.Branch) bool {
	for _, j := range r.n.PartBranches(br.Part.ID) {
		if x := &r.n.Branches[j]; x.Feed >= 0 && x.Feed == br.A {
			return len(r.n.At(br.A)) > 1 // some pin leads there
		}
	}
	return false
}

// crankStates returns the states in which a starter turns; without any, it says
// what is missing.
func (r *run) crankStates() (states []*netlist.Solution, lacks string) {
	lacks = "an operating state that cranks the engine"
	for _, s := range r.usable() {
		if !cranking(s) {
			continue
		}
		if lacks = "the current of the starter"; r.starterTurns(s) {
			states = append(states, s)
		}
	}
	if len(states) > 0 {
		return states, ""
	}
	return nil, lacks
}

func (r *run) starterTurns(s *netlist.Solution) bool {
	for i := range r.n.Branches {
		if br := &r.n.Branches[i]; br.Role == netlist.RoleElement && br.Element.Load == "starter" && math.Abs(s.Amp[i]) > leastStarter {
			return true
		}
	}
	return false
}

// leastStarter is the current from which a starter counts as turning, A: far
// above that of its control winding, far below any starter's own (common
// practice, no source).
const leastStarter = 5

func (r *run) crankVolt(x igniter, states []*netlist.Solution) {
	br := &r.n.Branches[x.branch]
	name, what := limitCrankUnit, "between its supply and ground"
	if x.coil {
		name, what = limitCrankCoil, "at its supply"
	}
	limit, src := r.limit(name)
	source := src.String()
	if own, ok := br.Value("min_volt").Get(); ok && own > limit {
		limit, source = own, "lowest working voltage given for the part"
	}
	var at *netlist.Solution
	least := limit
	for _, s := range states {
		v, ok := s.VoltAt(br.A)
		if !x.coil {
			v, ok = s.Across(x.branch)
		}
		if !ok {
			v = 0 // nothing leads there
		}
		if v < least {
			at, least = s, v
		}
	}
	if at == nil {
		return
	}
	f := of(at, Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Unit: "V", Source: source,
		Value: schematic.Some(least), Limit: schematic.Some(limit), Margin: schematic.Some(least - limit),
		Formula: fmt.Sprintf("%s < %s", volts(least), volts(limit))})
	if least < fedShare*limit {
		f.Text = fmt.Sprintf("%s gets no supply while the starter turns (%s %s): the ignition switch or a relay cuts it off.", br.Part.Name, volts(least), what)
	} else {
		f.Text = fmt.Sprintf("%s gets %s %s while the starter turns, %s are needed.", br.Part.Name, volts(least), what, volts(limit))
		if feed, _ := r.flow(at).sides(x.branch); feed.supply >= 0 && len(feed.lines) > 0 {
			f.remedy = func() []Fix {
				return r.thickerForVolt(x.branch, at, limit, func(s *netlist.Solution) (float64, bool) {
					if x.coil {
						return s.VoltAt(br.A)
					}
					return s.Across(x.branch)
				})
			}
			f.Formula = fmt.Sprintf("the source gives %s, on the way %s are lost", volts(r.supplyVolt(at, feed.supply)), volts(feed.volt))
		}
	}
	r.add(f, br.Element.Name)
}

// supplyVolt is the voltage of a source's positive pole.
func (r *run) supplyVolt(s *netlist.Solution, supply int) float64 {
	v, _ := s.VoltAt(r.n.Branches[supply].A)
	return v
}
