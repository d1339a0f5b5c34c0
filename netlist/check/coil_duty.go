package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
)

var coilDuty = Rule{
	ID:    "coil of short duty held on",
	Title: "Coils made for short times, energised in a state that lasts",
	Help: "Solenoids and starters of intermittent duty overheat when they stay on. Every operating state but cranking counts as one " +
		"that lasts.",
	Source: "duty given for the part kind",
	run: func(r *run) {
		for i := range r.n.Branches {
			br := &r.n.Branches[i]
			if br.Role == netlist.RoleElement && br.Kind.Duty == "intermittent" && br.Element.Load == "solenoid" {
				r.coilDuty(i, br)
			}
		}
	},
}

func (r *run) coilDuty(i int, br *netlist.Branch) {
	var at *netlist.Solution
	most := fedShare * r.doc.Info().Volts() // less is a leak
	for _, s := range r.usable() {
		if v, ok := s.Across(i); ok && sustained(s) && math.Abs(v) > most && math.Abs(s.Amp[i]) > quiet {
			at, most = s, math.Abs(v)
		}
	}
	if at == nil {
		return
	}
	r.add(of(at, Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Unit: "V", Value: schematic.Some(most),
		Text:    fmt.Sprintf("%s is made for short times and stands under %s as long as this state lasts.", br.Name(), volts(most)),
		Formula: fmt.Sprintf("%s at %s", amps(math.Abs(at.Amp[i])), volts(most))}), br.Element.Name)
}
