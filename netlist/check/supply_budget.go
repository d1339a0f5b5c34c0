package check

import (
	"fmt"
	"math"
	"slices"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

var supplyBudget = Rule{
	ID:    "alternator budget",
	Title: "What is asked of the alternators against what they give",
	Help: "In each state with the engine turning: a battery that gives current empties while one drives; and what all sources give " +
		"together is held against the output of the alternators at idle, at idle when hot, and hot. Where the part does not say its output " +
		"at idle or hot, a low share of its rating is taken, and what lies above it is not assessed.",
	Source: "outputs given for the part; rule of thumb for alternators (from memory)",
	run: func(r *run) {
		var alternators []int
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; br.IsSource() && br.Element.Type == schematic.ElemAlternator && len(br.Missing) == 0 {
				alternators = append(alternators, i)
			}
		}
		if len(alternators) == 0 {
			return
		}
		r.emptying(alternators)
		for _, engine := range []schematic.Engine{schematic.EngineIdle, schematic.EngineRunning} {
			r.output(alternators, engine)
		}
	},
}

// emptying names the batteries that give current while the engine runs, each
// in its worst state.
func (r *run) emptying(alternators []int) {
	limit, src := r.limit(limitEmptying)
	for _, i := range r.groundedBatteries() {
		var at *netlist.Solution
		most := limit
		for _, s := range r.usable() {
			if turning(s) && -s.Amp[i] > most {
				at, most = s, -s.Amp[i]
			}
		}
		if at == nil {
			continue
		}
		br := &r.n.Branches[i]
		r.add(of(at, Finding{Severity: Warning, Items: append([]schematic.Key{br.Key()}, r.keys(alternators)...), Unit: "A",
			Value: schematic.Some(most), Limit: schematic.Some(limit), Margin: schematic.Some(limit - most), Source: src.String(),
			Text:    fmt.Sprintf("%s gives %s while the engine runs: it empties.", br.Name(), amps(most)),
			Formula: fmt.Sprintf("%s gives %s beside %s", br.Name(), amps(most), r.given(at, alternators))}), "emptying")
	}
}

func turning(s *netlist.Solution) bool {
	return s.State.Engine == schematic.EngineIdle || s.State.Engine == schematic.EngineRunning
}

// given writes what the alternators give: "90 A of G2".
func (r *run) given(s *netlist.Solution, alternators []int) string {
	sum := 0.0
	for _, i := range alternators {
		sum -= s.Amp[i]
	}
	return amps(sum) + " of " + list(r.partNames(alternators))
}

// output holds the largest load of all states of an engine state against what
// the alternators give at idle, or hot.
func (r *run) output(alternators []int, engine schematic.Engine) {
	var at *netlist.Solution
	most := 0.0
	for _, s := range r.usable() {
		if a := r.asked(s, alternators); s.State.Engine == engine && a > most {
			at, most = s, a
		}
	}
	if at == nil {
		return
	}
	c, ok := r.capacity(alternators, engine)
	if ok && most <= c.amp && engine == schematic.EngineIdle {
		c, ok = r.idleHot(alternators, c)
	}
	switch {
	case !ok: // another rule asks for the rated output
	case most > c.amp:
		r.overAsked(alternators, at, most, c)
	default:
		lacks := r.shadedAny(alternators)
		if len(lacks) == 0 {
			return
		}
		r.add(of(at, Finding{Severity: NotAssessed, Items: append(r.keys(alternators), r.keys(lacks)...), Unit: "A", Value: schematic.Some(most),
			Missing: "the current of " + list(r.n.Names(lacks)),
			Text:    fmt.Sprintf("More than %s are asked of %s: the current of %s is missing.", amps(most), list(r.partNames(alternators)), list(r.n.Names(lacks)))}), c.detail, "loads")
	}
}

// capacity is what alternators give at idle, at idle when hot, or hot.
type capacity struct {
	amp     float64
	unknown []int         // alternators that do not say it
	src     tables.Source // of the share taken for them
	detail  string        // tells the findings of the rule apart, also in accepted files
	when    string        // as people read it
	lack    string        // what is missing of the unknown ones
}

func (r *run) capacity(alternators []int, engine schematic.Engine) (c capacity, ok bool) {
	if engine == schematic.EngineIdle {
		c = capacity{detail: "at idle", when: "at idle", lack: "at idle"}
		c.amp, c.unknown, c.src, ok = r.gives(alternators, "idle_limit_amp", limitIdleShare)
	} else {
		c = capacity{detail: "hot", when: "when hot", lack: "when hot"}
		c.amp, c.unknown, c.src, ok = r.gives(alternators, "hot_limit_amp", limitHotShare)
	}
	return c, ok
}

// idleHot is what is left at idle of a capacity when the alternators are hot;
// false where none says what it is rated for.
func (r *run) idleHot(alternators []int, idle capacity) (capacity, bool) {
	hot, unknown, src, _ := r.gives(alternators, "hot_limit_amp", limitHotShare)
	rated := 0.0
	for _, i := range alternators {
		rated += r.n.Branches[i].Value("limit_amp").Or(0)
	}
	if rated <= 0 {
		return idle, false
	}
	c := capacity{amp: idle.amp * math.Min(1, hot/rated), src: idle.src.And(src), detail: "at idle and hot", when: "at idle when hot", lack: "at idle"}
	switch {
	case len(idle.unknown) == 0:
		c.lack = "when hot"
	case len(unknown) > 0:
		c.lack = "at idle and when hot"
	}
	c.unknown = slices.Concat(idle.unknown, unknown)
	slices.Sort(c.unknown)
	c.unknown = slices.Compact(c.unknown)
	return c, true
}

// overAsked reports loads beyond what the alternators give for certain.
func (r *run) overAsked(alternators []int, at *netlist.Solution, most float64, c capacity) {
	f := of(at, Finding{Items: r.keys(alternators), Unit: "A", Value: schematic.Some(most)})
	if len(c.unknown) > 0 {
		f.Severity, f.Missing, f.Source = NotAssessed, "the output of "+list(r.partNames(c.unknown))+" "+c.lack, c.src.String()
		f.Text = fmt.Sprintf("%s are asked of %s; the output %s is missing, and some give no more than %s %s.",
			amps(most), list(r.partNames(alternators)), c.lack, amps(c.amp), c.when)
	} else {
		f.Severity, f.Limit, f.Margin = Warning, schematic.Some(c.amp), schematic.Some(c.amp-most)
		f.Source = tables.Source{Title: "output given for the part"}.String()
		f.Text = fmt.Sprintf("%s are asked of %s, which %s %s %s: the battery gives the rest.",
			amps(most), list(r.partNames(alternators)), verb(len(alternators), "give"), amps(c.amp), c.when)
		f.Formula = fmt.Sprintf("%s > %s", amps(most), amps(c.amp))
	}
	r.add(f, c.detail)
}

// gives sums up what alternators give at idle or hot: as the parts say, else by
// a low share of the rating; false where one does not even say that.
func (r *run) gives(alternators []int, arg, share string) (amp float64, unknown []int, src tables.Source, ok bool) {
	ratio, src := r.limit(share)
	for _, i := range alternators {
		br := &r.n.Branches[i]
		rated, ok := br.Value("limit_amp").Get()
		if v, said := br.Value(arg).Get(); said {
			amp += v
		} else if ok {
			amp += ratio * rated
			unknown = append(unknown, i)
		} else {
			return 0, nil, src, false
		}
	}
	return amp, unknown, src, true
}

// shadedAny lists the loads of unknown current that would draw through some of
// the branches.
func (r *run) shadedAny(branches []int) []int {
	var out []int
	for _, i := range branches {
		out = append(out, r.shaded()[i]...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// asked is what the loads take: what alternators give, and batteries beside
// them. What charges a battery is no load.
func (r *run) asked(s *netlist.Solution, alternators []int) float64 {
	sum := 0.0
	for _, i := range alternators {
		sum -= s.Amp[i]
	}
	for _, i := range r.groundedBatteries() {
		sum -= s.Amp[i]
	}
	return math.Max(sum, 0)
}

// partNames returns the designations of the parts of branches.
func (r *run) partNames(branches []int) []string {
	var out []string
	for _, i := range branches {
		out = append(out, r.n.Branches[i].Part.Name)
	}
	return out
}
