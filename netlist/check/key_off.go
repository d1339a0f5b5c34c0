package check

import (
	"fmt"
	"slices"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

var keyOff = Rule{
	ID:    "key-off current",
	Title: "What the parked vehicle takes out of its battery",
	Help: "With the engine off and everything at rest, what all batteries together give: units on permanent supply, and what was left " +
		"on. A battery of C ampere-hours is half empty after 0.5·C/I hours, which is reported also within the limit." +
		" Batteries in series count once. What one takes out of another beside it is held against the same limit.",
	Source: "vehicle workshop manuals, key-off current, seen second-hand",
	run:    (*run).keyOff,
}

func (r *run) keyOff() {
	batteries := r.groundedBatteries()
	if len(batteries) == 0 || len(r.doc.States()) == 0 {
		return // another rule asks for operating states
	}
	s := r.parked()
	if s == nil || s.Err != nil {
		return // another rule says so
	}
	shades := map[int][]int{}
	r.shade(s, shades)
	var items []schematic.Key
	var names []string
	var unknown []int
	amp, capacity, known := 0.0, 0.0, true
	for _, i := range batteries {
		br := &r.n.Branches[i]
		items, names = append(items, br.Key()), append(names, br.Name())
		unknown = append(unknown, shades[i]...)
		amp -= s.Amp[i]
		ah, ok := br.Kind.ParamValue(br.Part, br.Pin, "capacity_ah").Get()
		capacity, known = capacity+ah, known && ok && ah > 0
	}
	limit, src := r.limit(limitKeyOff)
	r.exchange(s, batteries, limit, src)
	slices.Sort(unknown)
	unknown = slices.Compact(unknown)
	f := of(s, Finding{Items: items, Unit: "A", Value: schematic.Some(amp), Source: src.String()})
	switch {
	case amp > limit:
		f.Severity, f.Limit, f.Margin = Warning, schematic.Some(limit), schematic.Some(limit-amp)
		f.Text = fmt.Sprintf("Parked, %s %s %s, %s are allowed.", list(names), verb(len(names), "give"), amps(amp), amps(limit))
		f.Formula = fmt.Sprintf("%s > %s", amps(amp), amps(limit))
		days, err := calc.ParkedDays(capacity, amp)
		if known && err == nil {
			f.Text += fmt.Sprintf(" Half of the charge is gone after %s days.", num(days.Value))
			f.Formula, f.Source = days.Formula, src.And(days.Source).String()
		} else {
			f.Text += " Without the capacity nobody can say for how long."
		}
	case len(unknown) > 0:
		f.Severity = NotAssessed
		f.Missing = "the current of " + list(r.names(unknown))
		f.Text = fmt.Sprintf("Parked, %s %s at least %s; the current of %s is missing.", list(names), verb(len(names), "give"), amps(amp), list(r.names(unknown)))
	default:
		days, err := calc.ParkedDays(capacity, amp)
		if !known || err != nil || amp < leastParked {
			return
		}
		f.Severity, f.Formula, f.Source = Note, days.Formula, days.Source.String()
		f.Text = fmt.Sprintf("Parked, %s %s %s: half of the charge is gone after %s days.", list(names), verb(len(names), "give"), amps(amp), num(days.Value))
	}
	r.add(f)
}

// exchange names the batteries that take current out of others while parked:
// side by side they give the vehicle nothing and yet empty each other.
func (r *run) exchange(s *netlist.Solution, batteries []int, limit float64, src tables.Source) {
	var givers, takers []int
	taken := 0.0
	for _, i := range batteries {
		switch amp := s.Amp[i]; {
		case amp > limit:
			takers, taken = append(takers, i), taken+amp
		case amp < 0:
			givers = append(givers, i)
		}
	}
	if len(takers) == 0 || len(givers) == 0 {
		return
	}
	r.add(of(s, Finding{Severity: Warning, Items: append(r.keys(takers), r.keys(givers)...), Unit: "A",
		Value: schematic.Some(taken), Limit: schematic.Some(limit), Margin: schematic.Some(limit - taken),
		Formula: fmt.Sprintf("%s > %s", amps(taken), amps(limit)), Source: src.String(),
		Text: fmt.Sprintf("Parked, %s %s %s out of %s: batteries of different voltage empty into each other; part them while the engine is off.",
			list(r.n.Names(takers)), verb(len(takers), "take"), amps(taken), list(r.n.Names(givers)))}), "exchange")
}

// leastParked is the parked current below which nothing is reported, A: a
// battery loses as much by itself (judgement, no source).
const leastParked = 0.001

// groundedBatteries lists the batteries whose negative pole is ground, so that
// those in series count once.
func (r *run) groundedBatteries() []int {
	grounded := isGround(r.n)
	var out []int
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if br.IsSource() && br.Element.Type == schematic.ElemBattery && len(br.Missing) == 0 && grounded[r.n.Nodes[br.B].Net] {
			out = append(out, i)
		}
	}
	return out
}

// parked returns the operating state with the engine off and everything at
// rest; where the document has none, it is computed.
func (r *run) parked() *netlist.Solution {
	for _, s := range r.usable() {
		if r.atRest(s.State) {
			return s
		}
	}
	if r.n.Reference < 0 {
		return nil
	}
	return r.n.Solve(nil)
}

// atRest reports whether a state switches nothing on.
func (r *run) atRest(st *schematic.State) bool {
	if st.Engine != "" && st.Engine != schematic.EngineOff {
		return false
	}
	for _, x := range st.Set {
		if x.Position == "" || x.Position == "off" {
			continue
		}
		p := r.doc.Part(x.Part)
		if p == nil {
			continue
		}
		k := r.doc.KindOf(p)
		if k == nil || len(k.Positions) == 0 || k.Positions[0] != x.Position {
			return false
		}
	}
	return true
}
