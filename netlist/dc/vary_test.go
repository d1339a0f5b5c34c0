package dc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

// randomChange returns a change of any kind that fits some element of r, whether it changes anything or not.
func randomChange(rng *rand.Rand, r *rig) dc.Change {
	e := dc.Element(rng.IntN(r.Elements()))
	switch rng.IntN(4) {
	case 0:
		return dc.Opened(e)
	case 1:
		return dc.Closed(e)
	}
	k, _ := r.Kind(e)
	switch {
	case k == dc.KindCurrent:
		return dc.WithAmp(e, 10*(rng.Float64()-0.5))
	case k == dc.KindDevice:
		return dc.WithLaw(e, dc.Diode{ForwardVolt: rng.Float64(), OnOhm: 0.01 + rng.Float64()})
	case k == dc.KindVoltage && rng.IntN(2) == 0:
		return dc.WithVolt(e, 24*(rng.Float64()-0.3))
	}
	return dc.WithOhm(e, math.Pow(10, -6+12*rng.Float64()))
}

// Each variation must give what the same change gives for good, to the last bit, and leave the network as it was.
func TestVariationsEqualChanges(t *testing.T) {
	for seed := range uint64(60) {
		rng := rand.New(rand.NewPCG(seed, 50))
		nodes := 2 + rng.IntN(60)
		s := randomSpec(rng, nodes, nodes-1+rng.IntN(nodes))
		build := func() *rig {
			rng := rand.New(rand.NewPCG(seed, 51))
			r := s.build(t)
			if seed%3 == 0 {
				randomMonotone(rng, r, 5)
			}
			for e := range dc.Element(r.Elements()) {
				if rng.IntN(8) == 0 {
					require.NoError(t, r.Open(e))
				}
			}
			return r
		}
		r := build()
		changes := make([]dc.Change, 40)
		for i := range changes {
			changes[i] = randomChange(rng, r)
		}
		var base, again, sol dc.Solution
		errBase := r.Solve(&base)
		seen := 0
		for i, err := range r.Variations(&sol, changes) {
			require.Equal(t, seen, i)
			seen++
			other := build()
			for _, errOther := range other.Variations(&other.sol, changes[i:i+1]) {
				require.Equal(t, errOther, err)
			}
			require.Equal(t, other.sol, sol, "seed %d, change %d", seed, i)
		}
		require.Equal(t, len(changes), seen)
		require.Equal(t, errBase, r.Solve(&again), "seed %d", seed)
		require.Equal(t, base, again, "seed %d", seed)
	}
}

// By hand: a source of 12 V and 1 Ω, 2 Ω in series, and 3 Ω and 6 Ω side by side, which is 12 V over 5 Ω.
func TestVariations(t *testing.T) {
	r := newRig(t, 3, 0)
	source := r.voltage(1, 0, 12, 1)
	series := r.resistor(1, 2, 2)
	r.resistor(2, 0, 3)
	second := r.resistor(2, 0, 6)
	push := r.current(0, 2, 0)
	off := r.device(2, 0, dc.ConstantCurrent{Amp: 1, KneeVolt: 1e-3})
	require.NoError(t, r.Open(off))
	for _, c := range []struct {
		why    string
		change dc.Change
		volt   float64 // at node 2
	}{
		{"nothing happens to an open element", dc.Opened(off), 12 * 2. / 5},
		{"3 Ω alone", dc.Opened(second), 12 * 3. / 6},
		{"the source is cut off", dc.Opened(series), 0},
		{"2 Ω less in series", dc.WithOhm(series, 1e-9), 12 * 2. / 3},
		{"twice the voltage", dc.WithVolt(source, 24), 24 * 2. / 5},
		{"a source without resistance", dc.WithOhm(source, 1e-9), 12 * 2. / 4},
		{"5 A into 2 Ω beside 3 Ω", dc.WithAmp(push, 5), 12*2./5 + 5*6./5},
		{"1 A out of the same", dc.Closed(off), 12*2./5 - 6./5},
	} {
		for _, err := range r.Variations(&r.sol, []dc.Change{c.change}) {
			require.NoError(t, err)
		}
		require.InDelta(t, c.volt, r.sol.Volt[2], 1e-8, c.why)
	}
	require.InEpsilon(t, 12*2./5, r.solve().Volt[2], 1e-12)
	require.True(t, r.IsOpen(off))

	for _, err := range r.Variations(&r.sol, []dc.Change{dc.WithLaw(off, dc.ConstantCurrent{Amp: 2, KneeVolt: 1e-3})}) {
		require.NoError(t, err)
	}
	require.NoError(t, r.Close(off))
	require.InDelta(t, 12*2./5-6./5, r.solve().Volt[2], 1e-8, "the device has its old law")
}

func TestVariationsThatFail(t *testing.T) {
	r := newRig(t, 3, 0)
	source := r.voltage(1, 0, 12, 1)
	wire := r.resistor(1, 2, 2)
	r.current(0, 2, 1)
	before := r.solve().Clone()
	changes := []dc.Change{dc.WithOhm(wire, -1), dc.WithVolt(wire, 1), dc.Opened(99), dc.WithLaw(source, nil), dc.Opened(wire), dc.Opened(-1)}
	want := []string{"below 1e-09", "it is a resistor", "no element 99", "it is a voltage source", "no way back", "no element -1"}
	for i, err := range r.Variations(&r.sol, changes) {
		require.ErrorContains(t, err, want[i])
	}
	for range r.Variations(&r.sol, []dc.Change{dc.Opened(source), dc.WithOhm(wire, 5)}) {
		break
	}
	require.Equal(t, before, r.solve())
}

func TestVariationsNeedNoMemory(t *testing.T) {
	r := randomSpec(rand.New(rand.NewPCG(1, 52)), 200, 500).build(t)
	r.solve()
	count := func(n int) float64 {
		changes := make([]dc.Change, n)
		for i := range changes {
			changes[i] = dc.Opened(dc.Element(i))
		}
		return testing.AllocsPerRun(5, func() {
			for range r.Variations(&r.sol, changes) {
			}
		})
	}
	require.Equal(t, count(1), count(100))
}
