package check_test

import (
	"strings"
	"testing"
)

// ISO 8820-3 (seen second-hand): blade fuses break 1000 A. 12.6 V over battery,
// 600 mm of 6 mm² at 20 °C (3.14 mΩ/m by ISO 6722-1, from memory): 992 A with
// 10.82 mΩ in the battery, 1009 A with 10.6 mΩ.
func TestShortBeyondFuse(t *testing.T) {
	const wires = "\nE1 lamp watt=21\nW1 G1.+ F1.1 6mm2 600\nW2 F1.2 E1.1 2.5mm2 2000\nW9 E1.2 G1.- 2.5mm2 500\nambient 20"
	one := func(battery, fuse string) string { return "G1 battery volt=12.6 " + battery + "\n" + fuse + wires }
	unknown := strings.Replace(wires, "600", "-", 1)
	tryRule(t, "short beyond fuse", "", []ruleCase{
		{"fine", "12.6 V / 51.9 mΩ", one("ohm=0.05", "F1 fuse-regular amp=15"), ""},
		{"just inside", "12.6 V / (10.82 + 1.88) mΩ = 992 A", one("ohm=0.01082", "F1 fuse-regular amp=15"), ""},
		{"just outside", "12.6 V / (10.6 + 1.88) mΩ = 1009 A", one("ohm=0.0106", "F1 fuse-regular amp=15"), "error F1 1009 > 1000 A"},
		{"bolted", "ISO 8820-5 (from memory): 2000 A", one("ohm=0.0106", "F1 fuse-sf30 amp=40"), ""},
		{"its own capacity", "as its maker says", one("ohm=0.0106", "F1 fuse-regular amp=15 break_amp=2000"), ""},
		{"with the alternator", "992 A and 20 A", one("ohm=0.01082", "F1 fuse-regular amp=15") + "\nG2 alternator limit_amp=20\nW7 G2.B- G1.- 6mm2 500\nW8 G2.B+ G1.+ 6mm2 100", "error F1 1012 > 1000 A"},
		{"breaking capacity unknown", "", one("ohm=0.05", "F1 circuit-breaker amp=15"), "not assessed F1 242.8 A without the breaking capacity of F1"},
		{"battery unknown", "the usual 6 mΩ would give 1599 A", one("", "F1 fuse-regular amp=15"), "not assessed G1 F1 without the inner resistance or the cold cranking current of G1"},
		{"length unknown", "at 500 A it does not matter, at 1050 A it does", "G1 battery volt=12.6 ohm=0.012\nF1 fuse-regular amp=15" + unknown,
			"not assessed F1 without the length of W1"},
		{"length unknown and of no matter", "", "G1 battery volt=12.6 ohm=0.025\nF1 fuse-regular amp=15" + unknown, ""},
		{"more volts than made for", "32 V", "volts 48\nG1 battery volt=50 ohm=0.2\nF1 fuse-regular amp=15" + wires, "error F1 50 > 32 V"},
	})
}

// Four gauge numbers: a link of 0.8 mm² wants 2.02 mm², one of 1 mm² 2.53 mm²
// (trade lists, seen second-hand).
func TestFusibleLinkTooThick(t *testing.T) {
	const base = "ambient 30\nG1 battery volt=12.6 ohm=0.02\nE1 lamp watt=21\nW9 E1.2 G1.- 2.5mm2 500\n"
	tryRule(t, "fusible link too thick for wire", base, []ruleCase{
		{"fine", "0.5 mm² before 2.5 mm²", "F1 fusible-link link_mm2=0.5 ohm=0.006\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 2.5mm2 2000", ""},
		{"just inside", "0.8 mm² before 2 mm², a pair of the lists", "F1 fusible-link link_mm2=0.8 ohm=0.004\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 2mm2 2000", ""},
		{"just outside", "1 mm² before 2 mm²", "F1 fusible-link link_mm2=1 ohm=0.003\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 2mm2 2000", "warning W2 F1 2 > 2.528 mm2 [use 3 mm² for W2]"},
		{"gauge", "AWG 18 before AWG 14, four numbers", "F1 fusible-link link_mm2=0.823 ohm=0.004\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 AWG14 2000", ""},
		{"one gauge less", "AWG 16: 1.309 mm²", "F1 fusible-link link_mm2=0.823 ohm=0.004\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 AWG16 2000", "warning W2 F1 1.309 > 2.081 mm2 [use AWG 14 for W2]"},
		{"area unknown", "unknown is never a pass", "F1 fusible-link ohm=0.004\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 2mm2 2000", "not assessed F1 without the conductor area of F1"},
		{"size unknown", "", "F1 fusible-link link_mm2=0.8 ohm=0.004\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 - 2000", "not assessed W2 F1 without the size of W2"},
		{"a fuse is no link", "", "F1 fuse-regular amp=10\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 1mm2 2000", ""},
	})
	// A link has no rating, so that the rule on ratings leaves it alone.
	tryRule(t, "fuse too large for wire", base, []ruleCase{
		{"link without rating", "", "F1 fusible-link link_mm2=0.8 ohm=0.004\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 2mm2 2000", ""},
	})
}

// Beyond six times its rating a blade of 10 A lets at most 360 A²s through, one
// of 15 A 810 and one of 20 A 1440; a maxi of 20 A opens at 0.04 · 120² = 576
// A²s, one of 30 A at 1296 (ISO 8820-3, from memory).
func TestFuseBeforeFuse(t *testing.T) {
	const base = "G1 battery volt=12.6 ohm=0.02\nE1 lamp watt=21\nW9 E1.2 G1.- 6mm2 500\n"
	two := func(far, near string) string {
		return base + "F1 " + far + "\nF2 " + near + "\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 F2.1 6mm2 500\nW3 F2.2 E1.1 2.5mm2 500"
	}
	tryRule(t, "fuse before fuse opens as well", "", []ruleCase{
		{"fine", "10 A behind a maxi of 60 A", two("fuse-maxi amp=60", "fuse-regular amp=10"), ""},
		{"just inside", "360 A²s behind 576", two("fuse-maxi amp=20", "fuse-regular amp=10"), ""},
		{"just outside", "810 A²s behind 576, at any short from the 321 A at the far end up", two("fuse-maxi amp=20", "fuse-regular amp=15"), "note F1 F2 320.8 A"},
		{"no larger", "the farther one opens first", two("fuse-regular amp=10", "fuse-regular amp=15"), "warning F1 F2 10 > 15 A"},
		{"opens first for certain", "a quick 15 A before a slow 80 A bolt, and rated no larger", two("fuse-regular amp=15", "fuse-sf51 amp=80"), "warning F1 F2 15 > 80 A"},
		{"link before a quick fuse", "1 mm² melts at (226² · ln) 76 000 A²s", two("fusible-link link_mm2=1 ohm=0.003", "fuse-regular amp=10"), ""},
		{"rating unknown", "unknown is never a pass", two("fuse-maxi", "fuse-regular amp=10"), "not assessed F1 F2 without F1: the fuse rating"},
		{"side by side", "neither lies before the other", base + "F1 fuse-regular amp=10\nF2 fuse-regular amp=10\nE2 lamp watt=5\nW1 G1.+ F1.1 6mm2 100\nW2 G1.+ F2.1 6mm2 100\nW3 F1.2 E1.1 2.5mm2 500\nW4 F2.2 E2.1 1mm2 500\nW5 E2.2 G1.- 1mm2 500", ""},
	})
}

// A surge of exponential fall brings ½·i²·τ (fuse selection guide, seen
// second-hand) and 2·i·I·τ with the current that flows on. 10 000 starts: 29 %
// of the melting heat, of a 10 A type C blade 115 A²s (from memory): 33.4 A²s.
// The motor of 1 A stalls at 12 V/ohm; over 10 mΩ of feed and 7.7 mΩ of fuse.
func TestFuseWornByStarting(t *testing.T) {
	const base = "unwarmed\nG1 battery volt=12 ohm=0.01\nW1 G1.+ F1.1" + fat + "\nW2 F1.2 M1.33" + fat + "\nW3 M1.32 G1.-" + fat + "\nstate s running\n"
	motor := func(values, fuse string) string { return "F1 " + fuse + "\nM1 motor volt=12 " + values + "\n" + base }
	tryRule(t, "fuse worn by starting", "", []ruleCase{
		{"fine", "½ · 14² · 0.1 = 10 A²s", motor("amp=1 stall_amp=15", "fuse-regular amp=10"), ""},
		{"just inside", "held to 24.6 A: ½ · 23.6² · 0.1 + 2 · 23.6 · 0.1 = 32.6 A²s", motor("amp=1 stall_amp=25.5", "fuse-regular amp=10"), ""},
		{"just outside", "held to 25.5 A: ½ · 24.5² · 0.1 + 2 · 24.5 · 0.1 = 34.8 A²s", motor("amp=1 stall_amp=26.5", "fuse-regular amp=10"), "warning F1 in s 34.82 > 33.35 A2s [fit 15 A in F1]"},
		{"opens at once", "½ · 54² · 0.1 + 2 · 54 · 0.1, more than all of it; 29 % of the 520 A²s of 20 A are too little", motor("amp=1 stall_amp=60", "fuse-regular amp=10"), "error F1 in s 156.8 > 115 A2s [fit 25 A in F1]"},
		{"fewer starts", "100: 48 %", "limit fuse_starts=100\n" + motor("amp=1 stall_amp=28", "fuse-regular amp=10"), ""},
		{"a shorter start", "", "limit motor_start_s=0.05\n" + motor("amp=1 stall_amp=28", "fuse-regular amp=10"), ""},
		{"its own melting heat", "as its maker says", motor("amp=1 stall_amp=28", "fuse-regular amp=10 melt_a2s=140"), ""},
		{"stall current unknown", "twelve times 4 A would be too much", motor("amp=4", "fuse-regular amp=10"), "not assessed F1 in s without the stall current of M1"},
		{"stall current unknown and of no matter", "twelve times 0.5 A", motor("amp=0.5", "fuse-regular amp=10"), ""},
		{"rating unknown", "", motor("amp=1 stall_amp=26.5", "fuse-regular ohm=0.008"), "not assessed F1 in s without the fuse rating"},
		{"a breaker does not age", "SAE J553 (from memory): 1 · 20² A²s", motor("amp=1 stall_amp=60", "circuit-breaker amp=10"), ""},
	})
	const unit = "unwarmed\nG1 battery volt=12 ohm=0.01\nF1 fuse-regular amp=5\nW1 G1.+ F1.1" + fat + "\nW2 F1.2 E1.+" + fat + "\nW3 E1.- G1.-" + fat + "\nstate s running\n"
	tryRule(t, "fuse worn by starting", "", []ruleCase{
		{"unit that says its heat", "29 % of 26 A²s, a data sheet: 7.54", "E1 load-two-pin amp=1 start_a2s=7\n" + unit, ""},
		{"unit with more", "", "E1 load-two-pin amp=1 start_a2s=8\n" + unit, "warning F1 in s 8 > 7.54 A2s [fit 7.5 A in F1]"},
	})
}
