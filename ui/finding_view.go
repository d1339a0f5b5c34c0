package ui

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
)

// findingOrder is how the list of findings is sorted.
type findingOrder int

const (
	gravestFirst findingOrder = iota
	furthestFirst
	byPlace
)

// orderNames are the words of the orders.
func orderNames() []string {
	return []string{"Gravest first", "Furthest beyond the limit first", "As they lie on the sheets"}
}

// findingGroup is what the list of findings is divided by.
type findingGroup int

const (
	noGroups findingGroup = iota
	groupByRule
	groupBySheet
	groupByState
	groupByPart
)

// groupNames are the words of the groups.
func groupNames() []string {
	return []string{"No groups", "Groups by rule", "Groups by sheet", "Groups by state", "Groups by part or wire"}
}

// findingView is how the list of findings is looked at: which, in what order,
// in what groups. It belongs to the window and is in no file.
type findingView struct {
	hide     [severityCount]bool
	accepted bool                   // accepted ones are listed too
	text     string                 // in small letters
	rule     string                 // only of this rule
	state    string                 // only of the state of this name
	about    map[schematic.Key]bool // only about these items; nil is all
	order    findingOrder
	group    findingGroup
	folded   map[string]bool
}

// narrows reports whether something beside the severities is left out.
func (v *findingView) narrows() bool {
	return v.text != "" || v.rule != "" || v.state != "" || v.about != nil
}

// shows reports whether a finding passes.
func (v *findingView) shows(x *finding) bool {
	if v.hide[x.Severity] && x.Open() || !x.Open() && !v.accepted {
		return false
	}
	if v.rule != "" && x.Rule != v.rule || v.state != "" && x.StateName != v.state || !strings.Contains(x.words, v.text) {
		return false
	}
	return v.about == nil || slices.ContainsFunc(x.Items, func(k schematic.Key) bool { return v.about[k] })
}

// findingLine is a line of the list: a finding, or the head of a group.
type findingLine struct {
	x      *finding
	head   string // of a group
	n      int    // findings in the group
	folded bool
}

// lines returns the list, and of it the findings in sight.
func (v *findingView) lines(all []finding) (lines []findingLine, shown []*finding) {
	var list []*finding
	for i := range all {
		if v.shows(&all[i]) {
			list = append(list, &all[i])
		}
	}
	slices.SortStableFunc(list, v.compare)
	if v.group == noGroups {
		for _, x := range list {
			lines = append(lines, findingLine{x: x})
		}
		return lines, list
	}
	members := map[string][]*finding{}
	var heads []string
	for _, x := range list {
		h := v.head(x)
		if members[h] == nil {
			heads = append(heads, h)
		}
		members[h] = append(members[h], x)
	}
	if v.group == groupBySheet {
		slices.SortStableFunc(heads, func(a, b string) int { return compareSheets(members[a][0], members[b][0]) })
	}
	for _, h := range heads {
		folded := v.folded[h]
		lines = append(lines, findingLine{head: h, n: len(members[h]), folded: folded})
		for _, x := range members[h] {
			if !folded {
				lines, shown = append(lines, findingLine{x: x}), append(shown, x)
			}
		}
	}
	return lines, shown
}

// head names the group of a finding.
func (v *findingView) head(x *finding) string {
	switch v.group {
	case groupByRule:
		return sentence(x.Rule)
	case groupBySheet:
		if x.sheet != nil {
			return x.sheet.Name
		}
		return "The whole drawing"
	case groupByState:
		if x.StateName != "" {
			return x.StateName
		}
		return "In whatever state"
	}
	if x.part != "" {
		return x.part
	}
	return "The whole drawing"
}

// compare sorts by the order in force; what it finds alike stays gravest first,
// as the checks give it. Accepted ones come last.
func (v *findingView) compare(a, b *finding) int {
	if a.Open() != b.Open() {
		if a.Open() {
			return -1
		}
		return 1
	}
	switch v.order {
	case furthestFirst:
		return cmp.Compare(b.Excess(), a.Excess())
	case byPlace:
		return cmp.Or(compareSheets(a, b), cmp.Compare(a.at.Y, b.at.Y), cmp.Compare(a.at.X, b.at.X))
	}
	return 0
}

// compareSheets puts the sheets in the order of their tabs, and what is on none
// last.
func compareSheets(a, b *finding) int {
	switch {
	case a.sheet == b.sheet:
		return 0
	case a.sheet == nil:
		return 1
	case b.sheet == nil:
		return -1
	}
	return cmp.Or(cmp.Compare(a.sheet.Order, b.sheet.Order), a.sheet.Key().Compare(b.sheet.Key()))
}

// findingCount counts what the list could show.
type findingCount struct {
	open     [severityCount]int
	accepted int
	rules    []named // of the findings, by name
	states   []named
}

// named is a word with how many findings it stands for.
type named struct {
	name string
	n    int
}

func (n named) String() string { return fmt.Sprintf("%s (%d)", sentence(n.name), n.n) }

func countFindings(all []finding) findingCount {
	var c findingCount
	rules, states := map[string]int{}, map[string]int{}
	for i := range all {
		x := &all[i]
		if x.Open() {
			c.open[x.Severity]++
		} else {
			c.accepted++
		}
		rules[x.Rule]++
		if x.StateName != "" {
			states[x.StateName]++
		}
	}
	c.rules, c.states = byName(rules), byName(states)
	return c
}

func (c findingCount) all() int {
	n := c.accepted
	for _, k := range c.open {
		n += k
	}
	return n
}

func byName(m map[string]int) []named {
	var out []named
	for name, n := range m {
		out = append(out, named{name, n})
	}
	slices.SortFunc(out, func(a, b named) int { return strings.Compare(a.name, b.name) })
	return out
}
