package check_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/check"
)

// Every rule has a page that says what, why, how, whence, what to do and what
// stays unseen; every limit and choice stands on some page.
func TestEveryRuleHasAPage(t *testing.T) {
	limits, choices := map[string]bool{}, map[string]bool{}
	for _, r := range check.Rules() {
		p, ok := check.PageOf(r.ID)
		if !assert.True(t, ok, "%s has no page: add one to a page_*.go", r.ID) {
			continue
		}
		assert.Equal(t, r.ID, p.Rule)
		for _, s := range p.Sections() {
			assert.NotEmpty(t, s.Text, "%s: %s", r.ID, s.Head)
			assert.Regexp(t, regexp.MustCompile(`[.?%\d)\w\]]$`), s.Text, r.ID)
			assert.NotContains(t, strings.ToLower(s.Text), "safe", r.ID)
		}
		assert.Greater(t, len(p.Formula), 20, "%s says how it decides", r.ID)
		assert.Greater(t, len(p.Source), 8, "%s names its source", r.ID)
		for _, l := range p.Limits {
			limits[l.Name] = true
			assert.Contains(t, p.String(), l.Source, "the source of %s, with its marks", l.Name)
		}
		for _, c := range p.Choices {
			choices[c.Name] = true
		}
	}
	for _, l := range check.Limits() {
		assert.True(t, limits[l.Name], "limit %s stands on no page", l.Name)
	}
	for _, c := range check.Choices() {
		assert.True(t, choices[c.Name], "choice %s stands on no page", c.Name)
	}
	_, ok := check.PageOf("no such rule")
	assert.False(t, ok)
}

// In a drawing the page has the drawing's own limits and choices.
func TestPageOfADrawing(t *testing.T) {
	d := doc(t, "volts 24\nlimit key_off_amp=0.02\ndrops 3 % and 10 % of nominal")
	p, ok := check.PageIn(d, "key-off current")
	require.True(t, ok)
	assert.Contains(t, p.String(), "Limits in this drawing; its settings may change them\n  Current of the parked vehicle: 0.02 A; limit key_off_amp of this document [key_off_amp]")
	p, ok = check.PageIn(d, "voltage drop")
	require.True(t, ok)
	assert.Contains(t, p.String(), "Drop in the whole circuit of electronics: 0.72 V; ", "3 % of 24 V")
	assert.Contains(t, p.String(), "Drop in the whole circuit of a motor: 2.4 V; ", "10 % of 24 V")
	assert.NotContains(t, p.String(), "Drop on the feed", "the percentages have no limit for the feed alone")
	assert.Contains(t, p.String(), "Limits for lost volts: 3 % and 10 % of nominal; else by kind of load; or 0.5 V")
	_, ok = check.PageIn(d, "no such rule")
	assert.False(t, ok)
}

func TestPageAsText(t *testing.T) {
	p, ok := check.PageOf("key-off current")
	require.True(t, ok)
	text := p.String()
	assert.Regexp(t, `(?s)^What the parked vehicle takes out of its battery\nkey-off current\n\nWhat it checks\n  .*\n\nWhy it matters\n  .*\n\nHow it decides\n  `, text)
	assert.Contains(t, text, "Current of the parked vehicle: 0.05 A; ")
	for _, head := range []string{"Where this comes from", "What to do", "What it cannot see"} {
		assert.Contains(t, text, "\n\n"+head+"\n  ")
	}
}
