package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
)

var strapShare = Rule{
	ID:    "shares of ground straps",
	Title: "Voltage of body, engine and frame, and what each strap carries",
	Help: "For every metal with ground studs: the voltage it stands at against battery negative in each operating state, and, in the " +
		"state with the largest current, how that current divides between the straps and cables by which it leaves the metal, if there are several. " +
		"A report, no verdict.",
	Source: "Kirchhoff's laws on the drawing",
	run: func(r *run) {
		if r.n.Reference < 0 {
			return
		}
		for _, m := range r.metals() {
			r.strapShare(m)
		}
	},
}

// leastStrapPart is the part of the current below which a wire is not named
// (judgement, no source).
const leastStrapPart = 0.005

func (r *run) strapShare(m metal) {
	floor, _ := r.limit(limitLoaded)
	var at *netlist.Solution
	most, rise := floor, 0.0
	var rises []string
	for _, s := range r.usable() {
		v, ok := s.VoltAt(m.node)
		if !ok {
			return // another rule says that nothing leads from there to the battery
		}
		rise = math.Max(rise, math.Abs(v))
		rises = append(rises, volts(math.Abs(v))+" "+inState(s))
		if _, _, sum := r.leaving(m, s); sum > most {
			at, most = s, sum
		}
	}
	if at == nil {
		return
	}
	wires, parts, _ := r.leaving(m, at)
	if len(wires) < 2 {
		return // nothing to share
	}
	items := []schematic.Key{m.studs[0].Key()}
	if unknown := r.strapBlocks().gaps(m.node, r.n.Reference); len(unknown) > 0 {
		what, lines := r.lacking(unknown)
		r.add(Finding{Severity: NotAssessed, Items: append(items, lines...), Missing: list(what),
			Text: fmt.Sprintf("How the straps of the %s share its current is not assessed: %s %s missing.", m.name, list(what), is(len(what)))}, m.name)
		return
	}
	var shares []string
	for k, i := range wires {
		if parts[k] < leastStrapPart*most {
			continue
		}
		items = append(items, r.n.Branches[i].Key())
		shares = append(shares, fmt.Sprintf("%s carries %s (%s)", r.n.Branches[i].Name(), percent(parts[k]/most), amps(parts[k])))
	}
	r.add(of(at, Finding{Severity: Note, Items: items, Unit: "V", Value: schematic.Some(rise),
		Text:    fmt.Sprintf("The %s stands at %s against battery negative. Of the %s that leave it %s, %s.", m.name, list(rises), amps(most), inState(at), list(shares)),
		Formula: "I of each strap / Σ I of all"}), m.name)
}

// inState says in a sentence which operating state is meant.
func inState(s *netlist.Solution) string {
	if (s.State.ID == schematic.ID{}) {
		return s.State.Name // "at rest"
	}
	return "in " + s.State.Name
}
