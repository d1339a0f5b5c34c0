package check_test

import "testing"

// Ground connection 0.1 V, starter 0.3 V (workshop manuals, seen second-hand);
// 1 mm² 18.5 mΩ/m, 16 mm² 1.16 mΩ/m, 35 mm² 0.527 mΩ/m at 20 °C (ISO 6722).
func TestGroundPathTooResistive(t *testing.T) {
	const base = "unwarmed\nambient 20\nG1 battery volt=12 ohm=0"
	plan := func(back string) string {
		return "E1 load-two-pin amp=10\nW1 G1.+ E1.+" + fat + "\nW2 E1.- G1.- 1mm2 " + back
	}
	tryRule(t, "ground path too resistive", base, []ruleCase{
		{"fine", "10 A may meet 10 mΩ", plan("100"), ""},
		{"just inside", "0.54 m: 9.99 mΩ", plan("540"), ""},
		{"just outside", "0.545 m: 10.08 mΩ", plan("545"), "warning E1 at - 0.01008 > 0.01 ohm [use 1.25 mm² for W2]"},
		{"stud joints count", "2 × 5 mΩ and the wire", "GND1 ground-body joint_ohm=0.005\nGND2 ground-body joint_ohm=0.005\nE1 load-two-pin amp=10\nW1 G1.+ E1.+" + fat + "\nW2 E1.- GND1.1 1mm2 10\nW3 GND2.1 G1.-" + fat,
			"warning E1 at - 0.01019 > 0.01 ohm"},
		{"a second strap halves it", "parallel ways count", "GND1 ground-body joint_ohm=0.005\nGND2 ground-body joint_ohm=0.005\nGND3 ground-body joint_ohm=0.005\nE1 load-two-pin amp=10\nW1 G1.+ E1.+" + fat + "\nW2 E1.- GND1.1 1mm2 10\nW3 GND2.1 G1.-" + fat + "\nW4 GND3.1 G1.-" + fat, ""},
		{"length missing", "unknown is never a pass", plan("-"), "not assessed E1 W2 at - without length of W2"},
		{"behind another load", "the resistor's return is the lamp: its ground is no business of the resistor", "R1 resistor ohm=0.1\nE1 load-two-pin amp=10\nW1 G1.+ R1.1" + fat + "\nW3 R1.2 E1.+" + fat + "\nW2 E1.- G1.- 1mm2 545",
			"warning E1 at - 0.01008 > 0.01 ohm [use 1.25 mm² for W2]"},
		{"starter", "12/(0.06 + 0.0005 + 0.00158) = 193.3 A: 1.552 mΩ; 3 m of 35 mm²", "M1 starter-motor amp=200\nS1 switch-push-make\nW1 G1.+ M1.30" + fat + "\nW2 M1.31 G1.- 35mm2 3000\nW3 G1.+ S1.82" + fat + "\nW4 S1.82a M1.50" + fat + "\nstate crank cranking S1=pressed",
			"warning M1 at 31 in crank 0.001581 > 0.001554 ohm [use 40 mm² for W2]"},
		{"switched on the ground side", "the driver's own ground pin is where it meets the ground", "A1 control-unit running_amp=0.1 quiescent_amp=0.01\nA1.1 supply\nA1.2 ground joint_ohm=0\nA1.3 output-low on_ohm=0.1\nY1 injector-high ohm=12\nW1 G1.+ A1.1" + fat + "\nW2 A1.2 G1.- 1mm2 1000\nW3 G1.+ Y1.1" + fat + "\nW4 Y1.2 A1.3 1mm2 9000\nstate on off A1:3=on", ""},
	})
}

func TestGroundLiftedByOthers(t *testing.T) {
	const base = "unwarmed\nambient 20\nG1 battery volt=12 ohm=0\nGND1 ground-body joint_ohm=0\nGND2 ground-body joint_ohm=0\nE1 load-two-pin amp=1\nM1 motor volt=12 amp=20\n" +
		"W1 G1.+ E1.+" + fat + "\nW2 G1.+ M1.33" + fat + "\nW3 E1.- GND1.1" + fat + "\n"
	tryRule(t, "ground lifted by others", base, []ruleCase{
		{"own way", "the motor has its own wire to the battery", "W4 M1.32 G1.-" + fat + "\nW5 GND2.1 G1.- 16mm2 3000", ""},
		{"just inside", "20.95 A over 4.1 m of 1.16 mΩ/m: 99.6 mV", "limit ground_volt=0.1\nW4 M1.32 GND1.1" + fat + "\nW5 GND2.1 G1.- 16mm2 4100", ""},
		{"just outside", "4.872 mΩ · (19.83 + 1) A, of which 1 A makes 5 mV; the motor alone makes 97 mV and is lifted too", "W4 M1.32 GND1.1" + fat + "\nW5 GND2.1 G1.- 16mm2 4200",
			"warning M1 at 32 0.1015 > 0.1 V [use 20 mm² for W5]\nwarning E1 at - 0.1015 > 0.1 V [use 20 mm² for W5]"},
		{"length missing", "another rule asks for it", "W4 M1.32 GND1.1" + fat + "\nW5 GND2.1 G1.- 16mm2 -", ""},
		{"only while the other runs", "6.96 mΩ · (12/0.617 + 1) A; the switch has 10 mΩ", "S1 switch-toggle\nW4 M1.32 S1.82" + fat + "\nW6 S1.82a GND1.1" + fat + "\nW5 GND2.1 G1.- 16mm2 6000\nstate off off\nstate on off S1=on", "warning E1 at - in on 0.1423 > 0.1 V [use 25 mm² for W5]"},
	})
}

// 2.5 mΩ: AC 43.13-1B p. 11-74.
func TestGroundJoint(t *testing.T) {
	tryRule(t, "ground joint too resistive", "G1 battery", []ruleCase{
		{"default", "0.5 mΩ", "GND1 ground-body", ""},
		{"just inside", "", "GND1 ground-engine joint_ohm=0.0025", ""},
		{"just outside", "", "GND1 ground-body joint_ohm=0.0026", "warning GND1 0.0026 > 0.0025 ohm"},
		{"resistance that cannot be", "another rule asks for it", "GND1 ground-body joint_ohm=-1", ""},
		{"no ground stud", "a bus bar is no bond", "X1 stud\nX1.1 stud joint_ohm=0.01", ""},
	})
}
