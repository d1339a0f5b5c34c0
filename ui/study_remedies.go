package ui

import (
	"slices"
	"sync/atomic"
)

// remedyJob works out the remedies of findings that are in sight already: for
// some of them networks are solved, which the list does not wait for.
type remedyJob struct {
	job  latest
	stop *atomic.Bool // of the work under way; nil before the first
}

// drop gives up what is under way: the drawing has changed.
func (j *remedyJob) drop() {
	if j.stop != nil {
		j.stop.Store(true)
	}
	j.job.drop()
}

// askRemedies works out the remedies of the findings just shown.
func (ed *Editor) askRemedies(e *electricity) {
	stop := new(atomic.Bool)
	ed.study.after.stop = stop
	ask(&ed.study.after.job, func() []finding { return e.remedies(stop.Load) }, func(fs []finding) {
		if ed.study.have != e {
			return
		}
		full := *e // nobody changes one that is in use
		full.findings = fs
		ed.study.have = &full
		ed.drawer.findings.refresh()
	})
}

// remedies returns the findings with their remedies.
func (e *electricity) remedies(stop func() bool) []finding {
	fs := slices.Clone(e.findings)
	for i, f := range e.report.Remedies(stop) {
		fs[i].Fixes = f.Fixes
	}
	return fs
}
