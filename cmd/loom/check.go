package main

import (
	"fmt"
	"strings"

	"loomwright/netlist/check"
	"loomwright/schematic"
)

type findingJSON struct {
	ID       string     `json:"id"`
	Rule     string     `json:"rule"`
	Severity string     `json:"severity"`
	Items    []itemJSON `json:"items"`
	Pins     []string   `json:"pins,omitempty"`
	State    string     `json:"state,omitempty"`
	Value    *float64   `json:"value"`
	Limit    *float64   `json:"limit"`
	Margin   *float64   `json:"margin"`
	Unit     string     `json:"unit,omitempty"`
	Text     string     `json:"text"`
	Formula  string     `json:"formula,omitempty"`
	Source   string     `json:"source,omitempty"`
	Missing  string     `json:"missing,omitempty"`
	Fixes    []fixJSON  `json:"fixes,omitempty"`
	Detail   string     `json:"detail,omitempty"`
	// Accepted is there when somebody lets the finding stand as it is, Before
	// when it was accepted while it said something else.
	Accepted *acceptedJSON `json:"accepted,omitempty"`
	Before   *acceptedJSON `json:"accepted_before,omitempty"`
}

type acceptedJSON struct {
	Reason   string   `json:"reason"`
	Date     string   `json:"date,omitempty"`
	Severity string   `json:"severity,omitempty"`
	Value    *float64 `json:"value"`
	Limit    *float64 `json:"limit"`
	Missing  string   `json:"missing,omitempty"`
}

type itemJSON struct {
	Type string `json:"type"`
	ID   string `json:"id"`
	Name string `json:"name"`
}

type fixJSON struct {
	Label  string `json:"label"`
	Effect string `json:"effect,omitempty"`
}

type checkJSON struct {
	head
	File     string        `json:"file"`
	Count    countJSON     `json:"count"`
	Findings []findingJSON `json:"findings"`
	Caution  string        `json:"caution"`
}

// countJSON counts the open findings by the words of their severity, and those
// that are accepted.
type countJSON struct {
	Error       int `json:"error"`
	Warning     int `json:"warning"`
	NotAssessed int `json:"not assessed"`
	Note        int `json:"note"`
	Accepted    int `json:"accepted"`
}

func runCheck(a *app, args []string) (int, error) {
	path, n, sols, err := a.solved(args)
	if err != nil {
		return 0, err
	}
	found := check.Run(n, sols)
	code := exitClean
	count := map[check.Severity]int{}
	accepted := 0
	for _, f := range found {
		if f.Open() {
			count[f.Severity]++
		} else {
			accepted++
		}
	}
	if count[check.Error] > 0 {
		code = exitFindings
	}
	if a.opt.json {
		out := checkJSON{
			head: headOf("check"), File: path, Caution: caution,
			Count:    countJSON{count[check.Error], count[check.Warning], count[check.NotAssessed], count[check.Note], accepted},
			Findings: []findingJSON{},
		}
		for _, f := range found {
			out.Findings = append(out.Findings, findingOf(n.Doc, f))
		}
		return code, printJSON(a.out, out)
	}
	a.printFindings(found, count)
	a.printAccepted(found, accepted)
	fmt.Fprintf(a.out, "\n%s\n", caution)
	return code, nil
}

func findingOf(d *schematic.Doc, f check.Finding) findingJSON {
	j := findingJSON{
		ID: f.ID, Rule: f.Rule, Severity: f.Severity.String(), Items: []itemJSON{}, State: f.StateName,
		Value: known(f.Value), Limit: known(f.Limit), Margin: known(f.Margin), Unit: f.Unit,
		Text: f.Text, Formula: f.Formula, Source: f.Source, Missing: f.Missing,
	}
	for _, k := range f.Items {
		j.Items = append(j.Items, itemJSON{k.Type.String(), id(k.ID), schematic.NameOf(d.Get(k))})
	}
	for _, p := range f.Pins {
		j.Pins = append(j.Pins, pinName(d, p))
	}
	for _, fix := range f.Fixes {
		j.Fixes = append(j.Fixes, fixJSON{fix.Label, fix.Effect})
	}
	j.Detail, j.Accepted, j.Before = f.Detail, acceptedOf(f.Accepted), acceptedOf(f.Before)
	return j
}

func acceptedOf(a *schematic.Acceptance) *acceptedJSON {
	if a == nil {
		return nil
	}
	return &acceptedJSON{a.Reason, a.Date, a.Severity, known(a.Value), known(a.Limit), a.Missing}
}

func (a *app) printFindings(found []check.Finding, count map[check.Severity]int) {
	last := check.Severity(255)
	for _, f := range found {
		if !f.Open() {
			continue
		}
		if f.Severity != last {
			fmt.Fprintf(a.out, "%s (%d)\n", strings.ToUpper(f.Severity.String()), count[f.Severity])
			last = f.Severity
		}
		fmt.Fprintf(a.out, "  %s\n", f.Text)
		line := func(label, text string) {
			if text != "" {
				fmt.Fprintf(a.out, "      %-8s %s\n", label, text)
			}
		}
		line("rule", f.Rule)
		line("state", f.StateName)
		line("value", against(f))
		line("missing", f.Missing)
		line("how", f.Formula)
		line("source", f.Source)
		line("but", f.AcceptedBefore())
		for _, fix := range f.Fixes {
			line("remedy", strings.TrimSuffix(fix.Label+": "+fix.Effect, ": "))
		}
	}
	if len(found) == 0 {
		fmt.Fprintln(a.out, "no findings: every limit the program knows and could test is kept")
	} else if last == check.Severity(255) {
		fmt.Fprintln(a.out, "no open findings")
	}
}

// printAccepted lists what somebody lets stand, apart from the rest.
func (a *app) printAccepted(found []check.Finding, n int) {
	if n == 0 {
		return
	}
	fmt.Fprintf(a.out, "ACCEPTED (%d)\n", n)
	for _, f := range found {
		if f.Open() {
			continue
		}
		fmt.Fprintf(a.out, "  %s\n      %-8s %s, %s\n", f.Text, "rule", f.Rule, f.Severity)
		fmt.Fprintf(a.out, "      %-8s %s\n", "because", strings.TrimSuffix(f.Accepted.Reason+" ("+f.Accepted.Date+")", " ()"))
	}
}

// against is "4.2 A, limit 3 A, margin -1.2 A", as far as the numbers are known.
func against(f check.Finding) string {
	var out []string
	for _, x := range []struct {
		word string
		num  schematic.Num
	}{{"", f.Value}, {"limit ", f.Limit}, {"margin ", f.Margin}} {
		if v, ok := x.num.Get(); ok {
			out = append(out, strings.TrimSpace(fmt.Sprintf("%s%.4g %s", x.word, v, f.Unit)))
		}
	}
	return strings.Join(out, ", ")
}

// pinName is "F3.1".
func pinName(d *schematic.Doc, r schematic.PinRef) string {
	if p := d.Part(r.Part); p != nil {
		return p.Name + "." + r.Pin
	}
	return "?." + r.Pin
}
