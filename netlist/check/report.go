package check

import (
	"slices"

	"loomwright/netlist"
)

// Report is what the rules find in a netlist. Remedies, for which networks are
// solved, can be left for later: [Report.Findings] is there first.
type Report struct {
	n     *netlist.Netlist
	found []Finding
	how   []remedy // those not worked out yet
}

// remedy belongs to one finding of a report. The answers that rules share belong
// to a run, so the remedies of one run are worked out one after the other.
type remedy struct {
	by  *run
	at  int // in found
	fix func() []Fix
}

// Look applies every rule to a netlist and its computed operating states.
func Look(n *netlist.Netlist, sols []*netlist.Solution) *Report {
	beside := make(chan *run)
	go func() { beside <- walk(n, sols, rules, true) }() // on a second core
	runs := []*run{walk(n, sols, rules, false)}
	runs = append(runs, <-beside)

	r := &Report{n: n}
	type made struct { // a finding and where it stands in its run
		by *run
		at int
	}
	var all []made
	for _, x := range runs {
		for i := range x.out {
			all = append(all, made{x, i})
		}
	}
	slices.SortStableFunc(all, func(a, b made) int { return compareIn(&a.by.out[a.at], &b.by.out[b.at]) })
	place := map[made]int{}
	stood := map[string]Severity{}
	for i, m := range all {
		r.found = append(r.found, m.by.out[m.at])
		place[m] = i
		stood[r.found[i].ID] = r.found[i].Severity
	}
	for _, x := range runs { // in the order in which they were found, as the number of trials is bounded
		x.stood = stood
		for i := range x.out {
			if fix := x.how[i]; fix != nil {
				r.how = append(r.how, remedy{x, place[made{x, i}], fix})
			}
		}
	}
	markAccepted(n.Doc, r.found)
	return r
}

// Findings returns what was found, sorted: worst first, then by how far beyond
// the limit, then by designation. Those the document accepts are among them,
// marked. Remedies that take long to work out are missing: see [Report.Remedies].
func (r *Report) Findings() []Finding { return slices.Clone(r.found) }

// Remedies returns the same findings with all their remedies. Stop is asked
// between them; when it says so, the findings are returned as far as they are.
// It may run once: what the rules share is not for two at a time.
func (r *Report) Remedies(stop func() bool) []Finding {
	done := make(chan struct{})
	var runs []*run
	for _, h := range r.how {
		if !slices.Contains(runs, h.by) {
			runs = append(runs, h.by)
		}
	}
	out := slices.Clone(r.found)
	for _, x := range runs {
		go func() {
			defer func() { done <- struct{}{} }()
			for _, h := range r.how {
				if stop() {
					return
				}
				if h.by == x {
					out[h.at].Fixes = h.fix()
				}
			}
		}()
	}
	for range runs {
		<-done
	}
	return out
}

// Run is [Look] with all remedies.
func Run(n *netlist.Netlist, sols []*netlist.Solution) []Finding {
	return Look(n, sols).Remedies(func() bool { return false })
}

// walk applies those of the rules that look at fuses, or all others, one after the
// other.
func walk(n *netlist.Netlist, sols []*netlist.Solution, rules []Rule, fuses bool) *run {
	r := &run{n: n, doc: n.Doc, sols: sols, rules: rules, how: map[int]func() []Fix{}}
	for _, rule := range rules {
		if rule.fuses == fuses {
			r.rule = rule
			rule.run(r)
		}
	}
	return r
}
