package check

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

const limitRelayLamp = "relay_lamp_ratio"

func relayLimits() []Limit {
	return []Limit{{Name: limitRelayLamp, Title: "part of its rating that a relay contact may switch on as filament lamps", Unit: "ratio",
		value: fixed(0.5, tables.Source{Title: "data sheet of a mini relay", Place: "at most 4 lamps of 60 W, 20 A, on a contact for 30 A hot and 45 A cold, seen second-hand; half taken"})}}
}

var relayLamp = Rule{
	ID:    "relay too small for its lamps",
	Title: "Relay contacts against the filament lamps they switch",
	Help: "Cold filaments draw about ten times their current for some milliseconds and weld contacts. The steady current of all filament lamps " +
		"behind a relay contact is held against a part of the contact's rating.",
	Source: "data sheet of a mini relay, lamp load, seen second-hand",
	run: func(r *run) {
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; isContact(br) && !isSwitch(br) {
				r.relayLamp(i, br)
			}
		}
	},
}

func (r *run) relayLamp(i int, br *netlist.Branch) {
	rated, ok := br.Value("limit_amp").Get()
	if _, amp := r.worst(i, anyState); !ok || amp > rated {
		return // another rule says so
	}
	share, src := r.limit(limitRelayLamp)
	var at *netlist.Solution
	most := share * rated
	for _, s := range r.usable() {
		left, lamps := math.Abs(s.Amp[i]), 0.0
		if left <= quiet {
			continue
		}
		for _, load := range r.workedBy(s)[i] {
			if r.n.Branches[load].Element.Type == schematic.ElemLamp {
				lamps += math.Abs(s.Amp[load])
			}
		}
		if lamps = math.Min(lamps, left); lamps > most {
			at, most = s, lamps
		}
	}
	if at == nil {
		return
	}
	limit := share * rated
	r.add(of(at, Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Unit: "A", Source: src.String(),
		Value: schematic.Some(most), Limit: schematic.Some(limit), Margin: schematic.Some(limit - most),
		Text:    fmt.Sprintf("%s switches %s of filament lamps; with its rating of %s it should switch %s at most, cold lamps weld contacts.", br.Name(), amps(most), amps(rated), amps(limit)),
		Formula: fmt.Sprintf("%s > %s · %s", amps(most), num(share), amps(rated))}), br.Element.Name)
}
