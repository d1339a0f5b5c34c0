package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// At most 50 mA (vehicle workshop manuals, seen second-hand). 60 Ah feed 50 mA
// for 600 h, 25 days, until half is gone (reference §12.4, common practice).
func TestKeyOffCurrent(t *testing.T) {
	const base = "G1 battery ohm=0 capacity_ah=60"
	draw := func(amp string) string {
		return "E1 load-two-pin amp=" + amp + "\nW1 G1.+ E1.+" + fat + "\nW2 E1.- G1.-" + fat + "\nstate parked off"
	}
	tryRule(t, "key-off current", base, []ruleCase{
		{"fine", "next to nothing", draw("0.0009"), ""},
		{"worth telling", "60 Ah feed 5 mA for 250 days", draw("0.005"), "note G1 in parked 0.005 A"},
		{"just inside", "", draw("0.0499"), "note G1 in parked 0.0499 A"},
		{"just inside, capacity unknown", "nothing to say about days", "G9 battery ohm=0.001\nW8 G9.+ G1.+" + fat + "\nW9 G9.- G1.-" + fat + "\n" + draw("0.0499"), ""},
		{"just outside", "", draw("0.0501"), "warning G1 in parked 0.0501 > 0.05 A"},
		{"own limit", "", "limit key_off_amp=0.02\n" + draw("0.03"), "warning G1 in parked 0.03 > 0.02 A"},
		{"current unknown", "unknown is never a pass", "E1 load-two-pin\nW1 G1.+ E1.+" + fat + "\nW2 E1.- G1.-" + fat + "\nstate parked off", "not assessed G1 in parked 0 A without the current of E1"},
		{"current unknown behind an open switch", "it draws nothing", "S1 switch-toggle\nE1 load-two-pin\nW1 G1.+ S1.82" + fat + "\nW3 S1.82a E1.+" + fat + "\nW2 E1.- G1.-" + fat + "\nstate parked off S1=off", ""},
		{"no state at rest", "it is computed", draw("1") + "\nS1 switch-toggle\nstate on off S1=on", "warning G1 in parked 1 > 0.05 A"},
		{"only states with something on", "nobody drew the parked vehicle, so it is computed",
			"S1 switch-toggle\nE1 load-two-pin amp=5\nE2 load-two-pin amp=0.07\nW1 G1.+ S1.82" + fat + "\nW3 S1.82a E1.+" + fat + "\nW2 E1.- G1.-" + fat + "\nW4 G1.+ E2.+" + fat + "\nW5 E2.- G1.-" + fat + "\nstate on running S1=on",
			"warning G1 0.07 > 0.05 A"},
		{"two side by side", "both count together", "G2 battery ohm=0.001\nW8 G2.+ G1.+" + fat + "\nW9 G2.- G1.-" + fat + "\n" + draw("0.06"), "warning G1 G2 in parked 0.06 > 0.05 A"},
		{"two side by side, one lower", "(12.6 − 12.59) V / 10 mΩ = 1 A flows over, none of it into the vehicle", "G2 battery volt=12.59 ohm=0.01\nW8 G2.+ G1.+" + fat + "\nW9 G2.- G1.-" + fat + "\n" + draw("0.0009"),
			"warning G2 G1 in parked 0.9997 > 0.05 A"},
		{"two side by side, one just inside", "(12.6 − 12.5996) V / 10 mΩ = 40 mA", "G2 battery volt=12.5996 ohm=0.01\nW8 G2.+ G1.+" + fat + "\nW9 G2.- G1.-" + fat + "\n" + draw("0.0001"), ""},
		{"two in series", "the same current flows through both", "G2 battery ohm=0\nW9 G2.- G1.+" + fat + "\nE1 load-two-pin amp=0.06\nW1 G2.+ E1.+" + fat + "\nW2 E1.- G1.-" + fat + "\nstate parked off", "warning G1 in parked 0.06 > 0.05 A"},
		{"no states", "another rule asks for them", "E1 load-two-pin amp=1\nW1 G1.+ E1.+" + fat + "\nW2 E1.- G1.-" + fat, ""},
	})
	for _, f := range run(t, doc(t, base+"\n"+draw("0.1"))) {
		if f.Rule == "key-off current" {
			assert.Contains(t, f.Text, "12.5 days", "0.5 · 60 Ah / 0.1 A / 24 h")
		}
	}
}
