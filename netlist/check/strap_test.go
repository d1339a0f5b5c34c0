package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// strapBase has a load of 20 A on the engine, and the body at the battery.
const strapBase = "unwarmed\nambient 20\nG1 battery volt=12 ohm=0\nE1 load-two-pin amp=20\nGND1 ground-engine joint_ohm=0\nGND2 ground-body joint_ohm=0\nGND3 ground-engine joint_ohm=0\nGND4 ground-body joint_ohm=0\n" +
	"E9 load-two-pin amp=5\nW1 G1.+ E1.+" + fat + "\nW2 E1.- GND1.1" + fat + "\nW3 GND2.1 G1.-" + fat + "\nW8 G1.+ E9.+" + fat + "\nW9 E9.- GND2.1" + fat + "\n"

// Parallel wires share a current by the inverse of their resistances
// (Kirchhoff): 2.5 mm² 7.60 and 4 mm² 4.71 mΩ/m (ISO 6722, from memory) take
// 20·4.71/12.31 = 7.652 and 12.348 A, which is network V7 of the reference
// with these figures.
func TestSharesOfGroundStraps(t *testing.T) {
	const rule = "shares of ground straps"
	tryRule(t, rule, strapBase, []ruleCase{
		{"two straps", "2.908 mΩ at 20 A; joints of 0 Ω count as 1 µΩ", "W4 GND1.1 GND2.1 2.5mm2 1000\nW5 GND3.1 GND4.1 4mm2 1000", "note GND1 W5 W4 0.0582 V"},
		{"one strap", "nothing to share", "W4 GND1.1 GND2.1 4mm2 1000", ""},
		{"just inside the current that counts", "0.5 A", "state s off E1*0.024 E9*0\nW4 GND1.1 GND2.1 4mm2 1000\nW5 GND3.1 GND4.1 4mm2 1000", ""},
		{"just outside", "0.502 A over 2.355 mΩ", "state s off E1*0.0251 E9*0\nW4 GND1.1 GND2.1 4mm2 1000\nW5 GND3.1 GND4.1 4mm2 1000", "note GND1 W4 W5 in s 0.001183 V"},
		{"length unknown", "unknown is never a pass", "W4 GND1.1 GND2.1 4mm2 -\nW5 GND3.1 GND4.1 4mm2 1000", "not assessed GND1 W4 without length of W4"},
		{"no way from the engine", "another rule says so", "", ""},
		{"no current", "", "state s off E1*0 E9*0\nW4 GND1.1 GND2.1 4mm2 1000", ""},
	})
	for _, f := range run(t, doc(t, strapBase+"W4 GND1.1 GND2.1 2.5mm2 1000\nW5 GND3.1 GND4.1 4mm2 1000")) {
		if f.Rule == rule && f.Value.Or(0) > 0.01 {
			assert.Regexp(t, `W5 carries 61\.7 % \(12\.3 A\) and W4 carries 38\.3 % \(7\.6. A\)`, f.Text)
		}
	}
}

// Common practice, no source.
func TestGroundStrapMissing(t *testing.T) {
	tryRule(t, "ground strap missing", strapBase, []ruleCase{
		{"strap", "", "W4 GND1.1 GND2.1 16mm2 300", ""},
		{"a cable of its own to the battery", "", "W4 GND1.1 G1.- 16mm2 900", ""},
		{"by way of the frame", "", "GND5 ground-frame\nGND6 ground-frame\nW4 GND1.1 GND5.1 16mm2 300\nW5 GND6.1 GND2.1 16mm2 300", ""},
		{"through a main switch", "", "S9 battery-isolator\nW4 GND1.1 S9.1 16mm2 300\nW5 S9.2 G1.- 16mm2 300", ""},
		{"none", "", "", "warning GND1 at 1"},
		{"through a unit's ground pins", "the classic fault", "A1 control-unit running_amp=0.1 quiescent_amp=0.01\nA1.1 ground joint_ohm=0.01\nA1.2 ground joint_ohm=0.01\nW4 GND1.1 A1.1 1mm2 300\nW5 A1.2 GND2.1 1mm2 300",
			"warning GND1 at 1 20 A"},
		{"strap without data", "it is there; other rules ask for its size", "W4 GND1.1 GND2.1 - -", ""},
		{"through a part of unknown kind", "unknown is never a pass", "Z1 nobody-knows-this\nW4 GND1.1 Z1.1 16mm2 300", "not assessed GND1 at 1 without the kind nobody-knows-this"},
		{"stud nothing is wired to", "", "W4 GND1.1 GND2.1 16mm2 300\nGND7 ground-frame", ""},
	})
}

// Common practice, no source.
func TestSingleGroundStrap(t *testing.T) {
	tryRule(t, "single ground strap", strapBase, []ruleCase{
		{"two straps", "", "W4 GND1.1 GND2.1 16mm2 300\nW5 GND3.1 GND4.1 16mm2 300", ""},
		{"one strap", "the cable of the battery itself is not named", "W4 GND1.1 GND2.1 16mm2 300", "note GND1 W4 20 A"},
		{"a ring of battery, engine and body", "", "W4 GND1.1 GND2.1 16mm2 300\nW5 GND3.1 G1.- 16mm2 900", ""},
		{"each its own cable, no strap", "", "W5 GND1.1 G1.- 16mm2 900", "note GND2 W3 5 A\nnote GND1 W5 20 A"},
		{"just inside the current that counts", "", "state s off E1*0.024 E9*0\nW4 GND1.1 GND2.1 16mm2 300", ""},
		{"just outside", "0.502 A", "state s off E1*0.0251 E9*0\nW4 GND1.1 GND2.1 16mm2 300", "note GND1 W4 in s 0.502 A"},
		{"load of unknown current", "unknown is never a pass", "E2 load-two-pin\nW6 G1.+ E2.+" + fat + "\nW7 E2.- GND1.1" + fat + "\nW4 GND1.1 GND2.1 16mm2 300", "not assessed GND1 W4 without currents of loads"},
		{"not joined", "another rule says so", "", ""},
	})
}
