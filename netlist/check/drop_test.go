package check_test

import "testing"

// Conductors at 20 °C: ISO 6722 (from memory) 1 mm² 18.5, 0.5 mm² 37.1, 4 mm²
// 4.71 mΩ/m. Limits: automotive handbook (from memory) lamps above 15 W 0.5 V
// on the line and 0.6 V in the circuit, up to 15 W 0.1 V, control lines 0.5 V;
// workshop manuals 0.5 and 1.0 V; ABYC and ISO 10133 3 % and 10 %.
func TestVoltageDrop(t *testing.T) {
	const base = "unwarmed\nambient 20\nG1 battery volt=12 ohm=0"
	electronics := func(feed, back string) string {
		return "E1 load-two-pin amp=10\nW1 G1.+ E1.+ 1mm2 " + feed + "\nW2 E1.- G1.- 1mm2 " + back
	}
	motor := func(feed, back string) string {
		return "M1 motor volt=12 amp=10\nW1 G1.+ M1.33 1mm2 " + feed + "\nW2 M1.32 G1.- 1mm2 " + back
	}
	tryRule(t, "voltage drop", base, []ruleCase{
		{"fine", "10 A over 0.2 m of 18.5 mΩ/m: 37 mV", electronics("100", "100"), ""},
		{"just inside", "3 % of 12 V = 0.36 V; 1.94 m: 0.359 V", electronics("1000", "940"), ""},
		{"just outside", "1.96 m: 0.3626 V", electronics("1000", "960"), "warning E1 0.3626 > 0.36 V [use 1.25 mm² for W1]"},
		{"feed alone", "the motor's feed of 3 m: 55.5 mΩ · 12/(1.2 + 0.0574) A; the circuit has 1 V", motor("3000", "100"), "warning M1 0.5297 > 0.5 V [use 1.25 mm² for W1]"},
		{"whole circuit", "2.6 m there, 3.5 m back: 12/(1.2 + 0.1129) A, 1.031 V; the return loses most", motor("2600", "3500"), "warning M1 1.031 > 1 V [use 1.25 mm² for W2]"},
		{"length missing", "unknown is never a pass", electronics("-", "100"), "not assessed E1 W1 without length of W1"},
		{"size missing on the return", "", "E1 load-two-pin amp=10\nW1 G1.+ E1.+ 1mm2 100\nW2 E1.- G1.- - 100", "not assessed E1 W2 without size of W2"},
		{"fuse without rating on the way", "its resistance follows from the rating", "F1 fuse-regular\nE1 load-two-pin amp=10\nW1 G1.+ F1.1 1mm2 10\nW3 F1.2 E1.+ 1mm2 10\nW2 E1.- G1.-" + fat, "not assessed E1 F1 without rating of F1"},
		{"contact and fuse count", "5 A: fuse 10 A 7.7 mΩ cold, 10.9 mΩ at 10 A (109 mV), so 8.5 mΩ; switch 50 mΩ: 0.2925 V; 1 m: 0.0925 V", "S1 switch-toggle contact_ohm=0.05\nF1 fuse-regular amp=10\nE1 load-two-pin amp=5\nW1 G1.+ F1.1 1mm2 1000\nW2 F1.2 S1.82" + fat + "\nW3 S1.82a E1.+" + fat + "\nW4 E1.- G1.-" + fat + "\nstate on off S1=on",
			"warning E1 in on 0.385 > 0.36 V [use 1.5 mm² for W1]"},
		{"small lamp", "5 W at 12 V: 0.4167 A over 6.5 m: 0.05 V of 0.1 V; 14 m: 0.107 V", "E1 lamp watt=5\nW1 G1.+ E1.1 1mm2 14000\nW2 E1.2 G1.-" + fat, "warning E1 0.1074 > 0.1 V [use 1.25 mm² for W1]"},
		{"large lamp", "the same wire for 21 W loses 0.44 V of 0.5 V", "E1 lamp watt=21\nW1 G1.+ E1.1 1mm2 14000\nW2 E1.2 G1.-" + fat, ""},
		{"load that is off", "nothing flows", "S1 switch-toggle\n" + "E1 load-two-pin amp=10\nW1 G1.+ S1.82 0.5mm2 9000\nW3 S1.82a E1.+ 0.5mm2 -\nW2 E1.- G1.-" + fat, ""},
		{"worst of two states", "", "M1 motor volt=12 amp=10\nW1 G1.+ M1.33 1mm2 3000\nW2 M1.32 G1.- 1mm2 100\nstate half off M1*0.5\nstate full off", "warning M1 in full 0.5297 > 0.5 V [use 1.25 mm² for W1]"},
		{"own limit", "", "limit drop_motor_line_volt=0.55\n" + motor("3000", "100"), ""},
		{"3 % of nominal", "0.36 V for electronics, and no limit on the feed alone", "drops 3 % and 10 % of nominal\n" + electronics("1900", "40"), ""},
		{"10 % of nominal, just inside", "1.2 V of a motor: 12/(1.2 + 0.1328) A; the feed alone has no limit", "drops 3 % and 10 % of nominal\n" + motor("7100", "80"), ""},
		{"10 % of nominal, just outside", "7.3 m: 12/(1.2 + 0.135) A", "drops 3 % and 10 % of nominal\n" + motor("7220", "80"), "warning M1 1.214 > 1.2 V [use 1.25 mm² for W1]"},
		{"aircraft", "0.5 V for all (AC 43.13-1B, Table 11-6, from memory)", "drops 0.5 V, or 1 V in a 24 V system\n" + motor("2900", "80"), "warning M1 0.5271 > 0.5 V [use 1.25 mm² for W1]"},
		{"own limit before the choice", "", "limit drop_motor_volt=2\ndrops 0.5 V, or 1 V in a 24 V system\n" + motor("2900", "80"), ""},
		{"24 V", "3 % of 24 V = 0.72 V", "volts 24\n" + electronics("1500", "1500"), ""},
		{"parallel feeds", "the better wire is followed, both have the same volts: 1 ∥ 4 mm² of 8 m is 30 mΩ", "E1 load-two-pin amp=10\nW1 G1.+ E1.+ 1mm2 8000\nW3 G1.+ E1.+ 4mm2 8000\nW2 E1.- G1.- 120mm2 1", ""},
	})
}

// 33 CFR 183.425 and ISO 10133 (from memory): 20 A bring 1 mm² in air of 30 °C
// to 105 °C. ΔT/(234.5+Ta+ΔT) = (10/20)²·75/339.5, so in air of 20 °C 10 A bring
// it to 34.9 °C and its resistance to 269.4/254.5 of that at 20 °C.
func TestVoltageDropInWarmWires(t *testing.T) {
	const load = "ambient 20\nG1 battery volt=12 ohm=0\nE1 load-two-pin amp=10\nW1 G1.+ E1.+ 1mm2 1940\nW2 E1.- G1.-" + fat
	tryRule(t, "voltage drop", "", []ruleCase{
		{"warm", "0.3589 V · 1.0585", load, "warning E1 0.3799 > 0.36 V [use 1.25 mm² for W1]"},
		{"left out", "by choice of the document", "unwarmed\n" + load, ""},
	})
}

func TestDropOnASensorSupply(t *testing.T) {
	// 3 % of 5 V = 0.15 V, from the regulator out and back to its ground.
	const base = "ambient 20\nG1 battery volt=12 ohm=0\nA1 control-unit running_amp=1 quiescent_amp=0.01 sensor_limit_amp=1\nA1.1 supply\nA1.2 ground\n" +
		"A1.3 sensor-supply joint_ohm=0.05\nA1.4 sensor-ground joint_ohm=0.05\nB1 sensor-pressure amp=0.1\nW1 G1.+ A1.1" + fat + "\nW2 A1.2 G1.-" + fat + "\nW4 B1.3 A1.4 0.5mm2 500"
	tryRule(t, "voltage drop", base, []ruleCase{
		{"inside", "0.1 A·(0.05 + 0.05 + 37.1 mΩ/m · 37 m) = 0.147 V", "W3 A1.3 B1.1 0.5mm2 36500", ""},
		{"outside", "38.5 m in all: 0.153 V", "W3 A1.3 B1.1 0.5mm2 38000", "warning B1 0.1528 > 0.15 V [use 0.75 mm² for W3]"},
	})
}

// 0.5 V on the plus side, 0.2 V on the minus side (workshop manuals).
func TestChargingLineDrop(t *testing.T) {
	plan := func(plus, minus string) string {
		return "unwarmed\nambient 20\nG1 battery volt=12 ohm=0.01\nG2 alternator volt=14.2 ohm=0.01 limit_amp=60\nE1 load-two-pin amp=30\nW1 G2.B+ G1.+ 4mm2 " + plus +
			"\nW2 G1.- G2.B- 4mm2 " + minus + "\nW3 G1.+ E1.+" + fat + "\nW4 E1.- G1.-" + fat + "\nstate off off\nstate run running"
	}
	tryRule(t, "charging line drop", "", []ruleCase{
		{"fine", "60 A over 4.71 mΩ/m: 1 m 0.28 V", plan("1000", "500"), ""},
		{"inside", "1.76 m 0.497 V, 0.7 m 0.198 V", plan("1760", "700"), ""},
		{"outside on plus", "1.78 m 0.503 V", plan("1780", "700"), "warning G2 G1 in run 0.503 > 0.5 V [use 5 mm² for W1]"},
		{"outside on minus", "0.72 m 0.2035 V", plan("1000", "720"), "warning G2 G1 in run 0.2035 > 0.2 V [use 5 mm² for W2]"},
		{"length missing", "", plan("1000", "-"), "not assessed G2 W2 in run without length of W2"},
	})
}
