package check

import (
	"fmt"

	"loomwright/schematic"
)

var relayChatter = Rule{
	ID:    "relay chatters",
	Title: "Relay that can neither hold nor rest",
	Help: "The coil pulls in, and what it switches takes its own voltage away again, so the contacts hammer and burn. " +
		"The figures of the state show one of the positions. Where two coils take each other's voltage away and settle whichever " +
		"moves first, that is said instead: the drawing does not tell which it is.",
	Source: "pull-in and drop-out voltage of the coil",
	run:    runRelayChatter,
}

func runRelayChatter(r *run) {
	for _, s := range r.sols {
		if len(s.Racing) > 0 {
			r.add(of(s, Finding{Severity: NotAssessed, Items: r.coils(s.Racing), Missing: "which coil moves first",
				Text: fmt.Sprintf("In %q %s take each other's voltage away: which moves first decides, and the figures show one outcome.", s.State.Name, list(s.Racing))}),
				s.State.ID.String(), "race")
		}
		if len(s.Chattering) == 0 {
			continue
		}
		r.add(of(s, Finding{Severity: Error, Items: r.coils(s.Chattering), Formula: s.ChatterLoop,
			Text: fmt.Sprintf("In %q %s cannot settle: what is switched takes the voltage of the coil away.", s.State.Name, list(s.Chattering))}),
			s.State.ID.String())
	}
}

// coils returns the parts of coils by their names.
func (r *run) coils(names []string) []schematic.Key {
	var items []schematic.Key
	for _, name := range names {
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; br.Part != nil && br.Element.Type == schematic.ElemCoil && br.Name() == name {
				items = append(items, br.Key())
			}
		}
	}
	return items
}
