package check

import (
	"fmt"

	"loomwright/netlist"
)

var twoFuses = Rule{
	ID:    "two fuses feed one net",
	Title: "Circuit that stays live when its fuse is pulled",
	Help: "Behind two fuses from the same source that are joined by wires or closed contacts, neither fuse makes the circuit dead, and " +
		"both together let through more than a wire chosen for one bears. Sources with a fuse each, and diodes between, are fine.",
	Source: "common practice, no source",
	run: func(r *run) {
		said := map[string]bool{}
		for _, x := range r.sneaks() {
			if x.Kind != netlist.SneakTwo || said[fmt.Sprint(x.Items)] {
				continue
			}
			said[fmt.Sprint(x.Items)] = true
			f := Finding{Severity: Warning, Items: r.keys(x.Items), Text: x.Text}
			f.State, f.StateName = x.State.ID, x.State.Name
			r.add(f, fmt.Sprint(r.n.Names(x.Items)))
		}
	},
}
