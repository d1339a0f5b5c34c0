package check

import (
	"fmt"

	"loomwright/schematic"
)

var relayChatter = Rule{
	ID:    "relay chatters",
	Title: "Relay that can neither hold nor rest",
	Help: "The coil pulls in, and what it switches takes its own voltage away again, so the contacts hammer and burn. " +
		"The figures of the state show one of the positions.",
	Source: "pull-in and drop-out voltage of the coil",
	run:    runRelayChatter,
}

func runRelayChatter(r *run) {
	for _, s := range r.sols {
		if len(s.Chattering) == 0 {
			continue
		}
		var items []schematic.Key
		for _, name := range s.Chattering {
			for i := range r.n.Branches {
				if br := &r.n.Branches[i]; br.Part != nil && br.Element.Type == schematic.ElemCoil && br.Name() == name {
					items = append(items, br.Key())
				}
			}
		}
		f := of(s, Finding{Severity: Error, Items: items,
			Text: fmt.Sprintf("In %q %s cannot settle: what is switched takes the coil's voltage away.", s.State.Name, list(s.Chattering))})
		r.add(f, s.State.ID.String())
	}
}
