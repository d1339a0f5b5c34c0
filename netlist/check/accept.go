package check

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"loomwright/schematic"
)

// sameWithin is the part of a number by which it may differ from the one that
// was accepted: the last digits of a computed current are noise, and changes
// elsewhere in the harness reach them (judgement, no source).
const sameWithin = 0.01

// Open reports whether nobody has accepted a finding as it is now.
func (f Finding) Open() bool { return f.Accepted == nil }

// Acceptance returns what the document keeps when a finding is accepted. The
// date is given as it shall be written (ISO 8601). It has no ID yet.
func (f Finding) Acceptance(reason, date string) *schematic.Acceptance {
	a := &schematic.Acceptance{Rule: f.Rule, Detail: f.Detail, Severity: f.Severity.String(), Value: rounded(f.Value), Limit: rounded(f.Limit),
		Unit: f.Unit, Missing: f.Missing, Reason: reason, Date: date}
	for _, k := range f.Items {
		a.Items = append(a.Items, schematic.SubjectOf(k))
	}
	return a
}

// AcceptedBefore says at what a finding that is open again was accepted, and
// why; empty when it never was.
func (f Finding) AcceptedBefore() string {
	a := f.Before
	if a == nil {
		return ""
	}
	at := ""
	switch {
	case a.Value.Known():
		at = " at " + Figure(a.Value, a.Unit)
	case a.Missing != "":
		at = " without " + a.Missing
	}
	if a.Severity != "" && a.Severity != f.Severity.String() {
		at += " as " + a.Severity
	}
	return fmt.Sprintf("accepted before%s: %s", at, a.Reason)
}

// rounded keeps the digits that mean something, so that the file reads well.
func rounded(n schematic.Num) schematic.Num {
	v, ok := n.Get()
	if !ok || v == 0 {
		return n
	}
	unit := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-3)
	if unit < 1 {
		return bounded(math.Round(v*math.Round(1/unit)) / math.Round(1/unit))
	}
	return bounded(math.Round(v/unit) * unit)
}

// bounded is unknown for what no file can hold.
func bounded(v float64) schematic.Num {
	if math.Abs(v) > schematic.MaxNum {
		return schematic.Num{}
	}
	return schematic.Some(v)
}

// holds reports whether an acceptance fits what a finding says now.
func holds(a *schematic.Acceptance, f Finding) bool {
	if a.Severity != f.Severity.String() || a.Unit != f.Unit || a.Missing != f.Missing || len(a.Items) != len(f.Items) {
		return false
	}
	had := map[schematic.Key]bool{}
	for _, s := range a.Items {
		had[s.Key()] = true
	}
	for _, k := range f.Items {
		if !had[k] {
			return false
		}
	}
	return alike(a.Value, rounded(f.Value)) && alike(a.Limit, rounded(f.Limit))
}

func alike(a, b schematic.Num) bool {
	x, okX := a.Get()
	y, okY := b.Get()
	return okX == okY && math.Abs(x-y) <= sameWithin*math.Max(math.Abs(x), math.Abs(y))
}

// subject is what an acceptance and a finding must share to belong together.
type subject struct {
	rule   string
	item   schematic.Key
	detail string
}

func (f Finding) subject() subject {
	s := subject{rule: f.Rule, detail: f.Detail}
	if len(f.Items) > 0 {
		s.item = f.Items[0]
	}
	return s
}

func subjectOf(a *schematic.Acceptance) subject {
	s := subject{rule: a.Rule, detail: a.Detail}
	if len(a.Items) > 0 {
		s.item = a.Items[0].Key()
	}
	return s
}

// markAccepted holds the findings against what the document accepts. A finding
// whose own acceptance is not found may be one accepted with other pins: then
// an acceptance of the same rule and item that fits nothing else is named.
func markAccepted(d *schematic.Doc, found []Finding) {
	accepted := map[subject][]*schematic.Acceptance{}
	for a := range d.Acceptances() {
		s := subjectOf(a)
		accepted[s] = append(accepted[s], a)
	}
	if len(accepted) == 0 {
		return
	}
	for i := range found {
		f := &found[i]
		list := accepted[f.subject()]
		if len(list) == 0 {
			continue
		}
		if k := slices.IndexFunc(list, func(a *schematic.Acceptance) bool { return holds(a, *f) }); k >= 0 {
			f.Accepted = list[k]
		} else {
			f.Before = newest(list)
		}
	}
	left := map[subject][]*schematic.Acceptance{}
	for _, a := range Idle(d, found) {
		s := subjectOf(a)
		s.detail = ""
		left[s] = append(left[s], a)
	}
	for i := range found {
		f := &found[i]
		s := f.subject()
		s.detail = ""
		if list := left[s]; f.Accepted == nil && f.Before == nil && len(list) > 0 {
			f.Before = newest(list)
		}
	}
}

func newest(list []*schematic.Acceptance) *schematic.Acceptance {
	return slices.MaxFunc(list, func(a, b *schematic.Acceptance) int { return strings.Compare(a.Date, b.Date) })
}

// Idle lists the acceptances of a document that none of the findings of its
// [Run] has a use for, in the order of their rules: what they let stand is
// mended or gone.
func Idle(d *schematic.Doc, found []Finding) []*schematic.Acceptance {
	used := map[schematic.ID]bool{}
	for _, f := range found {
		for _, a := range []*schematic.Acceptance{f.Accepted, f.Before} {
			if a != nil {
				used[a.ID] = true
			}
		}
	}
	var out []*schematic.Acceptance
	for a := range d.Acceptances() {
		if !used[a.ID] {
			out = append(out, a)
		}
	}
	slices.SortFunc(out, func(a, b *schematic.Acceptance) int {
		return cmp.Or(strings.Compare(a.Rule, b.Rule), strings.Compare(a.Detail, b.Detail), a.Key().Compare(b.Key()))
	})
	return out
}
