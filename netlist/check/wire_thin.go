package check

import (
	"fmt"

	"loomwright/calc"
	"loomwright/netlist"
	"loomwright/schematic"
)

var wireThin = Rule{
	ID:    "wire too thin",
	Title: "Current in a wire against what its insulation bears",
	Help: "The largest current of all operating states is held against the ampacity: the listed current for the size and the " +
		"temperature class of the insulation, times √((Tc − Ta)/(Tc − Tlist)) for the air at the hottest place along the route, " +
		"times the factor for the loaded wires in the most crowded segment. While the engine is cranked a wire may carry what " +
		"heats it to its class within the time of cranking.",
	Source: "33 CFR 183.425, ISO 10133 (from memory), a maker's list for thin-wall PVC, AC 43.13-1B",
	run:    runWireThin,
}

func runWireThin(r *run) {
	for i := range r.n.Branches {
		if br := &r.n.Branches[i]; br.Role == netlist.RoleWire {
			r.wireThin(i, br.Wire)
		}
	}
}

func (r *run) wireThin(i int, w *schematic.Wire) {
	var at *netlist.Solution
	var amp, ratio float64
	var rated calc.Rated
	for _, only := range []func(*netlist.Solution) bool{sustained, cranking} {
		s, a := r.worst(i, only)
		if s == nil {
			continue
		}
		b, err := r.bears(i, w, s)
		if err != nil {
			r.add(of(s, Finding{Severity: NotAssessed, Items: []schematic.Key{w.Key()}, Value: schematic.Some(a), Unit: "A",
				Missing: reason(err), Text: fmt.Sprintf("%s carries %s; whether it bears that is not assessed: %s.", w.Name, amps(a), reason(err))}))
			return
		}
		if at == nil || a > ratio*b.Value {
			at, amp, rated = s, a, b
			if ratio = a / b.Value; b.Value <= 0 {
				break // too hot for any current
			}
		}
	}
	if at == nil || amp <= rated.Value {
		return
	}
	r.add(of(at, Finding{
		Severity: Error, Items: []schematic.Key{w.Key()}, Unit: "A",
		Value: schematic.Some(amp), Limit: schematic.Some(rated.Value), Margin: schematic.Some(rated.Value - amp),
		Text: fmt.Sprintf("%s (%s) carries %s but bears %s at %s with %d loaded together.",
			w.Name, w.Size, amps(amp), amps(rated.Value), degC(rated.AmbientC), r.bundled(i, at)),
		Formula: rated.Formula, Source: rated.Source.String(),
	}))
}
