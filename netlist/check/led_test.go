package check_test

import "testing"

// 20 mA: common practice, no source. Resistors of the E12 series: IEC 60063
// (from memory). The LED takes 2 V and 10 Ω.
func TestIndicatorBadlyFed(t *testing.T) {
	plan := func(volt, led string) string {
		return "G1 battery volt=" + volt + " ohm=0\nH1 indicator-led " + led + "\nW1 G1.+ H1.+" + fat + "\nW2 H1.- G1.-" + fat
	}
	tryRule(t, "indicator badly fed", "", []ruleCase{
		{"fine", "10 V / 690 Ω = 14.5 mA", plan("12", ""), ""},
		{"just inside", "10 V / 510 Ω = 19.6 mA", plan("12", "series_ohm=500"), ""},
		{"just outside", "10 V / 480 Ω = 20.8 mA", plan("12", "series_ohm=470"), "warning H1 0.02083 > 0.02 A [use 560 Ω for the LED of H1]"},
		{"made for 12 V, at 24 V", "22 V / 690 Ω", "volts 24\n" + plan("24", ""), "warning H1 0.03188 > 0.02 A [use 1.2 kΩ for the LED of H1]"},
		{"own limit", "", "limit led_amp=0.025\n" + plan("12", "series_ohm=470"), ""},
		{"wrong way round", "", "G1 battery volt=12 ohm=0\nH1 indicator-led\nW1 G1.+ H1.-" + fat + "\nW2 H1.+ G1.-" + fat, "error H1 12 > 0 V [swap the wires at + and - of H1]"},
		{"lights in another state", "between two switched lines", "G1 battery volt=12 ohm=0\nS1 switch-change-over\nS2 switch-change-over\nH1 indicator-led\nW1 G1.+ S1.81a" + fat + "\nW2 G1.- S1.81b" + fat + "\nW3 S1.81 H1.+" + fat + "\nW4 G1.- S2.81a" + fat + "\nW5 G1.+ S2.81b" + fat + "\nW6 S2.81 H1.-" + fat + "\nstate on off\nstate turned off S1=b S2=b", ""},
		{"in a switch", "", "G1 battery volt=24 ohm=0\nS1 switch-illuminated\nW1 G1.+ S1.82" + fat + "\nW2 S1.31 G1.-" + fat + "\nstate on off S1=on", "warning S1 in on 0.03188 > 0.02 A [use 1.2 kΩ for the LED of S1]"},
		{"resistor that cannot be", "another rule asks for it", plan("12", "series_ohm=-1"), ""},
	})
}

func TestDriverOfUnknownLimit(t *testing.T) {
	plan := func(limit string) string {
		return engineUnit + "A1.21 output-low " + limit + "\nK1 relay-make-diode\nK2 relay-make-diode\nW1 G1.+ K1.86 1mm2 9\nW2 K1.85 A1.20 1mm2 9\nW3 G1.+ K2.86 1mm2 9\nW4 K2.85 A1.21 1mm2 9\n"
	}
	tryRule(t, "contact or driver overloaded", "", []ruleCase{
		{"off", "", plan("") + "state off off", ""},
		{"both on", "unknown is never a pass, however small the current; said once for the unit", plan("") + "state on running A1:20=on A1:21=on", "not assessed A1 at 20 at 21 in on 0.1397 A without the limit of A1 pin 20 and A1 pin 21"},
		{"one known, just inside", "12.6 V / 90.15 Ω = 139.8 mA, less 5 mV at the unit", plan("limit_amp=0.14") + "state on running A1:20=on A1:21=on", "not assessed A1 at 20 in on 0.1397 A without the limit of A1 pin 20"},
		{"one known, just outside", "", plan("limit_amp=0.139") + "state on running A1:20=on A1:21=on", "error A1 at 21 in on 0.1397 > 0.139 A\nnot assessed A1 at 20 in on 0.1397 A without the limit of A1 pin 20"},
	})
}

// Half of the rating: data sheet of a mini relay, at most 4 lamps of 60 W, which
// are 20 A at 12 V, on a contact for 30 A at 85 °C and 45 A at 23 °C (seen
// second-hand).
func TestRelayTooSmallForItsLamps(t *testing.T) {
	plan := func(rated, loads string) string {
		return "G1 battery volt=12 ohm=0\nK1 relay-make " + rated + " contact_ohm=0\nW1 G1.+ K1.86" + fat + "\nW2 K1.85 G1.-" + fat + "\nW3 G1.+ K1.30" + fat + "\n" + loads + "\nstate on off"
	}
	lamp := func(watt string) string {
		return "E1 lamp watt=" + watt + "\nW4 K1.87 E1.1" + fat + "\nW5 E1.2 G1.-" + fat
	}
	tryRule(t, "relay too small for its lamps", "", []ruleCase{
		{"two lamps of 55 W", "9.17 of 20 A", plan("", lamp("110")), ""},
		{"four lamps of 60 W, just inside", "20 A less what joints take", plan("", lamp("240")), ""},
		{"just outside", "", plan("rated_amp=39.9", lamp("240")), "warning K1 in on 20 > 19.95 A"},
		{"a heater beside it", "does not rush", plan("", lamp("110")+"\nR1 heater ohm=0.5\nW6 K1.87 R1.1"+fat+"\nW7 R1.2 G1.-"+fat), ""},
		{"more than the rating", "another rule says so", plan("rated_amp=19", lamp("240")), ""},
		{"motor", "not looked at", plan("", "M1 motor volt=12 amp=30\nW4 K1.87 M1.33"+fat+"\nW5 M1.32 G1.-"+fat), ""},
		{"lamp of unknown power", "another rule asks for it", plan("", "E1 lamp\nW4 K1.87 E1.1"+fat+"\nW5 E1.2 G1.-"+fat), ""},
		{"own limit", "", "limit relay_lamp_ratio=0.8\n" + plan("rated_amp=30", lamp("240")), ""},
	})
}
