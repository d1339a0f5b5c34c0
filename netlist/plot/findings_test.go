package plot_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/netlist/check"
	"loomwright/netlist/plot"
	"loomwright/schematic"
	"loomwright/schematic/draw"
)

// Every finding stands on paper with shape and word, items, sentence, figures
// and source; accepted ones come last and say why.
func TestFindings(t *testing.T) {
	d := schematic.New(nil).With(schematic.Put{Key: (&schematic.Info{}).Key(), Item: &schematic.Info{Title: "A harness", Issue: "B"}})
	found := []check.Finding{
		{Severity: check.Error, Text: "W1 carries too much.", StateName: "Driving", Value: schematic.Some(13.2), Limit: schematic.Some(11.5), Unit: "A", Source: "a table"},
		{Severity: check.Warning, Text: "let stand", Accepted: &schematic.Acceptance{Reason: "measured", Date: "2026-01-02"}},
		{Severity: check.NotAssessed, Text: "W2 has no length.", Before: &schematic.Acceptance{Reason: "short", Missing: "length"}},
		{Severity: check.Note, Text: "By the way."},
	}
	pages := plot.Findings(d, found, draw.Point{X: 190, Y: 268}, unit.Show{})
	require.Len(t, pages, 1)
	all := words(pages[0])
	text := strings.Join(all, "\n")
	for _, want := range []string{"A harness · issue B", "1 error, 0 warnings, 1 not assessed, 1 note, 1 accepted.", "State Driving, value 13.2 A, limit 11.5 A", "Source: a table",
		"Accepted: measured (2026-01-02)", "Accepted before without length: short", draw.Caution} {
		assert.Contains(t, text, want)
	}
	order := func(s string) int { return strings.Index(text, s) }
	for _, pair := range [][2]string{{"error\n", "W1 carries"}, {"W1 carries", "not assessed\n"}, {"W2 has no length.", "note\n"}, {"By the way.", "accepted\n"}, {"accepted\n", "let stand"}} {
		assert.Less(t, order(pair[0]), order(pair[1]), pair)
	}
	none := plot.Findings(d, nil, draw.Point{X: 190, Y: 268}, unit.Show{})
	require.Len(t, none, 1)
	assert.Contains(t, strings.Join(words(none[0]), " "), "That is no proof that the wiring is right.")
}
