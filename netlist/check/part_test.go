package check_test

import (
	"strings"
	"testing"
)

func TestContactOrDriverOverloaded(t *testing.T) {
	const base = "ambient 20\nG1 battery volt=12 ohm=0"
	load := func(amp string) string {
		return "E1 load-two-pin amp=" + amp + "\nW2 S1.82a E1.+" + fat + "\nW3 E1.- G1.-" + fat + "\nW1 G1.+ S1.82" + fat + "\nstate on off S1=on\nstate off off"
	}
	plug := func(rating string) string {
		return "X1 connector-plug " + rating + "\nX1.1 cavity\nX1.2 cavity\nX2 connector-receptacle rated_amp=99\nX2.1 cavity\nX2.2 cavity\nX1 = X2\nE1 load-two-pin amp=11\nW1 G1.+ X1.1" + fat + "\nW2 X2.1 E1.+" + fat + "\nW3 E1.- G1.-" + fat
	}
	tryRule(t, "contact or driver overloaded", base, []ruleCase{
		{"fine", "", "S1 switch-toggle rated_amp=10\n" + load("5"), ""},
		{"just inside", "", "S1 switch-toggle rated_amp=10\n" + load("9.99"), ""},
		{"just outside", "", "S1 switch-toggle rated_amp=10\n" + load("10.01"), "error S1 in on 10.01 > 10 A"},
		{"rating unknown", "unknown is never a pass", "S1 switch-toggle\n" + load("5"), "not assessed S1 in on 5 A without the rating of S1"},
		{"rating unknown, next to no current", "0.4 A is below what counts", "S1 switch-toggle\n" + load("0.4"), ""},
		{"driver", "1.01 A of 1 A through pin 3", "A1 control-unit running_amp=0.1 quiescent_amp=0.01\nA1.1 supply\nA1.2 ground\nA1.3 output-low limit_amp=1\nY1 load-two-pin amp=1.01\nW1 G1.+ A1.1" + fat + "\nW2 A1.2 G1.-" + fat + "\nW3 G1.+ Y1.+" + fat + "\nW4 Y1.- A1.3" + fat + "\nstate on off A1:3=on",
			"error A1 at 3 in on 1.01 > 1 A"},
		{"plug", "11 A, one half rated for 10 A, the other for 99 A", plug("rated_amp=10"), "error X1 at 1 11 > 10 A"},
		{"plug of unknown rating", "", plug(""), "not assessed X1 at 1 11 A without the rating of the contacts of X1"},
		{"plug by its contact width", "2.8 mm: 10 A (common practice, from memory)", plug("") + "\nhousing X1 width=2.8", "error X1 at 1 11 > 10 A"},
		{"plug by its wider contacts", "6.3 mm: 25 A", plug("") + "\nhousing X1 width=6.3", ""},
		{"housing of a part", "", "S1 switch-toggle rated_amp=99\nhousing S1 rated=4\n" + load("5"), "error S1 at 82 in on 5 > 4 A\nerror S1 at 82a in on 5 > 4 A"},
		{"diode", "", "V1 diode rated_amp=3\nE1 load-two-pin amp=4\nW1 G1.+ V1.A" + fat + "\nW2 V1.K E1.+" + fat + "\nW3 E1.- G1.-" + fat, "error V1 4 > 3 A"},
		{"resistor", "12²/60 = 2.4 W of 2 W", "R1 resistor ohm=60 rated_watt=2\nW1 G1.+ R1.1" + fat + "\nW2 R1.2 G1.-" + fat, "error R1 2.4 > 2 W"},
		{"resistor within", "", "R1 resistor ohm=60 rated_watt=2.5\nW1 G1.+ R1.1" + fat + "\nW2 R1.2 G1.-" + fat, ""},
		{"resistor without rating", "", "R1 resistor ohm=60\nW1 G1.+ R1.1" + fat + "\nW2 R1.2 G1.-" + fat, "not assessed R1 2.4 W without the rated power of R1"},
	})
}

func TestVoltageTooLowToWork(t *testing.T) {
	coil := func(r string) string { // 80 Ω coil behind a resistor
		return "G1 battery volt=12 ohm=0\nR1 resistor ohm=" + r + "\nK1 relay-make coil_ohm=80 pull_in_volt=8.4\nW1 G1.+ R1.1" + fat + "\nW2 R1.2 K1.86" + fat + "\nW3 K1.85 G1.-" + fat
	}
	unit := func(volt string) string {
		return "G1 battery volt=" + volt + " ohm=0\nE1 load-two-pin amp=1 min_volt=6\nW1 G1.+ E1.+" + fat + "\nW2 E1.- G1.-" + fat
	}
	tryRule(t, "voltage too low to work", "", []ruleCase{
		{"fine", "", unit("12"), ""},
		{"just inside", "", unit("6.01"), ""},
		{"just outside", "", unit("5.98"), "warning E1 5.98 > 6 V"},
		{"off", "", "G1 battery\nS1 switch-toggle\nE1 load-two-pin amp=1 min_volt=6\nW1 G1.+ S1.82" + fat + "\nW3 S1.82a E1.+" + fat + "\nW2 E1.- G1.-" + fat, ""},
		{"current unknown", "another rule asks for it", "G1 battery volt=3 ohm=0\nE1 load-two-pin min_volt=6\nW1 G1.+ E1.+" + fat + "\nW2 E1.- G1.-" + fat, ""},
		{"no voltage given", "nothing to hold it against", "G1 battery volt=3 ohm=0\nE1 lamp watt=5\nW1 G1.+ E1.1" + fat + "\nW2 E1.2 G1.-" + fat, ""},
		{"coil pulls in", "12·80/114 = 8.42 V", coil("34"), ""},
		{"coil does not pull in", "12·80/115 = 8.348 V", coil("35"), "warning K1 8.348 > 8.4 V"},
		{"coil that nobody switches on", "", coil("10000"), ""},
		{"regulator", "5.5 V at a unit that works from 6 V", "G1 battery volt=5.5 ohm=0\nA1 control-unit running_amp=0.1 quiescent_amp=0.01\nA1.1 supply\nA1.2 ground\nW1 G1.+ A1.1" + fat + "\nW2 A1.2 G1.-" + fat,
			"warning A1 5.499 > 6 V\nwarning A1 5.499 > 6 V"},
	})
}

func TestRelayChatters(t *testing.T) {
	tryRule(t, "relay chatters", "", []ruleCase{
		{"buzzer", "its own break contact feeds its coil", "G1 battery\nK1 relay-change-over\nW1 G1.+ K1.30" + fat + "\nW2 K1.87a K1.86" + fat + "\nW3 K1.85 G1.-" + fat + "\nstate on off", "error K1 in on"},
		{"holds", "", "G1 battery\nK1 relay-change-over\nW1 G1.+ K1.86" + fat + "\nW3 K1.85 G1.-" + fat + "\nstate on off", ""},
		{"two that break each other", "both are named", "G1 battery\nK1 relay-change-over\nK2 relay-change-over\nW1 G1.+ K1.30" + fat + "\nW2 K1.87a K2.86" + fat + "\nW3 K2.85 G1.-" + fat +
			"\nW4 G1.+ K2.30" + fat + "\nW5 K2.87 K1.86" + fat + "\nW6 K1.85 G1.-" + fat + "\nstate on off", "error K1 K2 in on"},
		{"two that lock each other out", "the drawing does not say which is faster", "G1 battery\nK1 relay-change-over\nK2 relay-change-over\nW1 G1.+ K1.30" + fat + "\nW2 K1.87a K2.86" + fat + "\nW3 K2.85 G1.-" + fat +
			"\nW4 G1.+ K2.30" + fat + "\nW5 K2.87a K1.86" + fat + "\nW6 K1.85 G1.-" + fat + "\nstate on off", "not assessed K1 K2 in on without which coil moves first"},
	})
}

func TestLoadWithoutCircuit(t *testing.T) {
	const base = "G1 battery\nF1 fuse-regular amp=10\nE1 lamp watt=5\nW1 G1.+ F1.1 1mm2 100"
	const bus = "A1 control-unit running_amp=1 quiescent_amp=0.01\nA1.1 supply\nA1.2 ground\nA1.5 bus-low\nR1 terminator\nW2 F1.2 A1.1 1mm2 100\nW3 A1.2 G1.- 1mm2 100\nW4 F1.2 E1.1 1mm2 9\nW5 E1.2 G1.- 1mm2 9\n"
	tryRule(t, "load without circuit", base, []ruleCase{
		{"complete", "", "W2 F1.2 E1.1 1mm2 100\nW3 E1.2 G1.- 1mm2 100", ""},
		{"behind an open switch", "it can be closed", "S1 switch-toggle\nW2 F1.2 S1.82 1mm2 100\nW3 S1.82a E1.1 1mm2 9\nW4 E1.2 G1.- 1mm2 100", ""},
		{"no ground", "", "W2 F1.2 E1.1 1mm2 100", "warning E1 at 2"},
		{"no feed", "", "W3 E1.2 G1.- 1mm2 100", "warning E1 at 1"},
		{"nothing", "", "", "warning E1 at 1 at 2"},
		{"ground not tied to the battery", "", "GND1 ground-body\nW2 F1.2 E1.1 1mm2 100\nW3 E1.2 GND1.1 1mm2 100", "warning E1 at 2"},
		{"both ends at the same point", "", "W2 F1.2 E1.1 1mm2 100\nW3 E1.2 F1.2 1mm2 100", "warning E1"},
		{"by a part of unknown kind", "unknown is never a pass, and no verdict either", "Z1 nobody-knows-this\nW2 F1.2 Z1.1 1mm2 100\nW4 Z1.2 E1.1 1mm2 100\nW3 E1.2 G1.- 1mm2 100", "not assessed E1 at 1 without the kind nobody-knows-this of Z1"},
		{"in series with another load", "there is a circuit", "E2 lamp watt=5\nW2 F1.2 E1.1 1mm2 100\nW3 E1.2 E2.1 1mm2 100\nW4 E2.2 G1.- 1mm2 100", ""},
		{"sensor on a regulator", "the regulator is its source", "A1 control-unit running_amp=1 quiescent_amp=0.01\nA1.1 supply\nA1.2 ground\nA1.3 sensor-supply\nA1.4 sensor-ground\nA1.5 input-digital\nB1 sensor-pressure\n" +
			"W2 F1.2 A1.1 1mm2 100\nW3 A1.2 G1.- 1mm2 100\nW4 A1.3 B1.1 1mm2 100\nW5 B1.3 A1.4 1mm2 100\nW6 F1.2 E1.1 1mm2 9\nW7 E1.2 G1.- 1mm2 9", ""},
		{"permanent supply not wired", "the unit has the pin", "A1 control-unit running_amp=1 quiescent_amp=0.01\nA1.1 supply\nA1.2 ground\nA1.3 supply-permanent\n" +
			"W2 F1.2 A1.1 1mm2 100\nW3 A1.2 G1.- 1mm2 100\nW6 F1.2 E1.1 1mm2 9\nW7 E1.2 G1.- 1mm2 9", "warning A1"},
		{"end of a bus", "terminates two wires that no source feeds", bus + "A1.6 bus-high\nW8 A1.6 R1.H 1mm2 9\nW9 A1.5 R1.L 1mm2 9", ""},
		{"end of a bus, one wire", "", bus + "W9 A1.5 R1.L 1mm2 9", "warning R1 at H at L"},
		{"both ends of a bus", "the units may hang on another sub-harness", bus + "R2 terminator\nW8 R2.H R1.H 1mm2 9\nW9 R2.L R1.L 1mm2 9", ""},
		{"end of a bus on an output", "that is no bus", bus + "A1.6 bus-high\nA1.7 output-low\nW7 A1.7 R1.H 1mm2 9\nW8 A1.6 R1.H 1mm2 9\nW9 A1.5 R1.L 1mm2 9", "warning R1 at L"},
	})
}

func TestLooseWireEnd(t *testing.T) {
	tryRule(t, "loose wire end", "G1 battery volt=12.5\nE1 lamp watt=5", []ruleCase{
		{"connected", "", "W1 G1.+ E1.1 1mm2 100", ""},
		{"dead", "", "W1 E1.1 loose 1mm2 100", "note W1 [mark W1 as parked]"},
		{"live", "", "W1 G1.+ loose 1mm2 100", "warning W1 12.5 V"},
		{"parked", "kept on purpose", "W1 E1.1 loose 1mm2 100 parked", ""},
		{"parked and live", "", "W1 loose G1.+ 1mm2 100 parked", "warning W1 12.5 V"},
		{"pin that does not exist", "", "W1 E1.1 E1.7 1mm2 100", "note W1"},
		{"at a part of unknown kind", "another rule asks for the kind", "Z1 nobody-knows-this\nW1 G1.+ Z1.1 1mm2 100", ""},
	})
}

func TestLoadNeverSwitchedOn(t *testing.T) {
	const base = "G1 battery\nS1 switch-toggle\nE1 lamp watt=5\nW1 G1.+ S1.82 1mm2 9\nW2 S1.82a E1.1 1mm2 9\nW3 E1.2 G1.- 1mm2 9"
	tryRule(t, "load never switched on", base, []ruleCase{
		{"on in one state", "", "state off off\nstate on off S1=on", ""},
		{"off in all", "", "state off off\nstate run running", "not assessed E1 without an operating state that switches it on"},
		{"no states", "said once for the whole drawing", "", ""},
		{"no circuit", "another rule says so", "E2 lamp watt=5\nstate on off S1=on", ""},
		{"no data", "another rule asks for it", "E2 lamp\nW4 S1.82a E2.1 1mm2 9\nW5 E2.2 G1.- 1mm2 9\nstate on off S1=on", ""},
	})
}

func TestNetworkCannotBeComputed(t *testing.T) {
	tryRule(t, "network cannot be computed", "", []ruleCase{
		{"fine", "", "G1 battery\nE1 lamp watt=5", ""},
		{"no source", "", "E1 lamp watt=5", "not assessed without a battery or alternator"},
		{"source without data", "a battery with a negative resistance is none", "G1 battery volt=0\nE1 lamp watt=5", ""},
		{"empty", "", "", ""},
	})
}

func TestOutOfScope(t *testing.T) {
	tryRule(t, "out of scope", "E1 lamp watt=5\nE2 lamp watt=5\nW1 E1.1 E2.1 1mm2 9", []ruleCase{
		{"ordinary", "a brake lamp and a fuel pump are wiring like any other", "label E1 brake lamp\nlabel E2 fuel pump", ""},
		{"restraint", "", "label E1 Airbag warning lamp", "note E1"},
		{"pretensioner", "", "label E2 pretensioner, left", "note E2"},
		{"brakes", "", "label E2 anti-lock control", "note E2"},
		{"fuel line", "", "label E2 fuel line heater", "note E2"},
		{"60 V, just inside", "up to 60 V is in", "G1 battery volt=60", ""},
		{"61 V, just outside", "", "G1 battery volt=61\nW2 G1.- E1.2 1mm2 9", "note G1 61 > 60 V\nnote G1 61 > 60 V"},
		{"system", "", "volts 72", "note 72 > 60 V"},
		{"in series", "5 × 12.6 V", "G1 battery\nG2 battery\nG3 battery\nG4 battery\nG5 battery\nW2 G1.+ G2.- 1mm2 9\nW3 G2.+ G3.- 1mm2 9\nW4 G3.+ G4.- 1mm2 9\nW5 G4.+ G5.- 1mm2 9", "note G5 63 > 60 V"},
	})
}

func TestMissingData(t *testing.T) {
	const base = "ambient 30\nG1 battery\nF1 fuse-regular amp=10\nE1 lamp watt=5\nW1 G1.+ F1.1 1mm2 100\nW2 F1.2 E1.1 1mm2 100\nW3 E1.2 G1.- 1mm2 100"
	tryRule(t, "missing data", base, []ruleCase{
		{"complete", "0.4 A is too little to ask for routes", "state on off", ""},
		{"no states", "", "", "not assessed without operating states"},
		{"wire", "", "E2 lamp watt=5\nW4 E1.1 E2.1 - - bare\nstate on off", "not assessed W4 without size, length and insulation or temperature class"},
		{"insulation on no list", "", "E2 lamp watt=5\nW4 E1.1 E2.1 1mm2 9 ins=XYZ\nstate on off", "not assessed W4 without temperature class (XYZ is on no list)"},
		{"insulation on no list but its class given", "", "E2 lamp watt=5\nW4 E1.1 E2.1 1mm2 9 ins=XYZ temp=90\nstate on off", ""},
		{"load", "names what its current goes through", "M1 motor\nW4 F1.2 M1.33 1mm2 9\nW5 M1.32 G1.- 1mm2 9\nstate on off", "not assessed M1 F1 W1 W4 W5 without running current"},
		{"load behind an open switch", "it draws nothing in these states", "S1 switch-toggle\nM1 motor\nW4 F1.2 S1.82 1mm2 9\nW6 S1.82a M1.33 1mm2 9\nW5 M1.32 G1.- 1mm2 9\nstate on off", "not assessed M1 without running current"},
		{"value that cannot be", "", "M1 motor amp=-4\nstate on off", "not assessed M1 without a usable running current"},
		{"unknown kind", "", "Z1 nobody-knows-this\nstate on off", "not assessed Z1 without the kind nobody-knows-this"},
		{"position", "", "S1 switch-toggle\nstate on off S1=half", "not assessed in on without a position the part has"},
		{"alternator", "", "G2 alternator\nstate on off", "not assessed G2 without rated output"},
		{"fuse nothing flows through", "", "F2 fuse-regular\nstate on off", "not assessed F2 without rating"},
		{"routes", "21 W are 1.75 A", "E2 lamp watt=21\nW4 F1.2 E2.1 1mm2 9\nW5 E2.2 G1.- 1mm2 9\nstate on off", "not assessed without routes"},
	})
	tryRule(t, "missing data", "G1 battery\nE1 lamp watt=5\nW1 G1.+ E1.1 1mm2 100\nW2 E1.2 G1.- 1mm2 100\nstate on off", []ruleCase{
		{"ambient", "30 °C is assumed", "", "not assessed without the air temperature"},
		{"ambient given", "", "ambient 25", ""},
	})
}

func TestShortAcrossASource(t *testing.T) {
	const base = "G1 battery\nE1 lamp watt=5\nW8 G1.+ E1.1 1mm2 9\nW9 E1.2 G1.- 1mm2 9"
	tryRule(t, "short across a source", base, []ruleCase{
		{"none", "", "", ""},
		{"by a wire", "", "W1 G1.+ G1.- 1mm2 9", "error W1"},
		{"by a wire of unknown length and size", "it is one all the same; another rule asks for them", "W1 G1.+ G1.- - -", "error W1"},
		{"by a switch", "at rest it is open, but not for ever", "S1 switch-toggle\nW1 G1.+ S1.82 1mm2 9\nW2 S1.82a G1.- 1mm2 9", "warning S1"},
		{"by a diode", "", "V1 diode\nW1 G1.+ V1.A 1mm2 9\nW2 V1.K G1.- 1mm2 9", "error V1"},
	})
}

func TestDiodeTheWrongWayRound(t *testing.T) {
	const base = "G1 battery\nE1 lamp watt=5\nV1 diode\nW9 E1.2 G1.- 1mm2 9"
	tryRule(t, "diode the wrong way round", base, []ruleCase{
		{"right", "", "W1 G1.+ V1.A 1mm2 9\nW2 V1.K E1.1 1mm2 9", ""},
		{"wrong", "", "W1 G1.+ V1.K 1mm2 9\nW2 V1.A E1.1 1mm2 9", "warning V1 [swap the wires at A and K of V1]"},
		{"wrong, load of unknown power", "it blocks all the same; another rule asks for the power", "E2 lamp\nW3 E2.2 G1.- 1mm2 9\nW1 G1.+ V1.K 1mm2 9\nW2 V1.A E2.1 1mm2 9", "warning V1 [swap the wires at A and K of V1]"},
	})
}

func TestFedTheWrongWayRound(t *testing.T) {
	const base = "G1 battery\nE1 load-two-pin amp=2"
	tryRule(t, "fed the wrong way round", base, []ruleCase{
		{"right", "", "W1 G1.+ E1.+ 1mm2 9\nW2 E1.- G1.- 1mm2 9", ""},
		{"wrong", "", "W1 G1.+ E1.- 1mm2 9\nW2 E1.+ G1.- 1mm2 9", "error E1 [swap the wires at + and - of E1]"},
		{"wrong, current unknown", "another rule asks for it", "E2 load-two-pin\nW1 G1.+ E2.- 1mm2 9\nW2 E2.+ G1.- 1mm2 9", ""},
	})
}

func TestSupplyAtItsLimit(t *testing.T) {
	plan := func(amp string) string {
		return "G1 battery\nG2 alternator limit_amp=60\nE1 load-two-pin amp=" + amp + "\nW1 G1.+ E1.+" + fat + "\nW2 E1.- G1.-" + fat + "\nW3 G2.B+ G1.+" + fat + "\nW4 G2.B- G1.-" + fat + "\nstate run running"
	}
	tryRule(t, "supply at its limit", "", []ruleCase{
		{"overloaded", "100 A of 60 A", plan("100"), "warning G2 in run"},
		{"limit unknown", "another rule asks for it", strings.Replace(plan("100"), "limit_amp=60", "", 1), ""},
		{"a third", "12.6 V behind 6 mΩ take what is left", strings.Replace(plan("20"), "limit_amp=60", "limit_amp=600", 1), ""},
	})
}

func TestSneakPaths(t *testing.T) {
	const fed = "G1 battery volt=12\nS1 switch-toggle\nE1 load-two-pin amp=0.5 min_volt=6\nY1 injector-high ohm=14\nW1 G1.+ S1.82" + fat + "\nW2 S1.82a E1.+" + fat + "\nW3 E1.- G1.-" + fat +
		"\nW4 G1.+ Y1.1" + fat + "\nstate off off\nstate on off S1=on\n"
	const led = "H1 indicator-led\nS2 switch-toggle\nW8 G1.+ S2.82" + fat + "\nW9 S2.82a H1.+" + fat + "\nW10 H1.- G1.-" + fat + "\n"
	tryRule(t, "fed while switched off", fed, []ruleCase{
		{"apart", "", "W5 Y1.2 G1.-" + fat, ""},
		{"joined", "12 V less 14 Ω · i, and i = 0.5 A · x(2 − x) with x = U/6 V: the valve feeds the unit backwards", "W5 Y1.2 E1.+" + fat, "warning E1 Y1 in off 0.4897 A"},
		{"just inside", "10 V / (680 Ω + 10 Ω + 19.6 kΩ) = 0.493 mA through an LED, which takes a little less than 2 V then", led + "R1 resistor ohm=19600\nW5 G1.+ R1.1" + fat + "\nW6 R1.2 H1.+" + fat, ""},
		{"just outside", "19.2 kΩ", led + "R1 resistor ohm=19200\nW5 G1.+ R1.1" + fat + "\nW6 R1.2 H1.+" + fat, "warning H1 R1 in off 0.0005056 A"},
		{"current unknown", "another rule asks for it", "E2 load-two-pin\nW5 S1.82a E2.+" + fat + "\nW6 E2.- G1.-" + fat, ""},
	})
	const two = "G1 battery volt=12 ohm=0\nF1 fuse-regular amp=10\nF2 fuse-regular amp=10\nE1 lamp watt=21\nE2 lamp watt=21\n" +
		"W1 G1.+ F1.1" + fat + "\nW2 G1.+ F2.1" + fat + "\nW3 F1.2 E1.1" + fat + "\nW4 F2.2 E2.1" + fat + "\nW5 E1.2 G1.-" + fat + "\nW6 E2.2 G1.-" + fat + "\nstate on off\nstate run running\n"
	tryRule(t, "two fuses feed one net", two, []ruleCase{
		{"apart", "", "", ""},
		{"joined", "said once, in the first state", "W7 E1.1 E2.1" + fat, "warning F1 F2 in on"},
		{"joined, a rating unknown", "they are two all the same; another rule asks for the rating", "F3 fuse-regular\nW8 G1.+ F3.1" + fat + "\nW9 F3.2 E1.1" + fat, "warning F1 F3 in on"},
	})
	const unit = "G1 battery\nA1 control-unit running_amp=0.5 quiescent_amp=0.01\nA1.1 supply\nA1.2 ground\nA1.3 sensor-ground\nGND1 ground-engine\nGND2 ground-engine\n" +
		"W1 G1.+ A1.1" + fat + "\nW2 A1.2 G1.-" + fat + "\nW5 GND2.1 G1.-" + fat + "\n"
	tryRule(t, "ground loop", unit, []ruleCase{
		{"at the unit alone", "", "SP1 splice\nW6 A1.3 SP1.1" + fat, ""},
		{"also at the engine", "", "W6 A1.3 GND1.1" + fat, "warning A1 W6 GND1 GND2 W5 at 3"},
		{"also at the engine, length unknown", "it is one all the same; another rule asks for the length", "W6 A1.3 GND1.1 - -", "warning A1 W6 GND1 GND2 W5 at 3"},
	})
}
