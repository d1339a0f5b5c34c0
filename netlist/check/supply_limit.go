package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
)

var supplyLimit = Rule{
	ID:    "supply at its limit",
	Title: "Alternator or regulator that gives all it can",
	Help: "What is asked for beyond the limit of an alternator comes out of the battery, which empties; a sensor supply at its limit " +
		"breaks down. The state that leaves the least voltage counts.",
	Source: "limit given for the part",
	run: func(r *run) {
		for i := range r.n.Branches {
			r.supplyLimit(i)
		}
	},
}

func (r *run) supplyLimit(i int) {
	br := &r.n.Branches[i]
	var at *netlist.Solution
	least := math.Inf(1)
	for _, s := range r.usable() {
		for _, j := range s.Limiting {
			if v, ok := s.Across(i); j == i && ok && v < least {
				at, least = s, v
			}
		}
	}
	if at == nil {
		return
	}
	r.add(of(at, Finding{Severity: Warning, Items: []schematic.Key{br.Key()},
		Text:    fmt.Sprintf("%s is at its limit: it gives %s, and its voltage falls to %s.", br.Name(), amps(math.Abs(at.Amp[i])), volts(least)),
		Formula: fmt.Sprintf("%s instead of %s", volts(least), volts(br.Value("volt").Or(0)))}), br.Element.Name)
}

var polarity = Rule{
	ID:     "fed the wrong way round",
	Title:  "Load with a polarity whose plus is at minus",
	Help:   "Electronics and lamps with a driver of their own have a plus and a minus; swapped, they do not work or are destroyed.",
	Source: "pins of the part",
	run: func(r *run) {
		said := map[int]bool{}
		for _, s := range r.usable() {
			for _, i := range s.Reversed {
				if br := &r.n.Branches[i]; !said[i] {
					said[i] = true
					r.add(of(s, Finding{Severity: Error, Items: []schematic.Key{br.Key()}, Pins: pinsOf(br),
						Fixes: r.swapped(r.n.Nodes[br.A].Pin, r.n.Nodes[br.B].Pin, "its plus is then at plus"),
						Text:  fmt.Sprintf("%s is fed the wrong way round: %s is at minus.", br.Name(), r.point(br.A))}), br.Element.Name)
				}
			}
		}
	},
}
