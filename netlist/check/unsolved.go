package check

import (
	"fmt"

	"loomwright/netlist"
	"loomwright/schematic"
)

var unsolved = Rule{
	ID:     "network cannot be computed",
	Title:  "Operating state without usable currents",
	Help:   "The currents of an operating state could not be found, or there is no source. No rule about currents looks at that state.",
	Source: "Kirchhoff's laws",
	run: func(r *run) {
		for _, s := range r.sols {
			if s.Err != nil {
				r.add(of(s, Finding{Severity: Error, Items: stateKey(s), Missing: "the currents in this state",
					Text: fmt.Sprintf("The currents in %q cannot be told: %v. Nothing about currents is assessed there.", s.State.Name, s.Err)}), s.State.ID.String())
			}
		}
		if r.n.Reference < 0 && len(r.n.Branches) > 0 {
			r.add(Finding{Severity: NotAssessed, Items: []schematic.Key{r.doc.Info().Key()}, Missing: "a battery or alternator",
				Text: "There is no source in the drawing, so nothing about currents is assessed."}, "no source")
		}
	},
}

// stateKey names an operating state, if it is one of the document's.
func stateKey(s *netlist.Solution) []schematic.Key {
	if (s.State.ID == schematic.ID{}) {
		return nil
	}
	return []schematic.Key{s.State.Key()}
}
