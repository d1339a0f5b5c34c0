package check

import (
	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// mostProofs bounds the copies of the document that one run makes to prove
// remedies, as mostTrials does for what is solved.
const mostProofs = 24

// mostTries is how many remedies of one sort are tried for a finding.
const mostTries = 3

// proven returns the first of several remedies that mends a finding.
func (r *run) proven(f Finding, fixes []Fix) []Fix {
	for _, x := range fixes[:min(mostTries, len(fixes))] {
		if r.mends(f, x) {
			return []Fix{x}
		}
	}
	return nil
}

// mends puts a remedy into a copy of the document and runs all rules on it: the
// finding must be gone, and none as bad may have come. Nor may a fuse that is
// too small, too slow or in the wrong row have come, as a remedy on fuses is to
// spare the builder just that.
func (r *run) mends(f Finding, x Fix) bool {
	if r.proofs >= mostProofs {
		return false
	}
	r.proofs++
	id := schematic.ID{0: 0xfe}
	tx := edit.Begin(r.doc, func() schematic.ID { id[15]++; return id })
	if x.Apply(tx) != nil {
		return false
	}
	n := netlist.Build(tx.Doc())
	sols := n.SolveAll()
	for _, fuses := range []bool{true, false} {
		worst := f.Severity
		if fuses {
			worst = max(worst, Warning)
		}
		for _, g := range walk(n, sols, r.rules, fuses).out {
			old, had := r.stood[g.ID]
			if g.ID == f.ID || g.Severity <= worst && (!had || g.Severity < old) {
				return false
			}
		}
	}
	return true
}
