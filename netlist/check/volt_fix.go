package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
)

// thickerForVolt offers the next larger size of the wire that loses most on the
// way to a load and back, such that what measure reads reaches a limit in V in
// every state in which the load draws current.
func (r *run) thickerForVolt(load int, at *netlist.Solution, limit float64, measure func(*netlist.Solution) (float64, bool)) []Fix {
	br := &r.n.Branches[load]
	if !br.IsLoad() || math.Abs(at.Amp[load]) <= quiet {
		return nil
	}
	l := lost{s: at, circuit: true}
	l.feed, l.back = r.flow(at).sides(load)
	have, ok := measure(at)
	wire, most := r.lossiest(l)
	if !ok || wire < 0 || r.trials >= mostTrials || most < limit-have || r.starved(wire) {
		return nil
	}
	old := &r.n.Branches[wire]
	return r.thickerWire(wire, r.drawing(load),
		func(ohm float64) bool { return most*(1-ohm/old.Ohm) >= limit-have },
		func(after []*netlist.Solution, _ float64) (string, bool) {
			least := math.Inf(1)
			for _, s := range after {
				if v, ok := measure(s); ok {
					least = math.Min(least, v)
				}
			}
			return fmt.Sprintf("it then gets %s instead of %s", volts(least), volts(have)), least*surely >= limit && !math.IsInf(least, 1)
		})
}

// thickerForCharging offers the next larger size of the wire that loses most
// between two terminals, such that what is lost there keeps a limit in V.
func (r *run) thickerForCharging(at *netlist.Solution, from, to int, volt, limit float64) []Fix {
	b := findBlocks(len(r.n.Nodes), r.edges(), func(i int) bool { return at.Closed[i] && isLine(&r.n.Branches[i]) })
	on, ok := b.between(from, to)
	if !ok || r.trials >= mostTrials {
		return nil
	}
	wire, most := -1, 0.0
	for i, block := range b.of {
		if block >= 0 && on[block] && r.n.Branches[i].Role == netlist.RoleWire {
			if v, _ := at.Across(i); math.Abs(v) > most {
				wire, most = i, math.Abs(v)
			}
		}
	}
	if wire < 0 || r.starved(wire) {
		return nil
	}
	old := &r.n.Branches[wire]
	return r.thickerWire(wire, r.turningStates(),
		func(ohm float64) bool { return most*(1-ohm/old.Ohm) >= volt-limit },
		func(after []*netlist.Solution, _ float64) (string, bool) {
			worst := 0.0
			for _, s := range after {
				x, okX := s.VoltAt(from)
				y, okY := s.VoltAt(to)
				if okX && okY {
					worst = math.Max(worst, x-y)
				}
			}
			return fmt.Sprintf("%s are then lost instead of %s", volts(worst), volts(volt)), worst <= limit*surely
		})
}

// turningStates lists the operating states with the engine turning.
func (r *run) turningStates() []*netlist.Solution {
	var out []*netlist.Solution
	for _, s := range r.usable() {
		if turning(s) {
			out = append(out, s)
		}
	}
	return out
}
