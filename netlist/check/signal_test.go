package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// engineUnit is a control unit with power, a sensor supply, sensor grounds, a screen
// pin and a bus.
const engineUnit = `ambient 30
G1 battery ohm=0
A1 control-unit running_amp=1 quiescent_amp=0.01 sensor_limit_amp=0.1
A1.1 supply
A1.2 ground
A1.5 sensor-supply
A1.6 sensor-ground
A1.7 input-analog
A1.8 sensor-ground
A1.13 screen
A1.20 output-low
A1.22 bus-high
A1.23 bus-low
GND1 ground-body
W91 G1.+ A1.1 120mm2 1
W92 A1.2 GND1.1 120mm2 1
W93 GND1.1 G1.- 120mm2 1
`

func TestScreenGrounds(t *testing.T) {
	tryRule(t, "screen not grounded at one end", engineUnit+"B1 sensor-knock\nX1 connector-plug\nX1.1 cavity\nX2 connector-receptacle\nX2.1 cavity\nX1 = X2", []ruleCase{
		{"at the unit", "the pin of the sensor leads nowhere", "W1 B1.S A1.13 0.5mm2 900 drain=S", ""},
		{"at a stud", "", "W1 B1.S GND1.1 0.5mm2 900 drain=S", ""},
		{"nowhere", "", "W1 B1.S loose 0.5mm2 900 drain=S", "warning W1"},
		{"at both ends", "", "W1 GND1.1 A1.13 0.5mm2 900 drain=S", "warning W1 at 13 at 1"},
		{"at a sensor ground", "the unit's own ground, but at one end", "W1 B1.S A1.6 0.5mm2 900 drain=S", ""},
		{"through a connector", "two drain wires, one screen", "W1 B1.S X1.1 0.5mm2 900 drain=S\nW2 X2.1 A1.13 0.5mm2 900 drain=T", ""},
		{"through a connector, both ends", "", "W1 GND1.1 X1.1 0.5mm2 900 drain=S\nW2 X2.1 A1.13 0.5mm2 900 drain=T", "warning W1 W2 at 13 at 1"},
		{"through a connector, nowhere", "said once", "W1 B1.S X1.1 0.5mm2 900 drain=S\nW2 X2.1 loose 0.5mm2 900 drain=T", "warning W1 W2"},
		{"both ends through another wire", "", "SP1 splice\nW1 SP1.1 A1.13 0.5mm2 900 drain=S\nW2 SP1.1 GND1.1 0.5mm2 90", "warning W1 at 13 at 1"},
		{"two screens at one stud", "each at one end", "W1 B1.S GND1.1 0.5mm2 900 drain=S\nW2 loose GND1.1 0.5mm2 900 drain=T", ""},
		{"no drain wire", "unknown is never a pass", "W1 B1.1 A1.7 0.5mm2 900 screen=S", "not assessed S without the drain wire of S"},
	})
}

func TestSensorGroundShared(t *testing.T) {
	tryRule(t, "sensor ground shared", engineUnit+"B1 sensor-pressure\nE1 load-two-pin amp=2\nSP1 splice", []ruleCase{
		{"sensors alone", "", "B2 sensor-coolant\nW1 B1.3 SP1.1 0.5mm2 900\nW2 B2.2 SP1.1 0.5mm2 900\nW3 SP1.1 A1.6 0.5mm2 900", ""},
		{"not wired", "", "", ""},
		{"two pins for it", "meet inside the unit", "W1 B1.3 A1.6 0.5mm2 900\nW2 B1.3 A1.8 0.5mm2 900", ""},
		{"with a stud", "", "W1 B1.3 A1.6 0.5mm2 900\nW2 B1.3 GND1.1 0.5mm2 900", "warning A1 GND1 at 6 at 1"},
		{"two sensors at a stud", "each has a wire of its own", "B2 sensor-pressure\nW1 B1.3 GND1.1 0.5mm2 900\nW2 B2.3 GND1.1 0.5mm2 900", "warning B1 GND1 at 3 at 1\nwarning B2 GND1 at 3 at 1"},
		{"sensor at a stud", "the unit measures against its own ground", "W1 B1.3 GND1.1 0.5mm2 900", "warning B1 GND1 at 3 at 1"},
		{"with a load", "2 A through the sensor ground", "W1 B1.3 A1.6 0.5mm2 900\nW2 E1.- A1.6 0.5mm2 900\nW3 E1.+ G1.+ 0.5mm2 900", "warning A1 E1 at 6 at - 2 A"},
		{"with a stud that no strap joins", "2 A go home through the unit", "GND2 ground-engine\nW1 B1.3 A1.6 0.5mm2 900\nW2 E1.- GND2.1 0.5mm2 900\nW3 E1.+ G1.+ 0.5mm2 900\nW4 B1.3 GND2.1 0.5mm2 900\nstate on off",
			"warning A1 GND2 at 6 at 1 in on"},
		{"with a stud and its strap", "the load has a way of its own", "W1 B1.3 A1.6 0.5mm2 9000\nW2 E1.- GND1.1 0.5mm2 900\nW3 E1.+ G1.+ 0.5mm2 900\nW4 B1.3 GND1.1 0.5mm2 900\nstate on off", "warning A1 GND1 at 6 at 1"},
		{"with a load of unknown current", "it is its return all the same; another rule asks for the current", "E2 load-two-pin\nW1 B1.3 A1.6 0.5mm2 900\nW2 E2.- A1.6 0.5mm2 900\nW3 E2.+ G1.+ 0.5mm2 900", "warning A1 E2 at 6 at -"},
		{"with a load that is off", "it is its return all the same", "W1 B1.3 A1.6 0.5mm2 900\nW2 E1.- A1.6 0.5mm2 900", "warning A1 E1 at 6 at -"},
	})
}

// 5 V within 10 %: common practice, no source.
func TestSensorSupply(t *testing.T) {
	plan := func(volt string) string {
		return "G2 battery ohm=0 volt=" + volt + "\nW94 G2.- G1.- 120mm2 1\nB1 sensor-pressure\nW1 G2.+ B1.1" + fat + "\nW2 B1.3 G1.-" + fat + "\nstate run running\nstate parked off"
	}
	tryRule(t, "sensor supply off", engineUnit, []ruleCase{
		{"from the unit", "", "B1 sensor-pressure\nW1 A1.5 B1.1 0.5mm2 900\nW2 B1.3 A1.6 0.5mm2 900\nstate run running", ""},
		{"potentiometer", "its track lies between its other pins", "B1 sensor-throttle\nW1 A1.5 B1.1 0.5mm2 900\nW2 B1.3 A1.6 0.5mm2 900\nstate run running", ""},
		{"just inside, low", "", plan("4.501"), ""},
		{"just outside, low", "", plan("4.499"), "warning B1 at 1 in run 4.499 > 4.5 V"},
		{"just inside, high", "", plan("5.499"), ""},
		{"just outside, high", "", plan("5.501"), "warning B1 at 1 in run 5.501 > 5.5 V"},
		{"made for 12 V", "", "limit sensor_supply_low_volt=9 sensor_supply_high_volt=16\n" + plan("12"), ""},
		{"not wired", "", "B1 sensor-pressure\nstate run running", "warning B1 at 1 at 3"},
		{"supply pin at another sensor only", "nothing feeds it", "B1 sensor-pressure\nB2 sensor-pressure\nW1 B1.1 B2.1 0.5mm2 9\nW2 B1.3 A1.6 0.5mm2 9\nW3 B2.3 A1.6 0.5mm2 9\nstate run running",
			"warning B1 at 1 in run 0 > 4.5 V\nwarning B2 at 1 in run 0 > 4.5 V"},
		{"two-wire sensor", "has no supply", "B1 sensor-coolant\nstate run running", ""},
		{"no state with the engine running", "unknown is never a pass", "B1 sensor-pressure\nW1 A1.5 B1.1 0.5mm2 900\nW2 B1.3 A1.6 0.5mm2 900\nstate off off", "not assessed B1 at 1 without an operating state with the engine running"},
		{"no states", "another rule asks for them", "B1 sensor-pressure\nW1 A1.5 B1.1 0.5mm2 900\nW2 B1.3 A1.6 0.5mm2 900", ""},
	})
}

// ISO 11898-2 (from memory): 100 to 130 Ω at either end.
func TestBusEnds(t *testing.T) {
	const pair = "P1 gauge-bus amp=0.1\nW1 A1.22 P1.H 0.5mm2 900 twist=P\nW2 A1.23 P1.L 0.5mm2 900 twist=P\n"
	end := func(name, ohm, n string) string {
		return name + " terminator ohm=" + ohm + "\nW" + n + "1 A1.22 " + name + ".H" + fat + "\nW" + n + "2 A1.23 " + name + ".L" + fat + "\n"
	}
	tryRule(t, "bus without its two ends", engineUnit, []ruleCase{
		{"not wired", "", "", ""},
		{"two", "60 Ω", pair + end("R1", "120", "3") + end("R2", "120", "4"), ""},
		{"none", "", pair, "warning A1 P1 0 > 2"},
		{"one", "", pair + end("R1", "120", "3"), "warning A1 P1 R1 1 > 2"},
		{"three", "", pair + end("R1", "120", "3") + end("R2", "120", "4") + end("R3", "120", "5"), "warning A1 P1 R1 R2 R3 3 > 2"},
		{"just inside, high", "130 Ω at either end", pair + end("R1", "130", "3") + end("R2", "129.9", "4"), ""},
		{"just outside, high", "", pair + end("R1", "130", "3") + end("R2", "131", "4"), "warning A1 P1 R1 R2 65.25 > 65 ohm"},
		{"just inside, low", "", pair + end("R1", "100", "3") + end("R2", "100", "4"), ""},
		{"just outside, low", "", pair + end("R1", "100", "3") + end("R2", "99", "4"), "warning A1 P1 R1 R2 49.75 > 50 ohm"},
		{"both ends, one unit", "what is there can be measured", "W1 A1.22 loose 0.5mm2 9\nW2 A1.23 loose 0.5mm2 9\n" + end("R1", "120", "3") + end("R2", "120", "4"), ""},
		{"one unit", "the rest of the bus is not drawn", "W1 A1.22 loose 0.5mm2 9\nW2 A1.23 loose 0.5mm2 9\n" + end("R1", "120", "3"), "not assessed A1 R1 without the other units of the bus"},
	})
}

// 100 mm untwisted at the ends: common practice, no source.
func TestBusTwisted(t *testing.T) {
	plan := func(h, l string) string {
		return "P1 gauge-bus amp=0.1\nW1 A1.22 P1.H 0.5mm2 " + h + "\nW2 A1.23 P1.L 0.5mm2 " + l
	}
	tryRule(t, "bus not twisted", engineUnit, []ruleCase{
		{"twisted", "", plan("900 twist=P", "900 twist=P"), ""},
		{"not twisted", "", plan("900", "800"), "warning A1 P1 W1 W2 900 > 100 mm [twist W1 and W2]"},
		{"just inside", "", plan("100", "100"), ""},
		{"just outside", "", plan("100", "101"), "warning A1 P1 W2 101 > 100 mm"},
		{"twisted with something else", "", plan("900 twist=P", "900 twist=Q"), "warning A1 P1 W1 W2 900 > 100 mm [twist W1 and W2]"},
		{"length unknown", "unknown is never a pass", plan("-", "90"), "not assessed A1 P1 W1 without length of W1"},
		{"length unknown but twisted", "", plan("- twist=P", "- twist=P"), ""},
		{"own limit", "", "limit bus_untwisted_mm=300\n" + plan("290", "290"), ""},
	})
}

// Kirchhoff: all of the 2 A of the load return through the unit, and so do the
// 10 mA the sensor takes.
func TestSensorGroundTellsWhatFlowsHome(t *testing.T) {
	d := doc(t, engineUnit+"B1 sensor-pressure\nE1 load-two-pin amp=2\nGND2 ground-engine\nW1 B1.3 A1.6 0.5mm2 900\n"+
		"W2 E1.- GND2.1 0.5mm2 900\nW3 E1.+ G1.+ 0.5mm2 900\nW4 B1.3 GND2.1 0.5mm2 900\nW5 B1.1 A1.5 0.5mm2 900\nstate on off")
	for _, f := range run(t, d) {
		if f.Rule == "sensor ground shared" {
			assert.Contains(t, f.Text, "2.01 A flow home through A1.6.")
			return
		}
	}
	t.Fatal("no finding")
}
