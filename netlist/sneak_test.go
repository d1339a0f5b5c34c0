package netlist_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
)

// sneaks writes what is found, one to a line.
func sneaks(t testing.TB, plan string) string {
	t.Helper()
	return texts(netlist.Sneaks(netlist.Build(doc(t, plan)).SolveAll()))
}

// lostGrounds does so for what a lost ground brings about.
func lostGrounds(t testing.TB, plan string) string {
	t.Helper()
	list, ok := netlist.LostGrounds(netlist.Build(doc(t, plan)).SolveAll(), func(float64) bool { return true })
	require.True(t, ok)
	return texts(list)
}

func both(t testing.TB, plan string) string { return sneaks(t, plan) + lostGrounds(t, plan) }

func texts(list []netlist.Sneak) string {
	var out []string
	for _, x := range list {
		out = append(out, x.Text)
	}
	return strings.Join(out, "\n")
}

func TestFedWhileSwitchedOff(t *testing.T) {
	// A side lamp and a stop lamp of 10 W share a housing whose ground is not
	// drawn: the stop lamp then lights the side lamps through it.
	const housing = "G1 battery volt=12 ohm=0\nS1 switch-toggle\nS2 switch-toggle\nE1 lamp watt=10\nE2 lamp watt=10\nE3 lamp watt=10\n" +
		"W1 G1.+ S1.82" + fat + "\nW2 S1.82a E1.1" + fat + "\nW3 G1.+ S2.82" + fat + "\nW4 S2.82a E2.1" + fat + "\nW5 E1.2 E2.2" + fat +
		"\nW6 E1.1 E3.1" + fat + "\nW7 E3.2 G1.-" + fat + "\nstate stop off S2=on\n"
	got := sneaks(t, housing+"W8 E2.2 G1.-"+fat)
	assert.Empty(t, got, "with its ground all is well")

	faults := lostGrounds(t, housing+"W8 E2.2 G1.-"+fat)
	assert.Contains(t, faults, "With W8 open, E2 has no circuit of its own in \"stop\" but gets")
	assert.Contains(t, faults, "With W8 open, E1 has no circuit of its own in \"stop\" but gets")
	assert.Contains(t, faults, "by way of E2 and E3")
}

func TestBackFeedIntoAControlUnit(t *testing.T) {
	// The main relay is off, yet a valve on permanent plus feeds the unit
	// backwards through the diode of its own output: here drawn as a diode.
	const plan = "G1 battery volt=12 ohm=0\nS1 switch-toggle\nE1 load-two-pin amp=0.5 min_volt=6\nY1 injector-high ohm=14\nV1 diode\nK1 relay-make\n" +
		"W1 G1.+ S1.82" + fat + "\nW2 S1.82a E1.+" + fat + "\nW3 E1.- G1.-" + fat + "\nW4 G1.+ Y1.1" + fat + "\nW5 Y1.2 V1.A" + fat + "\nW6 V1.K E1.+" + fat +
		"\nW7 E1.+ K1.86" + fat + "\nW8 K1.85 G1.-" + fat + "\nstate off off\nstate on off S1=on"
	got := sneaks(t, plan)
	assert.Contains(t, got, `In "off" E1 is switched off but gets`)
	assert.Contains(t, got, `In "off" K1 coil is switched off but gets`)
	assert.Contains(t, got, "by way of Y1")
	assert.NotContains(t, got, `In "on"`)
	require.Empty(t, sneaks(t, strings.Replace(plan, "W5 Y1.2 V1.A"+fat+"\nW6 V1.K E1.+"+fat, "W5 Y1.2 V1.K"+fat+"\nW6 V1.A E1.+"+fat, 1)), "turned round, the diode blocks")
}

func TestIndicatorThatGlows(t *testing.T) {
	// An LED between a switched line and a relay's line glows through the coil.
	const plan = "G1 battery volt=12 ohm=0\nS1 switch-toggle\nS2 switch-toggle\nH1 indicator-led\nK1 relay-make\n" +
		"W1 G1.+ S1.82" + fat + "\nW2 S1.82a H1.+" + fat + "\nW3 H1.- K1.86" + fat + "\nW4 K1.85 G1.-" + fat + "\nW5 K1.86 S2.82" + fat + "\nW6 S2.82a G1.-" + fat + "\nstate on off S1=on"
	got := sneaks(t, plan)
	assert.Contains(t, got, `H1 series resistor is switched off but gets`)
	assert.Contains(t, got, "by way of K1 coil")
}

func TestSeriesLoadsAreMeant(t *testing.T) {
	assert.Empty(t, both(t, "G1 battery volt=12 ohm=0\nE1 lamp watt=5\nE2 lamp watt=5\nW1 G1.+ E1.1"+fat+"\nW2 E1.2 E2.1"+fat+"\nW3 E2.2 G1.-"+fat))
	assert.Empty(t, both(t, "G1 battery volt=12 ohm=0\nG2 alternator limit_amp=60\nE1 lamp watt=2\nS1 switch-toggle\nW1 G1.+ S1.82"+fat+"\nW2 S1.82a E1.1"+fat+"\nW3 E1.2 G2.D+"+fat+
		"\nW4 G2.B+ G1.+"+fat+"\nW5 G2.B- G1.-"+fat+"\nstate on off S1=on\nstate run running S1=on"), "the charge lamp is meant to find its ground in the field winding")
}

func TestTwoFusesFeedOneNet(t *testing.T) {
	const base = "G1 battery volt=12 ohm=0\nF1 fuse-regular amp=10\nF2 fuse-regular amp=10\nF3 fuse-regular amp=30\nE1 lamp watt=21\nE2 lamp watt=21\nS1 switch-toggle\n" +
		"W1 G1.+ F3.1" + fat + "\nW2 F3.2 F1.1" + fat + "\nW3 F3.2 F2.1" + fat + "\nW4 F1.2 E1.1" + fat + "\nW5 F2.2 E2.1" + fat + "\nW6 E1.2 G1.-" + fat + "\nW7 E2.2 G1.-" + fat + "\n"
	assert.Empty(t, sneaks(t, base))
	assert.Equal(t, `In "at rest" F1 and F2 feed the same circuit at F1.2: it stays live when one of them is pulled, and together they let through more than either.`,
		sneaks(t, base+"W8 E1.1 E2.1"+fat))
	bridge := base + "W8 E1.1 S1.82" + fat + "\nW9 S1.82a E2.1" + fat + "\nstate off off\nstate on off S1=on"
	assert.True(t, strings.HasPrefix(sneaks(t, bridge), `In "on" F1 and F2 feed`), "only while the switch is on")
	assert.Empty(t, sneaks(t, base+"V1 diode\nW8 E1.1 V1.A"+fat+"\nW9 V1.K E2.1"+fat), "a diode keeps them apart")
	assert.Empty(t, sneaks(t, base+"G2 alternator limit_amp=60\nF4 fuse-sf51 amp=80\nW8 G2.B+ F4.1"+fat+"\nW9 F4.2 F3.2"+fat+"\nW10 G2.B- G1.-"+fat+"\nstate run running"),
		"two sources with a fuse each are as it should be")
}

func TestGroundLoop(t *testing.T) {
	const base = "G1 battery volt=12 ohm=0\nA1 control-unit running_amp=0.5 quiescent_amp=0.01\nA1.1 supply\nA1.2 ground\nA1.3 sensor-ground\nA1.4 screen\nA1.5 input-analog\nGND1 ground-engine\nGND2 ground-engine\nB1 sensor-coolant\n" +
		"W1 G1.+ A1.1" + fat + "\nW2 A1.2 G1.-" + fat + "\nW3 A1.3 B1.2" + fat + "\nW4 A1.5 B1.1" + fat + "\nW5 GND2.1 G1.-" + fat + "\n"
	assert.Empty(t, sneaks(t, base))
	assert.Equal(t, "The sensor ground A1.3 has a second way to ground, by W3, W6, GND1, GND2, W5: currents of others flow through it.", sneaks(t, base+"W6 B1.2 GND1.1"+fat))
	assert.Equal(t, "The screen at A1.4 has a second way to ground, by W6, GND1, GND2, W5: currents of others flow through it.", sneaks(t, base+"W6 A1.4 GND1.1"+fat))
	assert.Empty(t, sneaks(t, base+"SP1 splice\nW6 A1.4 SP1.1"+fat), "a screen earthed at one end")
}

func TestSneaksOfRandomDocuments(t *testing.T) {
	found := map[netlist.SneakKind]int{}
	for seed := range uint64(150) {
		n := netlist.Build(doc(t, meshPlan(rand.New(rand.NewPCG(seed, 8)))))
		sols := n.SolveAll()
		a := netlist.Sneaks(sols)
		for _, x := range a {
			found[x.Kind]++
			assert.NotEmpty(t, x.Items)
			if x.Kind == netlist.SneakFed {
				assert.GreaterOrEqual(t, x.Amp, 0.5e-3)
				assert.NotEmpty(t, x.Path.Main)
			}
		}
		assert.Equal(t, a, netlist.Sneaks(sols), "seed %d", seed)
	}
	assert.Positive(t, found[netlist.SneakFed])
	assert.Positive(t, found[netlist.SneakTwo])
}

// meshPlan is a handful of circuits behind switches and fuses, with loads
// between circuits and to ground, as careless additions make them.
func meshPlan(rng *rand.Rand) string {
	plan := "G1 battery volt=12 ohm=0.01\nF1 fuse-regular amp=10\nF2 fuse-regular amp=20\nW901 G1.+ F1.1 4mm2 100\nW902 G1.+ F2.1 4mm2 100\n"
	state, w := "state on off", 0
	wire := func(a, b string) {
		w++
		plan += fmt.Sprintf("W%d %s %s 1mm2 500\n", w, a, b)
	}
	circuits := 2 + rng.IntN(4)
	for i := range circuits {
		plan += fmt.Sprintf("S%d switch-toggle\nSP%d splice\n", i, i)
		wire(fmt.Sprintf("F%d.2", 1+rng.IntN(2)), fmt.Sprintf("S%d.82", i))
		wire(fmt.Sprintf("S%d.82a", i), fmt.Sprintf("SP%d.1", i))
		if rng.IntN(2) == 0 {
			state += fmt.Sprintf(" S%d=on", i)
		}
	}
	for i := range 3 + rng.IntN(8) {
		from, to := rng.IntN(circuits), "G1.-"
		if rng.IntN(3) == 0 {
			to = fmt.Sprintf("SP%d.1", rng.IntN(circuits))
		}
		plan += fmt.Sprintf("E%d lamp watt=%d\n", i, 5+rng.IntN(20))
		wire(fmt.Sprintf("SP%d.1", from), fmt.Sprintf("E%d.1", i))
		wire(fmt.Sprintf("E%d.2", i), to)
	}
	if rng.IntN(2) == 0 {
		wire(fmt.Sprintf("SP%d.1", rng.IntN(circuits)), fmt.Sprintf("SP%d.1", rng.IntN(circuits)))
	}
	return plan + state
}

// Two lamps on one stud: with its bolt or its wire lost they pass each other's
// current on when a second wire joins their feeds, the one that is off lights up.
func TestLostGroundOfAStud(t *testing.T) {
	const plan = "G1 battery volt=12 ohm=0\nGND1 ground-body\nGND2 ground-body\nS1 switch-toggle\nS2 switch-toggle\nE1 lamp watt=21\nE2 lamp watt=21\nE3 lamp watt=5\n" +
		"W1 G1.+ S1.82" + fat + "\nW2 S1.82a E1.1" + fat + "\nW3 E1.2 GND1.1" + fat + "\nW4 G1.+ S2.82" + fat + "\nW5 S2.82a E2.1" + fat + "\nW6 E2.2 GND1.1" + fat +
		"\nW7 GND2.1 G1.-" + fat + "\nW8 E2.1 E3.1" + fat + "\nW9 E3.2 G1.-" + fat + "\nstate left off S1=on"
	assert.Empty(t, sneaks(t, plan))
	got := lostGrounds(t, plan)
	assert.Contains(t, got, `With GND1 open, E1 has no circuit of its own in "left" but gets`)
	assert.Contains(t, got, "by way of E2 and E3", "through the lamp beside it and what hangs on its feed")
	assert.Contains(t, got, `With GND2 open, E1`)
	assert.Contains(t, got, `With W7 open, E1`)
	assert.NotContains(t, got, "With W3 open", "nothing else hangs there")

	stopped := 0
	_, ok := netlist.LostGrounds(netlist.Build(doc(t, plan)).SolveAll(), func(share float64) bool {
		stopped++
		return false
	})
	assert.False(t, ok)
	assert.Equal(t, 1, stopped)
}

// What a lost ground makes of a load is what the network without that wire
// makes of it.
func TestLostGroundsOfRandomDocuments(t *testing.T) {
	count := 0
	for seed := range uint64(60) {
		plan := meshPlan(rand.New(rand.NewPCG(seed, 9)))
		plan = "SP90 splice\n" + strings.NewReplacer("E0.2 G1.-", "E0.2 SP90.1", "E1.2 G1.-", "E1.2 SP90.1", "E2.2 G1.-", "E2.2 SP90.1").Replace(plan) + "\nW990 SP90.1 G1.- 1mm2 500"
		n := netlist.Build(doc(t, plan))
		list, ok := netlist.LostGrounds(n.SolveAll(), func(float64) bool { return true })
		require.True(t, ok)
		for _, x := range list {
			count++
			assert.Equal(t, netlist.SneakGround, x.Kind)
			assert.Equal(t, "W990", n.Branches[x.Fault].Name())
			without := netlist.Build(doc(t, strings.ReplaceAll(plan, "W990 SP90.1 G1.-", "W990 SP90.1 loose")))
			s := without.Solve(x.State)
			require.NoError(t, s.Err)
			for i := range without.Branches {
				if br := &without.Branches[i]; br.Name() == n.Branches[x.Items[0]].Name() {
					assert.InDelta(t, x.Amp, math.Abs(s.Amp[i]), 1e-6, "seed %d %s", seed, br.Name())
				}
			}
		}
	}
	assert.Greater(t, count, 20)
}
