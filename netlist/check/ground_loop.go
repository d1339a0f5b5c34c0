package check

import (
	"loomwright/netlist"
	"loomwright/schematic"
)

var groundLoop = Rule{
	ID:    "ground loop",
	Title: "Sensor ground or screen with a second way to ground",
	Help: "A sensor ground and a screen belong to ground at the unit alone. Where wires lead on to other ground points, currents of other " +
		"loads flow through them and shift what is measured.",
	Source: "common practice, no source",
	run: func(r *run) {
		for _, x := range r.sneaks() {
			if x.Kind != netlist.SneakLoop {
				continue
			}
			node := &r.n.Nodes[x.Pins[0]]
			r.add(Finding{Severity: Warning, Items: append([]schematic.Key{node.Part.Key()}, r.keys(x.Items)...),
				Pins: []schematic.PinRef{node.Pin}, Text: x.Text})
		}
	},
}
