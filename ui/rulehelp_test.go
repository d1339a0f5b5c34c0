package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/check"
)

// texts gathers the words of all labels under an object.
func texts(o fyne.CanvasObject) string {
	var b strings.Builder
	walk(o, func(x fyne.CanvasObject) {
		if l, ok := x.(*widget.Label); ok {
			b.WriteString(l.Text + "\n")
		}
	})
	return b.String()
}

func TestRuleOfAFindingIsExplained(t *testing.T) {
	r := newRig(t, lampsFile)
	about := r.actions.Find("check.rule")
	assert.False(t, about.IsEnabled(), "no finding is picked")
	r.do("check.next")
	rule := r.ruleInHand()
	require.NotEmpty(t, rule)
	p, ok := check.PageIn(r.doc(), rule)
	require.True(t, ok)
	r.do("check.rule")
	said := texts(r.win.Canvas().Overlays().Top())
	for _, s := range p.Sections() {
		assert.Contains(t, said, s.Head)
		assert.Contains(t, said, s.Text)
	}
	r.typedKey(fyne.KeyEscape, 0)
}

func TestAllRulesAreListed(t *testing.T) {
	var asked string
	about := func(rule string) { asked = rule }
	require.Len(t, rulesWith("", about), len(check.Rules()))
	found := rulesWith("reading sensor off", about)
	require.NotEmpty(t, found, "words of the help count")
	found[0].run()
	assert.Equal(t, "sensor ground shared", asked)
}

// A press on a line of the findings selects it, though the line has a menu of
// its own for the other button.
func TestPressOnAFindingSelectsIt(t *testing.T) {
	r := newRig(t, lampsFile)
	r.drawer.open(findingsTab)
	var rows []*findingRow
	r.everything(func(o fyne.CanvasObject) {
		if row, ok := o.(*findingRow); ok && row.Visible() {
			rows = append(rows, row)
		}
	})
	require.Greater(t, len(rows), 1)
	rows[1].Tapped(&fyne.PointEvent{})
	require.NotNil(t, r.drawer.findings.inHand())
	assert.Equal(t, rows[1].full, r.shows().Text(r.drawer.findings.inHand().Text))
}
