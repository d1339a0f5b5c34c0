package check_test

import "testing"

// Common practice, no source.
func TestPullUpMissing(t *testing.T) {
	const base = engineUnit + "A1.9 input-analog\nA1.10 input-digital\nA1.11 input-analog-pull-up\nB1 sensor-crank-hall\nB2 sensor-coolant\nW3 B1.3 A1.6 0.5mm2 9\nW4 B2.2 A1.8 0.5mm2 9\n"
	tryRule(t, "pull-up missing", base, []ruleCase{
		{"inputs with pull-up", "", "W1 B1.2 A1.10 0.5mm2 900\nW2 B2.1 A1.11 0.5mm2 900", ""},
		{"a resistor beside the unit", "", "R1 resistor ohm=2200\nW1 B1.2 A1.9 0.5mm2 900\nW2 A1.9 R1.1 0.5mm2 9\nW5 R1.2 A1.5 0.5mm2 9", ""},
		{"a resistor to ground", "pulls down", "R1 resistor ohm=2200\nW1 B1.2 A1.9 0.5mm2 900\nW2 A1.9 R1.1 0.5mm2 9\nW5 R1.2 GND1.1 0.5mm2 9", "warning B1 A1 at 2 at 9"},
		{"input without one", "", "W1 B1.2 A1.9 0.5mm2 900", "warning B1 A1 at 2 at 9"},
		{"temperature sensor at an input without one", "it is no pull-up itself", "W2 B2.1 A1.9 0.5mm2 900", "warning B2 A1 at 1 at 9"},
		{"through a connector", "", halves + "X2.2 cavity\nW1 B1.2 X1.1 0.5mm2 900\nW2 X2.1 A1.10 0.5mm2 900", ""},
		{"tell-tale lamp", "a load to plus does it too", "E1 lamp watt=1.2\nW1 B1.2 E1.1 0.5mm2 900\nW2 E1.2 G1.+ 0.5mm2 9", ""},
		{"instrument", "unknown is never a pass", "P1 instrument\nW2 B2.1 P1.S 0.5mm2 900", "not assessed B2 P1 at 1 at S without whether a pull-up is inside at P1.S"},
		{"plain box", "", "A2 box\nA2.3 plain\nW1 B1.2 A2.3 0.5mm2 900", "not assessed B1 A2 at 2 at 3 without whether a pull-up is inside at A2.3"},
		{"nothing reads it", "", halves + "W1 B1.2 X1.1 0.5mm2 900", "not assessed B1 at 2 without what reads the signal"},
		{"not wired", "", "", ""},
		{"pressure sensor", "gives a voltage itself", "B3 sensor-pressure\nW1 B3.2 A1.9 0.5mm2 900", ""},
	})
}

// 100 mm apart at the ends: common practice, no source.
func TestPairNeitherTwistedNorScreened(t *testing.T) {
	plan := func(a, b string) string {
		return "B1 sensor-wheel-speed\nA1.9 input-analog\nA1.12 input-analog\nW1 B1.1 A1.9 0.5mm2 " + a + "\nW2 B1.2 A1.12 0.5mm2 " + b
	}
	knock := func(opt string) string {
		return "B1 sensor-knock\nA1.12 input-knock\nW1 B1.1 A1.12 0.5mm2 " + opt
	}
	tryRule(t, "pair neither twisted nor screened", engineUnit, []ruleCase{
		{"twisted", "", plan("900 twist=P", "900 twist=P"), ""},
		{"under one screen", "", plan("900 screen=S", "900 screen=S"), ""},
		{"under two screens", "", plan("900 screen=S", "900 screen=T"), "warning B1 W1 W2 900 > 100 mm [twist W1 and W2]"},
		{"apart", "", plan("900", "800"), "warning B1 W1 W2 900 > 100 mm [twist W1 and W2]"},
		{"just inside", "", plan("100", "100"), ""},
		{"just outside", "", plan("100", "101"), "warning B1 W2 101 > 100 mm"},
		{"length unknown", "unknown is never a pass", plan("-", "90"), "not assessed B1 W1 without length of W1"},
		{"own limit", "", "limit pair_apart_mm=300\n" + plan("290", "290"), ""},
		{"signal under its screen", "", knock("900 screen=S"), ""},
		{"signal of a screened sensor without screen", "", knock("900"), "warning B1 W1 900 > 100 mm"},
		{"not wired", "", "B1 sensor-wheel-speed", ""},
	})
}
