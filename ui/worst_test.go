package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// The highest currents are worked on when asked for; a combination that no
// operating state covers can be kept as one.
func TestHighestCurrents(t *testing.T) {
	r := newRig(t, lampsFile)
	w := r.drawer.worst
	assert.Empty(t, w.shown, "nothing is worked on before it is asked for")
	// A state with everything off covers nothing.
	for _, st := range r.doc().States()[1:] {
		require.True(t, r.Editor.do("delete state", func(tx *edit.Tx) error { return edit.DeleteState(tx, st.ID) }))
	}
	r.do("check.worst")
	assert.Equal(t, worstTab, r.drawer.tab())
	require.NotEmpty(t, w.shown)
	assert.Contains(t, w.state.Text, "may carry more than any operating state shows")
	first := w.shown[0]
	require.NotNil(t, first.state, first.text)
	w.list.Select(0)
	assert.Equal(t, []string{first.names}, r.selected(), "a press selects")

	before := len(r.doc().States())
	w.keepState(first)
	all := r.doc().States()
	require.Len(t, all, before+1)
	assert.Equal(t, "Highest in "+first.names, all[before].Name)
	assert.Equal(t, all[before].ID, r.study.state, "and it is looked at")
	assert.InDelta(t, ampsOf(r, first.names), mustAmps(t, first.value), 0.02*ampsOf(r, first.names), "the figures agree")
	assert.Contains(t, w.state.Text, "changed since")

	w.search.SetText(first.names)
	for _, c := range w.shown {
		assert.Contains(t, c.names+c.text, first.names)
	}
}

func mustAmps(t *testing.T, s string) float64 {
	t.Helper()
	v, err := unit.Parse(unit.Amp, s)
	require.NoError(t, err)
	return v
}

// A lost ground: the row jumps to the load, lights the way and shows it on the
// ladder; an edit takes the light away.
func TestLostGroundsAreLit(t *testing.T) {
	path := filepath.Join(t.TempDir(), "pickup.loom.json")
	b, err := os.ReadFile("../testdata/pickup.loom.json")
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(path, b, 0o644))
	r := newRig(t, path)
	w := r.drawer.worst
	r.do("check.grounds")
	require.NotEmpty(t, w.shown)
	assert.Contains(t, w.state.Text, "when lost, send currents another way: GND2, GND4, GND5, W108")
	i := slices.IndexFunc(w.shown, func(c worstCase) bool { return strings.Contains(c.text, "GND2 open, in Accessory") && c.names == "E5" })
	require.GreaterOrEqual(t, i, 0)
	w.list.Select(i)
	assert.Equal(t, []string{"E5"}, r.selected())
	require.NotNil(t, r.study.chain)
	assert.Equal(t, "Way of E5", r.study.chain.title)
	assert.True(t, r.study.chain.lit[r.named("E5")])
	assert.False(t, r.study.chain.lit[r.named("GND2")], "it is open")
	assert.Contains(t, strings.Join(r.study.chain.notes, " "), "Volts with GND2 open")
	assert.True(t, r.actions.Find("check.untrace").IsEnabled())

	r.Editor.do("move", func(tx *edit.Tx) error {
		return edit.SetPart(tx, r.named("E5").ID, func(p *schematic.Part) { p.Label = "other" })
	})
	assert.Nil(t, r.study.chain, "an edit ends it")
	w.list.Select(0)
	assert.Nil(t, r.study.way, "what is out of date is not lit")
}

// Work that was stopped leaves what was there; late answers are dropped.
func TestEnquiriesCanBeStopped(t *testing.T) {
	r := newRig(t, lampsFile)
	var b byHand
	r.crew = b.crew()
	w := r.drawer.worst
	w.highest()
	assert.True(t, w.wait.Visible())
	assert.False(t, w.state.Visible())
	w.stop.OnTapped()
	assert.False(t, w.wait.Visible())
	take(&b.side)
	for len(b.window) > 0 {
		take(&b.window)
	}
	assert.Empty(t, w.shown)

	w.highest()
	w.grounds() // another question ends the first
	for len(b.side) > 0 {
		take(&b.side)
	}
	for len(b.window) > 0 {
		take(&b.window)
	}
	assert.NotNil(t, w.from)
	assert.Contains(t, w.sums, "ground")
	r.newDrawing()
	for len(b.side)+len(b.window) > 0 {
		if len(b.side) > 0 {
			take(&b.side)
		} else {
			take(&b.window)
		}
	}
	assert.Nil(t, w.from, "another drawing begins without answers")
}
