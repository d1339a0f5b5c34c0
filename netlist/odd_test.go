package netlist_test

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/netlist"
)

// oddities lists all that is odd about a network.
func oddities(n *netlist.Netlist) []netlist.Oddity { return append(n.Shorts(), n.ReversedDiodes()...) }

// odd writes the texts of all oddities of some kinds.
func odd(t testing.TB, plan string, kinds ...netlist.OddityKind) string {
	t.Helper()
	var out []string
	for _, o := range oddities(netlist.Build(doc(t, plan))) {
		for _, k := range kinds {
			if o.Kind == k {
				out = append(out, o.Text)
			}
		}
	}
	return strings.Join(out, "\n")
}

func TestShorts(t *testing.T) {
	const load = "G1 battery\nE1 lamp watt=5\nW98 G1.+ E1.1 1mm2 9\nW99 E1.2 G1.- 1mm2 9\n"
	for _, c := range []struct{ name, why, plan, want string }{
		{"fine", "a lamp lies between", "", ""},
		{"by a wire", "", "W1 G1.+ G1.- 1mm2 9", "G1 is shorted by W1."},
		{"by a fuse", "it will blow", "F1 fuse-regular amp=5\nW1 G1.+ F1.1 1mm2 9\nW2 F1.2 G1.- 1mm2 9", "G1 is shorted by W1, F1, W2."},
		{"through body metal", "", "GND1 ground-body\nGND2 ground-body\nW1 G1.+ GND1.1 1mm2 9\nW2 GND2.1 G1.- 1mm2 9", "G1 is shorted by W1, GND1, GND2, W2."},
		{"by a switch", "", "S1 switch-toggle\nW1 G1.+ S1.82 1mm2 9\nW2 S1.82a G1.- 1mm2 9", `G1 is shorted through S1 when S1 is at "on".`},
		{"by two switches", "both must be on", "S1 switch-toggle\nS2 switch-toggle\nW1 G1.+ S1.82 1mm2 9\nW2 S1.82a S2.82 1mm2 9\nW3 S2.82a G1.- 1mm2 9",
			`G1 is shorted through S1, S2 when S1 is at "on" and S2 is at "on".`},
		{"change-over", "its two contacts are never closed together", "K1 relay-change-over\nE2 lamp watt=5\nW1 G1.+ K1.87 1mm2 9\nW2 K1.87a G1.- 1mm2 9\nW3 K1.30 E2.1 1mm2 9\nW4 E2.2 G1.- 1mm2 9", ""},
		{"two change-overs", "a bridge for a motor shorts only if wired crosswise", "K1 relay-change-over\nK2 relay-change-over\nW1 G1.+ K1.87 1mm2 9\nW2 K1.87a G1.- 1mm2 9\nW3 G1.+ K2.87 1mm2 9\nW4 K2.87a G1.- 1mm2 9\nW5 K1.30 K2.30 1mm2 9",
			"G1 is shorted through K1 make contact, K2 break contact when K1 has pulled in and K2 is at rest.\nG1 is shorted through K2 make contact, K1 break contact when K1 is at rest and K2 has pulled in."},
		{"diode forward", "a suppressor the wrong way round", "V1 diode\nW1 G1.+ V1.A 1mm2 9\nW2 V1.K G1.- 1mm2 9", "G1 is shorted through V1."},
		{"diode backward", "as a suppressor lies", "V1 diode\nW1 G1.+ V1.K 1mm2 9\nW2 V1.A G1.- 1mm2 9", ""},
		{"through a load", "a coil is one", "K1 relay-make\nW1 G1.+ K1.86 1mm2 9\nW2 K1.85 G1.- 1mm2 9", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := odd(t, load+c.plan, netlist.OddShort, netlist.OddSwitchShort, netlist.OddDiodeShort)
			assert.Equal(t, c.want, got, c.why)
		})
	}
}

func TestReversedDiodes(t *testing.T) {
	const base = "G1 battery\nE1 lamp watt=5\nV1 diode\nW9 E1.2 G1.- 1mm2 9\n"
	for _, c := range []struct{ name, plan, want string }{
		{"forward", "W1 G1.+ V1.A 1mm2 9\nW2 V1.K E1.1 1mm2 9", ""},
		{"backward", "W1 G1.+ V1.K 1mm2 9\nW2 V1.A E1.1 1mm2 9", "V1 blocks the only way of E1: turn it round."},
		{"backward beside a wire", "W1 G1.+ V1.K 1mm2 9\nW2 V1.A E1.1 1mm2 9\nW3 G1.+ E1.1 1mm2 9", ""},
		{"across the load", "W1 G1.+ E1.1 1mm2 9\nW2 E1.1 V1.K 1mm2 9\nW3 V1.A E1.2 1mm2 9", ""},
		{"two loads, one well fed", "E2 lamp watt=5\nE3 lamp watt=5\nW1 G1.+ V1.K 1mm2 9\nW2 V1.A E1.1 1mm2 9\nW3 E1.1 E2.1 1mm2 9\nW4 E2.2 G1.- 1mm2 9\nW5 G1.+ E3.1 1mm2 9\nW6 E3.2 G1.- 1mm2 9",
			"V1 blocks the only way of E1 and E2: turn it round."},
		{"loads in series beside a suppressor", "E2 lamp watt=5\nW1 G1.+ E2.1 1mm2 9\nW2 E2.2 E1.1 1mm2 9\nW3 E1.1 V1.K 1mm2 9\nW4 V1.A E1.2 1mm2 9", ""},
		{"not wired", "W1 G1.+ V1.K 1mm2 9", ""},
	} {
		assert.Equal(t, c.want, odd(t, base+c.plan, netlist.OddReversedDiode), c.name)
	}
}

// Whatever is drawn, naming ends, and does not depend on anything but the names.
func TestOdditiesOfRandomDocuments(t *testing.T) {
	for seed := range uint64(150) {
		parts, wires, states := randomPlan(rand.New(rand.NewPCG(seed, 5)))
		a := oddities(netlist.Build(newPlan(t, "one").read(join(parts, wires, states))))
		b := oddities(netlist.Build(newPlan(t, "two").read(join(parts, wires, states))))
		assert.Equal(t, a, b, "seed %d", seed)
		for _, o := range a {
			assert.NotEmpty(t, o.Text)
			assert.NotEmpty(t, o.Nodes)
		}
	}
}
