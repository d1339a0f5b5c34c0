package dc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

// After a small change SolveNear finds what Solve finds, in networks of all kinds of devices put together at random.
func TestSolveNearAgreesWithSolve(t *testing.T) {
	tried := 0
	for seed := range uint64(2000) {
		rng := rand.New(rand.NewPCG(seed, 43))
		var r *rig
		if seed%2 == 0 {
			r = randomSupply(t, rng)
		} else {
			nodes := 2 + rng.IntN(40)
			r = randomSpec(rng, nodes, nodes+rng.IntN(nodes)).build(t)
			randomMonotone(rng, r, 1+rng.IntN(nodes))
		}
		if r.Elements() == 0 || r.Solve(&r.sol) != nil {
			continue
		}
		for range 3 {
			e := dc.Element(rng.IntN(r.Elements()))
			siemens, _, _ := r.Values(e)
			if k, _ := r.Kind(e); k != dc.KindResistor || siemens == 0 {
				continue
			}
			require.NoError(t, r.SetOhm(e, (0.9+0.2*rng.Float64())/siemens))
			require.NoError(t, r.SolveNear(&r.sol), "seed %d", seed)
			checkCloses(t, r.Network, &r.sol, nil)
			got := r.sol.Clone()
			want := r.solve()
			tried++
			most := 1.0
			for _, amp := range want.Amp {
				most = max(most, math.Abs(amp))
			}
			for i, amp := range want.Amp {
				require.InDelta(t, amp, got.Amp[i], 1e-6*most, "seed %d, element %d", seed, i)
			}
		}
	}
	require.Greater(t, tried, 2000)
}

// It needs half the steps or less where the loads work.
func TestSolveNearNeedsFewerSteps(t *testing.T) {
	r := loadedHarness(t, 4000)
	far := r.solve().Iterations
	for e := range dc.Element(40) {
		siemens, _, _ := r.Values(e)
		require.NoError(t, r.SetOhm(e, 1.05/siemens))
		require.NoError(t, r.SolveNear(&r.sol))
		checkCloses(t, r.Network, &r.sol, nil)
		require.LessOrEqual(t, 2*r.sol.Iterations, far)
	}
}

// A supply that gives way under a constant power is found as Solve finds it, and so is the way back.
func TestSolveNearSeesACollapse(t *testing.T) {
	r := newRig(t, 3, 0)
	feed := r.voltage(1, 0, 12, 0.1)
	wire := r.resistor(1, 2, 0.05)
	r.device(2, 0, dc.ConstantPower{Watt: 150, MinVolt: 0.5})
	r.solve()
	for _, ohm := range []float64{0.08, 0.15, 5, 0.15, 0.05, 3, 0.05} {
		require.NoError(t, r.SetOhm(wire, ohm))
		require.NoError(t, r.SolveNear(&r.sol))
		got := r.sol.Clone()
		want := r.solve()
		require.InDelta(t, want.Amp[feed], got.Amp[feed], 1e-6, "%g Ω", ohm)
		require.Equal(t, want.State, got.State, "%g Ω", ohm)
	}
}

// Without anything to begin from it is Solve, to the last bit.
func TestSolveNearFromNothing(t *testing.T) {
	a, b := loadedHarness(t, 400), loadedHarness(t, 400)
	require.NoError(t, a.SolveNear(&a.sol))
	require.Equal(t, b.solve(), &a.sol)
	require.NoError(t, a.Open(4))
	require.NoError(t, b.Open(4))
	require.NoError(t, a.SolveNear(&a.sol))
	require.Equal(t, b.solve(), &a.sol, "nor after something was opened")
}
