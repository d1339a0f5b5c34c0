package check

import (
	"fmt"
	"math"
	"slices"

	"loomwright/netlist"
	"loomwright/schematic"
)

const (
	limitSensorLow  = "sensor_supply_low_volt"
	limitSensorHigh = "sensor_supply_high_volt"
)

func sensorLimits() []Limit {
	return []Limit{
		{Name: limitSensorLow, Title: "lowest supply of a 5 V sensor", Unit: "V", value: fixed(4.5, practice("5 V sensors work within 10 %"))},
		{Name: limitSensorHigh, Title: "highest supply of a 5 V sensor", Unit: "V", value: fixed(5.5, practice("5 V sensors work within 10 %"))},
	}
}

var sensorSupply = Rule{
	ID:    "sensor supply off",
	Title: "Supply of sensors with electronics while the engine runs",
	Help: "Hall, pressure, position and other sensors with a supply pin need 5 V between it and their ground in every state with the " +
		"engine at idle or running. The voltage furthest off counts. For sensors made for another voltage set the limits of the document.",
	Source: "common practice, no source",
	run: func(r *run) {
		for _, p := range r.parts() {
			if k := r.doc.KindOf(p); k != nil && !k.OwnPins {
				r.sensorSupply(p)
			}
		}
	},
}

// sensorSupply looks at a part with a pin for a sensor's supply and one for its
// ground.
func (r *run) sensorSupply(p *schematic.Part) {
	plus, minus := -1, -1
	for _, pin := range r.doc.PinsOf(p) {
		i := r.n.NodeOf(schematic.PinRef{Part: p.ID, Pin: pin.Name})
		if i < 0 {
			continue
		}
		switch r.signal(&r.n.Nodes[i]) {
		case "sensor-supply":
			plus = i
		case "sensor-ground":
			minus = i
		}
	}
	if plus < 0 || minus < 0 {
		return
	}
	if len(r.doc.States()) == 0 || r.n.Reference < 0 {
		return // other rules say so
	}
	low, srcLow := r.limit(limitSensorLow)
	high, srcHigh := r.limit(limitSensorHigh)
	name := p.Name
	if !r.wired(plus) || !r.wired(minus) {
		r.add(Finding{Severity: Warning, Items: []schematic.Key{p.Key()}, Pins: []schematic.PinRef{r.n.Nodes[plus].Pin, r.n.Nodes[minus].Pin},
			Text: fmt.Sprintf("%s has no supply: nothing is wired to %s or %s.", name, r.n.Nodes[plus].Name, r.n.Nodes[minus].Name)}, "wired")
		return
	}
	at, worst := r.supplyFurthestOff(plus, minus, low, high)
	f := Finding{Items: []schematic.Key{p.Key()}, Pins: []schematic.PinRef{r.n.Nodes[plus].Pin}}
	switch {
	case !slices.ContainsFunc(r.usable(), turning) && len(r.usable()) == len(r.doc.States()):
		f.Severity, f.Missing = NotAssessed, "an operating state with the engine running"
		f.Text = fmt.Sprintf("The supply of %s is not assessed: there is no operating state with the engine running.", name)
		r.add(f, "state")
	case at != nil && worst < low:
		f.Severity, f.Source, f.Unit = Warning, srcLow.String(), "V"
		f.Value, f.Limit, f.Margin = schematic.Some(worst), schematic.Some(low), schematic.Some(worst-low)
		f.Text = fmt.Sprintf("%s gets %s at its supply, at least %s are needed.", name, volts(worst), volts(low))
		f.Formula = fmt.Sprintf("%s − %s: %s < %s", r.n.Nodes[plus].Name, r.n.Nodes[minus].Name, volts(worst), volts(low))
		r.add(of(at, f))
	case at != nil:
		f.Severity, f.Source, f.Unit = Warning, srcHigh.String(), "V"
		f.Value, f.Limit, f.Margin = schematic.Some(worst), schematic.Some(high), schematic.Some(high-worst)
		f.Text = fmt.Sprintf("%s gets %s at its supply, it bears %s.", name, volts(worst), volts(high))
		f.Formula = fmt.Sprintf("%s − %s: %s > %s", r.n.Nodes[plus].Name, r.n.Nodes[minus].Name, volts(worst), volts(high))
		r.add(of(at, f))
	}
}

// supplyFurthestOff returns the state with the engine turning in which the
// voltage between two nodes lies furthest outside its limits, and that voltage;
// no state where it keeps them.
func (r *run) supplyFurthestOff(plus, minus int, low, high float64) (at *netlist.Solution, worst float64) {
	off := 0.0
	for _, s := range r.usable() {
		if !turning(s) {
			continue
		}
		v := 0.0 // without a way to a source there is none
		if a, ok := s.VoltAt(plus); ok {
			if b, ok := s.VoltAt(minus); ok {
				v = a - b
			}
		}
		if d := math.Max(low-v, v-high); d > off {
			at, worst, off = s, v, d
		}
	}
	return at, worst
}

// wired reports whether a wire or a plugged connector ends at a node.
func (r *run) wired(node int) bool {
	for _, i := range r.n.At(node) {
		if r.n.Branches[i].Role != netlist.RoleElement {
			return true
		}
	}
	return false
}
