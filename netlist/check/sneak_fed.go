package check

import (
	"loomwright/netlist"
	"loomwright/schematic"
)

var sneakFed = Rule{
	ID:    "fed while switched off",
	Title: "Load that gets current though it is switched off",
	Help: "In an operating state that leaves a load no circuit of its own, current reaches it through other loads: a relay coil, a lamp, " +
		"the exciter of an alternator, the input of a unit. From half a milliampere on; loads that never have a circuit without " +
		"others, such as two in series, are not meant.",
	Source: "common practice, no source",
	run: func(r *run) {
		for _, x := range r.sneaks() {
			if x.Kind != netlist.SneakFed {
				continue
			}
			f := Finding{Severity: Warning, Items: r.keys(x.Items), Unit: "A", Value: schematic.Some(x.Amp), Text: x.Text}
			f.State, f.StateName = x.State.ID, x.State.Name
			r.add(f, r.n.Branches[x.Items[0]].Element.Name)
		}
	},
}

// sneaks returns the sneak paths that need no fault.
func (r *run) sneaks() []netlist.Sneak {
	if !r.sneaked {
		r.sneak, r.sneaked = netlist.Sneaks(r.sols), true
	}
	return r.sneak
}

// keys returns the items of branches, each once.
func (r *run) keys(branches []int) []schematic.Key {
	var out []schematic.Key
	seen := map[schematic.Key]bool{}
	for _, i := range branches {
		if k := r.n.Branches[i].Key(); !seen[k] {
			seen[k] = true
			out = append(out, k)
		}
	}
	return out
}
