package check_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// longFeed has one finding about its feed: the lamp loses too much.
const longFeed = `ambient 25
G1 battery
F1 fuse-regular amp=10
S1 switch-toggle rated_amp=20
E1 lamp watt=55
W1 G1.+ F1.1 1.5mm2 100
W2 F1.2 S1.82 0.5mm2 %s
W3 S1.82a E1.1 1.5mm2 1000
W4 E1.2 G1.- 4mm2 500
state on off S1=on`

func about(t *testing.T, found []check.Finding, rule string) check.Finding {
	t.Helper()
	for _, f := range found {
		if f.Rule == rule {
			return f
		}
	}
	require.Fail(t, "no finding", rule)
	return check.Finding{}
}

// accepted returns a document that accepts a finding.
func accepted(t *testing.T, d *schematic.Doc, f check.Finding, reason string) *schematic.Doc {
	t.Helper()
	tx := edit.Begin(d, nil)
	require.NoError(t, edit.Accept(tx, f.Acceptance(reason, "2024-05-01")))
	return tx.Doc()
}

func TestAcceptedFindingStaysAcceptedAsLongAsItSaysTheSame(t *testing.T) {
	const rule = "voltage drop"
	base := doc(t, fmt.Sprintf(longFeed, "4000"))
	f := about(t, run(t, base), rule)
	require.True(t, f.Open())
	require.Empty(t, f.AcceptedBefore())
	d := accepted(t, base, f, "the lamp is for parking")
	kept := about(t, run(t, d), rule)
	require.False(t, kept.Open())
	assert.Equal(t, "the lamp is for parking", kept.Accepted.Reason)
	assert.Equal(t, f.Value.Or(0), kept.Value.Or(0), "it keeps all it says")
	assert.Empty(t, check.Idle(d, run(t, d)))

	length := func(mm float64) *schematic.Doc {
		for w := range d.Wires() {
			if w.Name == "W2" {
				c := *w
				c.LengthMM = schematic.Some(mm)
				return d.With(schematic.Put{Key: c.Key(), Item: &c})
			}
		}
		return nil
	}
	for _, c := range []struct {
		mm   float64
		open bool
		why  string
	}{
		{4000, false, "nothing has changed"},
		{4020, false, "0.4 % of the drop: as good as the same"},
		{3980, false, "the same the other way"},
		{4200, true, "a real change"},
		{3800, true, "an improvement is a change too"},
	} {
		g := about(t, run(t, length(c.mm)), rule)
		assert.Equal(t, c.open, g.Open(), "%g mm: %s", c.mm, c.why)
		if c.open {
			assert.Equal(t, "accepted before at "+check.Figure(g.Before.Value, "V")+": the lamp is for parking", g.AcceptedBefore())
			assert.Empty(t, check.Idle(d, run(t, length(c.mm))), "it is still of use")
		}
	}
	mended := length(100)
	for _, g := range run(t, mended) {
		assert.NotEqual(t, rule, g.Rule)
	}
	require.Len(t, check.Idle(mended, run(t, mended)), 1, "what is mended needs no acceptance")
}

func TestAcceptanceFitsOnlyItsOwnFinding(t *testing.T) {
	d := doc(t, `ambient 25
G1 battery
F1 fuse-regular amp=10
F2 fuse-regular amp=10
E1 lamp watt=55
E2 lamp watt=55
W1 G1.+ F1.1 1.5mm2 100
W2 F1.2 E1.1 0.5mm2 6000
W3 G1.+ F2.1 1.5mm2 100
W4 F2.2 E2.1 0.5mm2 6000
W5 E1.2 G1.- 4mm2 500
W6 E2.2 G1.- 4mm2 500
state on off`)
	f := about(t, run(t, d), "voltage drop")
	open, shut := 0, 0
	for _, g := range run(t, accepted(t, d, f, "looked at")) {
		switch {
		case g.Rule != "voltage drop":
		case g.Open():
			open++
			assert.Nil(t, g.Before, "the other load was never accepted: %s", g.Text)
		default:
			shut++
			assert.Equal(t, f.ID, g.ID)
		}
	}
	assert.Equal(t, []int{1, 1}, []int{open, shut})
}

func TestAcceptanceOfMissingDataEndsWhenOtherDataIsMissing(t *testing.T) {
	plan := fmt.Sprintf(longFeed, "-")
	base := doc(t, plan)
	f := about(t, run(t, base), "missing data")
	require.Equal(t, check.NotAssessed, f.Severity)
	d := accepted(t, base, f, "not cut yet")
	assert.False(t, about(t, run(t, d), "missing data").Open())
	for w := range d.Wires() {
		if w.Name == "W2" {
			c := *w
			c.Insulation, c.TempC = "", schematic.Num{}
			d = d.With(schematic.Put{Key: c.Key(), Item: &c})
		}
	}
	g := about(t, run(t, d), "missing data")
	require.True(t, g.Open(), g.Text)
	assert.Equal(t, "accepted before without "+f.Missing+": not cut yet", g.AcceptedBefore())
}

// Where the pins a finding names have changed it is another one; the reader is
// still told of the acceptance.
func TestAcceptanceWithOtherPinsIsNamed(t *testing.T) {
	base := doc(t, fmt.Sprintf(longFeed, "4000"))
	f := about(t, run(t, base), "voltage drop")
	a := f.Acceptance("looked at", "2024-05-01")
	a.Detail, a.ID = "another", schematic.ID{1}
	d := base.With(schematic.Put{Key: a.Key(), Item: a})
	g := about(t, run(t, d), "voltage drop")
	assert.True(t, g.Open())
	assert.Contains(t, g.AcceptedBefore(), "looked at")
}

// The numbers kept are the ones compared, so that rounding cannot open a
// finding; every finding of a harness full of faults can be accepted.
func TestEveryFindingCanBeAccepted(t *testing.T) {
	d := doc(t, faulty)
	all := run(t, d)
	require.NotEmpty(t, all)
	tx := edit.Begin(d, nil)
	for _, f := range all {
		require.NoError(t, edit.Accept(tx, f.Acceptance("looked at", "2024-05-01")), f.Text)
	}
	d = tx.Doc()
	again := run(t, d)
	require.Len(t, again, len(all))
	for i, f := range again {
		assert.False(t, f.Open(), "%s: %s", f.Text, f.AcceptedBefore())
		assert.Equal(t, all[i].ID, f.ID)
		assert.True(t, strings.HasPrefix(f.ID, f.Rule))
	}
	assert.Empty(t, check.Idle(d, again))
}
