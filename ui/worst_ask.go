package ui

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/schematic"
)

// uncovered is by how much of itself a current must be above that of the
// operating states for a wire to count as not covered by them.
const uncovered = 0.05

// highest looks for the highest current of every wire.
func (p *worstPanel) highest() {
	p.enquire(func(doc *schematic.Doc, going func(float64) bool) (found, bool) {
		n := netlist.Build(doc)
		sols := n.SolveAll()
		worst, ok := n.WorstWhile(going)
		if !ok {
			return found{}, false
		}
		return found{highestRows(n, sols, worst), highestSums(n, sols, worst)}, true
	})
}

// inStates is the largest current of a branch in the operating states, A.
func inStates(sols []*netlist.Solution, branch int) float64 {
	most := 0.0
	for _, s := range sols {
		if s.Err == nil {
			most = max(most, math.Abs(s.Amp[branch]))
		}
	}
	return most
}

// isUncovered reports whether no operating state shows what a wire may carry.
func isUncovered(x netlist.Strain, states float64) bool {
	return x.Amp >= leastShown && x.Amp > states*(1+uncovered)
}

// highestRows lists the wires, first those whose current is furthest above what
// the operating states show.
func highestRows(n *netlist.Netlist, sols []*netlist.Solution, worst netlist.WorstCase) []worstCase {
	var out []worstCase
	wires := slices.Clone(worst.Wires)
	over := func(x netlist.Strain) float64 {
		if s := inStates(sols, x.Wire); isUncovered(x, s) {
			return x.Amp - s
		}
		return 0
	}
	slices.SortStableFunc(wires, func(a, b netlist.Strain) int {
		return cmp.Or(cmp.Compare(over(b), over(a)), cmp.Compare(b.Amp, a.Amp))
	})
	for _, x := range wires {
		if x.State == nil || x.Amp < leastShown {
			continue
		}
		br := &n.Branches[x.Wire]
		states := inStates(sols, x.Wire)
		c := worstCase{names: br.Name(), value: amps(x.Amp), text: "with " + x.State.Name, about: []schematic.Key{br.Key()}}
		bound := amps(x.Bound)
		if !x.Sure {
			bound = "about " + bound + ", an estimate"
		}
		c.facts = [][2]string{{"Highest", amps(x.Amp)}, {"At most", bound}, {"States", "at most " + amps(states) + " in the operating states of the drawing"}}
		c.remark = "Starting currents, faults and loads without data are not in it."
		if isUncovered(x, states) {
			c.text = fmt.Sprintf("%s above what the operating states show, with %s", amps(x.Amp-states), x.State.Name)
			c.state, c.keep = x.State, "Highest in "+br.Name()
		}
		out = append(out, c)
	}
	return out
}

func highestSums(n *netlist.Netlist, sols []*netlist.Solution, worst netlist.WorstCase) string {
	above := 0
	for _, x := range worst.Wires {
		if isUncovered(x, inStates(sols, x.Wire)) {
			above++
		}
	}
	text := fmt.Sprintf("%d of %s may carry more than any operating state shows", above, count(len(worst.Wires), "wire"))
	if above == 0 {
		text = "The operating states show the highest current of every wire"
	}
	if worst.Failed > 0 {
		text += fmt.Sprintf("; %s could not be computed", count(worst.Failed, "combination"))
	}
	if len(worst.Missed) > 0 {
		text += "; not every way to switch on " + nameList(n.Names(worst.Missed), 4) + " was looked at"
	}
	return text
}

// grounds opens the grounds in turn.
func (p *worstPanel) grounds() {
	p.enquire(func(doc *schematic.Doc, going func(float64) bool) (found, bool) {
		n := netlist.Build(doc)
		sols := n.SolveAll()
		list, ok := netlist.LostGrounds(sols, going)
		if !ok {
			return found{}, false
		}
		return found{groundRows(n, list), groundSums(sols, list)}, true
	})
}

func groundRows(n *netlist.Netlist, list []netlist.Sneak) []worstCase {
	var out []worstCase
	for i := range list {
		x := &list[i]
		load, fault := &n.Branches[x.Items[0]], &n.Branches[x.Fault]
		c := worstCase{names: load.Name(), value: amps(x.Amp), full: x.Text, sneak: x, about: []schematic.Key{load.Key(), fault.Key()}}
		c.text = fmt.Sprintf("%s open, in %s", fault.Name(), x.State.Name)
		if through := n.Names(x.Items[1:]); len(through) > 0 {
			c.text += ": by way of " + nameList(through, 4)
		}
		c.facts = [][2]string{{"Open", fault.Name()}, {"State", x.State.Name}, {"Current", amps(x.Amp)}, {"Voltage", volts(x.Volt)}, {"Way", wayOf(n, x.Path)}}
		out = append(out, c)
	}
	return out
}

// wayOf lists the pieces of a way in order.
func wayOf(n *netlist.Netlist, tr netlist.Trace) string {
	var names []string
	for i, st := range tr.Main {
		if i == 0 {
			names = append(names, n.Nodes[st.From].Name)
		}
		names = append(names, n.Branches[st.Branch].Name())
	}
	if last := len(tr.Main) - 1; last >= 0 {
		names = append(names, n.Nodes[tr.Main[last].To].Name)
	}
	return strings.Join(names, ", ")
}

func groundSums(sols []*netlist.Solution, list []netlist.Sneak) string {
	faults := map[int]bool{}
	for _, x := range list {
		faults[x.Fault] = true
	}
	text := fmt.Sprintf("%s, when lost, send currents another way: %s", count(len(faults), "ground"), nameList(sols[0].Netlist.Names(slices.Collect(maps.Keys(faults))), 6))
	if len(faults) == 1 {
		text = strings.Replace(text, "send", "sends", 1)
	}
	if len(faults) == 0 {
		text = "No single ground, when lost, sends the current of a load another way"
	}
	for _, s := range sols {
		if s.Err != nil {
			text += "; " + s.State.Name + " could not be computed"
		}
	}
	return text
}

func amps(v float64) string { return unit.Format(unit.Amp, v, unit.SI) }
