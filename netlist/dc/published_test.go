package dc_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

// unitGraph returns 1 Ω resistors along the edges, without a reference.
func unitGraph(t testing.TB, nodes int, edges [][2]int) *rig {
	r := newRig(t, nodes, dc.NoNode)
	for _, e := range edges {
		r.resistor(dc.Node(e[0]), dc.Node(e[1]), 1)
	}
	return r
}

func cubeEdges() (edges [][2]int) {
	for v := range 8 {
		for bit := 1; bit < 8; bit <<= 1 {
			if v&bit == 0 {
				edges = append(edges, [2]int{v, v | bit})
			}
		}
	}
	return edges
}

func completeEdges(n int) (edges [][2]int) {
	for a := range n {
		for b := range a {
			edges = append(edges, [2]int{a, b})
		}
	}
	return edges
}

func gridEdges(side int) (edges [][2]int) {
	for y := range side {
		for x := range side {
			v := y*side + x
			if x+1 < side {
				edges = append(edges, [2]int{v, v + 1})
			}
			if y+1 < side {
				edges = append(edges, [2]int{v, v + side})
			}
		}
	}
	return edges
}

// Cube: analyticphysics.com and physicstasks.eu (resistor cube), 7/12, 3/4, 5/6.
func TestCube(t *testing.T) {
	r := unitGraph(t, 8, cubeEdges())
	require.InEpsilon(t, 7.0/12, r.effective(0, 1), 1e-12, "along an edge")
	require.InEpsilon(t, 3.0/4, r.effective(0, 3), 1e-12, "across a face")
	require.InEpsilon(t, 5.0/6, r.effective(0, 7), 1e-12, "through the body")
}

// Complete graphs: 2/n between any two, from the symmetry of the graph.
func TestCompleteGraphs(t *testing.T) {
	for n := 2; n <= 24; n++ {
		r := unitGraph(t, n, completeEdges(n))
		require.InEpsilon(t, 2/float64(n), r.effective(0, dc.Node(n-1)), 1e-12, "K%d", n)
	}
}

// Octahedron: 5/12 between neighbours, 1/2 between opposite corners; neighbours also by Foster's averaging (V-1)/E.
func TestOctahedron(t *testing.T) {
	var edges [][2]int
	for _, e := range completeEdges(6) {
		if e[0]+e[1] != 5 {
			edges = append(edges, e)
		}
	}
	r := unitGraph(t, 6, edges)
	require.InEpsilon(t, 5.0/12, r.effective(0, 1), 1e-12)
	require.InEpsilon(t, 5.0/float64(len(edges)), r.effective(0, 1), 1e-12)
	require.InEpsilon(t, 1.0/2, r.effective(0, 5), 1e-12)
}

// Ladders of 1 Ω in series and 1 Ω across: ratios of Fibonacci numbers with the golden ratio as their limit.
func TestLadders(t *testing.T) {
	want := map[int][2]float64{
		1: {2, 1}, 2: {5, 3}, 3: {13, 8}, 4: {34, 21}, 5: {89, 55}, 6: {233, 144}, 7: {610, 377}, 8: {1597, 987},
		9: {4181, 2584}, 10: {10946, 6765}, 11: {28657, 17711}, 12: {75025, 46368},
	}
	for n := 1; n <= 12; n++ {
		ladder := ladder(t, n)
		require.InEpsilon(t, want[n][0]/want[n][1], ladder.effective(1, 0), 1e-12, "%d sections", n)
	}
	require.InEpsilon(t, math.Phi, ladder(t, 40).effective(1, 0), 1e-12, "a long ladder")
	// Shunt first: the reciprocal pattern.
	r := ladder(t, 40)
	r.resistor(1, 0, 1)
	require.InEpsilon(t, math.Phi-1, r.effective(1, 0), 1e-12, "a long ladder that starts with the rung")
}

// ladder returns n sections from node 1, each 1 Ω onward and 1 Ω down to node 0.
func ladder(t testing.TB, n int) *rig {
	r := newRig(t, n+2, 0)
	for i := 1; i <= n; i++ {
		r.resistor(dc.Node(i), dc.Node(i+1), 1)
		r.resistor(dc.Node(i+1), 0, 1)
	}
	return r
}

// Finite square grids: exact fractions from rational elimination.
func TestFiniteGrids(t *testing.T) {
	for _, c := range []struct {
		side               int
		opposite, adjacent float64
	}{
		{2, 1, 3. / 4}, {3, 3. / 2, 5. / 4}, {4, 13. / 7, 181. / 112}, {5, 47. / 22, 251. / 132},
		{6, 1171. / 495, 109897. / 51480}, {7, 6385. / 2494, 11631. / 4988},
	} {
		r := unitGraph(t, c.side*c.side, gridEdges(c.side))
		require.InEpsilon(t, c.opposite, r.effective(0, dc.Node(c.side*c.side-1)), 1e-12, "side %d, opposite corners", c.side)
		require.InEpsilon(t, c.adjacent, r.effective(0, dc.Node(c.side-1)), 1e-12, "side %d, adjacent corners", c.side)
	}
}

// Infinite square grid: a + b·2/π, OEIS A355565 and A355566. A finite grid misses it by about the square of the
// distance over the square of the side.
func TestInfiniteGrid(t *testing.T) {
	const side = 161
	r := unitGraph(t, side*side, gridEdges(side))
	at := func(x, y int) dc.Node { return dc.Node((side/2+y)*side + side/2 + x) }
	for _, c := range []struct {
		x, y int
		a, b float64
	}{
		{1, 0, 1. / 2, 0}, {1, 1, 0, 1}, {2, 0, 2, -2}, {2, 1, -1. / 2, 2}, {2, 2, 0, 4. / 3}, {3, 0, 17. / 2, -12},
		{3, 1, -4, 23. / 3}, {3, 2, 1. / 2, 2. / 3}, {3, 3, 0, 23. / 15},
	} {
		require.InDelta(t, c.a+c.b*2/math.Pi, r.effective(at(0, 0), at(c.x, c.y)), 1e-3, "(%d,%d)", c.x, c.y)
	}
	small := unitGraph(t, 61*61, gridEdges(61))
	centre := dc.Node(30*61 + 30)
	require.InDelta(t, 0.5, small.effective(centre, centre+1), 1e-3, "(1,0) on 61 × 61")
	require.InDelta(t, 2/math.Pi, small.effective(centre, centre+62), 1e-3, "(1,1) on 61 × 61")
}

// Bridges: arms of the second from a published unbalanced-bridge exercise (studyx.ai), balance rule of the first the
// classic Wheatstone one; all answers exact from rational elimination.
func TestBridges(t *testing.T) {
	for _, c := range []struct {
		volt                float64
		tl, tr, lb, rb, lr  float64
		vl, vr, across, all float64
	}{
		{12, 10, 20, 30, 60, 5, 9, 9, 0, 9. / 20},
		{10, 1, 2, 3, 2, 4, 165. / 23, 125. / 23, 10. / 23, 235. / 46},
		{12, 100, 200, 200, 100, 50, 72. / 11, 60. / 11, 6. / 275, 24. / 275},
		{10, 1, 2, 2, 1, 1, 40. / 7, 30. / 7, 10. / 7, 50. / 7},
		{12, 1, 1, 1, 2, 1, 84. / 13, 96. / 13, -12. / 13, 132. / 13},
	} {
		t.Run(fmt.Sprint(c.tl, c.tr, c.lb, c.rb, c.lr), func(t *testing.T) {
			const b, top, l, rt = 0, 1, 2, 3
			r := newRig(t, 4, b)
			source := r.voltage(top, b, c.volt, stiff)
			r.resistor(top, l, c.tl)
			r.resistor(top, rt, c.tr)
			r.resistor(l, b, c.lb)
			r.resistor(rt, b, c.rb)
			detector := r.resistor(l, rt, c.lr)
			s := r.solve()
			require.InEpsilon(t, c.vl, s.Volt[l], 1e-8)
			require.InEpsilon(t, c.vr, s.Volt[rt], 1e-8)
			require.InDelta(t, c.across, s.Amp[detector], 1e-8)
			require.InEpsilon(t, -c.all, s.Amp[source], 1e-8)
			require.InEpsilon(t, c.volt*c.all, s.GeneratedWatt, 1e-8)
		})
	}
}

// The networks below are derived by hand; their answers are exact.

func TestFeedLoadAndReturn(t *testing.T) {
	r := newRig(t, 4, 0)
	r.voltage(1, 0, 12, stiff)
	feed := r.resistor(1, 2, 0.1)
	load := r.resistor(2, 3, 1)
	ground := r.resistor(3, 0, 0.1)
	s := r.solve()
	for _, e := range []dc.Element{feed, load, ground} {
		require.InEpsilon(t, 10, s.Amp[e], 1e-8)
	}
	require.InEpsilon(t, 1, s.Volt[1]-s.Volt[2], 1e-7)
	require.InEpsilon(t, 10, s.Volt[2]-s.Volt[3], 1e-7)
	require.InEpsilon(t, 1, s.Volt[3], 1e-7)
	require.InEpsilon(t, 100, s.Watt[load], 1e-7)
}

// A common return that has come off its ground feeds a third load backwards.
func TestOpenReturnFeedsBackwards(t *testing.T) {
	r := newRig(t, 4, 0)
	r.voltage(1, 0, 12, stiff)
	a := r.resistor(1, 2, 2)
	r.resistor(2, 3, 4)
	c := r.resistor(3, 0, 6)
	ground := r.resistor(2, 0, 1e-3)
	r.solve()
	require.NoError(t, r.Open(ground))
	s := r.solve()
	require.InEpsilon(t, 1, s.Amp[a], 1e-8)
	require.InEpsilon(t, 1, s.Amp[c], 1e-8)
	require.InEpsilon(t, 10, s.Volt[2], 1e-8)
	require.Zero(t, s.Amp[ground])
}

// 20 A over two wires of equal length with 7.98 and 4.95 mΩ/m; and 10 m of 13.3 mΩ/m at 80 °C, as ten pieces.
func TestWires(t *testing.T) {
	r := newRig(t, 2, 0)
	thin := r.resistor(1, 0, 7.98e-3)
	thick := r.resistor(1, 0, 4.95e-3)
	r.current(0, 1, 20)
	s := r.solve()
	require.InDelta(t, 7.6566, s.Amp[thin], 5e-5)
	require.InDelta(t, 12.3434, s.Amp[thick], 5e-5)

	r = newRig(t, 11, 0)
	for i := range dc.Node(10) {
		r.resistor(i, i+1, 13.3e-3*(234.5+80)/(234.5+20)) // IEC 60228 temperature correction
	}
	require.InDelta(t, 0.164356, r.effective(10, 0), 1e-6)
}
