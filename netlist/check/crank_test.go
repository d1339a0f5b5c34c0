package check_test

import "testing"

// 8 V at a unit: ISO 16750-2, starting profile level I (from memory); 9 V at a
// coil: common practice, no source. A starter of 60 mΩ at 12 V behind R of the
// battery: U = 12·0.06/(R + 0.0605), the starter's contact counted in.
func TestVoltageWhileCranking(t *testing.T) {
	plan := func(ohm, more string) string {
		return "unwarmed\nambient 20\nG1 battery volt=12 ohm=" + ohm + "\nM1 starter-motor amp=200\nS1 switch-push-make\nS2 switch-ignition\nW1 G1.+ M1.30" + fat + "\nW2 M1.31 G1.-" + fat + "\nW3 G1.+ S1.82" + fat + "\nW4 S1.82a M1.50" + fat +
			"\nA1 control-unit running_amp=0.5 quiescent_amp=0.01\nA1.1 supply joint_ohm=0\nA1.2 ground joint_ohm=0\nT1 ignition-coil-driver amp=1\nW5 G1.+ S2.30" + fat + "\nW7 A1.2 G1.-" + fat + "\nW9 T1.31 G1.-" + fat + "\n" + more
	}
	const fed, cut = "W6 S2.15 A1.1" + fat + "\nW8 S2.15 T1.15" + fat + "\n", "W6 S2.75 A1.1" + fat + "\nW8 S2.15 T1.15" + fat + "\n"
	const crank = "state run running S2=run\nstate crank cranking S1=pressed S2=start\n"
	const rule = "voltage while cranking"
	tryRule(t, rule, "", []ruleCase{
		{"fine", "10 mΩ: 10.2 V", plan("0.01", fed+crank), ""},
		{"coil just inside", "", plan("0.0182", fed+crank), ""},
		{"coil just outside", "9.0 V by the starter alone, less what its hold-in winding and the rest take", plan("0.0195", fed+crank), "warning T1 in crank 8.929 > 9 V"},
		{"unit just inside", "", "limit crank_coil_volt=5\n" + plan("0.0275", fed+crank), ""},
		{"unit just outside", "", "limit crank_coil_volt=5\n" + plan("0.029", fed+crank), "warning A1 in crank 7.939 > 8 V"},
		{"unit cut off by the switch", "75 is dead in start", plan("0.01", cut+crank), "warning A1 in crank 0 > 8 V"},
		{"unit that needs more", "its own figure counts", plan("0.01", "A2 control-unit running_amp=0.5 quiescent_amp=0.01 min_volt=10.5\nA2.1 supply\nA2.2 ground\nW10 S2.15 A2.1"+fat+"\nW11 A2.2 G1.-"+fat+"\n"+fed+crank), "warning A2 in crank 10.18 > 10.5 V"},
		{"no cranking state", "unknown is never a pass", plan("0.01", fed+"state run running S2=run"), "not assessed A1 T1 without an operating state that cranks the engine"},
		{"starter that does not turn", "nobody presses the button", plan("0.01", fed+"state crank cranking S2=start"), "not assessed A1 T1 without the current of the starter"},
		{"nothing that needs it", "", "G1 battery\nE1 lamp watt=5\nW1 G1.+ E1.1 1mm2 9\nW2 E1.2 G1.- 1mm2 9\nstate run running", ""},
		{"no states", "another rule asks for them", plan("0.01", fed), ""},
		{"24 V", "limits double", "volts 24\n" + plan("0.01", fed+crank), "warning T1 in crank 10.2 > 18 V\nwarning A1 in crank 10.2 > 16 V"},
	})
}

// 1 % of the span of 5 V: common practice, no source. 1 mm² 18.5 mΩ/m (ISO
// 6722, from memory).
func TestSensorGroundLifted(t *testing.T) {
	const sensor = "unwarmed\nB1 sensor-pressure amp=0.01\nW1 A1.5 B1.1 0.5mm2 900\nW2 B1.2 A1.7 0.5mm2 900\n"
	shared := func(amp, mm string) string { // the lamp's return shares the ground stud with the sensor
		return sensor + "E1 load-two-pin amp=" + amp + "\nGND2 ground-body joint_ohm=0\nGND3 ground-engine joint_ohm=0\nW3 B1.3 GND3.1 0.5mm2 1\nW4 G1.+ E1.+" + fat + "\nW5 E1.- GND3.1" + fat + "\nW6 GND3.1 G1.- 1mm2 " + mm
	}
	tryRule(t, "sensor ground lifted", engineUnit, []ruleCase{
		{"at the unit", "10 mA · (50 + 33) mΩ", sensor + "W3 B1.3 A1.6 0.5mm2 900", ""},
		{"just inside", "5.01 A over 0.55 m of 19.23 mΩ/m at 30 °C are 53 mV; the unit's own ground stands at 5 mV", shared("5", "550"), ""},
		{"just outside", "0.65 m: 62.6 − 5 mV", shared("5", "650"), "warning B1 A1 at 3 0.05761 > 0.05 V"},
		{"length unknown", "unknown is never a pass", shared("5", "-"), "not assessed B1 A1 W6 at 3 without length of W6"},
		{"own limit", "", "limit sensor_ground_ratio=0.02\n" + shared("5", "650"), ""},
		{"nobody reads it", "nothing to be off", "B1 sensor-pressure\nW3 B1.3 GND1.1 0.5mm2 900", ""},
		{"two wires", "a coolant sensor at the engine: 10 A over 0.6 m, less 5 mV", "unwarmed\nA1.9 input-analog-pull-up\nB2 sensor-coolant\nE1 load-two-pin amp=10\nGND3 ground-engine joint_ohm=0\nW1 B2.1 A1.9 0.5mm2 900\nW2 B2.2 GND3.1 0.5mm2 1\nW4 G1.+ E1.+" + fat + "\nW5 E1.- GND3.1" + fat + "\nW6 GND3.1 G1.- 1mm2 600",
			"warning B2 A1 at 2 0.1104 > 0.05 V"},
	})
}
