package check_test

import "testing"

// 33 CFR 183.455 (from memory): the fuse within 7 in (177.8 mm) of the source,
// 72 in (1828.8 mm) where the wire from the battery is sheathed.
func TestNoFuseBetweenSourceAndWire(t *testing.T) {
	const base = "ambient 30\nG1 battery\nsegment A 1500 30 tube\nsegment B 1500 30\nF1 fuse-regular amp=10\nE1 lamp watt=21\nW9 E1.2 G1.- 2.5mm2 500"
	tryRule(t, "no fuse between source and wire", base, []ruleCase{
		{"fine", "100 mm to the fuse", "W1 G1.+ F1.1 2.5mm2 100\nW2 F1.2 E1.1 2.5mm2 3000", ""},
		{"just inside", "7 in", "W1 G1.+ F1.1 2.5mm2 177\nW2 F1.2 E1.1 2.5mm2 3000", ""},
		{"just outside", "7 in", "W1 G1.+ F1.1 2.5mm2 179\nW2 F1.2 E1.1 2.5mm2 3000", "error W1 G1 179 > 177.8 mm"},
		{"pieces add up", "a stud between does not begin anew", "X1 stud\nX1.1 stud\nX1.2 stud\nW1 G1.+ X1.1 2.5mm2 100\nW2 X1.2 F1.1 2.5mm2 100\nW3 F1.2 E1.1 2.5mm2 3000",
			"error W2 G1 200 > 177.8 mm"},
		{"in a sleeve", "72 in from the battery in a sheath", "W1 G1.+ F1.1 2.5mm2 1800 on=A\nW2 F1.2 E1.1 2.5mm2 3000", ""},
		{"not all in a sleeve", "half is not enough", "W1 G1.+ F1.1 2.5mm2 1800 on=A,B\nW2 F1.2 E1.1 2.5mm2 3000", "error W1 G1 1800 > 177.8 mm"},
		{"sleeve too long", "", "W1 G1.+ F1.1 2.5mm2 1900 on=A\nW2 F1.2 E1.1 2.5mm2 3000", "error W1 G1 1900 > 1829 mm"},
		{"own limit", "limits belong to the document", "limit unfused_mm=300\nW1 G1.+ F1.1 2.5mm2 299\nW2 F1.2 E1.1 2.5mm2 3000", ""},
		{"length unknown", "unknown is never a pass", "W1 G1.+ F1.1 2.5mm2 -\nW2 F1.2 E1.1 2.5mm2 3000", "not assessed W1 G1 > 177.8 without the length of wire from G1 to its fuse"},
		{"length unknown but too long already", "", "X1 stud\nX1.1 stud\nX1.2 stud\nW1 G1.+ X1.1 2.5mm2 -\nW2 X1.2 F1.1 2.5mm2 400\nW3 F1.2 E1.1 2.5mm2 3000",
			"error W2 G1 400 > 177.8 mm\nnot assessed W1 G1 > 177.8 without the length of wire from G1 to its fuse"},
		{"through a switch at rest", "it can be closed", "S1 switch-toggle\nW1 G1.+ S1.82 2.5mm2 100\nW2 S1.82a F1.1 2.5mm2 900\nW3 F1.2 E1.1 2.5mm2 3000", "error W2 G1 1000 > 177.8 mm"},
		{"change-over to ground does not make ground live", "87a lies on ground while 87 is fed", "K1 relay-change-over\nW1 G1.+ F1.1 2.5mm2 100\nW2 F1.2 K1.87 2.5mm2 300\nW3 K1.87a G1.- 2.5mm2 900\nW4 K1.30 E1.1 2.5mm2 900", ""},
		{"between battery and alternator", "either end feeds it", "G2 alternator limit_amp=90\nW1 G1.+ G2.B+ 16mm2 1200\nW2 G2.B- G1.- 16mm2 300\nW3 G1.+ F1.1 2.5mm2 100\nW4 F1.2 E1.1 2.5mm2 900", "error W1 G1 1200 > 177.8 mm"},
		{"batteries in series", "the link between them is live, its ground is not", "G2 battery\nW1 G2.- G1.+ 25mm2 120\nW2 G2.+ F1.1 2.5mm2 170\nW3 F1.2 E1.1 2.5mm2 900", ""},
		{"link between batteries too long", "", "G2 battery\nW1 G2.- G1.+ 25mm2 400\nW2 G2.+ F1.1 2.5mm2 170\nW3 F1.2 E1.1 2.5mm2 900", "error W1 G1 400 > 177.8 mm"},
		{"starter", "customary, so only a note; what branches off is no starter cable",
			"M1 starter-motor amp=150\nW1 G1.+ M1.30 35mm2 1200\nW2 M1.31 G1.- 35mm2 500\nW3 M1.30 F1.1 4mm2 300\nW4 F1.2 E1.1 2.5mm2 900",
			"error W3 G1 1500 > 177.8 mm\nnote W1 G1 1200 > 177.8 mm"},
		{"behind a diode", "a diode is no fuse", "V1 diode\nW1 G1.+ V1.A 2.5mm2 100\nW2 V1.K E1.1 2.5mm2 900", "error W2 G1 1000 > 177.8 mm"},
		{"close behind a diode", "a short piece is allowed there as well", "V1 diode\nW1 G1.+ V1.A 2.5mm2 50\nW2 V1.K F1.1 2.5mm2 100\nW3 F1.2 E1.1 2.5mm2 900", ""},
		{"against a diode", "it blocks", "V1 diode\nW1 G1.+ V1.K 2.5mm2 100\nW2 V1.A E1.1 2.5mm2 900", ""},
		{"charge lamp terminal", "the diodes within belong to the alternator", "G2 alternator limit_amp=90\nW1 G2.D+ F1.1 1mm2 100\nW2 F1.2 E1.1 1mm2 900\nW3 G2.B- G1.- 16mm2 300", ""},
		{"charge lamp terminal, fuse too far", "", "G2 alternator limit_amp=90\nW1 G2.D+ F1.1 1mm2 200\nW2 F1.2 E1.1 1mm2 900\nW3 G2.B- G1.- 16mm2 300", "error W1 G2 200 > 177.8 mm"},
		{"no source", "nothing to fear", "W1 F1.1 E1.1 2.5mm2 900", ""},
	})
}

func TestLoadWithoutFuse(t *testing.T) {
	const base = "ambient 30\nG1 battery\nF1 fuse-regular amp=10\nE1 lamp watt=21\nW9 E1.2 G1.- 2.5mm2 500"
	tryRule(t, "load without fuse", base, []ruleCase{
		{"fused", "", "W1 G1.+ F1.1 2.5mm2 100\nW2 F1.2 E1.1 2.5mm2 900", ""},
		{"unfused", "even on a short wire", "W1 G1.+ E1.1 2.5mm2 100", "error E1"},
		{"behind a switch", "", "S1 switch-toggle\nW1 G1.+ S1.82 2.5mm2 100\nW2 S1.82a E1.1 2.5mm2 100", "error E1"},
		{"bypassed fuse", "the wire beside the fuse carries everything", "W1 G1.+ F1.1 2.5mm2 100\nW2 F1.2 E1.1 2.5mm2 900\nW3 F1.1 E1.1 2.5mm2 900", "error E1"},
		{"rating unknown", "there is a fuse; the rule about wires asks for its rating", "F2 fuse-regular\nW1 G1.+ F2.1 2.5mm2 100\nW2 F2.2 E1.1 2.5mm2 900", ""},
		{"starter motor", "exempt, but its control winding is not fed here", "M1 starter-motor amp=150\nW1 G1.+ M1.30 35mm2 1200\nW2 M1.31 G1.- 35mm2 500", ""},
		{"starter control", "terminal 50 needs a fuse", "S1 switch-push-make\nM1 starter-motor amp=150\nW1 G1.+ M1.30 35mm2 1200\nW2 M1.31 G1.- 35mm2 500\nW3 G1.+ S1.82 1mm2 50\nW4 S1.82a M1.50 1mm2 50", "error M1"},
		{"in a unit", "every load of a part is one finding", "A1 control-unit running_amp=1 quiescent_amp=0.01\nA1.1 supply\nA1.2 ground\nW1 G1.+ A1.1 1mm2 100\nW2 A1.2 G1.- 1mm2 100", "error A1"},
		{"alternator's own", "field and diodes belong to the source", "G2 alternator limit_amp=90\nW1 G1.+ G2.B+ 16mm2 1200\nW2 G2.B- G1.- 16mm2 300", ""},
	})
}

// ISO 10133 (from memory) at 105 °C: 0.75 mm² 16 A, 1 mm² 20 A, 2.5 mm² 35 A,
// 4 mm² 45 A. AC 43.13-1B 11-48: fuse within the ampacity. 33 CFR 183.455
// (from memory): the next standard size up to 150 %. The lamp needs 3 A, but
// switching it on wears such a fuse; 20 A on 1 mm² open too late at an overload.
func TestFuseTooLargeForWire(t *testing.T) {
	const base = "ambient 30\nG1 battery\nE1 lamp watt=21\nW9 E1.2 G1.- 6mm2 500"
	one := func(amp, size string) string {
		return "F1 fuse-regular amp=" + amp + "\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 " + size
	}
	tryRule(t, "fuse too large for wire", base, []ruleCase{
		{"fine", "10 A on 16 A", one("10", "0.75mm2 900"), ""},
		{"just inside", "20 A on 20 A", one("20", "1mm2 900"), ""},
		{"next standard size", "20 A on 16 A: 15 A is below, 20 A the next, and below 24 A", one("20", "0.75mm2 900"), "warning W2 F1 20 > 16 A [fit 4 A in F1] [use 1.5 mm² for W2]"},
		{"just outside", "25 A is above 150 % of 16 A", one("25", "0.75mm2 900"), "error W2 F1 25 > 16 A [fit 4 A in F1] [use 2 mm² for W2]"},
		{"far outside", "4 mm² are too many sizes on", one("40", "1mm2 900"), "error W2 F1 40 > 20 A [fit 4 A in F1]"},
		{"rating unknown", "unknown is never a pass", "F1 fuse-regular\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 1mm2 500", "not assessed W2 F1 without the rating of F1"},
		{"rating unknown behind a known one", "the known one guards", "F1 fuse-regular amp=20\nF2 fuse-regular\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 F2.1 1mm2 500\nW3 F2.2 E1.1 0.75mm2 500",
			"warning W3 F1 20 > 16 A [fit 4 A in F1] [use 1.5 mm² for W3]"},
		{"insulation unknown", "", one("10", "1mm2 900 bare"), "not assessed W2 F1 without the insulation temperature"},
		{"smallest of two in a row counts", "10 A guards what lies behind both", "F1 fuse-regular amp=40\nF2 fuse-regular amp=10\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 F2.1 4mm2 500\nW3 F2.2 E1.1 0.75mm2 500", ""},
		{"smaller one first", "10 A guards what lies behind 40 A too", "F1 fuse-regular amp=40\nF2 fuse-regular amp=10\nW1 G1.+ F2.1 6mm2 100\nW2 F2.2 F1.1 1mm2 500\nW3 F1.2 E1.1 0.75mm2 500", ""},
		{"fed from both ends", "each end sees its own fuse: 15 A and 30 A, W2 bears 20 A; up to 2.5 mm² F2 opens too late at an overload",
			"F1 fuse-regular amp=15\nF2 fuse-regular amp=30\nG2 alternator limit_amp=90\nSP1 splice\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 SP1.1 1mm2 500\nW3 SP1.1 F2.1 6mm2 500\nW4 F2.2 G2.B+ 6mm2 100\nW5 G2.B- G1.- 6mm2 100\nW6 SP1.1 E1.1 6mm2 100",
			"error W2 F2 30 > 20 A"},
		{"two fuses on one side add up", "15 A + 10 A through W4", "F1 fuse-regular amp=15\nF2 fuse-regular amp=10\nSP1 splice\nW1 G1.+ F1.1 6mm2 100\nW2 G1.+ F2.1 6mm2 100\nW3 F1.2 SP1.1 1mm2 500\nW5 F2.2 SP1.1 1mm2 500\nW4 SP1.1 E1.1 1mm2 500",
			"error W4 F1 F2 25 > 20 A [use 1.5 mm² for W4]"},
		{"parallel wires", "either may be left alone", one("40", "2.5mm2 900") + "\nW3 F1.2 E1.1 2.5mm2 900",
			"warning W2 F1 40 > 35 A [fit 4 A in F1] [use 5 mm² for W2]\nwarning W3 F1 40 > 35 A [fit 4 A in F1] [use 5 mm² for W3]"},
		{"fuse block", "the rating is the pin's", "F1 fuse-block-regular\nF1.in feed\nF1.1 output amp=30\nF1.2 output amp=10\nE2 lamp watt=21\nW1 G1.+ F1.in 6mm2 100\nW2 F1.1 E1.1 1mm2 500\nW3 F1.2 E2.1 1mm2 500",
			"error W2 F1 30 > 20 A [fit 4 A in F1 pin 1]"},
		{"regulator", "holds the sensor supply at 0.1 A, thin wire will do", "F1 fuse-regular amp=5\nA1 control-unit running_amp=1 quiescent_amp=0.01 sensor_limit_amp=0.1\nA1.1 supply\nA1.2 ground\nA1.3 sensor-supply\nB1 sensor-pressure\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 A1.1 1mm2 100\nW3 A1.2 G1.- 1mm2 100\nW4 A1.3 B1.1 0.35mm2 500", ""},
		{"regulator without limit", "its own fuse guards it", "F1 fuse-regular amp=5\nA1 control-unit running_amp=1 quiescent_amp=0.01\nA1.1 supply\nA1.2 ground\nA1.3 sensor-supply\nB1 sensor-pressure\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 A1.1 1mm2 100\nW3 A1.2 G1.- 1mm2 100\nW4 A1.3 B1.1 0.5mm2 500", ""},
		{"return of a load", "comes after the load and needs no fuse", one("20", "1mm2 900") + "\nE2 lamp watt=5\nW3 F1.2 E2.1 1mm2 100\nW4 E2.2 G1.- 0.13mm2 100", ""},
	})
}

// The 7 in of 33 CFR 183.455 (from memory) are from the source of power of each
// circuit: of a branch, from where it leaves the feed.
func TestTailToTheFuseOfABranch(t *testing.T) {
	const base = "ambient 30\nG1 battery\nF1 fuse-regular amp=40\nSP1 splice\nE1 lamp watt=21\nE2 lamp watt=21\nW9 E1.2 G1.- 6mm2 500\nW8 E2.2 G1.- 1mm2 500\n" +
		"W1 G1.+ F1.1 6mm2 100\nW2 F1.2 SP1.1 6mm2 500\nW3 SP1.1 E1.1 6mm2 500"
	tail := func(length, amp string) string {
		return "F2 fuse-regular amp=" + amp + "\nW4 SP1.1 F2.1 0.75mm2 " + length + "\nW5 F2.2 E2.1 0.75mm2 900"
	}
	tryRule(t, "fuse too large for wire", base, []ruleCase{
		{"just inside", "7 in", tail("177", "5"), ""},
		{"just outside", "7 in", tail("179", "5"), "error W4 F1 40 > 16 A [fit 7.5 A in F1]"},
		{"length unknown", "unknown is never a pass", tail("-", "5"), "error W4 F1 40 > 16 A [fit 7.5 A in F1]"},
		{"fuse too large for its tail", "", tail("100", "20"), "error W4 F1 40 > 16 A\nwarning W5 F2 20 > 16 A [fit 4 A in F2] [use 1.5 mm² for W5]"},
		{"rating unknown", "", "F2 fuse-regular\nW4 SP1.1 F2.1 0.75mm2 100\nW5 F2.2 E2.1 6mm2 900", "error W4 F1 40 > 16 A [fit 7.5 A in F1]"},
		{"more hangs on it", "what branches off before the fuse is not behind it", tail("100", "5") + "\nE3 lamp watt=5\nW6 F2.1 E3.1 6mm2 100\nW7 E3.2 G1.- 1mm2 100", "error W4 F1 40 > 16 A [fit 10 A in F1]"},
		{"the feeding fuse is none of its own", "a short wire to a lamp is no tail", "W4 F1.2 E2.1 0.75mm2 100", "error W4 F1 40 > 16 A [fit 7.5 A in F1]"},
	})
	tryRule(t, "fuse too slow for wire", base, []ruleCase{
		{"just inside", "", tail("177", "5"), ""},
		{"just outside", "the heat at which 40 A must have opened is more than 0.75 mm² bear", tail("179", "5"), "error W4 F1 0.01025 > 0.007683 s [fit 10 A in F1]"},
	})
}

// 75 % of the rating at 25 °C (fuse selection guide, seen second-hand); blade
// fuses lose 0.2 % per kelvin (from memory).
func TestFuseOverloaded(t *testing.T) {
	plan := func(amp, engine string) string {
		return "E1 load-two-pin amp=" + amp + "\nF1 fuse-regular amp=20\nW1 G1.+ F1.1 4mm2 100\nW2 F1.2 E1.+ 4mm2 500\nW3 E1.- G1.-" + fat + "\nstate s " + engine
	}
	tryRule(t, "fuse overloaded", "G1 battery", []ruleCase{
		{"fine", "5 of 20 A", plan("5", "running"), ""},
		{"just inside", "75 % of 20 A", plan("14.99", "running"), ""},
		{"just outside", "the next rating carries 15.01/0.75 = 20.01 A: 25 A", plan("15.01", "running"), "warning F1 in s 15.01 > 15 A [fit 25 A in F1]"},
		{"above its rating", "", plan("20.5", "running"), "error F1 in s 20.5 > 20 A [fit 30 A in F1]"},
		{"cranking is short", "15.01 A for seconds", plan("15.01", "cranking"), ""},
		{"cranking above the rating", "", plan("20.5", "cranking"), "error F1 in s 20.5 > 20 A [fit 25 A in F1]"},
		{"no rating left", "the wires bear 45 A, the load needs 35/0.75 = 46.7 A", plan("35", "running"), "error F1 in s 35 > 20 A"},
		{"hot", "20 A·(1 − 0.002·60) = 17.6 A, 75 % of it 13.2 A", "ambient 85\n" + plan("13.3", "running"), "warning F1 in s 13.3 > 13.2 A"},
		{"own share", "80 % is common too", "limit fuse_continuous_ratio=0.8\n" + plan("15.9", "running"), ""},
		{"rating unknown", "unknown is never a pass", "E1 load-two-pin amp=1\nF1 fuse-regular\nW1 G1.+ F1.1 4mm2 100\nW2 F1.2 E1.+ 4mm2 500\nW3 E1.- G1.-" + fat, "not assessed F1 1 A without the rating of F1"},
		{"a load of unknown current beside", "no remedy on half the truth", plan("15.01", "running") + "\nE2 load-two-pin\nW4 F1.2 E2.+ 4mm2 500\nW5 E2.- G1.-" + fat, "warning F1 in s 15.01 > 15 A"},
		{"breaker", "the 75 % are for fuses", "E1 load-two-pin amp=19\nF1 circuit-breaker amp=20\nW1 G1.+ F1.1 4mm2 100\nW2 F1.2 E1.+ 4mm2 500\nW3 E1.- G1.-" + fat, ""},
	})
}
