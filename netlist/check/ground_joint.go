package check

import (
	"fmt"

	"loomwright/netlist"
	"loomwright/schematic"
)

var groundJointBad = Rule{
	ID:     "ground joint too resistive",
	Title:  "Resistance of a ground stud's joint",
	Help:   "The joint resistance given for a ground stud against what a clean bond to structure must keep.",
	Source: "AC 43.13-1B, page 11-74",
	run: func(r *run) {
		limit, src := r.limit(limitGroundJoint)
		for i := range r.n.Branches {
			br := &r.n.Branches[i]
			if br.Role != netlist.RoleElement || br.Element.Type != schematic.ElemJoint || br.Kind.Ground == "" || !br.OhmKnown || br.Ohm <= limit {
				continue
			}
			r.add(Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Unit: "ohm", Source: src.String(),
				Value: schematic.Some(br.Ohm), Limit: schematic.Some(limit), Margin: schematic.Some(limit - br.Ohm),
				Text: fmt.Sprintf("The joint of %s has %s, a clean bond at most %s: clean, protect and tighten it.", br.Part.Name, ohms(br.Ohm), ohms(limit))})
		}
	},
}
