package check_test

import "testing"

// Outputs are the part's own. The shares taken without them, 25 % at idle and
// 70 % hot, are from memory.
func TestAlternatorBudget(t *testing.T) {
	plan := func(alternator, amp, engine string) string {
		return "G1 battery volt=12.6 ohm=0.01\nG2 alternator volt=14 ohm=0.001 " + alternator + "\nE1 load-two-pin amp=" + amp +
			"\nW1 G2.B+ G1.+" + fat + "\nW2 G2.B- G1.-" + fat + "\nW3 G1.+ E1.+" + fat + "\nW4 E1.- G1.-" + fat + "\nstate s " + engine
	}
	tryRule(t, "alternator budget", "", []ruleCase{
		{"fine", "", plan("limit_amp=100 idle_limit_amp=40", "10", "idle"), ""},
		{"just inside", "what charges the battery is no load", plan("limit_amp=100 idle_limit_amp=40 hot_limit_amp=100", "39.9", "idle"), ""},
		{"hot at idle, just inside", "40 A · 75/100 = 30 A", plan("limit_amp=100 idle_limit_amp=40 hot_limit_amp=75", "29.9", "idle"), ""},
		{"hot at idle, just outside", "", plan("limit_amp=100 idle_limit_amp=40 hot_limit_amp=75", "30.1", "idle"), "warning G2 in s 30.1 > 30 A"},
		{"hot at idle unknown, little load", "40 A · 70 % = 28 A is enough", plan("limit_amp=100 idle_limit_amp=40", "27.9", "idle"), ""},
		{"hot at idle unknown", "unknown is never a pass", plan("limit_amp=100 idle_limit_amp=40", "28.1", "idle"), "not assessed G2 in s 28.1 A without the output of G2 when hot"},
		{"load of unknown current", "unknown is never a pass", plan("limit_amp=100 idle_limit_amp=40 hot_limit_amp=75", "10", "idle") + "\nE2 load-two-pin\nW5 G1.+ E2.+" + fat + "\nW6 E2.- G1.-" + fat, "not assessed G2 E2 in s 10 A without the current of E2"},
		{"just outside", "the battery gives the rest", plan("limit_amp=100 idle_limit_amp=40", "40.5", "idle"),
			"warning G1 G2 in s 0.5 > 0.1 A\nwarning G2 in s 40.5 > 40 A"},
		{"output at idle unknown, little load", "25 % of the rating, 70 % of it hot, is enough", plan("limit_amp=100", "17.4", "idle"), ""},
		{"output at idle unknown, hot", "", plan("limit_amp=100", "17.6", "idle"), "not assessed G2 in s 17.6 A without the output of G2 at idle and when hot"},
		{"output at idle unknown, hot known", "25 % of 100 A, 80 % of it hot", plan("limit_amp=100 hot_limit_amp=80", "20.1", "idle"), "not assessed G2 in s 20.1 A without the output of G2 at idle"},
		{"output at idle unknown", "unknown is never a pass", plan("limit_amp=100", "26", "idle"), "not assessed G2 in s 26 A without the output of G2 at idle"},
		{"hot, inside", "", plan("limit_amp=100 hot_limit_amp=75", "74.9", "running"), ""},
		{"hot, outside", "cold it would do", plan("limit_amp=100 hot_limit_amp=75", "75.1", "running"), "warning G2 in s 75.1 > 75 A"},
		{"hot output unknown, little load", "70 % of the rating is enough", plan("limit_amp=100", "69", "running"), ""},
		{"hot output unknown", "", plan("limit_amp=100", "71", "running"), "not assessed G2 in s 71 A without the output of G2 when hot"},
		{"own share", "", "limit alternator_hot_ratio=0.9\n" + plan("limit_amp=100", "71", "running"), ""},
		{"rated output unknown", "another rule asks for it", plan("", "71", "running"), ""},
		{"engine off", "the battery is there for that", plan("limit_amp=100 hot_limit_amp=75", "90", "off"), ""},
		{"no alternator in the drawing", "a sub-harness", "G1 battery\nE1 load-two-pin amp=5\nW3 G1.+ E1.+" + fat + "\nW4 E1.- G1.-" + fat + "\nstate s running", ""},
	})
}
