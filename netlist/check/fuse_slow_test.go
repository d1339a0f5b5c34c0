package check_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// IEC 60949, K = 226, from 105 °C; PVC 160 °C for 5 s (IEC 60364-5-54, from
// memory), 155 °C for 6 h (ISO 6722-1, from memory); ISO 10133 (from memory):
// 1.5 mm² 25 A at 105 °C. ISO 8820-3 type C (from memory): 1.35 times within
// 600 s, 1.6 within 50 s, 2 within 5 s. The times the wire bears were found by
// integrating in small steps outside the program. 30 A fuse, 1.5 mm² hot
// (12.7 mΩ/m · 339.5/254.5): 12 m 59.6 A 5.39 s against 6.23 s, 12.4 m 57.7 A
// 7.46 s against 6.76 s; 19 m 38.2 A, below 1.35 · 30 A; 30 m 24.4 A.
func TestFuseTooSlowForDeadShort(t *testing.T) {
	const base = "ambient 30\nG1 battery volt=12.6 ohm=0.005\nE1 lamp watt=21\nW9 E1.2 G1.- 2.5mm2 500"
	one := func(fuse, wire string) string {
		return fuse + "\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 " + wire
	}
	tryRule(t, "fuse too slow for wire", base, []ruleCase{
		{"fine", "15 A on 1 mm²", one("F1 fuse-regular amp=15", "1mm2 2000"), ""},
		{"just inside", "5.39 s against 6.23 s", one("F1 fuse-regular amp=30", "1.5mm2 12000"), ""},
		{"just outside", "7.46 s against 6.76 s", one("F1 fuse-regular amp=30", "1.5mm2 12400"),
			"error W2 F1 7.457 > 6.755 s [fit 20 A in F1] [use 3 mm² for W2]"},
		{"need not open", "38.2 A, 1.35 · 30 A = 40.5 A", one("F1 fuse-regular amp=30", "1.5mm2 19000"),
			"error W2 F1 38.17 > 40.5 A [fit 20 A in F1] [use 3 mm² for W2]"},
		{"draws no more than the wire bears", "24.4 A of 25 A", one("F1 fuse-regular amp=30", "1.5mm2 30000"), ""},
		{"length unknown", "unknown is never a pass", one("F1 fuse-regular amp=30", "1.5mm2 -"), "not assessed W2 F1 without the length of W2"},
		{"insulation unknown", "", one("F1 fuse-regular amp=15", "1mm2 2000 bare"), "not assessed W2 F1 without the insulation temperature"},
		{"rating unknown", "", one("F1 fuse-regular", "1mm2 2000"), "not assessed W2 F1 without the rating of F1"},
		{"short-circuit temperature not on record, and not needed", "judged by the lower one for 6 h", one("F1 fuse-regular amp=10", "1.5mm2 2000 ins=FLR7Y"), ""},
		{"short-circuit temperature not on record", "", one("F1 fuse-regular amp=40", "0.5mm2 500 ins=FLR7Y"),
			"not assessed W2 F1 without the short-circuit temperature of the insulation"},
		{"fed through an unknown length", "the feed counts", "F1 fuse-regular amp=15\nW1 G1.+ F1.1 6mm2 -\nW2 F1.2 E1.1 1mm2 2000", "not assessed W2 F1 without the length of W1"},
		{"battery unknown", "", "G2 battery\nlimit ground_volt=1\n" + one("F1 fuse-regular amp=15", "1mm2 2000"), ""},
	})
}

// The same base; 20 A on 1 mm² (20 A): at 27 A the fuse may take 600 s, the
// wire bears 34.8 s, integrated in small steps outside the program.
func TestFuseTooSlowForOverload(t *testing.T) {
	const base = "ambient 30\nG1 battery volt=12.6 ohm=0.005\nE1 lamp watt=21\nW9 E1.2 G1.- 2.5mm2 500"
	one := func(fuse, wire string) string {
		return fuse + "\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 " + wire
	}
	tryRule(t, "fuse too slow for wire", base, []ruleCase{
		{"fine", "15 A on 1 mm²: at 20.25 A the wire settles below 155 °C, borne for 6 h", one("F1 fuse-regular amp=15", "1mm2 2000"), ""},
		{"just inside", "20 A on 1.5 mm²: at 1.6 times 50 s against 79 s", one("F1 fuse-regular amp=20", "1.5mm2 2000"), ""},
		{"just outside", "20 A on 1 mm²", one("F1 fuse-regular amp=20", "1mm2 2000"), "warning W2 F1 600 > 34.8 s [fit 15 A in F1] [use 1.5 mm² for W2]"},
		{"above the ampacity", "the business of the rule on rating and ampacity", one("F1 fuse-regular amp=25", "1mm2 2000"), ""},
		{"breaker", "SAE J553 (from memory): twice its rating within 60 s, and the same heat at the 211 A of the short; 4 mm² would do, but is four times as thick", one("F1 circuit-breaker amp=20", "1mm2 2000"), "error W2 F1 2.161 > 0.1746 s"},
		{"breaker of unknown rating", "", one("F1 circuit-breaker", "1mm2 2000"), "not assessed W2 F1 without F1: the rating of the breaker"},
		{"link without rating", "0.5 mm² melt at (226·0.5)²·ln(1317.5/264.5) = 20 500 A²s without loss, twice that at the latest; 6 mm² bear 276 000", "F1 fusible-link link_mm2=0.5 ohm=0.005\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 6mm2 2000", ""},
		{"link too thick", "twice the 82 000 A²s that melt a bare 1 mm² without loss; 2 mm² bear 30 700", "F1 fusible-link link_mm2=1 ohm=0.003\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 2mm2 500",
			"error W2 F1 0.2251 > 0.04183 s"},
		{"link without area", "", one("F1 fusible-link amp=30 ohm=0.001", "6mm2 2000"), "not assessed W2 F1 without F1: the conductor area of the link"},
	})
}

func TestFuseTooSlowBetweenTwoFeeds(t *testing.T) {
	const base = "ambient 30\nG1 battery volt=12.6 ohm=0.005\nG2 battery volt=12.6 ohm=0.005\nE1 lamp watt=21\nSP1 splice\n" +
		"W9 E1.2 G1.- 2.5mm2 500\nW8 G2.- G1.- 25mm2 500\nW6 SP1.1 E1.1 6mm2 300\n"
	const feeds = "\nW1 G1.+ F1.1 6mm2 100\nW4 F2.2 G2.+ 6mm2 100\nW2 F1.2 SP1.1 1mm2 2000\nW3 SP1.1 F2.1 1mm2 2000\n"
	tryRule(t, "fuse too slow for wire", base, []ruleCase{
		{"both ends", "either wire sees the 15 A at its far end", "F1 fuse-regular amp=15\nF2 fuse-regular amp=15" + feeds, ""},
		{"one end too strong", "118 A through F2, W3 and W2 into a short at F1: twice 60 A", "F1 fuse-regular amp=15\nF2 fuse-maxi amp=60" + feeds,
			"error W2 F2 66.72 > 0.566 s\nerror W3 F2 5.794 > 0.1582 s\nerror W6 F1 F2 6.733 > 1.7 s"},
		{"alternator alone", "its 30 A need not open F3, and 1 mm² does not bear them", "G3 alternator limit_amp=30\nF1 fuse-regular amp=10\nF2 fuse-regular amp=10\nF3 fuse-regular amp=25\n" +
			"W10 G3.B+ F3.1 6mm2 100\nW11 G3.B- G1.- 6mm2 500\nW12 F3.2 SP1.1 1mm2 500" + feeds, "error W2 F3 30 > 33.75 A\nerror W3 F3 30 > 33.75 A\nerror W12 F3 30 > 33.75 A"},
		{"alternator of unknown output", "", "G3 alternator\nF1 fuse-regular amp=10\nF2 fuse-regular amp=10\nF3 fuse-regular amp=25\n" +
			"W10 G3.B+ F3.1 6mm2 100\nW11 G3.B- G1.- 6mm2 500\nW12 F3.2 SP1.1 1mm2 500" + feeds, "not assessed W2 W3 W6 W12 F2 F3 without the output of the alternator"},
	})
}

// 12.16 m, 98 % of 12.4 m, draw 58.8 A: 6.12 s against 6.44 s, integrated in small
// steps outside the program.
func TestFuseTooSlowSaysHowLongTheWireMayBe(t *testing.T) {
	d := doc(t, "ambient 30\nG1 battery volt=12.6 ohm=0.005\nE1 lamp watt=21\nF1 fuse-regular amp=30\nW9 E1.2 G1.- 2.5mm2 500\nW1 G1.+ F1.1 6mm2 100\nW2 F1.2 E1.1 1.5mm2 12400")
	text := ""
	for _, f := range run(t, d) {
		if f.Rule == "fuse too slow for wire" {
			text = f.Text
		}
	}
	assert.Contains(t, text, "No longer than 12.15 m, it would be cut off in time.")
}
