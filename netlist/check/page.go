package check

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
)

// Page is the help about one rule, for people: [PageOf] finds it, Sections
// gives it in the order it is read, String as plain text.
type Page struct {
	Rule, Title string // Rule.ID and Rule.Title
	What        string // what the rule looks at
	Why         string // what goes wrong where it is broken
	Formula     string // how it decides
	Limits      []Limit
	Choices     []Choice
	Source      string // where formula and limits come from
	Mend        string // what to do about a finding
	Blind       string // what the rule cannot see

	of string // whose limits they are
}

// PageSection is a headed paragraph of a page.
type PageSection struct{ Head, Text string }

// page is what a rule's help says beyond the rule itself.
type page struct {
	rule                      string // Rule.ID
	why, formula, mend, blind string
	limits, choices           []string // names
}

// pages is the help of every rule, by theme.
var pages = slices.Concat(wirePages, guardPages, dropPages, groundPages, supplyPages, switchPages, signalPages, connectorPages, circuitPages, drawingPages)

// PageOf returns the help about a rule, with limits and choices as they are by
// default in a 12 V system; false where there is no rule of that ID.
func PageOf(rule string) (Page, bool) { return PageIn(nil, rule) }

// PageIn returns the help about a rule with the limits and choices of a
// document.
func PageIn(d *schematic.Doc, rule string) (Page, bool) {
	i := slices.IndexFunc(rules, func(r Rule) bool { return r.ID == rule })
	k := slices.IndexFunc(pages, func(p page) bool { return p.rule == rule })
	if i < 0 || k < 0 {
		return Page{}, false
	}
	r, p := rules[i], pages[k]
	out := Page{Rule: r.ID, Title: r.Title, What: r.Help, Why: p.why, Formula: p.formula, Source: r.Source, Mend: p.mend, Blind: p.blind}
	for _, l := range Limits() {
		if !slices.Contains(p.limits, l.Name) {
			continue
		}
		if d != nil {
			v, src, used := (&run{doc: d}).limitInUse(l.Name)
			if !used {
				continue
			}
			l.Default, l.Source = schematic.Some(v), src.String()
		}
		out.Limits = append(out.Limits, l)
	}
	for _, c := range Choices() {
		if !slices.Contains(p.choices, c.Name) {
			continue
		}
		if d != nil {
			if at := slices.Index(c.Options, d.Info().Choices[c.Name]); at > 0 {
				c.Options = slices.Concat(c.Options[at:at+1], c.Options[:at], c.Options[at+1:])
			}
		}
		out.Choices = append(out.Choices, c)
	}
	if d != nil {
		out.of = "Limits in this drawing; its settings may change them"
	}
	return out, true
}

// Sections returns the page in the order it is read.
func (p Page) Sections() []PageSection { return p.sections(false) }

// sections are those of the page, on request with the names files use.
func (p Page) sections(names bool) []PageSection {
	inFiles := func(name string) string {
		if names {
			return " [" + name + "]"
		}
		return ""
	}
	out := []PageSection{{"What it checks", p.What}, {"Why it matters", p.Why}, {"How it decides", p.Formula}}
	var lines []string
	for _, l := range p.Limits {
		lines = append(lines, fmt.Sprintf("%s: %.6g %s; %s%s", upper(l.Title), l.Default.Or(0), l.Unit, l.Source, inFiles(l.Name)))
	}
	for _, c := range p.Choices {
		lines = append(lines, fmt.Sprintf("%s: %s; else %s; %s%s", upper(c.Title), c.Options[0], strings.Join(c.Options[1:], "; or "), c.Source, inFiles(c.Name)))
	}
	if len(lines) > 0 {
		out = append(out, PageSection{cmp.Or(p.of, "Limits in a 12 V system; a drawing may set its own"), strings.Join(lines, "\n")})
	}
	return append(out, PageSection{"Where this comes from", p.Source}, PageSection{"What to do", p.Mend}, PageSection{"What it cannot see", p.Blind})
}

// String returns the page as plain text, with the names files use.
func (p Page) String() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s\n%s\n", p.Title, p.Rule)
	for _, s := range p.sections(true) {
		fmt.Fprintf(&b, "\n%s\n  %s\n", s.Head, strings.ReplaceAll(s.Text, "\n", "\n  "))
	}
	return b.String()
}
