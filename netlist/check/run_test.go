package check_test

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
)

func TestEveryRuleTellsWhatItIs(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range check.Rules() {
		assert.False(t, seen[r.ID], r.ID)
		seen[r.ID] = true
		assert.Equal(t, strings.ToLower(r.ID), r.ID, "plain words")
		for _, text := range []string{r.ID, r.Title, r.Help, r.Source} {
			assert.NotEmpty(t, text, r.ID)
			assert.NotContains(t, strings.ToLower(text), "safe", r.ID)
		}
	}
}

func TestEveryLimitHasASource(t *testing.T) {
	seen := map[string]bool{}
	for _, l := range check.Limits() {
		assert.False(t, seen[l.Name], l.Name)
		seen[l.Name] = true
		assert.True(t, l.Default.Known(), l.Name)
		assert.NotEmpty(t, l.Title)
		assert.NotEmpty(t, l.Unit)
		assert.NotEqual(t, "no source given", l.Source, l.Name)
		assert.NotEmpty(t, l.Source)
	}
	for _, c := range check.Choices() {
		assert.NotEmpty(t, c.Options)
		assert.NotEmpty(t, c.Source)
	}
}

func TestSeverityWords(t *testing.T) {
	var words []string
	for _, s := range []check.Severity{check.Error, check.Warning, check.NotAssessed, check.Note} {
		words = append(words, s.String())
	}
	assert.Equal(t, []string{"error", "warning", "not assessed", "note"}, words)
}

// faulty is a harness with every sort of mistake.
const faulty = `ambient 40
G1 battery
G2 alternator limit_amp=90
segment A 900 70 tube
F1 fuse-regular amp=30
F2 fuse-regular
S1 switch-toggle rated_amp=5
K1 relay-make
E1 lamp watt=55
E2 lamp watt=21
E3 lamp
M1 motor amp=12
M2 starter-motor amp=150
GND1 ground-body joint_ohm=0.004
GND2 ground-engine
Z1 nobody-knows-this
label E3 airbag lamp
W1 G1.+ F1.1 2.5mm2 400
W2 F1.2 K1.30 1mm2 800 on=A
W3 F1.2 S1.82 0.5mm2 1500 on=A
W4 S1.82a K1.86 0.5mm2 1500
W5 K1.85 GND1.1 0.5mm2 -
W6 K1.87 E1.1 0.5mm2 2500 on=A
W7 E1.2 GND1.1 0.75mm2 3000
W8 K1.87 M1.33 1mm2 2500
W9 M1.32 GND1.1 1mm2 2500 bare
W10 G1.- GND1.1 16mm2 600
W11 G1.+ M2.30 35mm2 1500
W12 M2.31 GND2.1 35mm2 200
W13 GND2.1 G1.- 35mm2 700
W14 G2.B+ M2.30 10mm2 2500
W15 G2.B- GND2.1 10mm2 400
W16 S1.82a E2.1 0.5mm2 800
W17 E2.2 GND1.1 1mm2 800
W18 F2.1 F1.2 1mm2 300
W19 F2.2 E3.1 1mm2 600
W20 E3.2 GND1.1 1mm2 600
W21 F1.2 loose 1mm2 200
W22 G1.+ M2.50 1mm2 900
state parked off
state lights off S1=on
state cranking cranking
state running running S1=on`

func TestSortedAndTheSameEveryTime(t *testing.T) {
	first := run(t, doc(t, faulty))
	require.Greater(t, len(first), 15)
	rules := map[string]bool{}
	for _, f := range first {
		rules[f.Rule] = true
	}
	assert.Greater(t, len(rules), 10, "%v", rules)
	last, severity := 0.0, check.Severity(255)
	for _, f := range first {
		margin, ok := f.Margin.Get()
		limit, _ := f.Limit.Get()
		if !ok || limit == 0 {
			continue
		}
		over := -margin / limit
		if f.Severity == severity {
			assert.LessOrEqual(t, over, last+1e-12, "the worst first: %s", f.Text)
		}
		last, severity = over, f.Severity
	}
	for range 5 {
		assert.Equal(t, first, run(t, doc(t, faulty)))
	}
}

// Other IDs and another order of the file's lines give the same findings.
func TestIDsAndOrderDoNotMatter(t *testing.T) {
	texts := func(found []check.Finding) []string {
		var out []string
		for _, f := range found {
			var fixes []string
			for _, x := range f.Fixes {
				fixes = append(fixes, x.Label, x.Effect)
			}
			out = append(out, fmt.Sprint(f.Severity, f.Rule, f.StateName, f.Text, f.Formula, f.Source, f.Missing, fixes))
		}
		return out
	}
	want := texts(run(t, doc(t, faulty)))
	lines := strings.Split(faulty, "\n")
	at := slices.IndexFunc(lines, func(s string) bool { return strings.HasPrefix(s, "W1 ") })
	end := slices.IndexFunc(lines, func(s string) bool { return strings.HasPrefix(s, "state") })
	for seed := range uint64(5) {
		rng := rand.New(rand.NewPCG(seed, 4))
		mixed := slices.Clone(lines)
		rng.Shuffle(end-at, func(i, j int) { mixed[at+i], mixed[at+j] = mixed[at+j], mixed[at+i] })
		p := newPlan(t, fmt.Sprint("seed ", seed))
		assert.Equal(t, want, texts(run(t, p.read(strings.Join(mixed, "\n")))))
	}
}

// Every remedy of every finding mends what it is offered for.
func TestRemediesMend(t *testing.T) {
	d := onSheet(doc(t, faulty))
	tried := 0
	for _, f := range run(t, d) {
		for _, x := range f.Fixes {
			tried++
			for _, g := range look(t, applied(d, x)) {
				assert.False(t, g.ID == f.ID && g.Severity <= f.Severity, "%s: %s", x.Label, g.Text)
			}
		}
	}
	assert.Greater(t, tried, 8)
}

// An operating state that cannot be computed is an error of its own, and no
// rule takes its figures.
func TestStateWithoutFigures(t *testing.T) {
	d := doc(t, "ambient 30\nG1 battery\nE1 load-two-pin amp=90\nW1 G1.+ E1.+ 1mm2 100\nW2 E1.- G1.- 1mm2 100\nstate on off")
	n := netlist.Build(d)
	sols := n.SolveAll()
	sols[0].Err = fmt.Errorf("the loads do not settle")
	found := check.Run(n, sols)
	lawful(t, d, found)
	var rules []string
	for _, f := range found {
		rules = append(rules, f.Severity.String()+" "+f.Rule)
	}
	assert.Contains(t, rules, "error network cannot be computed")
	assert.NotContains(t, rules, "error wire too thin")
}

func TestNothingToCheck(t *testing.T) {
	assert.Empty(t, run(t, doc(t, "")))
	n := netlist.Build(schematic.New(schematic.NewLibrary()))
	assert.Empty(t, check.Run(n, nil))
}
