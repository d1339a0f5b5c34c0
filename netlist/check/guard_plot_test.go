package check_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
)

func plotOf(t *testing.T, d *schematic.Doc, name, pin string) (check.GuardPlot, error) {
	t.Helper()
	n := netlist.Build(d)
	k, ok := d.Named(name)
	require.True(t, ok, name)
	return check.PlotGuard(n, n.SolveAll(), k, pin)
}

const plotPlan = "ambient 30\nG1 battery volt=12.6 ohm=0.005\nF1 fuse-block-regular\nF1.in feed\nF1.1 output amp=30\nF1.2 output amp=10\nE1 lamp watt=21\nE2 lamp watt=21\n" +
	"W1 G1.+ F1.in 6mm2 100\nW2 F1.1 E1.1 1.5mm2 12400\nW3 F1.2 E2.1 1mm2 2000\nW4 E1.2 G1.- 2.5mm2 500\nW5 E2.2 G1.- 2.5mm2 500\n"

// The plot agrees with the rule: 30 A on 1.5 mm², 12.4 m; see
// TestFuseTooSlowForDeadShort.
func TestPlotGuard(t *testing.T) {
	d := doc(t, plotPlan)
	g, err := plotOf(t, d, "F1", "1")
	require.NoError(t, err)
	assert.Equal(t, [2]string{"F1 pin 1", "W2"}, [2]string{g.FuseName, g.WireName})
	assert.InDelta(t, 57.7, g.ShortA.Or(0), 0.4)
	assert.Greater(t, g.MostA.Or(0), 500.0, "beside the fuse only battery, feed and fuse hold the current back")
	assert.Equal(t, 25.0, g.BearA, "ISO 10133 (from memory), 1.5 mm² at 105 °C")
	assert.Contains(t, g.Verdict, "A dead short at the far end of W2 draws 57.")
	assert.InDelta(t, g.ShortA.Or(0), g.Worst.Amp, 1e-9)
	assert.Equal(t, 40.5, g.Band[0].Amp)
	assert.Equal(t, 600.0, g.Band[0].LateS)
	require.Len(t, g.Loads, 1)
	assert.InDelta(t, 1.7, g.Loads[0].Amp, 0.1)
	for i := 1; i < len(g.Bears); i++ {
		assert.Greater(t, g.Bears[i].Amp, g.Bears[i-1].Amp)
		assert.LessOrEqual(t, g.Bears[i].S, g.Bears[i-1].S*(1+1e-6))
	}

	same, err := plotOf(t, d, "W2", "")
	require.NoError(t, err)
	assert.Equal(t, g, same, "asked by the wire")

	fine, err := plotOf(t, d, "W3", "")
	require.NoError(t, err)
	assert.Zero(t, fine.Worst)
	assert.Contains(t, fine.Verdict, "is cut off within")
	assert.Equal(t, "F1 pin 2", fine.FuseName)
}

// A kind of one's own may hold several fuses that have no pin of their own.
func TestPlotGuardOfTwoFusesInOnePart(t *testing.T) {
	fuse := func(name, a string) schematic.Element {
		return schematic.Element{Name: name, Type: schematic.ElemFuse, A: a, B: "out", Args: map[string]schematic.Arg{"amp": {Value: 10}}}
	}
	twin := &schematic.Kind{Name: "twin-fuse", Title: "twin fuse", Pins: []schematic.Pin{{Name: "in1"}, {Name: "in2"}, {Name: "out"}},
		Elements: []schematic.Element{fuse("left", "in1"), fuse("right", "in2")}}
	d := doc(t, "G1 battery\nF1 twin-fuse\nE1 lamp watt=5\nW1 G1.+ F1.in1 1mm2 9\nW2 F1.out E1.1 1mm2 9\nW3 E1.2 G1.- 1mm2 9", twin)
	_, err := plotOf(t, d, "F1", "")
	assert.EqualError(t, err, "F1 holds 2 fuses: say which by its pin, as F1.in1")
	_, err = plotOf(t, d, "F1", "in1")
	assert.NotContains(t, err.Error(), "holds")
}

func TestPlotGuardWhereDataIsMissing(t *testing.T) {
	g, err := plotOf(t, doc(t, plotPlan+"W6 F1.2 E2.1 1mm2 - bare"), "W6", "")
	require.NoError(t, err)
	assert.Contains(t, g.Verdict, "Not assessed: the insulation temperature is missing")
	assert.Empty(t, g.Bears)
	assert.False(t, math.IsNaN(g.RatingA))

	d := doc(t, plotPlan+"F3 fuse-regular\nF4 fuse-regular amp=5")
	for _, c := range []struct{ name, pin, want string }{
		{"F1", "", "F1 holds 2 fuses: say which by its pin, as F1.1"},
		{"F1", "in", "F1 has no fuse at pin in"},
		{"E1", "", "E1 is no fuse"},
		{"W1", "", "cuts W1 off from all that feeds it"},
		{"W4", "", "cuts W4 off from all that feeds it"},
		{"F3", "", "F3 cannot be plotted: the fuse rating is missing"},
	} {
		_, err := plotOf(t, d, c.name, c.pin)
		assert.ErrorContains(t, err, c.want)
	}
	g, err = plotOf(t, d, "F4", "")
	require.NoError(t, err)
	assert.Contains(t, g.Verdict, "No wire relies on F4")
	assert.NotEmpty(t, g.Band)
}
