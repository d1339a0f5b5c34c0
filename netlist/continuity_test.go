package netlist_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/schematic"
)

// meter measures between two pins of a plan, in its first state if it has one.
func meter(t testing.TB, plan, a, b string, unplugged bool) (*netlist.Netlist, netlist.MeterReading) {
	t.Helper()
	d := doc(t, plan)
	n := netlist.Build(d)
	s := sheet{t, n.Solve(nil)}
	bench := netlist.Bench{Unplugged: unplugged}
	if st := d.States(); len(st) > 0 {
		bench.State = st[0]
	}
	r, err := netlist.Continuity(n, n.NodeOf(s.ref(a)), n.NodeOf(s.ref(b)), bench)
	require.NoError(t, err)
	back, err := netlist.Continuity(n, n.NodeOf(s.ref(b)), n.NodeOf(s.ref(a)), bench)
	require.NoError(t, err)
	if !r.Open() {
		assert.InEpsilon(t, r.Ohm+1e-12, back.Ohm+1e-12, 1e-9, "a meter turned round shows the same")
	} else {
		assert.True(t, back.Open())
	}
	return n, r
}

// What a meter shows, worked out by hand.
func TestContinuity(t *testing.T) {
	const base = "ambient 20\nG1 battery\n"
	const lamp = base + "S1 switch-toggle contact_ohm=0.02\nF1 fuse-regular amp=10\nE1 lamp volt=12 watt=48\nW1 G1.+ F1.1" + tenthOhm + "\nW2 F1.2 S1.82" + tenthOhm + "\nW3 S1.82a E1.1" + tenthOhm + "\nW4 E1.2 G1.-" + tenthOhm
	for _, c := range []struct {
		name, why, plan, a, b string
		unplugged             bool
		ohm                   float64
		path, unclear         string
	}{
		{"one wire", "", lamp, "G1.+", "F1.1", false, 0.1, "W1", ""},
		{"cold fuse", "7.7 mΩ", lamp, "F1.1", "F1.2", false, 0.0077, "F1", ""},
		{"open switch", "and the battery is off", lamp, "G1.+", "E1.1", false, math.Inf(1), "", ""},
		{"closed switch", "0.1 + 0.0077 + 0.1 + 0.02 + 0.1", lamp + "\nstate on off S1=on", "G1.+", "E1.1", false, 0.3277, "W1 F1 W2 S1 W3", ""},
		{"cold filament", "a tenth of 3 Ω, and 0.1 Ω of wire", lamp, "E1.1", "G1.-", false, 0.4, "E1 W4", ""},
		{"unplugged", "only wires and fuses are left", lamp + "\nstate on off S1=on", "G1.+", "E1.1", true, math.Inf(1), "", ""},
		{"unplugged, up to the switch", "", lamp, "G1.+", "S1.82", true, 0.2077, "W1 F1 W2", ""},
		{"one point", "", lamp, "E1.1", "E1.1", false, 0, "", ""},
		{"diode", "0.3 V open no junction, either way", base + "V1 diode", "V1.A", "V1.K", false, math.Inf(1), "", ""},
		{"coil and its break contact", "90 Ω; the contact at rest 3 mΩ", base + "K1 relay-change-over coil_ohm=90 contact_ohm=0.003\nW1 K1.85 K1.30" + fat, "K1.86", "K1.87a", false, 90.003, "K1 coil W1 K1 break contact", ""},
		{"make contact", "open at rest", base + "K1 relay-change-over", "K1.30", "K1.87", false, math.Inf(1), "", ""},
		{"motor", "12 V / 60 A", base + "M1 motor volt=12 amp=10 stall_amp=60", "M1.33", "M1.32", false, 0.2, "M1", ""},
		{"motor without stall current", "nobody can tell", base + "M1 motor volt=12 amp=10", "M1.33", "M1.32", false, math.Inf(1), "", "[M1]"},
		{"electronics beside a wire", "nobody can tell", base + "E1 load-two-pin amp=1\nW1 E1.+ E1.-" + tenthOhm, "E1.+", "E1.-", false, 0.1, "W1", "[E1]"},
		{"bus", "two terminators of 120 Ω", base + "R1 terminator\nR2 terminator\nW1 R1.H R2.H" + fat + "\nW2 R1.L R2.L" + fat, "R1.H", "R1.L", false, 60, "R1", ""},
		{"through ground metal", "two studs of 0.5 mΩ", base + "GND1 ground-body\nGND2 ground-body", "GND1.1", "GND2.1", false, 0.001, "GND1 GND2", ""},
		{"ground eyes on the bench", "lie on no metal", base + "GND1 ground-body\nGND2 ground-body", "GND1.1", "GND2.1", true, math.Inf(1), "", ""},
		{"parallel wires", "0.1 and 0.1 Ω", base + "SP1 splice\nSP2 splice\nW1 SP1.1 SP2.1" + tenthOhm + "\nW2 SP1.1 SP2.1" + tenthOhm, "SP1.1", "SP2.1", false, 0.05, "W1", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			n, r := meter(t, c.plan, c.a, c.b, c.unplugged)
			if math.IsInf(c.ohm, 1) {
				assert.True(t, r.Open(), "%g Ω: %s", r.Ohm, c.why)
			} else {
				assert.InDelta(t, c.ohm, r.Ohm, 5e-6, c.why)
			}
			s := sheet{t, &netlist.Solution{Netlist: n}}
			assert.Equal(t, c.path, s.steps(r.Path))
			if c.unclear == "" {
				c.unclear = "[]"
			}
			assert.Equal(t, c.unclear, s.names(r.Unclear))
			assert.Empty(t, r.Missing)
		})
	}
}

func TestContinuityWithoutData(t *testing.T) {
	const plan = "G1 battery\nF1 fuse-regular\nE1 load-resistive ohm=4\nW1 G1.+ F1.1 1mm2 -\nW2 F1.2 E1.1 1mm2 100"
	n, r := meter(t, plan, "G1.+", "E1.2", false)
	assert.Equal(t, []string{"F1", "W1"}, n.Names(r.Missing))
	_, err := netlist.Continuity(n, -1, 0, netlist.Bench{})
	assert.Error(t, err)
	_, err = netlist.Continuity(n, 0, len(n.Nodes), netlist.Bench{})
	assert.Error(t, err)
}

// Resistance is a metric (Klein and Randić 1993): symmetric, zero only at one
// point, and never more by a detour.
func TestContinuityIsAMetric(t *testing.T) {
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 3))
		parts, wires, _ := randomPlan(rng)
		n := netlist.Build(doc(t, join(parts, wires)))
		ohm := func(a, b int) float64 {
			r, err := netlist.Continuity(n, a, b, netlist.Bench{Unplugged: seed%2 == 0})
			require.NoError(t, err)
			if !r.Open() && a != b {
				assert.NotEmpty(t, r.Path)
				for _, st := range r.Path {
					assert.NotEqual(t, schematic.ElemBattery, n.Branches[st.Branch].Element.Type)
				}
				assert.Equal(t, b, r.Path[len(r.Path)-1].To)
			}
			return r.Ohm
		}
		for range 12 {
			a, b, c := rng.IntN(len(n.Nodes)), rng.IntN(len(n.Nodes)), rng.IntN(len(n.Nodes))
			ab, bc, ac := ohm(a, b), ohm(b, c), ohm(a, c)
			if ba := ohm(b, a); math.IsInf(ab, 1) {
				assert.True(t, math.IsInf(ba, 1))
			} else {
				assert.InEpsilon(t, 1+ab, 1+ba, 1e-9)
			}
			if !math.IsInf(ab+bc, 1) {
				assert.LessOrEqual(t, ac, ab+bc+1e-9)
			}
		}
	}
}
