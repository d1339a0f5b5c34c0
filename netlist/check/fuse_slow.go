package check

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/calc"
	"loomwright/schematic"
)

var fuseSlow = Rule{
	ID:    "fuse too slow for wire",
	Title: "Whether the fuse opens before the insulation is damaged",
	Help: "A dead short to metal at the far end of every wire behind a fuse, link or breaker: how long the protection may take to open, and " +
		"how long the wire bears what the batteries send through it. The same for every overload from the current at which the protection must " +
		"open up to a short right behind it. Opening too late, or never, is an error at a dead short and a warning at an overload. Between a fuse's rating and " +
		"the current at which it must open nothing is promised; there the rating against the ampacity of the wire decides. The short piece from where a branch " +
		"begins to the branch's own fuse is left out.",
	Source: "IEC 60949 and IEC 60364-5-54; ISO 8820-3, SAE J1284, J1888 and ISO 8820-5 (from memory)",
	fuses:  true,
	run: func(r *run) {
		u := untimed{}
		ways := r.shorts()
		for i := 0; i < len(ways); {
			var worst []Finding // of one wire
			for wire := ways[i].wire; i < len(ways) && ways[i].wire == wire; i++ {
				worst = append(worst, r.fuseSlow(ways[i], &u)...)
			}
			if len(worst) > 0 {
				r.add(slices.MinFunc(worst, compare))
			}
		}
		r.tellUntimed(&u)
	},
}

// outcome is how a short or an overload ends.
type outcome uint8

const (
	inTime      outcome = iota
	late                // the short is cut off too late
	never               // the short need not be cut off
	lateBetween         // an overload is cut off too late
)

// verdict is what became of a wire and its protection.
type verdict struct {
	outcome
	amp           float64 // through the wire
	fuseA         float64 // through the protector that is last
	lateS, bearsS float64 // bearsS only where it is not in time
	fuse          int     // index into drawn.by
}

// judge lets protectors race with a wire.
func (r *run) judge(ps []*calc.Protector, h *calc.Heating, d drawn, overloads bool) verdict {
	v := verdict{amp: d.wireA, fuseA: d.fuseA[0]}
	for k, p := range ps { // all must be open; each goes by what it carries beside the others
		if t := p.Late(d.fuseA[k]); t > v.lateS {
			v.lateS, v.fuse, v.fuseA = t, k, d.fuseA[k]
		}
	}
	if !h.Bears(v.amp, v.lateS) {
		v.outcome, v.bearsS = late, h.BearsS(v.amp)
		if math.IsInf(v.lateS, 1) {
			v.outcome = never
		}
		return v
	}
	if !overloads || len(ps) > 1 {
		return v
	}
	c := r.race(ps[0], h)
	if _, ratio := c.upTo(math.Inf(1)); ratio <= 1 {
		return v
	}
	if amp, ratio := c.upTo(r.most(d)); ratio > 1 {
		return verdict{lateBetween, amp, amp, ps[0].Late(amp), h.BearsS(amp), 0}
	}
	return v
}

// fuseSlow holds a way of a short against the wire, and what is missing
// against the knowledge of it: also the wires round it that may be loaded.
func (r *run) fuseSlow(w shortWay, u *untimed) []Finding {
	if r.isTail(w.wire) {
		return nil
	}
	bundled := r.mostCrowded(w.wire)
	out := r.fuseSlowAmong(w, bundled, u)
	if more, loads := r.crowdedUnknown(w.wire); more > 0 && len(out) == 0 && len(r.fuseSlowAmong(w, bundled+more, &untimed{})) > 0 {
		names := r.n.Names(loads)
		u.add(w, "the current of "+list(names)+" "+is(len(names))+" missing")
	}
	return out
}

// fuseSlowAmong does so with a number of loaded wires lying together.
func (r *run) fuseSlowAmong(w shortWay, bundled int, u *untimed) []Finding {
	br := &r.n.Branches[w.wire]
	h, err := r.heating(br.Wire, br.Conductor.AmbientC, bundled)
	if err != nil {
		u.add(w, reason(err))
		return nil
	}
	if !r.reached(w, u) {
		return nil
	}
	var out []Finding
	d, others, ok := r.drawn(w)
	if ok {
		out = r.slow(w, h, d, u)
	} else {
		others = w.by
	}
	if len(others) > 0 {
		if d, ok := r.fromAlternators(w, others, u); ok {
			out = append(out, r.slow(w, h, d, u)...)
		}
	}
	return out
}

// slow lets the protectors race with the wire at what is drawn.
func (r *run) slow(w shortWay, h *calc.Heating, d drawn, u *untimed) []Finding {
	ps, err := r.protectorsOf(d.by)
	if err != nil {
		u.add(w, reason(err))
		return nil
	}
	v := r.judge(ps, h, d, w.amp <= h.RatedA)
	if v.outcome == inTime {
		return nil
	}
	if !h.ShortKnown && v.outcome != never && v.bearsS < 5 {
		u.add(w, "the short-circuit temperature of the insulation is missing")
		return nil
	}
	return []Finding{r.slowFinding(w, v, ps[v.fuse], h, d)}
}

// reached reports whether no value is missing between the batteries and a way;
// else it notes which.
func (r *run) reached(w shortWay, u *untimed) bool {
	p := r.prospect(hot)
	if p.metal < 0 {
		u.add(w, "a battery is missing")
		return false
	}
	if gap := p.gapAt(w.node); gap >= 0 {
		u.add(w, r.gapWords(gap))
		return false
	}
	return true
}

// fromAlternators is what alternators alone send through protectors that no
// battery feeds: no more than they can give for good.
func (r *run) fromAlternators(w shortWay, by []int, u *untimed) (drawn, bool) {
	amp, ok := r.alternators()
	if !ok {
		u.add(w, "the output of the alternator is missing")
		return drawn{}, false
	}
	d := drawn{wireA: amp, by: by, fuseA: make([]float64, len(by))}
	for k := range d.fuseA {
		d.fuseA[k] = amp / float64(len(by))
	}
	return d, amp > 0
}

// gapWords says what is missing of a line or a battery.
func (r *run) gapWords(branch int) string {
	br := &r.n.Branches[branch]
	if len(br.Missing) == 0 {
		return "the resistance of " + br.Name() + " is missing"
	}
	what := br.MissingOf()
	if !strings.HasPrefix(what, "a ") {
		what = "the " + what
	}
	return what + " " + is(len(br.Missing)) + " missing"
}

// slowFinding puts a verdict into words.
func (r *run) slowFinding(w shortWay, v verdict, p *calc.Protector, h *calc.Heating, d drawn) Finding {
	br := &r.n.Branches[w.wire]
	wire, size, fuse := br.Wire.Name, br.Wire.Size, r.n.Branches[d.by[v.fuse]].Name()
	f := Finding{Severity: Error, Items: []schematic.Key{br.Wire.Key()}, Unit: "s", Source: p.Source.And(h.Source).String(),
		Value: schematic.Some(v.lateS), Limit: schematic.Some(v.bearsS), Margin: schematic.Some(v.bearsS - v.lateS)}
	for _, i := range d.by {
		f.Items = append(f.Items, r.n.Branches[i].Key())
	}
	f.Formula = fmt.Sprintf("%s; %s", p.Formula(v.fuseA), h.Formula(v.amp))
	if v.outcome != lateBetween && d.ohm > 0 {
		f.Formula = fmt.Sprintf("%s / %s = %s; %s", volts(d.volt), ohms(d.ohm), amps(d.amp()), f.Formula)
	}
	switch v.outcome {
	case never:
		f.Unit, f.Value, f.Limit, f.Margin = "A", schematic.Some(v.fuseA), schematic.Some(p.SureA), schematic.Some(v.fuseA-p.SureA)
		f.Text = fmt.Sprintf("A dead short at the far end of %s draws only %s: %s (%s) need not open, and %s (%s) bears that for %s.",
			wire, amps(v.amp), fuse, amps(p.RatingA), wire, size, span(v.bearsS))
	case late:
		f.Text = fmt.Sprintf("A dead short at the far end of %s draws %s: %s (%s) may take %s to open, %s (%s) bears that for %s.",
			wire, amps(v.amp), fuse, amps(p.RatingA), span(v.lateS), wire, size, span(v.bearsS))
	case lateBetween:
		f.Severity = Warning
		f.Text = fmt.Sprintf("An overload of %s on %s may last %s until %s (%s) opens, %s (%s) bears that for %s.",
			amps(v.amp), wire, span(v.lateS), fuse, amps(p.RatingA), wire, size, span(v.bearsS))
	}
	if mmLong, ok := r.longest(w, v, p, h, d); ok {
		f.Text += fmt.Sprintf(" No longer than %s, it would be cut off in time.", mm(mmLong))
	}
	mend := r.identified(f)
	f.remedy = func() []Fix { return r.timeRemedies(mend, w, v, p, h, d) }
	return f
}

// span is a time as people say it.
func span(s float64) string {
	switch {
	case math.IsInf(s, 1):
		return "any time"
	case s >= 7200:
		return num(s/3600) + " h"
	case s < 0.1:
		return num(s*1000) + " ms"
	}
	return num(s) + " s"
}

// untimed gathers the wires of which it is not known whether their protection
// opens in time, by what protects them and what is missing.
type untimed struct {
	keys  []string
	wires map[string][]int
	ways  map[string]shortWay
}

func (u *untimed) add(w shortWay, missing string) {
	if u.wires == nil {
		u.wires, u.ways = map[string][]int{}, map[string]shortWay{}
	}
	if _, had := u.wires[missing]; !had {
		u.keys = append(u.keys, missing)
		u.ways[missing] = w
	}
	if last := u.wires[missing]; len(last) == 0 || last[len(last)-1] != w.wire {
		u.wires[missing] = append(last, w.wire)
	}
}

// tellUntimed reports what is missing, once for all wires it is missing for.
func (r *run) tellUntimed(u *untimed) {
	for _, missing := range u.keys {
		f := Finding{Severity: NotAssessed, Missing: strings.TrimSuffix(missing, " is missing")}
		for _, i := range u.wires[missing] {
			f.Items = append(f.Items, r.n.Branches[i].Key())
		}
		names := r.names(u.wires[missing])
		for _, i := range u.ways[missing].by {
			f.Items = append(f.Items, r.n.Branches[i].Key())
		}
		f.Text = fmt.Sprintf("Whether a short on %s is cut off in time is not assessed: %s.", list(names), missing)
		r.add(f, missing)
	}
}
