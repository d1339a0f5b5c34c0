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
