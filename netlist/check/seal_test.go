package check_test

import "testing"

// FLRY 1 mm²: 2.10 mm, ISO 6722 thin wall (seen second-hand); FLY 1 mm² 2.70
// mm (from memory); TXL 18: 2.0 mm (SAE J1128, from memory).
func TestSealDoesNotFitWire(t *testing.T) {
	plan := func(housing, wire string) string {
		return halves + "X2.2 cavity\nhousing X1 " + housing + "\nE1 lamp\nW1 X1.1 E1.1 " + wire
	}
	tryRule(t, "seal does not fit wire", "", []ruleCase{
		{"fine", "", plan("sealed=1 from=1.4 to=2.7", "1mm2 100"), ""},
		{"just inside, thin", "", plan("sealed=1 from=2.1 to=2.7", "1mm2 100"), ""},
		{"just outside, thin", "", plan("sealed=1 from=2.11 to=2.7", "1mm2 100"), "warning X1 W1 at 1 2.1 > 2.11 mm"},
		{"just inside, thick", "", plan("sealed=1 from=1.4 to=2.1", "1mm2 100"), ""},
		{"just outside, thick", "", plan("sealed=1 from=1.4 to=2.09", "1mm2 100"), "warning X1 W1 at 1 2.1 > 2.09 mm"},
		{"thick wall", "", plan("sealed=1 from=1.4 to=2.1", "1mm2 100 ins=FLY"), "warning X1 W1 at 1 2.7 > 2.1 mm"},
		{"gauge", "", plan("sealed=1 from=1.4 to=1.9", "AWG18 100 ins=TXL"), "warning X1 W1 at 1 2 > 1.9 mm"},
		{"insulation unknown", "unknown is never a pass", plan("sealed=1 from=1.4 to=2.1", "1mm2 100 bare"), "not assessed X1 W1 at 1 without the outside diameter of W1"},
		{"size unknown", "", plan("sealed=1 from=1.4 to=2.1", "- 100"), "not assessed X1 W1 at 1 without the outside diameter of W1"},
		{"range unknown", "said once for the drawing", plan("sealed=1", "1mm2 100"), "not assessed X1 without the range of the wire seals of X1"},
		{"half of the range unknown", "", plan("sealed=1 to=2.7", "1mm2 100"), "not assessed X1 without the range of the wire seals of X1"},
		{"not sealed", "", plan("width=2.8", "1mm2 100"), ""},
		{"no wire", "", halves + "X2.2 cavity\nhousing X1 sealed=1", ""},
	})
}

func TestCircuitSizes(t *testing.T) {
	const base = "E1 lamp\nE2 lamp\nW1 E1.1 E2.1 1mm2 9 lights\n"
	tryRule(t, "circuit in several sizes", base, []ruleCase{
		{"one size", "", "W2 E1.2 E2.2 1mm2 9 lights", ""},
		{"two sizes", "", "W2 E1.2 E2.2 1.5mm2 9 lights", "note W1 W2"},
		{"another circuit", "", "W2 E1.2 E2.2 1.5mm2 9 horn", ""},
		{"size unknown", "another rule asks for it", "W2 E1.2 E2.2 - 9 lights", ""},
	})
}

func TestDesignationGivenTwice(t *testing.T) {
	const base = "E1 lamp\nE2 lamp\nW1 E1.1 E2.1 1mm2 9\n"
	tryRule(t, "designation given twice", base, []ruleCase{
		{"names of their own", "", "W2 E1.2 E2.2 1mm2 9", ""},
		{"two parts", "", "twin E2 lamp", "warning E2 E2 2 > 1 [call one of them E3]"},
		{"two wires", "", "twin W1 E1.2 E2.2 1mm2 9", "warning W1 W1 2 > 1 [call one of them W2]"},
		{"part and wire", "are different things", "W9 E1.2 E2.2 1mm2 9\ntwin W1 lamp", ""},
		{"no name", "", "twin - lamp\ntwin - lamp", "warning"},
	})
}
