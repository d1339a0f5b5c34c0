package check_test

import "testing"

func TestCoilSuppression(t *testing.T) {
	relay := func(kind string) string {
		return engineUnit + "K1 " + kind + "\nW1 G1.+ K1.86 1mm2 9\nW2 K1.85 A1.20 1mm2 9\n"
	}
	tryRule(t, "coil without suppression", "", []ruleCase{
		{"nothing across it", "", relay("relay-make"), "warning K1 A1 at 20"},
		{"diode in the relay", "", relay("relay-make-diode"), ""},
		{"resistor in the relay", "", relay("relay-make-resistor"), ""},
		{"diode beside it", "", relay("relay-make") + "V1 diode\nW3 K1.85 V1.A 1mm2 9\nW4 V1.K K1.86 1mm2 9", ""},
		{"suppression diode beside it", "", relay("relay-make") + "V1 diode-suppression\nW3 K1.85 V1.1 1mm2 9\nW4 V1.2 K1.86 1mm2 9", ""},
		{"resistor beside it", "", relay("relay-make") + "R1 resistor ohm=680\nW3 K1.85 R1.1 1mm2 9\nW4 R1.2 K1.86 1mm2 9", ""},
		{"diode somewhere else", "", relay("relay-make") + "V1 diode\nW3 K1.85 V1.A 1mm2 9", "warning K1 A1 at 20"},
		{"driver behind a diode", "", engineUnit + "K1 relay-make\nV1 diode\nW1 G1.+ K1.86 1mm2 9\nW2 K1.85 V1.A 1mm2 9\nW3 V1.K A1.20 1mm2 9", "warning K1 A1 at 20"},
		{"switched by hand", "a switch bears it", engineUnit + "K1 relay-make\nS1 switch-toggle\nW1 G1.+ S1.82 1mm2 9\nW2 S1.82a K1.86 1mm2 9\nW3 K1.85 GND1.1 1mm2 9", ""},
		{"valve", "units are made for them", engineUnit + "Y1 solenoid-valve ohm=12\nW1 G1.+ Y1.1 1mm2 9\nW2 Y1.2 A1.20 1mm2 9", ""},
	})
	tryRule(t, "short across a source", "", []ruleCase{
		{"diode of a relay the wrong way round", "86 at the driver, 85 at plus", engineUnit + "K1 relay-make-diode\nW1 G1.+ K1.85 1mm2 9\nW2 K1.86 A1.20 1mm2 9", "warning K1 A1"},
	})
}

func TestCoilDuty(t *testing.T) {
	plan := func(kind, engine, duty string) string {
		return "G1 battery ohm=0\nS1 switch-toggle\nK1 " + kind + "\nW1 G1.+ S1.82" + fat + "\nW2 S1.82a K1.86" + fat + "\nW3 K1.85 G1.-" + fat + "\nstate on " + engine + " S1=" + duty + "\nstate parked off"
	}
	tryRule(t, "coil of short duty held on", "", []ruleCase{
		{"continuous duty", "", plan("solenoid-continuous", "running", "on"), ""},
		{"intermittent, cranking", "is short", plan("solenoid-intermittent", "cranking", "on"), ""},
		{"intermittent, off", "", plan("solenoid-intermittent", "running", "off"), ""},
		{"intermittent, running", "", plan("solenoid-intermittent", "running", "on"), "warning K1 in on 12.57 V"},
		{"a quarter of the voltage, just inside", "2.99 of 3 V", "G1 battery volt=2.99 ohm=0\nK1 solenoid-intermittent\nW1 G1.+ K1.86" + fat + "\nW3 K1.85 G1.-" + fat + "\nstate on running", ""},
		{"a quarter of the voltage, just outside", "", "G1 battery volt=3.01 ohm=0\nK1 solenoid-intermittent\nW1 G1.+ K1.86" + fat + "\nW3 K1.85 G1.-" + fat + "\nstate on running", "warning K1 in on 3.01 V"},
		{"relay", "its duty is not given as short", plan("relay-make", "running", "on"), ""},
		{"starter held in", "", "G1 battery ohm=0\nM1 starter-motor amp=150\nW1 G1.+ M1.30" + fat + "\nW2 M1.31 G1.-" + fat + "\nW3 G1.+ M1.50" + fat + "\nstate run running", "warning M1 in run 12.6 V"},
	})
}

// AC 43.13-1B Table 11-4 at 12 V: lamp 5, inductive 2, resistive 1, motor 2; at
// 28 V: lamp 8. Its first example is two lamps of 55 W at 12 V: 45.8 A.
func TestSwitchLoad(t *testing.T) {
	plan := func(rated, load, pins string) string {
		a, b := pins[:1], pins[1:]
		return "S1 switch-toggle rated_amp=" + rated + " contact_ohm=0\nE1 " + load + "\nW1 G1.+ S1.82" + fat + "\nW2 S1.82a E1." + a + fat + "\nW3 E1." + b + " G1.-" + fat + "\nstate on off S1=on"
	}
	tryRule(t, "switch too small for its load", "G1 battery volt=12 ohm=0", []ruleCase{
		{"two lamps of 55 W, just inside", "45.8 A", plan("45.9", "lamp watt=110", "12"), ""},
		{"two lamps of 55 W, just outside", "", plan("45.7", "lamp watt=110", "12"), "warning S1 in on 45.83 > 45.7 A"},
		{"motor", "10 A need 20 A", plan("19", "horn amp=10", "12"), "warning S1 in on 20 > 19 A"},
		{"heater", "10 A need 10 A", plan("10.1", "heater ohm=1.2", "12"), ""},
		{"electronics", "counts as it is", plan("10.1", "load-two-pin amp=10", "+-"), ""},
		{"more than the rating", "another rule says so", plan("5", "lamp watt=110", "12"), ""},
		{"rating unknown", "another rule asks for it", "S1 switch-toggle\nE1 lamp watt=110\nW1 G1.+ S1.82" + fat + "\nW2 S1.82a E1.1" + fat + "\nW3 E1.2 G1.-" + fat + "\nstate on off S1=on", ""},
		{"lamp and heater", "5 A · 5 + 5 A", plan("29", "lamp watt=60", "12") + "\nE2 heater ohm=2.4\nW4 S1.82a E2.1" + fat + "\nW5 E2.2 G1.-" + fat, "warning S1 in on 30 > 29 A"},
		{"in the return", "", "S1 switch-toggle rated_amp=24 contact_ohm=0\nE1 lamp watt=60\nW1 G1.+ E1.1" + fat + "\nW2 E1.2 S1.82" + fat + "\nW3 S1.82a G1.-" + fat + "\nstate on off S1=on", "warning S1 in on 25 > 24 A"},
		{"other system voltage", "no factors are published", "volts 48\n" + plan("24", "lamp watt=60", "12"), "not assessed S1 in on without switch factors are given for 12 and 24 V, not for 48 V"},
	})
}
