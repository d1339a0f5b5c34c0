package check_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// fat is as near to nothing as a wire comes: 1 mm of 120 mm².
const fat = " 120mm2 1"

// run checks a document and holds every finding against what all findings must
// be.
func run(t testing.TB, d *schematic.Doc) []check.Finding {
	t.Helper()
	n := netlist.Build(d)
	found := check.Run(n, n.SolveAll())
	lawful(t, d, found)
	return found
}

// look is run without remedies.
func look(t testing.TB, d *schematic.Doc) []check.Finding {
	t.Helper()
	n := netlist.Build(d)
	found := check.Look(n, n.SolveAll()).Findings()
	lawful(t, d, found)
	return found
}

// lawful checks what holds for every finding of every rule.
func lawful(t testing.TB, d *schematic.Doc, found []check.Finding) {
	t.Helper()
	rules, seen := map[string]bool{}, map[string]bool{}
	for _, r := range check.Rules() {
		rules[r.ID] = true
	}
	for i, f := range found {
		assert.True(t, rules[f.Rule], "%q is a rule", f.Rule)
		assert.False(t, seen[f.ID], "two findings are called %s: %s", f.ID, f.Text)
		seen[f.ID] = true
		assert.NotEmpty(t, f.Text)
		assert.NotEmpty(t, f.Source, f.Text)
		assert.NotContains(t, strings.ToLower(f.Text), "safe")
		if f.Severity == check.NotAssessed {
			assert.NotEmpty(t, f.Missing, "%s names what is missing", f.Text)
			assert.False(t, f.Limit.Known() && f.Margin.Known(), "%s gives no verdict", f.Text)
		}
		if v, ok := f.Margin.Get(); ok {
			assert.Negative(t, v, "%s is beyond its limit", f.Text)
			assert.True(t, f.Value.Known() && f.Limit.Known())
			assert.NotEmpty(t, f.Formula+f.Unit, f.Text)
		}
		for _, k := range f.Items {
			assert.NotNil(t, d.Get(k), "%s is about something that exists", f.Text)
		}
		for _, p := range f.Pins {
			assert.NotNil(t, d.Part(p.Part), f.Text)
		}
		for _, x := range f.Fixes {
			assert.NotEmpty(t, x.Label)
			assert.NotEmpty(t, x.Effect)
			assert.True(t, len(x.Items) > 0 || x.Draw != nil, x.Label)
		}
		if i > 0 {
			assert.LessOrEqual(t, found[i-1].Severity, f.Severity, "worst first")
		}
	}
}

// applied puts a remedy into a document.
func applied(d *schematic.Doc, x check.Fix) *schematic.Doc {
	tx := edit.Begin(d, nil)
	if err := x.Apply(tx); err != nil {
		panic(fmt.Sprintf("%s: %v", x.Label, err))
	}
	return tx.Doc()
}

// said writes the findings of a rule one to a line: severity, items, state,
// value / limit unit, what is missing. Remedies are tried: each must take its
// finding away and bring no other of the same rule.
func said(t testing.TB, text, rule string) string {
	t.Helper()
	d := doc(t, text)
	var lines []string
	for _, f := range run(t, d) {
		if f.Rule != rule {
			continue
		}
		line := []string{f.Severity.String()}
		for _, k := range f.Items {
			if name := schematic.NameOf(d.Get(k)); name != "" {
				line = append(line, name)
			}
		}
		for _, p := range f.Pins {
			line = append(line, "at "+p.Pin)
		}
		if f.StateName != "" && f.StateName != "at rest" {
			line = append(line, "in "+f.StateName)
		}
		if v, ok := f.Value.Get(); ok {
			line = append(line, fmt.Sprintf("%.4g", v))
		}
		if v, ok := f.Limit.Get(); ok {
			line = append(line, fmt.Sprintf("> %.4g", v))
		}
		if f.Unit != "" && f.Value.Known() {
			line = append(line, f.Unit)
		}
		if f.Missing != "" {
			line = append(line, "without "+f.Missing)
		}
		for _, x := range f.Fixes {
			line = append(line, "["+x.Label+"]")
			for _, g := range look(t, applied(d, x)) {
				assert.NotEqual(t, f.ID, g.ID, "%s does not mend %s", x.Label, f.Text)
			}
		}
		lines = append(lines, strings.Join(line, " "))
	}
	return strings.Join(lines, "\n")
}

// ruleCase is a document and what one rule must say of it.
type ruleCase struct {
	name, why, plan, want string
}

func tryRule(t *testing.T, rule, base string, cases []ruleCase) {
	known := false
	for _, r := range check.Rules() {
		known = known || r.ID == rule
	}
	require.True(t, known, rule)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, said(t, base+"\n"+c.plan, rule), c.why)
		})
	}
}
