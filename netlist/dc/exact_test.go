package dc_test

import (
	"math"
	"math/big"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

// exactVolts solves the network of r, without devices, by plain Gaussian elimination in numbers of 400 bits, with the
// lowest node of each floating island at 0 V.
func exactVolts(r *rig, value func(e dc.Element) (siemens, emf, amp float64)) []*big.Float {
	number := func(x float64) *big.Float { return new(big.Float).SetPrec(400).SetFloat64(x) }
	nodes := r.Nodes()
	m := make([][]*big.Float, nodes) // the last column is the right-hand side
	for v := range m {
		m[v] = make([]*big.Float, nodes+1)
		for k := range m[v] {
			m[v][k] = number(0)
		}
	}
	for e := range dc.Element(r.Elements()) {
		if r.IsOpen(e) {
			continue
		}
		a, b := r.Ends(e)
		siemens, emf, amp := value(e)
		g, push := number(siemens), number(emf)
		push.Mul(push, g)
		push.Sub(push, number(amp))
		m[a][a].Add(m[a][a], g)
		m[b][b].Add(m[b][b], g)
		m[a][b].Sub(m[a][b], g)
		m[b][a].Sub(m[b][a], g)
		m[a][nodes].Add(m[a][nodes], push)
		m[b][nodes].Sub(m[b][nodes], push)
	}
	zero := make([]bool, nodes)
	for _, island := range r.sol.Islands {
		zero[island.First] = island.Floating
	}
	zero[r.Reference()] = true
	for v := range m {
		if zero[v] {
			for k := range m[v] {
				m[v][k] = number(0)
			}
			m[v][v] = number(1)
		}
	}
	product := number(0)
	for j := range m {
		for v := j + 1; v < nodes; v++ {
			if m[v][j].Sign() == 0 {
				continue
			}
			share := number(0).Quo(m[v][j], m[j][j])
			for k := j; k <= nodes; k++ {
				m[v][k].Sub(m[v][k], product.Mul(share, m[j][k]))
			}
		}
	}
	x := make([]*big.Float, nodes)
	for j := nodes - 1; j >= 0; j-- {
		x[j] = m[j][nodes]
		for k := j + 1; k < nodes; k++ {
			x[j].Sub(x[j], product.Mul(m[j][k], x[k]))
		}
		x[j].Quo(x[j], m[j][j])
	}
	return x
}

// Conductances over twelve powers of ten, after openings that split islands, against elimination in 400 bits: each
// current to 12 digits of itself or 14 of the largest, voltages to 12 digits of the highest in their island or to what
// the 14th digit of the largest current makes in the resistance to the zero of the island.
func TestAgainstExact(t *testing.T) {
	for seed := range uint64(400) {
		rng := rand.New(rand.NewPCG(seed, 70))
		nodes := 2 + rng.IntN(24)
		s := randomSpec(rng, nodes, nodes+rng.IntN(nodes))
		for i := range s.resistors {
			s.resistors[i].value = math.Pow(10, -6+12*rng.Float64())
		}
		if seed%4 == 0 { // more voltage sources than are put last in the order
			for range 12 {
				a := rng.IntN(nodes)
				b := (a + 1 + rng.IntN(nodes-1)) % nodes
				s.voltages = append(s.voltages, branch{a: dc.Node(a), b: dc.Node(b), value: 24 * rng.Float64(), ohm: math.Pow(10, -6+6*rng.Float64())})
			}
		}
		r := s.build(t)
		for round := range 4 {
			for range round {
				act(rng, r)(r)
			}
			if err := r.Solve(&r.sol); err != nil {
				var lost *dc.NoReturnError
				require.ErrorAs(t, err, &lost, "seed %d", seed)
				continue
			}
			value := func(e dc.Element) (siemens, emf, amp float64) { return r.Values(e) }
			want := exactVolts(r, value)
			amps, largest := make([]float64, r.Elements()), 0.0
			for e := range dc.Element(r.Elements()) {
				if r.IsOpen(e) {
					continue
				}
				a, b := r.Ends(e)
				siemens, emf, amp := value(e)
				if k, _ := r.Kind(e); k != dc.KindCurrent {
					drop := new(big.Float).Sub(want[a], want[b])
					drop.Sub(drop, big.NewFloat(emf))
					drop.Mul(drop, big.NewFloat(siemens))
					amp, _ = drop.Float64()
				}
				amps[e] = amp
				largest = max(largest, math.Abs(amp))
			}
			for e, amp := range amps {
				require.InDelta(t, amp, r.sol.Amp[e], 1e-12*math.Abs(amp)+1e-14*largest+1e-20, "seed %d, element %d", seed, e)
			}
			highest := make([]float64, len(r.sol.Islands))
			for v, island := range r.sol.Island {
				volt, _ := want[v].Float64()
				highest[island] = max(highest[island], math.Abs(volt))
			}
			for v, island := range r.sol.Island {
				zero := r.Reference()
				if base := r.sol.Islands[island]; base.Floating {
					zero = base.First
				}
				ohm, err := r.ResistanceBetween(dc.Node(v), zero)
				require.NoError(t, err)
				volt, _ := want[v].Float64()
				require.InDelta(t, volt, r.sol.Volt[v], 1e-12*highest[island]+1e-14*largest*ohm+1e-20, "seed %d, node %d", seed, v)
			}
		}
	}
}

// A source of 1200 A short-circuit current under a load of 20 mA and with nothing but 10 MΩ: its small current must be
// right to its last digits, and that without refinement.
func TestLightLoad(t *testing.T) {
	r := newRig(t, 3, 0)
	source := r.voltage(1, 0, 12, 0.01)
	r.resistor(1, 2, 0.005)
	load := r.resistor(2, 0, 600)
	for _, ohm := range []float64{600, 1e7} {
		require.NoError(t, r.SetOhm(load, ohm))
		s := r.solve()
		require.InEpsilon(t, -12/(ohm+0.015), s.Amp[source], 4e-16)
		require.InEpsilon(t, 12/(ohm+0.015), s.Amp[load], 4e-16)
		require.Zero(t, s.Refinements)
	}
}
