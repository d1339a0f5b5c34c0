package check_test

import "testing"

// What nobody said is never a pass: where a rule gives its verdict all the same,
// another rule asks for what is missing.
func TestLoadBehindAFuseWithoutRating(t *testing.T) {
	tryRule(t, "load without fuse", "G1 battery\nE1 lamp watt=21\nW3 E1.2 G1.- 1mm2 9", []ruleCase{
		{"fuse without rating", "it is a fuse; another rule asks for its rating", "F1 fuse-regular\nW1 G1.+ F1.1 1mm2 9\nW2 F1.2 E1.1 1mm2 9", ""},
		{"lamp of unknown power", "it needs one all the same; another rule asks for the power", "E2 lamp\nF1 fuse-regular amp=5\nW1 G1.+ F1.1 1mm2 9\nW2 F1.2 E1.1 1mm2 9\nW4 G1.+ E2.1 1mm2 9\nW5 E2.2 G1.- 1mm2 9", "error E2"},
	})
}

// How a current divides between two ways hangs on the resistance of both.
func TestCurrentThatDividesByWhatNobodySaid(t *testing.T) {
	plan := func(amp, first, second string) string {
		return "ambient 30\nunwarmed\nG1 battery volt=12 ohm=0\nE1 load-two-pin amp=" + amp + "\nW1 G1.+ E1.+ " + first + "\nW3 G1.+ E1.+ " + second + "\nW2 E1.- G1.-" + fat
	}
	tryRule(t, "wire too thin", "", []ruleCase{
		{"two ways, just inside", "20 A together, either alone bears them", plan("19.9", "1mm2 1000", "1mm2 -"), ""},
		{"two ways, just outside", "20.1 A: the shares are not known", plan("20.1", "1mm2 1000", "1mm2 -"), "not assessed W1 W3 without length of W3"},
		{"both known", "each carries half", plan("30", "1mm2 1000", "1mm2 1000"), ""},
	})
	alternator := func(mm string) string {
		return "unwarmed\nambient 25\nG1 battery volt=12.6 ohm=0.01\nG2 alternator limit_amp=60\nF1 fuse-sf51 amp=100\nE1 load-two-pin amp=40\nW1 G1.+ F1.1 16mm2 " + mm + "\nW2 F1.2 E1.+" + fat + "\nW3 G2.B+ E1.+" + fat + "\nW4 E1.- G1.-" + fat + "\nW5 G2.B- G1.-" + fat + "\nstate run running"
	}
	tryRule(t, "fuse overloaded", "", []ruleCase{
		{"battery and alternator", "", alternator("500"), ""},
		{"length of the cable missing", "40 A and what charges the battery: up to 100 A of 75 A", alternator("-"), "not assessed F1 W1 in run without length of W1"},
	})
	switches := func(mm string) string {
		return "unwarmed\nambient 25\nG1 battery volt=12 ohm=0\nS1 switch-toggle rated_amp=10 contact_ohm=0.01\nS2 switch-toggle rated_amp=10 contact_ohm=0.01\nE1 load-two-pin amp=16\nW1 G1.+ S1.82 2.5mm2 500\nW2 G1.+ S2.82 2.5mm2 " + mm +
			"\nW3 S1.82a E1.+" + fat + "\nW4 S2.82a E1.+" + fat + "\nW5 E1.- G1.-" + fat + "\nstate on off S1=on S2=on"
	}
	tryRule(t, "contact or driver overloaded", "", []ruleCase{
		{"side by side", "8 A each", switches("500"), ""},
		{"side by side, a length missing", "16 A may flow through one", switches("-"), "not assessed S1 S2 W2 in on without length of W2"},
	})
}

// A load of unknown current may load wires and lift grounds of others.
func TestLoadsBesideOneOfUnknownCurrent(t *testing.T) {
	const bundle = "ambient 30\nG1 battery volt=12.6 ohm=0.005\nsegment A 500\nE1 load-two-pin amp=14.1\nE2 load-two-pin amp=1\n" +
		"W2 E1.- G1.-" + fat + "\nW4 E2.- G1.-" + fat + "\nW6 E3.- G1.-" + fat + "\nW1 G1.+ E1.+ 1mm2 500 on=A\nW3 G1.+ E2.+ 1mm2 500 on=A\nW5 G1.+ E3.+ 1mm2 500 on=A\n"
	tryRule(t, "wire too thin", "E3 load-two-pin amp=0.4\n"+bundle, []ruleCase{
		{"two loaded, one not", "33 CFR 183.425 reduces from three on", "", ""},
	})
	tryRule(t, "wire too thin", "E3 load-two-pin\n"+bundle, []ruleCase{
		{"two loaded, one not known", "with three 14 A would be the most", "", "not assessed W1 E3 without the current of E3"},
	})
	const shared = "unwarmed\nambient 20\nG1 battery volt=12 ohm=0\nSP1 splice\nSP2 splice\nE1 load-two-pin amp=5\nW1 G1.+ SP1.1 1mm2 500\nW2 SP1.1 E1.+" + fat + "\nW3 E1.- SP2.1" + fat + "\nW4 SP2.1 G1.- 1mm2 500\nW5 SP1.1 E2.+" + fat + "\nW6 E2.- SP2.1" + fat + "\n"
	for _, rule := range []string{"voltage drop", "ground lifted by others"} {
		want := "not assessed E1 E2 without the current of E2"
		if got := said(t, "E2 load-two-pin\n"+shared, rule); got != want {
			t.Errorf("%s: %q, want %q", rule, got, want)
		}
		if got := said(t, "E2 load-two-pin amp=0.1\n"+shared, rule); got != "" {
			t.Errorf("%s: %q, want nothing", rule, got)
		}
	}
}
