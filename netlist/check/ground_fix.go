package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
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
	old := &r.n.Branches[wire]
	return r.thickerWire(wire, r.drawing(e.load),
		func(now float64) bool { return (ohm-old.Ohm+now)*e.amp <= limit },
		func(after []*netlist.Solution, now float64) (string, bool) {
			less := ohm - old.Ohm + now
			return fmt.Sprintf("the ground path falls from %s to %s", ohms(ohm), ohms(less)), less*strongestIn(after, e.load) <= limit*surely
		})
}

// thickerForRise offers the next larger size of the wire that lifts a ground
// most, such that the limit holds in every operating state.
func (r *run) thickerForRise(e earth, limit float64) []Fix {
	wire, most := r.lossiest(lost{s: e.s, back: e.back, circuit: true})
	if wire < 0 || r.trials >= mostTrials || most < e.rise-limit {
		return nil
	}
	old := &r.n.Branches[wire]
	return r.thickerWire(wire, r.drawing(e.load),
		func(ohm float64) bool { return most*(1-ohm/old.Ohm) >= e.rise-limit },
		func(after []*netlist.Solution, _ float64) (string, bool) {
			rise := 0.0
			for _, s := range after {
				if v, ok := s.VoltAt(e.node); ok {
					rise = math.Max(rise, math.Abs(v))
				}
			}
			return fmt.Sprintf("the ground falls from %s to %s", volts(e.rise), volts(rise)), rise <= limit*surely
		})
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
