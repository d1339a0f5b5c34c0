package netlist_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/schematic"
)

// 0.1 Ω is 5405.4 mm of 1 mm² (18.5 mΩ/m at 20 °C).
const tenthOhm = " 1mm2 5405.405405405405"

// fat is as near to nothing as a wire comes: 1 mm of 120 mm², 0.15 µΩ, which
// the solver takes as a micro-ohm.
const fat = " 120mm2 1"

// Reference networks V1, V6 and V7, worked by hand and by exact elimination.
func TestReferenceNetworks(t *testing.T) {
	t.Run("V1 feed, load, ground", func(t *testing.T) {
		s := solve(t, doc(t, "ambient 20\nG1 battery volt=12 ohm=0\nE1 load-resistive ohm=1\n"+
			"W1 G1.+ E1.1"+tenthOhm+"\nW2 E1.2 G1.-"+tenthOhm))
		assert.InDelta(t, 10, s.wire("W1"), 2e-5)
		assert.InDelta(t, 11, s.volt("E1.1"), 2e-5)
		assert.InDelta(t, 1, s.volt("E1.2"), 2e-5)
	})
	t.Run("V4 constant power", func(t *testing.T) {
		s := solve(t, doc(t, "ambient 20\nG1 battery volt=12 ohm=0\nE1 lamp-led watt=100\nW1 G1.+ E1.+"+tenthOhm+"\nW2 E1.- G1.-"+fat))
		assert.InDelta(t, 60-math.Sqrt(2600), s.wire("W1"), 2e-5)
		assert.InDelta(t, 11.0990195, s.volt("E1.+")-s.volt("E1.-"), 2e-5)
	})
	t.Run("V6 open ground", func(t *testing.T) {
		s := solve(t, doc(t, "G1 battery volt=12 ohm=0\nE1 load-resistive ohm=2\nE2 load-resistive ohm=4\nE3 load-resistive ohm=6\n"+
			"W1 G1.+ E1.1"+fat+"\nW2 E1.2 E2.2"+fat+"\nW3 E2.1 E3.1"+fat+"\nW4 E3.2 G1.-"+fat))
		assert.InDelta(t, 1, s.wire("W1"), 1e-5)
		assert.InDelta(t, 10, s.volt("E1.2"), 1e-5)
	})
	t.Run("V7 parallel wires", func(t *testing.T) {
		// 7.98 and 4.95 mΩ/m are IEC 60228 values; the lengths give ISO 6722 wires the same ratio.
		s := solve(t, doc(t, "ambient 20\nG1 battery volt=20.1 ohm=0\nE1 load-two-pin amp=20\n"+
			"W1 G1.+ E1.+ 2.5mm2 1050\nW2 G1.+ E1.+ 4mm2 1050.955414012739\nW3 E1.- G1.-"+fat))
		assert.InDelta(t, 7.6566, s.wire("W1"), 1e-4)
		assert.InDelta(t, 12.3434, s.wire("W2"), 1e-4)
	})
}

func TestBattery(t *testing.T) {
	s := solve(t, doc(t, "G1 battery volt=12.6 ohm=0.01\nE1 load-resistive ohm=0.62\nW1 G1.+ E1.1"+fat+"\nW2 E1.2 G1.-"+fat))
	assert.InDelta(t, 20, s.wire("W1"), 1e-3)
	assert.InDelta(t, 12.4, s.volt("G1.+"), 1e-3)
	assert.Zero(t, s.volt("G1.-"))
}

func TestAlternatorHandsOver(t *testing.T) {
	const text = "G1 battery volt=12.6 ohm=0.01\nG2 alternator volt=14.2 ohm=0.02 limit_amp=60\nE1 load-resistive ohm=%\n" +
		"W1 G1.+ E1.1" + fat + "\nW2 E1.2 G1.-" + fat + "\nW3 G2.B+ G1.+" + fat + "\nW4 G2.B- G1.-" + fat +
		"\nstate off off\nstate run running"
	d := doc(t, replace(text, "1"))
	n := netlist.Build(d)
	sols := n.SolveAll()
	require.Len(t, sols, 2)
	off, run := sheet{t, sols[0]}, sheet{t, sols[1]}
	closes(t, off.Solution)
	closes(t, run.Solution)
	assert.InDelta(t, 0, off.wire("W3"), 1e-6, "a resting alternator gives nothing")
	assert.Greater(t, run.wire("W3"), run.wire("W1"), "a running one feeds the load and charges the battery")
	// (14.2 − v)/0.02 = v/1 + (v − 12.6)/0.01 → 710 + 1260 = v·151
	assert.InDelta(t, 1970.0/151, run.volt("G1.+"), 0.01)

	heavy := solve(t, doc(t, strings.Replace(replace(text, "0.1"), "state off off\n", "", 1)))
	assert.InDelta(t, 60, heavy.wire("W3"), 1e-6, "never more than its limit")
	assert.Greater(t, heavy.wire("W1"), 60.0, "the battery gives the rest")
}

func replace(s, with string) string { return strings.ReplaceAll(s, "%", with) }

const relayPlan = "G1 battery volt=12 ohm=0.01\nF1 fuse-regular amp=20\nS1 switch-toggle\nK1 relay-make\nE1 load-resistive ohm=1.2\n" +
	"W1 G1.+ F1.1" + fat + "\nW2 F1.2 K1.30" + fat + "\nW3 F1.2 S1.82" + fat + "\nW4 S1.82a K1.86" + fat +
	"\nW5 K1.85 G1.-" + fat + "\nW6 K1.87 E1.1" + fat + "\nW7 E1.2 G1.-" + fat

func TestRelayThroughSwitch(t *testing.T) {
	d := doc(t, relayPlan+"\nstate off off\nstate on off S1=on")
	sols := netlist.Build(d).SolveAll()
	off, on := sheet{t, sols[0]}, sheet{t, sols[1]}
	closes(t, off.Solution)
	closes(t, on.Solution)
	assert.InDelta(t, 0, off.wire("W6"), 1e-9)
	assert.False(t, off.Closed[off.branch("K1 make contact")])
	assert.True(t, on.Closed[on.branch("K1 make contact")])
	assert.InDelta(t, 12/(1.2+0.01+0.098/20+0.003), on.wire("W6"), 0.02, "battery, warm fuse (98 mV at 20 A), contact")
	assert.Greater(t, on.wire("W4"), 0.1, "the coil's own current")
	assert.Empty(t, on.Chattering)
}

func TestBreakContactAndWeakCoil(t *testing.T) {
	const text = "G1 battery volt=12 ohm=0\nR1 resistor ohm=%\nK1 relay-change-over coil_ohm=80 pull_in_volt=8.4\nE1 load-resistive ohm=12\n" +
		"W1 G1.+ R1.1" + fat + "\nW2 R1.2 K1.86" + fat + "\nW3 K1.85 G1.-" + fat + "\nW4 G1.+ K1.30" + fat + "\nW5 K1.87a E1.1" + fat + "\nW6 E1.2 G1.-" + fat
	weak := solve(t, doc(t, replace(text, "40")))   // 8 V at the coil
	strong := solve(t, doc(t, replace(text, "30"))) // 8.7 V
	assert.InDelta(t, 1, weak.wire("W5"), 0.01, "below pull-in the break contact stays closed")
	assert.InDelta(t, 0, strong.wire("W5"), 1e-9)
}

func TestRelayThatBreaksItsOwnCoilChatters(t *testing.T) {
	s := solve(t, doc(t, "G1 battery volt=12 ohm=0.01\nK1 relay-change-over\nK2 relay-make\nW1 G1.+ K1.30"+fat+"\nW2 K1.87a K1.86"+fat+"\nW3 K1.85 G1.-"+fat+
		"\nW4 G1.+ K2.86"+fat+"\nW5 K2.85 G1.-"+fat))
	assert.Equal(t, []string{"K1 coil"}, s.Chattering, "a buzzer; K2 holds")
}

func TestRelayHoldsAboveDropOut(t *testing.T) {
	// A relay that feeds its own coil stays as it is: at rest it never pulls in.
	s := solve(t, doc(t, "G1 battery volt=12 ohm=0.01\nK1 relay-make\nW1 G1.+ K1.30"+fat+"\nW2 K1.87 K1.86"+fat+"\nW3 K1.85 G1.-"+fat))
	assert.Empty(t, s.Chattering)
	assert.InDelta(t, 0, s.wire("W2"), 1e-9)
}

const unitPlan = "G1 battery volt=12.6 ohm=0.01\nA1 control-unit running_amp=0.5 quiescent_amp=0.005 sensor_limit_amp=0.1\n" +
	"A1.1 supply joint_ohm=0.005\nA1.2 ground\nA1.3 sensor-supply joint_ohm=0\nA1.4 sensor-ground joint_ohm=0\nA1.5 output-low on_ohm=0.15\nA1.6 supply-permanent\n" +
	"E1 load-resistive ohm=% \nY1 injector-high ohm=14\n" +
	"W1 G1.+ A1.1" + fat + "\nW2 A1.2 G1.-" + fat + "\nW3 A1.3 E1.1" + fat + "\nW4 E1.2 A1.4" + fat + "\nW5 G1.+ Y1.1" + fat + "\nW6 Y1.2 A1.5" + fat

func TestRegulatorDrawsWhatItGives(t *testing.T) {
	s := solve(t, doc(t, replace(unitPlan, "500")+"\nW9 G1.+ A1.6"+fat))
	assert.InDelta(t, 5.0/500.1, s.wire("W3"), 1e-5)
	assert.InDelta(t, 0.5+s.wire("W3"), s.wire("W1"), 1e-6, "the supply pin carries the unit's own current and the sensor's")
	assert.InDelta(t, 0.005, s.wire("W9"), 1e-7)
	short := solve(t, doc(t, replace(unitPlan, "1")))
	assert.InDelta(t, 0.1, short.wire("W3"), 1e-6, "held at its limit")
	assert.True(t, s.Closed[s.branch("A1 sensor supply")])
	low := solve(t, doc(t, strings.Replace(replace(unitPlan, "500"), "volt=12.6", "volt=5.5", 1)))
	assert.InDelta(t, 0, low.wire("W3"), 1e-9, "5.5 V is below the lowest working voltage")
	assert.False(t, low.Closed[low.branch("A1 sensor supply")], "so nobody takes it for working")
}

func TestOutputs(t *testing.T) {
	text := replace(unitPlan, "500") + "\nstate none off\nstate injecting running A1:5=on\nstate half running A1:5=on Y1*0.5"
	sols := netlist.Build(doc(t, text)).SolveAll()
	amps := []float64{}
	for _, s := range sols {
		closes(t, s)
		amps = append(amps, sheet{t, s}.wire("W5"))
	}
	assert.InDelta(t, 0, amps[0], 1e-9)
	assert.InDelta(t, 12.6/14.16, amps[1], 0.02)
	assert.InDelta(t, 12.6/28.16, amps[2], 0.02, "half the time is half the current")
}

func TestLampFilament(t *testing.T) {
	// R ∝ V^0.5 about the rating (exponents of 0.45 to 0.58 are published): 55 W at 12 V draw 55/12 A;
	// at 13.5 V I = 55/12 · √(13.5/12).
	at := func(volt string) float64 {
		return solve(t, doc(t, "G1 battery volt="+volt+" ohm=0\nE1 lamp volt=12 watt=55\nW1 G1.+ E1.1"+fat+"\nW2 E1.2 G1.-"+fat)).wire("W1")
	}
	assert.InDelta(t, 55.0/12, at("12"), 1e-4)
	assert.InDelta(t, 55.0/12*math.Sqrt(13.5/12), at("13.5"), 1e-4)
	assert.InDelta(t, 10*55.0/144*0.01, at("0.01"), 1e-4, "cold resistance is a tenth of hot")
}

func TestDuty(t *testing.T) {
	sols := netlist.Build(doc(t, "G1 battery volt=12 ohm=0\nM1 motor volt=12 amp=6\nE1 load-two-pin amp=2\nE2 lamp-led watt=24\n"+
		"W1 G1.+ M1.33"+fat+"\nW2 M1.32 G1.-"+fat+"\nW3 G1.+ E1.+"+fat+"\nW4 E1.- G1.-"+fat+"\nW5 G1.+ E2.+"+fat+"\nW6 E2.- G1.-"+fat+
		"\nstate full off\nstate third off M1*0.3333333 E1*0.5 E2*0.25\nstate none off M1*0 E1*0\nstate again off M1*1.5")).SolveAll()
	for i, want := range [][3]float64{{6, 2, 2}, {2, 1, 0.5}, {0, 0, 2}, {6, 2, 2}} {
		closes(t, sols[i])
		s := sheet{t, sols[i]}
		for j, w := range []string{"W1", "W3", "W5"} {
			assert.InDelta(t, want[j], s.wire(w), 1e-4, "%s in %s", w, s.State.Name)
		}
	}
}

func TestDiode(t *testing.T) {
	const text = "G1 battery volt=12 ohm=0\nV1 diode volt=0.8 ohm=0.02\nE1 load-resistive ohm=10\nW3 E1.2 G1.-" + fat
	fwd := solve(t, doc(t, text+"\nW1 G1.+ V1.A"+fat+"\nW2 V1.K E1.1"+fat))
	assert.InDelta(t, 11.2/10.02, fwd.wire("W1"), 0.01)
	back := solve(t, doc(t, text+"\nW1 G1.+ V1.K"+fat+"\nW2 V1.A E1.1"+fat))
	assert.InDelta(t, 0, back.wire("W1"), 1e-6, "a few nanoamps leak")
}

func TestStateNotes(t *testing.T) {
	d := doc(t, relayPlan+"\nstate odd off S1=half E1=on K1:nosuch=on\nstate fine off S1=on")
	sols := netlist.Build(d).SolveAll()
	assert.Equal(t, []string{
		`state "odd" puts S1 to "half", but its positions are off, on`,
		`state "odd" sets "nosuch" of K1, which has no such pin or element`,
	}, sols[0].Notes)
	assert.Empty(t, sols[1].Notes)
	assert.InDelta(t, 0, sheet{t, sols[0]}.wire("W4"), 1e-9, "an unknown position leaves the switch at rest")
}

func TestSwitchAtOffLeavesItsOtherElementsAlone(t *testing.T) {
	// The lamp of an illuminated switch hangs on pin 82a and burns when that is fed from elsewhere.
	s := solve(t, doc(t, "G1 battery volt=12 ohm=0\nS1 switch-illuminated\nW1 G1.+ S1.82a"+fat+"\nW2 S1.31 G1.-"+fat+"\nstate off off S1=off"))
	assert.Greater(t, s.wire("W1"), 0.01)
}

func TestFloatingPartHasNoVoltage(t *testing.T) {
	d := doc(t, "G1 battery\nE1 lamp watt=5\nE2 lamp watt=5\nW1 E1.1 E2.1 1mm2 100")
	s := solve(t, d)
	_, ok := s.VoltAt(s.Netlist.NodeOf(s.ref("E1.1")))
	assert.False(t, ok)
	_, ok = s.Across(s.branch("W1"))
	assert.False(t, ok)
	_, ok = s.VoltAt(-1)
	assert.False(t, ok)
	_, ok = s.WireAmp(schematic.ID{7})
	assert.False(t, ok)
}

func TestPinAmp(t *testing.T) {
	s := solve(t, doc(t, relayPlan+"\nstate on off S1=on"))
	assert.InDelta(t, s.wire("W1"), s.PinAmp(s.ref("F1.1")), 1e-9)
	assert.InDelta(t, -s.wire("W1"), s.PinAmp(s.ref("F1.2")), 1e-9, "out of the pin into the wires")
	assert.InDelta(t, -s.wire("W1"), s.PinAmp(s.ref("G1.+")), 1e-9)
	assert.Zero(t, s.PinAmp(schematic.PinRef{}))
}

func TestWhatIfWireWereThicker(t *testing.T) {
	const text = "ambient 20\nG1 battery volt=12 ohm=0\nE1 load-resistive ohm=1\nW1 G1.+ E1.1" + tenthOhm + "\nW2 E1.2 G1.-" + tenthOhm
	d := doc(t, text)
	n := netlist.Build(d)
	solver := netlist.NewSolver(n)
	before := sheet{t, solver.Solve(nil)}
	solver.SetOhm(before.branch("W1"), 0.05)
	assert.InDelta(t, 12/1.15, sheet{t, solver.Solve(nil)}.wire("W1"), 1e-4)
	solver.SetOhm(before.branch("G1"), 5) // not a resistance: stays
	solver.SetOhm(before.branch("W1"), 0.1)
	assert.InDelta(t, 10, sheet{t, solver.Solve(nil)}.wire("W1"), 1e-4)
}
