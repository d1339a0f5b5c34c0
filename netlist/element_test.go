package netlist_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/schematic"
)

// Rest voltages of a published list (11.6, 12.0, 12.2, 12.4, 12.6 V from empty
// to full, 25 °C); CCA by SAE and BCI: 7.2 V at −18 °C after 30 s, seen
// second-hand. CCA 600 with 12.6 V is 9.0 mΩ cold, half of it warm (from memory).
func TestBatteryCells(t *testing.T) {
	for _, c := range []struct {
		name, why, values string
		volt, ohm         float64
	}{
		{"default", "", "", 12.6, 0.006},
		{"half charged", "", "charge=0.5", 12.2, 0.006},
		{"between two rows", "", "charge=0.625", 12.3, 0.006},
		{"measured voltage", "what was measured goes first", "charge=0.5 volt=12.5", 12.5, 0.006},
		{"warm", "", "cold_crank_amp=600", 12.6, 0.0045},
		{"cold", "", "cold_crank_amp=600 temp_degc=-18", 12.6, 0.009},
		{"in between", "3.5 °C is half way", "cold_crank_amp=600 temp_degc=3.5", 12.6, 0.00675},
		{"colder than the list", "held", "cold_crank_amp=600 temp_degc=-40", 12.6, 0.009},
		{"measured resistance", "", "cold_crank_amp=600 ohm=0.02", 12.6, 0.02},
		{"24 V", "twice the volts", "volt=25.2 cold_crank_amp=600", 25.2, 0.009},
		{"charge that cannot be", "is not used", "charge=1.5", 12.6, 0.006},
		{"no cranking current", "is not used", "cold_crank_amp=0", 12.6, 0.006},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := solve(t, doc(t, "G1 battery "+c.values+"\nE1 load-resistive ohm=1\nW1 G1.+ E1.1"+fat+"\nW2 E1.2 G1.-"+fat))
			cells := s.Netlist.Branches[s.branch("G1")].Cells()
			assert.InDelta(t, c.volt, cells.Volt, 1e-9, c.why)
			assert.InDelta(t, c.ohm, cells.Ohm, 1e-9, c.why)
			assert.InDelta(t, c.volt/(1+c.ohm), s.wire("W1"), 1e-4)
			if c.ohm == 0.0045 {
				assert.NotEmpty(t, cells.OhmFormula)
				assert.NotEmpty(t, cells.Source.Title)
			}
		})
	}
}

// Overloaded, the alternator gives its limit and the battery the rest:
// 100 A = 60 A + (12.6 V − U)/10 mΩ with U = 12.2 V.
func TestOverloadedAlternatorShares(t *testing.T) {
	const plan = "G1 battery volt=12.6 ohm=0.01\nG2 alternator volt=14.2 ohm=0.01 limit_amp=60 idle_limit_amp=30 hot_limit_amp=45 hot_degc=105 temp_degc=%s\n" +
		"E1 load-two-pin amp=100\nW1 G1.+ E1.+" + fat + "\nW2 E1.- G1.-" + fat + "\nW3 G2.B+ G1.+" + fat + "\nW4 G2.B- G1.-" + fat +
		"\nstate run running\nstate idle idle\nstate off off"
	for _, c := range []struct {
		degC             string
		run, idle, volts float64 // of the alternator, A; of the battery, V
	}{{"25", 60, 30, 12.2}, {"-10", 60, 30, 12.2}, {"65", 52.5, 26.25, 12.125}, {"105", 45, 22.5, 12.05}, {"140", 45, 22.5, 12.05}} {
		sols := netlist.Build(doc(t, fmt.Sprintf(plan, c.degC))).SolveAll()
		for i, want := range []float64{c.run, c.idle, 0} {
			closes(t, sols[i])
			s := sheet{t, sols[i]}
			assert.InDelta(t, want, s.wire("W3"), 1e-6, "%s at %s °C", s.State.Name, c.degC)
			assert.InDelta(t, 100-want, -s.amp("G1"), 1e-6)
			assert.Equal(t, i < 2, len(s.Limiting) == 1, "it says so")
		}
		assert.InDelta(t, c.volts, sheet{t, sols[0]}.volt("G1.+"), 1e-3)
	}
}

// 360 W is the most 12 V can bring behind 0.1 Ω (V4): beyond, the supply
// collapses and that is said by name.
func TestCollapse(t *testing.T) {
	for watt, collapses := range map[string]bool{"100": false, "330": false, "400": true} {
		s := solve(t, doc(t, "ambient 20\nG1 battery volt=12 ohm=0\nE1 lamp-led min_volt=5 watt="+watt+"\nW1 G1.+ E1.+"+tenthOhm+"\nW2 E1.- G1.-"+fat))
		if collapses {
			assert.Equal(t, []string{"E1"}, s.Netlist.Names(s.Starved))
			assert.Less(t, s.volt("E1.+")-s.volt("E1.-"), 5.0)
		} else {
			assert.Empty(t, s.Starved, watt)
		}
	}
}

func TestFirstMoment(t *testing.T) {
	const plan = "G1 battery volt=12 ohm=0.01\nE1 lamp volt=12 watt=48\nE2 lamp volt=12 watt=48 cold_ohm=0.25\nM1 motor volt=12 amp=10 stall_amp=60\nM2 motor volt=12 amp=10\n" +
		"W1 G1.+ E1.1" + fat + "\nW2 E1.2 G1.-" + fat + "\nW3 G1.+ E2.1" + fat + "\nW4 E2.2 G1.-" + fat +
		"\nW5 G1.+ M1.33" + fat + "\nW6 M1.32 G1.-" + fat + "\nW7 G1.+ M2.33" + fat + "\nW8 M2.32 G1.-" + fat
	n := netlist.Build(doc(t, plan))
	run := sheet{t, n.Solve(nil)}
	closes(t, run.Solution)
	u := run.volt("G1.+")
	for name, ohm := range map[string]float64{"E1": 0.3, "E2": 0.25, "M1": 0.2} {
		a, ok := run.InrushAmp(run.branch(name))
		require.True(t, ok)
		assert.InEpsilon(t, u/ohm, a, 1e-4, "%s: cold tenth of 3 Ω, as given, 12 V / 60 A", name)
	}
	_, ok := run.InrushAmp(run.branch("M2"))
	assert.False(t, ok, "no stall current, no figure")
	_, ok = run.InrushAmp(run.branch("W1"))
	assert.False(t, ok)
}

func TestOverLimit(t *testing.T) {
	s := solve(t, doc(t, "G1 battery volt=12 ohm=0\nA1 control-unit running_amp=0.5 quiescent_amp=0.005\nA1.1 supply\nA1.2 ground\nA1.5 output-low on_ohm=0.1 limit_amp=2\n"+
		"E1 load-resistive ohm=2\nW1 G1.+ A1.1"+fat+"\nW2 A1.2 G1.-"+fat+"\nW3 G1.+ E1.1"+fat+"\nW4 E1.2 A1.5"+fat+"\nstate on off A1:5=on"))
	assert.Equal(t, []string{"A1 pin 5"}, s.Netlist.Names(s.Over))
}

// A blade fuse of 10 A: 7.7 mΩ cold, 109 mV at 10 A (a maker's data sheet).
func TestFuseWarms(t *testing.T) {
	for amp, ohm := range map[string]float64{"0.001": 0.0077, "5": 0.0077 + 0.0032/4, "10": 0.0109, "14": 0.0109} {
		s := solve(t, doc(t, "G1 battery volt=12 ohm=0\nF1 fuse-regular amp=10\nE1 load-two-pin amp="+amp+"\nW1 G1.+ F1.1"+fat+"\nW2 F1.2 E1.+"+fat+"\nW3 E1.- G1.-"+fat))
		got, ok := s.OhmOf(s.branch("F1"))
		assert.True(t, ok)
		assert.InEpsilon(t, ohm, got, 2e-4, amp)
		assert.InDelta(t, s.wire("W1")*got, s.volt("F1.1")-s.volt("F1.2"), 1e-9)
	}
}

func TestReversedLoadIsNamed(t *testing.T) {
	s := solve(t, doc(t, "G1 battery volt=12 ohm=0\nE1 load-two-pin amp=2\nE2 lamp-led watt=20\nW1 G1.+ E1.-"+fat+"\nW2 E1.+ G1.-"+fat+"\nW3 G1.+ E2.+"+fat+"\nW4 E2.- G1.-"+fat))
	assert.Equal(t, []string{"E1"}, s.Netlist.Names(s.Reversed))
}

// Splice, welded or crimped: 0.3 mΩ from wire to wire (from memory).
func TestSpliceAndItsOverride(t *testing.T) {
	const plan = "ambient 20\nG1 battery volt=12 ohm=0\nSP1 splice %\nE1 load-two-pin amp=10\nW1 G1.+ SP1.1 1mm2 1000 joints\nW2 SP1.1 E1.+" + fat + "\nW3 E1.- G1.-" + fat
	for values, ohm := range map[string]float64{"": 0.15e-3, "splice_ohm=0.01": 0.005, "splice_ohm=0": 0} {
		s := solve(t, doc(t, replace(plan, values)))
		c := s.ConductorOf(uuidOf(t, s.Netlist.Doc, "W1"))
		assert.InDelta(t, ohm, c.JointOhm[1], 1e-12)
		assert.InDelta(t, 0.3e-3, c.JointOhm[0], 1e-12, "a new crimp on 1 mm²")
		assert.InDelta(t, 10*(0.0185+0.3e-3+ohm), s.volt("G1.+")-s.volt("SP1.1"), 1e-6)
	}
}

// The drain wire of a screen is a wire and carries what comes onto the screen.
func TestDrainConducts(t *testing.T) {
	s := solve(t, doc(t, "ambient 20\nG1 battery volt=12 ohm=0\nA1 control-unit running_amp=0.1 quiescent_amp=0.001\nA1.1 supply\nA1.2 ground joint_ohm=0.005\nA1.3 screen joint_ohm=0.005\n"+
		"SP1 splice\nE1 load-resistive ohm=12\nW1 G1.+ A1.1"+fat+"\nW2 A1.2 G1.-"+fat+"\nW3 SP1.1 A1.3 0.5mm2 1000\nW4 G1.+ E1.1"+fat+"\nW5 E1.2 SP1.1"+fat))
	assert.InDelta(t, 12/(12+0.0371+0.01), s.wire("W3"), 2e-3)
}

// 33 CFR 183.425 and ISO 10133 (from memory): 20 A bring 1 mm² in air of 30 °C
// to 105 °C, so ΔT/(234.5+Ta+ΔT) = (I/20)²·75/339.5. Resistance and temperature
// of a wire behind 12 V must agree with its current.
func TestWireWarms(t *testing.T) {
	for _, c := range []struct{ ambient, amp float64 }{{20, 5}, {20, 10}, {60, 10}, {60, 15}, {85, 8}} {
		t.Run(fmt.Sprint(c), func(t *testing.T) {
			s := solve(t, doc(t, fmt.Sprintf("ambient %g\nG1 battery volt=12 ohm=0\nE1 load-two-pin amp=%g\nW1 G1.+ E1.+ 1mm2 2000 flry\nW2 E1.- G1.-"+fat, c.ambient, c.amp)))
			q := c.amp * c.amp / 400 * 75 / 339.5
			want := c.ambient + q*(234.5+c.ambient)/(1-q)
			got, ok := s.WireTempC(uuidOf(t, s.Netlist.Doc, "W1"))
			require.True(t, ok)
			assert.InDelta(t, want, got, 0.05)
			ohm, _ := s.OhmOf(s.branch("W1"))
			assert.InEpsilon(t, 0.037*(234.5+want)/254.5, ohm, 2e-4)
			assert.InDelta(t, c.amp*ohm, s.volt("G1.+")-s.volt("E1.+"), 1e-9)
			con := s.ConductorOf(uuidOf(t, s.Netlist.Doc, "W1"))
			assert.InEpsilon(t, ohm, con.Ohm, 1e-12)
			assert.Contains(t, con.Formula, "234.5 + ")
		})
	}
}

func TestWireTemperatureNotAssessed(t *testing.T) {
	const wire = "G1 battery volt=12 ohm=0\nE1 load-two-pin amp=10\nW2 E1.- G1.-" + fat + "\nW1 G1.+ E1.+ "
	for name, plan := range map[string]string{
		"no insulation": "ambient 20\n" + wire + "1mm2 2000",
		"no size":       "ambient 20\n" + wire + "- 2000 flry",
		"no length":     "ambient 20\n" + wire + "1mm2 - flry",
		"off the lists": "ambient 20\n" + wire + "500mm2 2000 flry",
		"aluminium":     "ambient 20\n" + wire + "1mm2 2000 aluminium flry",
	} {
		s := solve(t, doc(t, plan))
		got, ok := s.WireTempC(uuidOf(t, s.Netlist.Doc, "W1"))
		assert.False(t, ok, name)
		assert.InDelta(t, 20, got, 1e-9, name)
	}
	s := solve(t, doc(t, "ambient 20\n"+wire+"1mm2 2000 flry"))
	_, ok := s.WireTempC(schematic.ID{9})
	assert.False(t, ok)
}

// What no wire survives must end, and be said. A constant power makes it worse:
// the hotter the wire, the more current.
func TestMeltingWireEnds(t *testing.T) {
	for _, load := range []string{"load-two-pin amp=60", "load-resistive ohm=0.05", "lamp-led watt=300 min_volt=3"} {
		pins := map[bool][2]string{true: {"1", "2"}, false: {"+", "-"}}[load[5] == 'r']
		s := solve(t, doc(t, "ambient 20\nG1 battery volt=12 ohm=0.01\nE1 "+load+"\nW1 G1.+ E1."+pins[0]+" 1mm2 2000 flry\nW2 E1."+pins[1]+" G1.-"+fat))
		got, ok := s.WireTempC(uuidOf(t, s.Netlist.Doc, "W1"))
		assert.True(t, ok)
		assert.Greater(t, got, 105.0, load)
		assert.LessOrEqual(t, got, 1085.0, load)
	}
}

// Four loaded wires in one segment: 0.6 of the single wire's current (33 CFR
// 183.425, note 2), so the same current warms 1/0.36 times as much.
func TestNeighboursWarm(t *testing.T) {
	plan := "ambient 30\nG1 battery volt=12 ohm=0\n"
	for i := range 4 {
		plan += fmt.Sprintf("E%d load-two-pin amp=8\nW%d G1.+ E%d.+ 1mm2 2000 flry\nW%d E%d.- G1.-%s\n", i, i, i, 10+i, i, fat)
	}
	p := newPlan(t, "")
	p.read(plan)
	l := &schematic.Loom{ID: p.ID("loom"), Name: "engine", Segments: []schematic.Segment{{ID: p.ID("a"), Name: "a"}}}
	for _, it := range p.Items() {
		if w, ok := it.(*schematic.Wire); ok && w.Insulation != "" {
			w.Loom, w.Route = l.ID, []schematic.ID{l.Segments[0].ID}
		}
	}
	s := solve(t, p.Build(append(p.Items(), l)...))
	q := 64.0 / 400 / 0.36 * 75 / 339.5
	for i := range 4 {
		got, ok := s.WireTempC(uuidOf(t, s.Netlist.Doc, fmt.Sprintf("W%d", i)))
		assert.True(t, ok)
		assert.InDelta(t, 30+q*264.5/(1-q), got, 0.05)
	}
}

func TestWarmingDoesNotDependOnWhatWasAskedBefore(t *testing.T) {
	d := doc(t, "ambient 30\nG1 battery volt=12 ohm=0.01\nM1 motor volt=12 amp=14\nF1 fuse-regular amp=20\nW1 G1.+ F1.1 1mm2 2000 flry\nW2 F1.2 M1.33 1mm2 500 flry\nW3 M1.32 G1.- 1mm2 500 flry\nstate on off\nstate half off M1*0.5")
	n := netlist.Build(d)
	solver := netlist.NewSolver(n)
	on, half := d.States()[0], d.States()[1]
	first := solver.Solve(on)
	solver.Solve(half)
	again := solver.Solve(on)
	assert.Equal(t, first.Amp, again.Amp)
	assert.Equal(t, first.Volt, again.Volt)
	assert.Equal(t, netlist.NewSolver(n).Solve(half).Amp, solver.Solve(half).Amp)

	s := sheet{t, first}
	thick := *n.Doc.Wire(uuidOf(t, d, "W1"))
	thick.LengthMM = schematic.Some(1)
	require.True(t, solver.SetWire(s.branch("W1"), &thick))
	assert.Greater(t, solver.Solve(on).Amp[s.branch("W2")], first.Amp[s.branch("W2")])
	require.True(t, solver.SetWire(s.branch("W1"), n.Doc.Wire(thick.ID)))
	assert.Equal(t, first.Amp, solver.Solve(on).Amp)
	thick.LengthMM = schematic.Num{}
	assert.False(t, solver.SetWire(s.branch("W1"), &thick))
}

// A chain of LEDs behind a linear driver draws the same whatever the voltage
// above chain and driver, nothing below the chain, nothing the wrong way round.
func TestConstantCurrentLED(t *testing.T) {
	amp := func(volt float64, plus, minus string) float64 {
		s := netlist.Build(doc(t, fmt.Sprintf("G1 battery volt=%g ohm=0\nE1 lamp-led-current amp=0.35\nW1 G1.+ E1.%s"+fat+"\nW2 E1.%s G1.-"+fat, volt, plus, minus))).Solve(nil)
		require.NoError(t, s.Err)
		k, _ := s.Netlist.Doc.Named("W1")
		a, _ := s.WireAmp(k.ID)
		return a
	}
	for _, volt := range []float64{11.5, 12.6, 14.4, 16} {
		assert.InDelta(t, 0.35, amp(volt, "+", "-"), 1e-3, "%g V", volt)
	}
	dim := amp(10.2, "+", "-")
	assert.Greater(t, dim, 0.05, "between chain and chain with driver it dims")
	assert.Less(t, dim, 0.34)
	assert.InDelta(t, 0, amp(9, "+", "-"), 1e-3)
	assert.InDelta(t, 0, amp(14, "-", "+"), 1e-6)
}

// IEC 60949: without loss of heat I = K·S·√(ln((β+θf)/(β+θi))/t), K = 226
// A·√s/mm² for copper. 25 mm² with 200 A for 30 s from 20 °C: 29.75 °C. A thin
// wire is at its settled temperature well before that.
func TestWireWarmsWhileCranking(t *testing.T) {
	tempC := func(plan string) float64 {
		s := solve(t, doc(t, plan))
		c, ok := s.WireTempC(uuidOf(t, s.Netlist.Doc, "W1"))
		require.True(t, ok)
		ohm, _ := s.OhmOf(s.branch("W1"))
		con := s.ConductorOf(uuidOf(t, s.Netlist.Doc, "W1"))
		assert.InEpsilon(t, ohm, con.Ohm, 1e-12, "the resistance is that of the temperature")
		return c
	}
	plan := func(amp, size, more string) string {
		return "ambient 20\nG1 battery volt=12 ohm=0\nE1 load-two-pin amp=" + amp + "\nW1 G1.+ E1.+ " + size + " 500 flry\nW2 E1.- G1.-" + fat + "\n" + more
	}
	const crank = "state crank cranking"
	want := 254.5*math.Exp(200*200*30/math.Pow(226*25, 2)) - 234.5
	assert.InDelta(t, 29.75, want, 0.01)
	assert.InDelta(t, want, tempC(plan("200", "25mm2", crank)), 0.05)
	assert.InDelta(t, 254.5*math.Exp(200*200*5/math.Pow(226*25, 2))-234.5, tempC(plan("200", "25mm2", "limit crank_s=5\n"+crank)), 0.05)
	assert.Greater(t, tempC(plan("200", "25mm2", "state run running")), 60.0, "settled it would be far hotter")
	assert.InDelta(t, tempC(plan("3", "0.35mm2", "state run running")), tempC(plan("3", "0.35mm2", "limit crank_s=600\n"+crank)), 0.05)
	aluminium := strings.ReplaceAll(plan("200", "25mm2", crank), "flry", "aluminium flry")
	assert.InDelta(t, 248*math.Exp(200*200*30/math.Pow(148*25, 2))-228, tempC(aluminium), 0.05, "no rating list is needed")
}
