package check_test

import "testing"

// ISO 10133 (from memory): 1 mm² at 105 °C 20 A at 30 °C; cooler limits by
// √((Tc−Ta)/(Tc−30)); 33 CFR 183.425 note 2 (from memory): 0.7 for three
// loaded. 33 CFR 183.425 Table 5: AWG 16 at 105 °C 25 A. Cranking: IEC 60949,
// k = 226·√ln((105+234.5)/(30+234.5)) = 112.9, 25 mm² for 30 s: 515.4 A.
func TestWireTooThin(t *testing.T) {
	const base = "ambient 30\nG1 battery volt=12.6 ohm=0.005"
	load := func(amp, wire string) string {
		return "E1 load-two-pin amp=" + amp + "\nW1 G1.+ E1.+ " + wire + "\nW2 E1.- G1.-" + fat
	}
	tryRule(t, "wire too thin", base, []ruleCase{
		{"fine", "5 A in 1 mm²", load("5", "1mm2 500"), ""},
		{"just inside", "19.99 of 20 A", load("19.99", "1mm2 500"), ""},
		{"just outside", "20.01 of 20 A", load("20.01", "1mm2 500"), "error W1 20.01 > 20 A [use 1.25 mm²]"},
		{"hot air", "20·√((105−60)/75) = 15.49 A at 60 °C", "ambient 60\n" + load("15.6", "1mm2 500"), "error W1 15.6 > 15.49 A [use 1.25 mm²]"},
		{"cooler insulation", "70 °C class: 14 A", load("14.1", "1mm2 500 temp=70"), "error W1 14.1 > 14 A [use 1.25 mm²]"},
		{"gauge", "AWG 16 at 105 °C: 25 A; AWG 14: 35 A", load("26", "AWG16 500"), "error W1 26 > 25 A [use AWG 14]"},
		{"thin air, just inside", "0.91 at 6096 m (AC 43.13-1B, example 2): 18.2 A", "limit altitude_m=6096\n" + load("18.19", "1mm2 500"), ""},
		{"thin air, just outside", "", "limit altitude_m=6096\n" + load("18.21", "1mm2 500"), "error W1 18.21 > 18.2 A [use 1.25 mm²]"},
		{"above the table", "unknown is never a pass", "limit altitude_m=20000\n" + load("5", "1mm2 500"), "not assessed W1 5 A without no factor for air at 20000 m above the sea\nnot assessed W2 5 A without no factor for air at 20000 m above the sea"},
		{"too hot for any current", "125 °C air round 105 °C insulation", "ambient 125\n" + load("0.1", "1mm2 500"), "error W1 0.1 > 0 A\nerror W2 0.1 > 0 A"},
		{"no size", "unknown is never a pass", load("5", "- 500"), "not assessed W1 5 A without the conductor size"},
		{"no insulation", "unknown is never a pass", load("5", "1mm2 500 bare"), "not assessed W1 5 A without the insulation temperature"},
		{"aluminium", "the lists are for copper", load("5", "10mm2 500 aluminium"),
			"not assessed W1 5 A without a rating list for aluminium wire"},
		{"no length still counts", "ampacity needs no length, a remedy does", load("21", "1mm2 -"), "error W1 21 > 20 A"},
		{"no current", "a wire nothing flows through is not judged", "E1 load-two-pin amp=50\nS1 switch-toggle\nW1 G1.+ S1.82 0.5mm2 9\nW2 S1.82a E1.+ 0.5mm2 9\nW3 E1.- G1.-" + fat, ""},
	})
}

func TestWireTooThinInABundle(t *testing.T) {
	const base = "ambient 30\nG1 battery volt=12.6 ohm=0.005\nsegment A 500\nsegment B 300\n" +
		"E1 load-two-pin amp=14.1\nE2 load-two-pin amp=1\nE3 load-two-pin amp=1\nE4 load-two-pin amp=0.4\n" +
		"W2 E1.- G1.-" + fat + "\nW4 E2.- G1.-" + fat + "\nW6 E3.- G1.-" + fat + "\nW8 E4.- G1.-" + fat + "\n" +
		"W1 G1.+ E1.+ 1mm2 500 on=A,B\nW3 G1.+ E2.+ 1mm2 500 on=A\n"
	tryRule(t, "wire too thin", base, []ruleCase{
		{"two together", "no reduction for two in 33 CFR 183.425", "W5 G1.+ E3.+ 1mm2 500 on=B\nW7 G1.+ E4.+ 1mm2 500 on=A", ""},
		{"three together", "20·0.7 = 14 A", "W5 G1.+ E3.+ 1mm2 500 on=A\nW7 G1.+ E4.+ 1mm2 500 on=A", "error W1 14.1 > 14 A [use 1.25 mm²]"},
		{"the fourth counts once it is loaded", "0.6 for four: 12 A", "limit loaded_amp=0.3\nW5 G1.+ E3.+ 1mm2 500 on=A\nW7 G1.+ E4.+ 1mm2 500 on=A", "error W1 14.1 > 12 A [use 1.5 mm²]"},
		{"other factors", "ISO 13297 reduces from four on", "choose ISO 13297\nW5 G1.+ E3.+ 1mm2 500 on=A\nW7 G1.+ E4.+ 1mm2 500 on=A", ""},
		{"of the US building code", "0.80 from four on", "choose US building code, 310.15\nW5 G1.+ E3.+ 1mm2 500 on=A\nW7 G1.+ E4.+ 1mm2 500 on=A", ""},
		{"and others still", "IEC 60364-5-52: 0.70 for three", "choose IEC 60364-5-52\nW5 G1.+ E3.+ 1mm2 500 on=A\nW7 G1.+ E4.+ 1mm2 500 on=A", "error W1 14.1 > 14 A [use 1.25 mm²]"},
	})
}

func TestWireTooThinWhileCranking(t *testing.T) {
	plan := func(amp, engine string) string {
		return "E1 load-two-pin amp=" + amp + "\nW1 G1.+ E1.+ 25mm2 500\nW2 E1.- G1.-" + fat + "\nstate s " + engine
	}
	const head = "ambient 30\nG1 battery volt=12.6 ohm=0.001"
	tryRule(t, "wire too thin", head, []ruleCase{
		{"inside", "515.4 A for 30 s", plan("510", "cranking"), ""},
		{"outside", "", plan("520", "cranking"), "error W1 in s 520 > 515.4 A [use 30 mm²]"},
		{"for good", "170 A while running", plan("180", "running"), "error W1 in s 180 > 170 A [use 30 mm²]"},
		{"a shorter time", "112.9·25/√10 = 892.7 A", "limit crank_s=10\n" + plan("880", "cranking"), ""},
	})
}
