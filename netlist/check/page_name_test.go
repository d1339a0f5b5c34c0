package check

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A page names only rules, limits and choices there are, and no rule twice.
func TestPagesNameWhatThereIs(t *testing.T) {
	var limits, choices []string
	for _, l := range Limits() {
		limits = append(limits, l.Name)
	}
	for _, c := range Choices() {
		choices = append(choices, c.Name)
	}
	seen := map[string]bool{}
	for _, p := range pages {
		assert.True(t, slices.ContainsFunc(rules, func(r Rule) bool { return r.ID == p.rule }), "%q is no rule", p.rule)
		assert.False(t, seen[p.rule], "%s has two pages", p.rule)
		seen[p.rule] = true
		for _, name := range p.limits {
			assert.Contains(t, limits, name, p.rule)
		}
		for _, name := range p.choices {
			assert.Contains(t, choices, name, p.rule)
		}
	}
}
