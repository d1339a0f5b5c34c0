package check_test

import "testing"

func TestDefaultForAnotherVoltage(t *testing.T) {
	tryRule(t, "default for another voltage", "", []ruleCase{
		{"12 V", "", "E1 lamp watt=21\nK1 relay-make", ""},
		{"14 V", "a 12 V system with the engine running", "volts 14\nE1 lamp watt=21", ""},
		{"just inside", "", "volts 17.9\nE1 lamp watt=21", ""},
		{"just outside", "", "volts 18\nE1 lamp watt=21", "not assessed E1 without rated voltage"},
		{"lower", "", "volts 8\nE1 lamp watt=21", "not assessed E1 without rated voltage"},
		{"24 V, relay", "a typical 24 V relay has 320 Ω and pulls in at 16.8 V", "volts 24\nK1 relay-make",
			"not assessed K1 without coil resistance, pull-in voltage and drop-out voltage"},
		{"24 V, said", "what is given counts", "volts 24\nE1 lamp watt=21 volt=24\nK1 relay-make coil_ohm=320 pull_in_volt=16.8 drop_out_volt=2.4", ""},
		{"24 V, one said", "", "volts 24\nK1 relay-make coil_ohm=320 pull_in_volt=16.8", "not assessed K1 without drop-out voltage"},
		{"24 V, two batteries", "are drawn in series", "volts 24\nG1 battery\nG2 battery", ""},
		{"24 V, nothing that depends on it", "", "volts 24\nE1 load-resistive ohm=5\nV1 diode", ""},
	})
}
