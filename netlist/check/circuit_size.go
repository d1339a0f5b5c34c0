package check

import (
	"fmt"
	"maps"
	"slices"

	"loomwright/schematic"
)

var circuitSizes = Rule{
	ID:    "circuit in several sizes",
	Title: "One circuit, one size",
	Help: "Wires that carry the name of one circuit and of which some are thinner: at the bench the thin piece gets taken for the thick one. " +
		"Behind a splice that is often on purpose, so it is a note.",
	Source: "common practice, no source",
	run: func(r *run) {
		wires := map[string][]*schematic.Wire{}
		for _, w := range r.wires() {
			if w.Circuit != "" && w.Size.Known() {
				wires[w.Circuit] = append(wires[w.Circuit], w)
			}
		}
		for _, circuit := range slices.SortedFunc(maps.Keys(wires), schematic.CompareNames) {
			sizes := map[string][]string{}
			var order []string
			var items []schematic.Key
			for _, w := range wires[circuit] {
				s := w.Size.String()
				if sizes[s] == nil {
					order = append(order, s)
				}
				sizes[s], items = append(sizes[s], w.Name), append(items, w.Key())
			}
			if len(order) < 2 {
				continue
			}
			slices.SortFunc(order, schematic.CompareNames)
			var said []string
			for _, s := range order {
				said = append(said, s+" ("+list(sizes[s])+")")
			}
			r.add(Finding{Severity: Note, Items: items, Text: fmt.Sprintf("Circuit %s has wires of several sizes: %s.", circuit, list(said))}, circuit)
		}
	},
}
