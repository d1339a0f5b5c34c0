package check

import (
	"fmt"
	"math"
	"slices"

	"loomwright/netlist"
	"loomwright/schematic"
)

// limitSensorLift is the part of a sensor's span by which its ground may stand
// above the unit's.
const limitSensorLift = "sensor_ground_ratio"

func sensorLiftLimits() []Limit {
	return []Limit{{Name: limitSensorLift, Title: "part of its span by which a sensor's ground may be lifted", Unit: "ratio",
		value: fixed(0.01, practice("1 % of 5 V are 50 mV"))}}
}

var sensorLift = Rule{
	ID:    "sensor ground lifted",
	Title: "How far power currents shift the reading of a sensor",
	Help: "The voltage between the ground pin of a sensor and the ground inside the unit that reads it, in every state, against the sensor's span: " +
		"the voltage of the unit's sensor supply. The unit takes it for signal.",
	Source: "common practice, no source",
	run: func(r *run) {
		if r.n.Reference < 0 {
			return
		}
		for _, p := range r.parts() {
			if k := r.doc.KindOf(p); k != nil && !k.OwnPins {
				r.sensorLift(p)
			}
		}
	},
}

// reader is what reads a sensor: the point it measures against, and what the
// sensor's full signal is.
type reader struct {
	part *schematic.Part
	ref  int
	span float64 // V
}

func (r *run) sensorLift(p *schematic.Part) {
	if !slices.ContainsFunc(r.doc.KindOf(p).Roles, func(x schematic.Role) bool { return x.Signal == "sensor-ground" }) {
		return
	}
	ground, from := -1, reader{ref: -1}
	for _, pin := range r.doc.PinsOf(p) {
		i := r.n.NodeOf(schematic.PinRef{Part: p.ID, Pin: pin.Name})
		if i < 0 || !r.wired(i) {
			continue
		}
		switch r.signal(&r.n.Nodes[i]) {
		case "sensor-ground":
			ground = i
		case "sensor-supply", "ground", "power", "screen":
		default:
			if x := r.reader(i, p); from.ref < 0 {
				from = x
			}
		}
	}
	if ground < 0 || from.ref < 0 || from.span <= 0 {
		return
	}
	share, src := r.limit(limitSensorLift)
	limit := share * from.span
	var at *netlist.Solution
	worst := 0.0
	for _, s := range r.usable() {
		a, okA := s.VoltAt(ground)
		b, okB := s.VoltAt(from.ref)
		if okA && okB && math.Abs(a-b) > math.Abs(worst) {
			at, worst = s, a-b
		}
	}
	if at == nil {
		return // no current returns there in any state
	}
	f := of(at, Finding{Severity: Warning, Items: []schematic.Key{p.Key(), from.part.Key()}, Pins: []schematic.PinRef{r.n.Nodes[ground].Pin}, Unit: "V", Source: src.String()})
	if unknown := r.groundLines().gaps(ground, from.ref); len(unknown) > 0 {
		what, items := r.lacking(unknown)
		f.Severity, f.Items, f.Missing = NotAssessed, append(f.Items, items...), list(what)
		f.Text = fmt.Sprintf("How far the ground of %s is lifted is not assessed: %s %s missing.", p.Name, f.Missing, is(len(what)))
		r.add(f)
		return
	}
	if math.Abs(worst) <= limit {
		return
	}
	f.Value, f.Limit, f.Margin = schematic.Some(math.Abs(worst)), schematic.Some(limit), schematic.Some(limit-math.Abs(worst))
	f.Text = fmt.Sprintf("The ground of %s stands %s %s that of %s, which is %s of the span of %s: the reading is off by as much.",
		p.Name, volts(math.Abs(worst)), aboveBelow(worst), from.part.Name, percent(math.Abs(worst)/from.span), volts(from.span))
	f.Formula = fmt.Sprintf("%s − ground inside %s = %s; %s · %s = %s", r.n.Nodes[ground].Name, from.part.Name, volts(worst), num(share), volts(from.span), volts(limit))
	r.add(f)
}

func aboveBelow(v float64) string {
	if v < 0 {
		return "below"
	}
	return "above"
}

// reader finds the unit that reads a signal: an input in the signal's net, and
// what lies between it and the ground inside its part.
func (r *run) reader(node int, sensor *schematic.Part) reader {
	for _, i := range r.n.Nets[r.n.Nodes[node].Net].Nodes {
		at := &r.n.Nodes[i]
		if at.Part == nil || at.Part == sensor || r.signal(at) != "input" {
			continue
		}
		x := reader{part: at.Part, ref: -1, span: r.doc.Info().Volts()}
		for _, j := range r.n.PartBranches(at.Part.ID) {
			br := &r.n.Branches[j]
			switch {
			case br.Element.Type == schematic.ElemRegulator:
				x.ref, x.span = br.B, br.Value("volt").Or(0)
			case x.ref < 0 && br.Element.Type == schematic.ElemOpen && br.A == i:
				x.ref = br.B
			}
		}
		if x.ref >= 0 {
			return x
		}
	}
	return reader{ref: -1}
}
