package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
)

var supplyLow = Rule{
	ID:    "voltage too low to work",
	Title: "Voltage at a load against what it needs",
	Help: "Loads with a lowest working voltage, units with a regulator, and relay coils that are fed but stay below their pull-in voltage. " +
		"The worst operating state counts, cranking included.",
	Source: "lowest working or pull-in voltage given for the part",
	run: func(r *run) {
		for i := range r.n.Branches {
			r.supplyLow(i)
		}
	},
}

// fedShare is the voltage from which a load counts as switched on, as a share of
// what it needs: less is a leak or a bus level (judgement, no source).
const fedShare = 0.25

func (r *run) supplyLow(i int) {
	br := &r.n.Branches[i]
	if br.Role != netlist.RoleElement || len(br.Missing) > 0 {
		return
	}
	need, what := schematic.Num{}, "works from"
	from, to := br.A, br.B
	switch br.Element.Type {
	case schematic.ElemCurrent, schematic.ElemPower:
		need = br.Value("min_volt")
	case schematic.ElemRegulator:
		need, from = br.Value("min_volt"), br.Feed
	case schematic.ElemCoil:
		need, what = br.Value("pull_in_volt"), "pulls in from"
	}
	limit, ok := need.Get()
	if !ok || from < 0 || limit <= 0 {
		return
	}
	var at *netlist.Solution
	least := limit
	for _, s := range r.usable() {
		a, okA := s.VoltAt(from)
		b, okB := s.VoltAt(to)
		v := math.Abs(a - b)
		if okA && okB && v < least && v > fedShare*limit && r.on(s, i) {
			at, least = s, v
		}
	}
	if at == nil {
		return
	}
	remedy := func() []Fix {
		return r.thickerForVolt(i, at, limit, func(s *netlist.Solution) (float64, bool) {
			a, okA := s.VoltAt(from)
			b, okB := s.VoltAt(to)
			return math.Abs(a - b), okA && okB
		})
	}
	r.add(of(at, Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Pins: pinsOf(br), Unit: "V", remedy: remedy,
		Value: schematic.Some(least), Limit: schematic.Some(limit), Margin: schematic.Some(least - limit),
		Text:    fmt.Sprintf("%s gets %s but %s %s.", br.Name(), volts(least), what, volts(limit)),
		Formula: fmt.Sprintf("%s < %s", volts(least), volts(limit))}), br.Element.Name)
}

// on reports whether the operating state wants a branch to work. A coil that
// has pulled in may be held by less.
func (r *run) on(s *netlist.Solution, i int) bool {
	br := &r.n.Branches[i]
	switch br.Element.Type {
	case schematic.ElemRegulator:
		return true // it is open because its supply is low
	case schematic.ElemCoil:
		for _, j := range r.n.PartBranches(br.Part.ID) {
			if c := &r.n.Branches[j]; c.Element.Coil == br.Element.Name && s.Closed[j] != c.Element.Break {
				return false
			}
		}
	}
	return s.Closed[i]
}
