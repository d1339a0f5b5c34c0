package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
)

// thickerForGround offers the next larger size of the wire that adds most to a
// load's own way to battery negative.
func (r *run) thickerForGround(e earth, ohm, limit float64) []Fix {
	wire := -1
	for _, i := range r.groundNet().series(e.node) {
		if wire < 0 || r.n.Branches[i].Ohm > r.n.Branches[wire].Ohm {
			wire = i
		}
	}
	if wire < 0 || r.trials >= mostTrials || (ohm-r.n.Branches[wire].Ohm)*e.amp > limit {
		return nil
	}
	old := r.n.Branches[wire]
	tries := 0
	for _, size := range larger(old.Wire.Size) {
		c := withSize(old.Wire, size)
		less := ohm - old.Ohm + netlist.ConductorOf(r.doc, c).Ohm
		if less*e.amp > limit {
			continue
		}
		if tries++; tries > 2 {
			break
		}
		after, ok := r.withWire(wire, c, r.drawing(e.load)...)
		if !ok {
			break
		}
		if amp := strongestIn(after, e.load); less*amp <= limit*surely {
			return []Fix{{Label: "use " + size.String() + " for " + old.Wire.Name, Items: []schematic.Item{c},
				Effect: fmt.Sprintf("the ground path falls from %s to %s", ohms(ohm), ohms(less))}}
		}
	}
	return nil
}

// thickerForRise offers the next larger size of the wire that lifts a ground
// most, such that the limit holds in every operating state.
func (r *run) thickerForRise(e earth, limit float64) []Fix {
	wire, most := r.lossiest(lost{s: e.s, back: e.back, circuit: true})
	if wire < 0 || r.trials >= mostTrials || most < e.rise-limit {
		return nil
	}
	old := r.n.Branches[wire]
	tries := 0
	for _, size := range larger(old.Wire.Size) {
		c := withSize(old.Wire, size)
		if most*(1-netlist.ConductorOf(r.doc, c).Ohm/old.Ohm) < e.rise-limit {
			continue
		}
		if tries++; tries > 2 {
			break
		}
		after, ok := r.withWire(wire, c, r.drawing(e.load)...)
		if !ok {
			break
		}
		rise := 0.0
		for _, s := range after {
			if v, ok := s.VoltAt(e.node); ok {
				rise = math.Max(rise, math.Abs(v))
			}
		}
		if rise <= limit*surely {
			return []Fix{{Label: "use " + size.String() + " for " + old.Wire.Name, Items: []schematic.Item{c},
				Effect: fmt.Sprintf("the ground falls from %s to %s", volts(e.rise), volts(rise))}}
		}
	}
	return nil
}

// drawing returns the operating states in which a load draws current.
func (r *run) drawing(load int) []*netlist.Solution {
	var on []*netlist.Solution
	for _, s := range r.usable() {
		if math.Abs(s.Amp[load]) > quiet {
			on = append(on, s)
		}
	}
	return on
}

func strongestIn(sols []*netlist.Solution, load int) float64 {
	most := 0.0
	for _, s := range sols {
		most = math.Max(most, math.Abs(s.Amp[load]))
	}
	return most
}
