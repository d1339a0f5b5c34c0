package check

import (
	"loomwright/netlist"
	"loomwright/schematic"
)

var shorted = Rule{
	ID:    "short across a source",
	Title: "Way from plus to minus without a load",
	Help: "Ways from a source's plus to its minus through wires, plugs, joints, fuses and diodes alone (error), and those that switches, " +
		"relays and drivers can close, each in one position (warning). Whether a relay can be energised at that moment is not asked.",
	Source: "the drawing",
	run: func(r *run) {
		for _, o := range r.n.Shorts() {
			f := Finding{Severity: Error, Text: o.Text}
			if o.Kind == netlist.OddSwitchShort {
				f.Severity = Warning
			}
			more := ""
			for _, i := range o.Branches {
				f.Items = append(f.Items, r.n.Branches[i].Key())
				more += r.n.Branches[i].Element.Name + r.n.Branches[i].Key().ID.String()
			}
			r.add(f, more)
		}
	},
}

var diodeReversed = Rule{
	ID:     "diode the wrong way round",
	Title:  "Diode that blocks the only way of a load",
	Help:   "Loads that have a circuit only if a diode is turned round. Diodes across a load, as suppressors lie, are left alone.",
	Source: "the drawing",
	run: func(r *run) {
		for _, o := range r.n.ReversedDiodes() {
			br := &r.n.Branches[o.Branches[0]]
			r.add(Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Text: o.Text,
				Fixes: r.swapped(r.n.Nodes[br.A].Pin, r.n.Nodes[br.B].Pin, "its load then has a circuit")})
		}
	},
}
