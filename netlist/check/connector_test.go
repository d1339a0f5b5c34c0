package check_test

import "testing"

const halves = "X1 connector-plug\nX1.1 cavity\nX1.2 cavity\nX2 connector-receptacle\nX2.1 cavity\nX1 = X2\n"

func TestConnectorHalves(t *testing.T) {
	tryRule(t, "connector halves do not match", "", []ruleCase{
		{"match", "", halves + "X2.2 cavity", ""},
		{"cavity missing", "", halves, "error X1 X2 at 2"},
		{"cavity of another name", "", halves + "X2.3 cavity", "error X1 X2 at 2 at 3"},
		{"not plugged", "nothing to match", "X1 connector-plug\nX1.1 cavity\nX2 connector-receptacle", ""},
		{"pins and sockets", "", halves + "X2.2 cavity\nhousing X1 pins=1\nhousing X2 sockets=1", ""},
		{"pins on both sides", "", halves + "X2.2 cavity\nhousing X1 pins=1\nhousing X2 pins=1", "error X1 X2"},
		{"contacts of one side not given", "nothing is known to be wrong", halves + "X2.2 cavity\nhousing X1 pins=1 width=2.8\nhousing X2", ""},
		{"widths", "", halves + "X2.2 cavity\nhousing X1 width=2.8\nhousing X2 width=2.8", ""},
		{"other widths", "", halves + "X2.2 cavity\nhousing X1 width=2.8\nhousing X2 width=6.3", "error X1 X2"},
	})
}

// Wire sizes by contact width: from memory, low confidence. 2.8 mm: 0.35 to 4 mm².
func TestCavities(t *testing.T) {
	wire := func(size string) string {
		return halves + "housing X1 width=2.8\nE1 lamp\nW1 X1.1 E1.1 " + size + " 100\n"
	}
	tryRule(t, "cavity badly filled", "", []ruleCase{
		{"one wire", "", wire("1mm2"), ""},
		{"two wires", "", wire("1mm2") + "W2 X1.1 E1.2 1mm2 100", "warning X1 W1 W2 at 1"},
		{"two wires at a stud", "rings stack", "S1 bus-bar\nS1.1 stud\nE1 lamp\nW1 S1.1 E1.1 1mm2 9\nW2 S1.1 E1.2 1mm2 9", ""},
		{"two wires at a unit's pin", "it has a housing", "E2 lamp\nE1 lamp\nhousing E1 width=2.8\nW1 E1.1 E2.1 1mm2 9\nW2 E1.1 E2.2 1mm2 9", "warning E1 W1 W2 at 1"},
		{"just inside, thin", "", wire("0.35mm2"), ""},
		{"just outside, thin", "", wire("0.34mm2"), "warning X1 W1 at 1 0.34 > 0.35 mm2 [use 0.35 mm² for W1]"},
		{"just inside, thick", "", wire("4mm2"), ""},
		{"just outside, thick", "", wire("4.01mm2"), "warning X1 W1 at 1 4.01 > 4 mm2"},
		{"gauge", "AWG 10 is 5.26 mm²", wire("AWG10"), "warning X1 W1 at 1 5.261 > 4 mm2"},
		{"size unknown", "another rule asks for it", wire("-"), ""},
		{"width unknown", "nothing to hold it against", halves + "E1 lamp\nW1 X1.1 E1.1 25mm2 9", ""},
		{"sizes given, just inside", "what is known of the terminal counts before what is usual for its width", halves + "housing X1 width=2.8 from=4 to=6\nE1 lamp\nW1 X1.1 E1.1 6mm2 9", ""},
		{"sizes given, just outside", "", halves + "housing X1 width=2.8 from=4 to=6\nE1 lamp\nW1 X1.1 E1.1 3.99mm2 9", "warning X1 W1 at 1 3.99 > 4 mm2 [use 4 mm² for W1]"},
		{"only the largest given", "", halves + "housing X1 to=1\nE1 lamp\nW1 X1.1 E1.1 1.5mm2 9", "warning X1 W1 at 1 1.5 > 1 mm2"},
		{"only the smallest given", "", halves + "housing X1 from=1\nE1 lamp\nW1 X1.1 E1.1 95mm2 9", ""},
		{"width on no list", "", halves + "housing X1 width=3.3\nE1 lamp\nW1 X1.1 E1.1 25mm2 9", ""},
	})
}

func TestOpenCavities(t *testing.T) {
	const wires = "E1 lamp\nW1 X1.1 E1.1 1mm2 9\n"
	tryRule(t, "open cavity in sealed housing", halves+wires, []ruleCase{
		{"not sealed", "", "housing X1 width=2.8", ""},
		{"no housing", "nothing is known of it", "", ""},
		{"open", "", "housing X1 sealed=1", "warning X1 at 2 [close the unused cavities of X1 with plugs]"},
		{"plugged", "", "housing X1 sealed=1 plugged=1", ""},
		{"all in use", "", "housing X1 sealed=1\nW2 X1.2 E1.2 1mm2 9", ""},
	})
}

func TestSameColourInConnector(t *testing.T) {
	plan := func(a, b string) string {
		return halves + "E1 lamp\nW1 X1.1 E1.1 1mm2 9 " + a + "\nW2 X1.2 E1.2 1mm2 9 " + b + "\n"
	}
	tryRule(t, "same colour twice in a connector", "", []ruleCase{
		{"two colours", "", plan("colour=RD", "colour=BK"), ""},
		{"another tracer", "is another colour", plan("colour=RD", "colour=RD/BK"), ""},
		{"one colour", "", plan("colour=RD", "colour=RD"), "note X1 W1 W2 at 1 at 2 [make W2 RD/BK]"},
		{"no colour", "another rule asks for it", plan("bare", "bare"), ""},
		{"one net", "swapping them changes nothing", halves + "SP1 splice\nW1 X1.1 SP1.1 1mm2 9 colour=BK\nW2 X1.2 SP1.1 1mm2 9 colour=BK", ""},
		{"grounds of a unit", "it joins them inside", engineUnit + "A1.3 ground\nhousing A1 width=1.5\nE1 lamp\nW1 A1.2 E1.1 1mm2 9 colour=BK\nW2 A1.3 E1.2 1mm2 9 colour=BK", ""},
		{"sensor grounds of a unit", "", engineUnit + "housing A1 width=1.5\nB1 sensor-pressure\nB2 sensor-pressure\nW1 A1.6 B1.3 1mm2 9 colour=BN\nW2 A1.8 B2.3 1mm2 9 colour=BN", ""},
		{"ground and output of a unit", "", engineUnit + "housing A1 width=1.5\nE1 lamp\nW1 A1.2 E1.1 1mm2 9 colour=BN\nW2 A1.20 E1.2 1mm2 9 colour=BN", "note A1 W1 W2 at 2 at 20 [make W2 BN/BK]"},
		{"drain wire", "is bare or black", plan("colour=BK drain=S", "colour=BK"), ""},
	})
}

func TestCircuitColours(t *testing.T) {
	const base = "E1 lamp\nE2 lamp\nW1 E1.1 E2.1 1mm2 9 lights colour=RD\n"
	tryRule(t, "circuit in several colours", base, []ruleCase{
		{"one colour", "", "W2 E1.2 E2.2 1mm2 9 lights colour=RD", ""},
		{"a tracer", "tells a branch", "W2 E1.2 E2.2 1mm2 9 lights colour=RD/BU", ""},
		{"another colour", "", "W2 E1.2 E2.2 1mm2 9 lights colour=YE", "note W1 W2"},
		{"another circuit", "", "W2 E1.2 E2.2 1mm2 9 horn colour=YE", ""},
		{"no colour", "another rule asks for it", "W2 E1.2 E2.2 1mm2 9 lights", ""},
	})
}

func TestWireWithoutColour(t *testing.T) {
	const base = "E1 lamp\nE2 lamp\nW1 E1.1 E2.1 1mm2 9 colour=RD\n"
	tryRule(t, "wire without colour", "", []ruleCase{
		{"all", "", base, ""},
		{"one without", "", base + "W2 E1.2 E2.2 1mm2 9", "note W2"},
		{"none", "said without naming them all", "E1 lamp\nE2 lamp\nW1 E1.1 E2.1 1mm2 9", "note"},
		{"no wires", "", "E1 lamp", ""},
	})
}
