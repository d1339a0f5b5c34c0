package dc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"loomwright/netlist/dc"
)

// law is a Device made of a function.
type law func(v float64) (amp, siemens float64)

func (l law) Current(v float64) (amp, siemens float64) { return l(v) }
func (law) Check() error                               { return nil }

// A law that jumps over the only possible current has no solution: an error after a bounded number of steps, with the
// device's name.
func TestNoSolution(t *testing.T) {
	r := supply(t, 2, 12, 1)
	e := r.device(1, 0, law(func(v float64) (float64, float64) {
		if v < 6 {
			return 1, 0
		}
		return 10, 0
	}))
	err := r.Solve(&r.sol)
	var unsettled *dc.ConvergenceError
	require.ErrorAs(t, err, &unsettled)
	require.Equal(t, e, unsettled.Element)
	require.Positive(t, unsettled.Amp)
	require.LessOrEqual(t, unsettled.Iterations, dc.MaxIterations)
	require.False(t, r.sol.Converged)
	require.ErrorContains(t, err, "element 1")
}

func TestLawWithoutNumber(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1)} {
		for _, above := range []float64{-1, 5} {
			r := supply(t, 2, 12, 1)
			e := r.device(1, 0, law(func(v float64) (float64, float64) {
				if v > above {
					return bad, 1
				}
				return v / 1000, 1. / 1000
			}))
			var broken *dc.LawError
			require.ErrorAs(t, r.Solve(&r.sol), &broken)
			require.Equal(t, e, broken.Element)
			require.NoError(t, r.SetDevice(e, dc.ConstantCurrent{Amp: 1, KneeVolt: 1}), "the network is as good as before")
			r.solve()
		}
	}
}

// A law with an ever steeper curve, Shockley's own, from a cold start.
func TestExponentialLaw(t *testing.T) {
	r := supply(t, 2, 5, 1000)
	e := r.device(1, 0, law(func(v float64) (float64, float64) {
		const saturation, thermal = 1e-12, 0.02585
		x := math.Exp(min(v/thermal, 600))
		return saturation * (x - 1), saturation * x / thermal
	}))
	s := r.solve()
	// I·R + n·V·ln(I/Is + 1) = 5 V, by bisection.
	low, high := 0.0, 0.005
	for range 200 {
		i := (low + high) / 2
		if i*1000+0.02585*math.Log1p(i/1e-12) > 5 {
			high = i
		} else {
			low = i
		}
	}
	require.InEpsilon(t, low, s.Amp[e], 1e-5) // the leakage of the device comes on top
}

// randomMonotone adds devices whose currents rise with their voltage to a random network.
func randomMonotone(rng *rand.Rand, r *rig, devices int) {
	for range devices {
		a := rng.IntN(r.Nodes())
		b := (a + 1 + rng.IntN(r.Nodes()-1)) % r.Nodes()
		var d dc.Device
		switch rng.IntN(5) {
		case 0:
			d = dc.ConstantCurrent{Amp: 10 * rng.Float64(), KneeVolt: 0.1 + 5*rng.Float64()}
		case 1:
			d = dc.Diode{ForwardVolt: rng.Float64(), OnOhm: math.Pow(10, -3+3*rng.Float64())}
		case 2:
			d = dc.Diode{ForwardVolt: 0.7, OnOhm: math.Pow(10, -3+3*rng.Float64()), KneeVolt: 0.05}
		case 3:
			d = dc.Filament{NominalVolt: 12, NominalOhm: 1 + 10*rng.Float64(), ColdOhm: 0.2, Exponent: 0.3 + 0.3*rng.Float64()}
		case 4:
			d = dc.LimitedSource{Volt: 14, Ohm: 0.01 + rng.Float64(), LimitAmp: 1 + 100*rng.Float64()}
		}
		r.device(dc.Node(a), dc.Node(b), d)
	}
}

// With rising laws only, the solution is unique (Millar 1951, Duffin 1947), so that closing on all curves proves it
// right. Solve must find it whatever the network.
func TestRandomRisingDevices(t *testing.T) {
	most := 0
	for seed := range uint64(1500) {
		rng := rand.New(rand.NewPCG(seed, 40))
		nodes := 2 + rng.IntN(60)
		r := randomSpec(rng, nodes, nodes+rng.IntN(nodes)).build(t)
		randomMonotone(rng, r, 1+rng.IntN(2*nodes))
		for e := range dc.Element(r.Elements()) {
			if rng.IntN(10) == 0 {
				require.NoError(t, r.Open(e))
			}
		}
		err := r.Solve(&r.sol)
		if _, lost := err.(*dc.NoReturnError); lost {
			continue
		}
		require.NoError(t, err, "seed %d", seed)
		checkCloses(t, r.Network, &r.sol, nil)
		most = max(most, r.sol.Iterations)
	}
	t.Logf("at most %d iterations", most)
	require.LessOrEqual(t, most, dc.MaxIterations/2)
}

// randomSupply is a network of the sizes that occur in practice, put together without sense: sources, wires, contacts
// and loads of all kinds anywhere and either way round, some of them opened.
func randomSupply(t *testing.T, rng *rand.Rand) *rig {
	nodes := 1 + rng.IntN(24)
	r := newRig(t, nodes, 0)
	for range 5 + rng.IntN(75) {
		a, b := dc.Node(rng.IntN(nodes)), dc.Node(rng.IntN(nodes))
		if a == b {
			continue
		}
		wire := math.Pow(10, -4+3*rng.Float64())
		switch rng.IntN(13) {
		case 0:
			r.resistor(a, b, math.Pow(10, -5+9*rng.Float64()))
		case 1, 2, 3, 4:
			r.resistor(a, b, wire)
		case 5:
			r.voltage(a, b, 12+rng.Float64(), wire)
		case 6:
			r.device(a, b, dc.ConstantCurrent{Amp: 20 * rng.Float64(), KneeVolt: 1 + 4*rng.Float64()})
		case 7:
			r.device(a, b, dc.ConstantPower{Watt: 100 * rng.Float64(), MinVolt: 1 + 8*rng.Float64()})
		case 8:
			r.device(a, b, dc.Diode{ForwardVolt: 0.7, OnOhm: wire})
		case 9:
			r.device(a, b, dc.Diode{ForwardVolt: 0.7, OnOhm: wire, KneeVolt: 0.05})
		case 10:
			r.device(a, b, dc.Filament{NominalVolt: 12, NominalOhm: 2 + 10*rng.Float64(), ColdOhm: 0.2, Exponent: 0.5})
		case 11:
			r.device(a, b, dc.LimitedSource{Volt: 14.2, Ohm: wire, LimitAmp: 100})
		case 12:
			if r.Elements() > 0 {
				require.NoError(t, r.Open(dc.Element(rng.IntN(r.Elements()))))
			}
		}
	}
	return r
}

// Whatever is put together from practical parts must settle and close, generators that push against blocked diodes
// and loads that collapse among them.
func TestRandomSupply(t *testing.T) {
	most, slow := 0, 0
	for seed := range uint64(10000) {
		r := randomSupply(t, rand.New(rand.NewPCG(seed, 42)))
		require.NoError(t, r.Solve(&r.sol), "seed %d", seed)
		checkCloses(t, r.Network, &r.sol, nil)
		most = max(most, r.sol.Iterations)
		if r.sol.Iterations > 30 {
			slow++
		}
	}
	t.Logf("at most %d iterations, more than 30 in %d of 10000", most, slow)
	require.Less(t, slow, 50)
}

// Constant-power loads on a random supply network, against the plain iteration I = P/V from the open-circuit
// voltages, which descends to the highest operating point.
func TestRandomConstantPower(t *testing.T) {
	for seed := range uint64(100) {
		rng := rand.New(rand.NewPCG(seed, 41))
		nodes := 2 + rng.IntN(20)
		s := &spec{nodes: nodes, voltages: []branch{{a: 1, b: 0, value: 12, ohm: 0.02}}}
		for v := 2; v < nodes; v++ {
			for range 2 {
				s.resistors = append(s.resistors, branch{a: dc.Node(1 + rng.IntN(v-1)), b: dc.Node(v), value: 0.001 + 0.02*rng.Float64()})
			}
		}
		r := s.build(t)
		watt := make([]float64, nodes)
		for v := 1; v < nodes; v++ {
			watt[v] = 600 / float64(nodes) * rng.Float64()
			r.device(dc.Node(v), 0, dc.ConstantPower{Watt: watt[v], MinVolt: 1})
		}
		g, rhs := s.matrix()
		var c mat.Cholesky
		require.True(t, c.Factorize(g))
		volt, drawn := mat.NewVecDense(nodes-1, nil), mat.NewVecDense(nodes-1, nil)
		require.NoError(t, c.SolveVecTo(volt, rhs))
		for range 500 {
			for i := range nodes - 1 {
				drawn.SetVec(i, rhs.AtVec(i)-watt[i+1]/volt.AtVec(i))
			}
			require.NoError(t, c.SolveVecTo(volt, drawn))
		}
		got := r.solve()
		for v := 1; v < nodes; v++ {
			require.InDelta(t, volt.AtVec(v-1), got.Volt[v], 1e-6, "seed %d, node %d", seed, v)
		}
	}
}

// The result must not depend on what was solved before.
func TestNoMemoryOfEarlierStates(t *testing.T) {
	r := newRig(t, 3, 0)
	feed := r.voltage(1, 0, 12, 0.1)
	r.resistor(1, 2, 0.05)
	r.device(2, 0, dc.ConstantPower{Watt: 150, MinVolt: 0.5})
	r.device(2, 0, dc.Filament{NominalVolt: 12, NominalOhm: 3, ColdOhm: 0.3, Exponent: 0.5})
	want := r.solve().Clone()
	require.NoError(t, r.SetOhm(feed, 5)) // the load collapses
	require.Equal(t, dc.StateStarved, r.solve().State[2])
	require.NoError(t, r.SetOhm(feed, 0.1))
	require.Equal(t, want, r.solve())
}

func TestLoadedHarness(t *testing.T) {
	r := loadedHarness(t, 4000)
	s := r.solve()
	for _, state := range s.State {
		require.NotEqual(t, dc.StateStarved, state)
		require.NotEqual(t, dc.StateUnpowered, state)
	}
	require.LessOrEqual(t, s.Iterations, 12)
	require.InDelta(t, 1500*math.Pow(13.9/12, 1.3), s.DissipatedWatt, 700, "about the power its loads are rated for")
}
