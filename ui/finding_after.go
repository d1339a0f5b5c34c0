package ui

import (
	"fmt"
	"strings"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// lookAhead is what the checks would say after each remedy of a finding. It is
// worked out beside the window for the finding in hand alone.
type lookAhead struct {
	job  latest
	doc  *schematic.Doc
	id   string   // of the finding
	says []string // by remedy; nil while it is worked out
}

// mostAhead is how many remedies of one finding are tried.
const mostAhead = 3

// ahead returns what is known of the remedies of a finding, and asks for it
// when nothing is.
func (f *findingList) ahead(x *finding) []string {
	have := f.ed.study.have
	if have == nil || have.doc != f.ed.doc() || len(x.Fixes) == 0 {
		return nil
	}
	a := &f.after
	if a.doc == have.doc && a.id == x.ID {
		return a.says
	}
	a.job.crew = f.ed.crew
	a.doc, a.id, a.says = have.doc, x.ID, nil
	base, fixes := have.findings, x.Fixes[:min(len(x.Fixes), mostAhead)]
	ask(&a.job, func() []string {
		var says []string
		for _, fix := range fixes {
			says = append(says, afterwards(have.doc, base, x.ID, fix))
		}
		return says
	}, func(says []string) {
		if a.doc != f.ed.doc() || a.id != x.ID {
			return
		}
		a.says = says
		if now := f.inHand(); now != nil && now.ID == x.ID {
			f.detail.Objects = f.page(now, true)
			f.detail.Refresh()
		}
	})
	return a.says
}

// afterwards says what the checks find once a remedy is put in, against what
// they find now.
func afterwards(d *schematic.Doc, base []finding, id string, fix check.Fix) string {
	tx := edit.Begin(d, nil)
	if err := fix.Apply(tx); err != nil {
		return "It cannot be put in: " + err.Error()
	}
	n := netlist.Build(tx.Doc())
	now := map[string]bool{}
	for _, x := range base {
		now[x.ID] = x.Open()
	}
	later := map[string]bool{}
	var come []string
	for _, x := range check.Look(n, n.SolveAll()).Findings() {
		later[x.ID] = x.Open()
		if x.Open() && !now[x.ID] {
			come = append(come, fmt.Sprintf("%s, %s of %s", x.Severity, x.Rule, namesOf(tx.Doc(), x.Items)))
		}
	}
	gone := 0
	for i := range base {
		if base[i].Open() && !later[base[i].ID] && base[i].ID != id {
			gone++
		}
	}
	says := "Afterwards this finding is gone"
	if later[id] {
		says = "Afterwards this finding is still there"
	}
	if gone > 0 {
		says += fmt.Sprintf(", and so %s", plural(gone, "is 1 other", "are %d others"))
	}
	switch {
	case len(come) == 0:
		return says + "; no new one comes."
	case len(come) > 2:
		return says + fmt.Sprintf("; %d new ones come: %s and more.", len(come), strings.Join(come[:2], "; "))
	}
	return says + fmt.Sprintf("; new: %s.", strings.Join(come, "; "))
}

// plural chooses the words for one or for many.
func plural(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return fmt.Sprintf(many, n)
}

// namesOf names the first items of a finding.
func namesOf(d *schematic.Doc, keys []schematic.Key) string {
	var names []string
	for _, k := range keys[:min(len(keys), 2)] {
		if it := d.Get(k); schematic.NameOf(it) != "" {
			names = append(names, schematic.NameOf(it))
		}
	}
	if len(names) == 0 {
		return "the drawing"
	}
	return strings.Join(names, ", ")
}
