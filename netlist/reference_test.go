package netlist_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
)

// resistors writes a document of resistors between splices, joined by wires of
// next to no resistance: each line "a b ohm".
func resistors(lines ...string) string {
	plan, seen := "G1 battery volt=12 ohm=0\n", map[string]bool{}
	for _, l := range lines {
		for _, p := range strings.Fields(l)[:2] {
			if !seen[p] {
				seen[p] = true
				plan += p + " splice splice_ohm=0\n"
			}
		}
	}
	for i, l := range lines {
		f := strings.Fields(l)
		plan += fmt.Sprintf("R%d resistor ohm=%s\nW%d %s.1 R%d.1%s\nW%d R%d.2 %s.1%s\n", i+1, f[2], 2*i+1, f[0], i+1, fat, 2*i+2, i+1, f[1], fat)
	}
	return plan
}

// Published resistances of polyhedra and ladders of 1 Ω (cube 7/12, 3/4, 5/6;
// tetrahedron 1/2; golden-ratio ladder 75025/46368 for twelve sections), here
// measured by the ohmmeter of documents drawn with wires and resistors.
func TestPublishedResistances(t *testing.T) {
	ohm := func(plan, a, b string) float64 {
		_, r := meter(t, plan, a+".1", b+".1", false)
		return r.Ohm
	}
	var cube []string
	for i := range 8 {
		for bit := range 3 {
			if j := i ^ 1<<bit; i < j {
				cube = append(cube, fmt.Sprintf("N%d N%d 1", i, j))
			}
		}
	}
	c := resistors(cube...)
	assert.InDelta(t, 7.0/12, ohm(c, "N0", "N1"), 1e-5)
	assert.InDelta(t, 3.0/4, ohm(c, "N0", "N3"), 1e-5)
	assert.InDelta(t, 5.0/6, ohm(c, "N0", "N7"), 1e-5)
	assert.InDelta(t, 0.5, ohm(resistors("A B 1", "A C 1", "A D 1", "B C 1", "B D 1", "C D 1"), "A", "B"), 1e-5)
	var ladder []string
	for i := range 12 {
		ladder = append(ladder, fmt.Sprintf("N%d N%d 1", i, i+1), fmt.Sprintf("N%d Z 1", i+1))
	}
	assert.InDelta(t, 75025.0/46368, ohm(resistors(ladder...), "N0", "Z"), 3e-5)
}

// Bridges with known answers: source V on top, arms TL TR LB RB, detector LR.
func TestPublishedBridges(t *testing.T) {
	for _, c := range []struct {
		volt, tl, tr, lb, rb, lr float64
		left, right, through     float64
	}{
		{12, 10, 20, 30, 60, 5, 9, 9, 0},
		{10, 1, 2, 3, 2, 4, 165.0 / 23, 125.0 / 23, 10.0 / 23},
		{12, 100, 200, 200, 100, 50, 72.0 / 11, 60.0 / 11, 6.0 / 275},
		{12, 1, 1, 1, 2, 1, 84.0 / 13, 96.0 / 13, -12.0 / 13},
	} {
		plan := resistors(fmt.Sprint("T L ", c.tl), fmt.Sprint("T R ", c.tr), fmt.Sprint("L B ", c.lb), fmt.Sprint("R B ", c.rb), fmt.Sprint("L R ", c.lr))
		plan = strings.Replace(plan, "volt=12", fmt.Sprint("volt=", c.volt), 1)
		s := solve(t, doc(t, plan+"W91 G1.+ T.1"+fat+"\nW92 B.1 G1.-"+fat))
		assert.InDelta(t, c.left, s.volt("L.1"), 1e-4)
		assert.InDelta(t, c.right, s.volt("R.1"), 1e-4)
		assert.InDelta(t, c.through, s.amp("R5"), 1e-4)
	}
}

// In a network without devices currents are linear in the sources
// (superposition): doubling both doubles them, and doubling one and then the
// other adds up to three times.
func TestSuperposition(t *testing.T) {
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 15))
		var lines []string
		nodes := 4 + rng.IntN(8)
		for i := range 2 * nodes {
			a, b := i%nodes, rng.IntN(nodes)
			if a != b {
				lines = append(lines, fmt.Sprintf("N%d N%d %.3f", a, b, 0.1+20*rng.Float64()))
			}
		}
		text := resistors(lines...)
		var pins []string
		for i := range nodes {
			if p := fmt.Sprintf("N%d", i); strings.Contains(text, p+" splice") {
				pins = append(pins, p+".1")
			}
		}
		require.Greater(t, len(pins), 2)
		rng.Shuffle(len(pins), func(i, j int) { pins[i], pins[j] = pins[j], pins[i] })
		text += "G2 battery volt=5 ohm=0.3\nW91 G1.+ " + pins[0] + " 1mm2 500\nW92 G1.- " + pins[1] + " 1mm2 500\nW93 G2.+ " + pins[2] + " 1mm2 500\nW94 G2.- " + pins[1] + " 1mm2 500"
		at := func(v1, v2 string) []float64 {
			x := strings.Replace(strings.Replace(text, "volt=12 ohm=0", "volt="+v1+" ohm=0.1", 1), "volt=5", "volt="+v2, 1)
			s := netlist.Build(doc(t, x)).Solve(nil)
			closes(t, s)
			return s.Amp
		}
		one, both, first, second := at("12", "5"), at("24", "10"), at("24", "5"), at("12", "10")
		for i := range one {
			assert.InDelta(t, 2*one[i], both[i], 1e-6)
			assert.InDelta(t, 3*one[i], first[i]+second[i], 1e-6)
		}
	}
}
