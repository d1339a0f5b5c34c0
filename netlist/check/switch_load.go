package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

var switchLoad = Rule{
	ID:    "switch too small for its load",
	Title: "Switch contacts against the kind of load they work",
	Help: "Lamps and motors start with many times their current, coils draw an arc when switched off. The rating a switch needs is " +
		"the sum of its load currents, each times a factor for its kind: at 12 V lamp 5, motor 2, coil and solenoid 2, heater and " +
		"all else 1. Contacts of relays have a rule of their own.",
	Source: "FAA AC 43.13-1B, Table 11-4",
	run: func(r *run) {
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; isSwitch(br) {
				r.switchLoad(i, br)
			}
		}
	},
}

// isSwitch reports whether a branch is a contact that no coil moves.
func isSwitch(br *netlist.Branch) bool {
	return br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemContact && br.Element.Coil == ""
}

func isContact(br *netlist.Branch) bool {
	return br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemContact
}

// workedBy lists, by contact, the loads whose current goes through it in an
// operating state. Every load is followed once, whatever the number of contacts.
func (r *run) workedBy(s *netlist.Solution) map[int][]int {
	if out, ok := r.worked[s]; ok {
		return out
	}
	out := map[int][]int{}
	if r.worked == nil {
		r.worked = map[*netlist.Solution]map[int][]int{}
	}
	r.worked[s] = out
	f := r.flow(s)
	for i := range r.n.Branches {
		if !r.n.Branches[i].IsLoad() || math.Abs(s.Amp[i]) <= quiet {
			continue
		}
		feed, back := f.sides(i)
		for _, line := range slices.Concat(feed.lines, back.lines) {
			if l := out[line]; isContact(&r.n.Branches[line]) && (len(l) == 0 || l[len(l)-1] != i) {
				out[line] = append(l, i)
			}
		}
	}
	return out
}

// switchKind is the kind of load a load counts as for a switch.
func switchKind(load string) tables.SwitchLoad {
	switch load {
	case "lamp":
		return tables.LampLoad
	case "motor", "starter":
		return tables.MotorLoad
	case "coil", "solenoid":
		return tables.InductiveLoad
	}
	return tables.ResistiveLoad
}

func (r *run) switchLoad(i int, br *netlist.Branch) {
	rated, ok := br.Value("limit_amp").Get()
	if _, amp := r.worst(i, anyState); !ok || amp > rated {
		return // another rule says so
	}
	var at *netlist.Solution
	var how []string
	var src tables.Source
	most := 0.0
	for _, s := range r.usable() {
		if math.Abs(s.Amp[i]) <= quiet {
			continue
		}
		need, terms, from, err := r.switchNeeds(math.Abs(s.Amp[i]), r.workedBy(s)[i], s)
		if err != nil {
			floor, _ := r.limit(limitLoaded)
			if math.Abs(s.Amp[i]) >= floor {
				r.add(of(s, Finding{Severity: NotAssessed, Items: []schematic.Key{br.Key()}, Missing: lacking(err),
					Text: fmt.Sprintf("Whether %s is large enough for the kind of its load is not assessed: %s.", br.Name(), reason(err))}), br.Element.Name)
			}
			return
		}
		if need > most {
			at, most, how, src = s, need, terms, from
		}
	}
	if at == nil || most <= rated {
		return
	}
	r.add(of(at, Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Unit: "A", Source: src.String(),
		Value: schematic.Some(most), Limit: schematic.Some(rated), Margin: schematic.Some(rated - most),
		Text:    fmt.Sprintf("%s is rated for %s; with the kind of its load it needs %s.", br.Name(), amps(rated), amps(most)),
		Formula: strings.Join(how, "; ")}), br.Element.Name)
}

// switchNeeds sums up the rating a contact needs for its loads in an operating
// state. What flows through it and cannot be traced to a load counts as it is.
func (r *run) switchNeeds(through float64, loads []int, s *netlist.Solution) (need float64, how []string, src tables.Source, err error) {
	byKind := map[tables.SwitchLoad]float64{}
	left := through
	for _, i := range loads {
		a := math.Min(math.Abs(s.Amp[i]), left) // the rest comes another way
		left -= a
		byKind[switchKind(r.n.Branches[i].Element.Load)] += a
	}
	byKind[tables.ResistiveLoad] += left
	switches := tables.Switches()
	for _, row := range switches.All() {
		a := byKind[row.Load]
		if a <= quiet {
			continue
		}
		rating, err := calc.SwitchRating(row.Load, a, r.doc.Info().Volts())
		if err != nil {
			return 0, nil, src, err
		}
		need, how, src = need+rating.Value, append(how, rating.Formula), rating.Source
	}
	return need, how, src, nil
}
