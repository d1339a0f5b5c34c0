package check

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

var breakCapacity = Rule{
	ID:    "short beyond fuse",
	Title: "Current of a short right behind a fuse against what the fuse can break",
	Help: "A dead short to metal at the place of every fuse, link and breaker, with cold copper, batteries as they stand in the drawing and all " +
		"alternators at their limit, as if the fuse had no resistance. Above its breaking capacity, or in a system of more volts than it is made for, " +
		"a fuse can burst or keep an arc. Where the inner resistance of a battery is only assumed, a current above the capacity gives no verdict.",
	Source: "ISO 8820-3 and ISO 8820-5, seen second-hand and from memory",
	fuses:  true,
	run: func(r *run) {
		battery, assumed := r.assumedBattery()
		var beyond []Finding
		for i := range r.n.Branches {
			if isFuse(&r.n.Branches[i]) {
				beyond = append(beyond, r.breakCapacity(i, assumed)...)
			}
		}
		if !assumed {
			for _, f := range beyond {
				r.add(f)
			}
		} else if len(beyond) > 0 {
			r.add(r.beyondAssumed(&r.n.Branches[battery], beyond))
		}
	},
}

// beyondAssumed gathers the fuses that could not break a short if a battery
// were as strong as a usual one.
func (r *run) beyondAssumed(battery *netlist.Branch, beyond []Finding) Finding {
	f := Finding{Severity: NotAssessed, Items: []schematic.Key{battery.Key()}, Missing: "the inner resistance or the cold cranking current of " + battery.Name(), Source: beyond[0].Source}
	var names []string
	for _, x := range beyond {
		if k := x.Items[0]; !slices.Contains(f.Items, k) {
			f.Items = append(f.Items, k)
			names = append(names, schematic.NameOf(r.doc.Get(k)))
		}
	}
	f.Text = fmt.Sprintf("Whether %s can break a short behind them is not assessed: with a usual battery it draws up to %s; the inner resistance of %s is missing.",
		list(names), amps(beyond[0].Value.Or(0)), battery.Name())
	if len(names) == 1 {
		f.Text = fmt.Sprintf("Whether %s can break a short behind it is not assessed: with a usual battery it draws up to %s; the inner resistance of %s is missing.",
			names[0], amps(beyond[0].Value.Or(0)), battery.Name())
	}
	return f
}

// canBreak returns the breaking capacity of a fuse in A and the volts it is
// made for: what the part says, else what is on record of its family.
func canBreak(br *netlist.Branch) (amp, volt schematic.Num, src tables.Source) {
	if row, ok := fuseFamily(br.Kind); ok {
		if row.BreakA > 0 {
			amp = schematic.Some(row.BreakA)
		}
		if row.RatedV > 0 {
			volt = schematic.Some(row.RatedV)
		}
		src = row.Source
	}
	if v, ok := br.Value("break_amp").Get(); ok && v > 0 {
		amp, src = schematic.Some(v), tables.Source{Title: "breaking capacity given for the part"}
	}
	return amp, volt, src
}

// breakCapacity looks at one fuse; what is beyond its capacity is returned,
// what is missing told. Assumed says that a battery's resistance is.
func (r *run) breakCapacity(i int, assumed bool) []Finding {
	br := &r.n.Branches[i]
	p := r.prospect(cold)
	if p.metal < 0 {
		return nil // no battery: nothing to break
	}
	var s shortAt
	place, fed := 0, false
	for _, node := range []int{br.A, br.B} {
		if x, ok := p.at(node); ok && x.amp() > s.amp() || ok && !fed {
			s, place, fed = x, node, true
		}
	}
	if !fed {
		return nil
	}
	limit, rated, src := canBreak(br)
	f := Finding{Severity: Error, Items: []schematic.Key{br.Key()}, Pins: pinsOf(br), Unit: "A", Source: src.String()}
	if v, ok := rated.Get(); ok && s.volt > v {
		f.Unit, f.Value, f.Limit, f.Margin = "V", schematic.Some(s.volt), rated, schematic.Some(v-s.volt)
		f.Text = fmt.Sprintf("%s is made for %s and has to break %s.", br.Name(), volts(v), volts(s.volt))
		f.Formula = fmt.Sprintf("%s > %s", volts(s.volt), volts(v))
		r.add(f) // whatever the battery gives
		return nil
	}
	most, ok := limit.Get()
	if !ok {
		f.Severity, f.Missing, f.Value = NotAssessed, "the breaking capacity of "+br.Name(), schematic.Some(s.amp())
		f.Text = fmt.Sprintf("Whether %s can break the %s of a short behind it is not assessed: its breaking capacity is missing.", br.Name(), amps(s.amp()))
		r.add(f)
		return nil
	}
	extra, known := r.alternators()
	total := s.amp() + extra
	gap := r.prospect(hot).gapAt(place)
	switch {
	case total <= most && known:
		return nil
	case assumed: // which is what has to be known first
		f.Value = schematic.Some(total)
		return []Finding{f}
	case s.amp() <= most && !known:
		f.Severity, f.Missing = NotAssessed, "the output of the alternator"
		f.Text = fmt.Sprintf("Whether %s can break a short behind it is not assessed: the output of the alternator is missing.", br.Name())
		r.add(f)
		return nil
	case gap >= 0:
		f.Severity, f.Missing = NotAssessed, strings.TrimSuffix(r.gapWords(gap), " is missing")
		f.Text = fmt.Sprintf("Whether %s can break a short behind it is not assessed: %s.", br.Name(), r.gapWords(gap))
		r.add(f)
		return nil
	}
	f.Value, f.Limit, f.Margin = schematic.Some(total), limit, schematic.Some(most-total)
	f.Formula = fmt.Sprintf("%s / %s = %s", volts(s.volt), ohms(s.ohm), amps(s.amp()))
	if extra > 0 {
		f.Formula += fmt.Sprintf(" and %s of the alternator", amps(extra))
	}
	f.Text = fmt.Sprintf("A short right behind %s draws up to %s, it can break %s.", br.Name(), amps(total), amps(most))
	return []Finding{f}
}

// assumedBattery returns a battery whose inner resistance nobody gave.
func (r *run) assumedBattery() (branch int, ok bool) {
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if !br.IsSource() || br.Element.Type != schematic.ElemBattery {
			continue
		}
		_, own := br.Part.Values[br.Element.Args["ohm"].Param]
		_, label := br.Part.Values[br.Element.Args["cold_crank_amp"].Param]
		if !own && !label && br.Element.Args["ohm"].Param != "" {
			return i, true
		}
	}
	return 0, false
}
