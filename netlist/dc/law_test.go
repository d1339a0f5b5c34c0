package dc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"loomwright/netlist/dc"
)

// spec is a random linear network, connected, with node 0 as its reference.
type spec struct {
	nodes     int
	resistors []branch // ohm in value
	voltages  []branch // volt in value, behind ohm
	currents  []branch // amp in value
}

type branch struct {
	a, b       dc.Node
	value, ohm float64
}

// randomSpec returns a network with the given number of resistors, a spanning tree among them, of 1 mΩ to 1 kΩ, and a
// few sources.
func randomSpec(rng *rand.Rand, nodes, resistors int) *spec {
	s := &spec{nodes: nodes}
	pair := func() (dc.Node, dc.Node) {
		a := rng.IntN(nodes)
		b := (a + 1 + rng.IntN(nodes-1)) % nodes
		return dc.Node(a), dc.Node(b)
	}
	ohm := func() float64 { return math.Pow(10, -3+6*rng.Float64()) }
	for v := 1; v < nodes; v++ {
		s.resistors = append(s.resistors, branch{a: dc.Node(rng.IntN(v)), b: dc.Node(v), value: ohm()})
	}
	for len(s.resistors) < resistors {
		a, b := pair()
		s.resistors = append(s.resistors, branch{a: a, b: b, value: ohm()})
	}
	for range 1 + rng.IntN(4) {
		a, b := pair()
		s.voltages = append(s.voltages, branch{a: a, b: b, value: 24 * (rng.Float64() - 0.3), ohm: ohm()})
		a, b = pair()
		s.currents = append(s.currents, branch{a: a, b: b, value: 10 * (rng.Float64() - 0.5)})
	}
	return s
}

// build makes the network: resistors first, then voltage sources, then current sources.
func (s *spec) build(t testing.TB) *rig {
	r := newRig(t, s.nodes, 0)
	for _, x := range s.resistors {
		r.resistor(x.a, x.b, x.value)
	}
	for _, x := range s.voltages {
		r.voltage(x.a, x.b, x.value, x.ohm)
	}
	for _, x := range s.currents {
		r.current(x.a, x.b, x.value)
	}
	return r
}

// matrix writes the same network down as conductance matrix and currents, node 0 left out.
func (s *spec) matrix() (*mat.SymDense, *mat.VecDense) {
	g, rhs := mat.NewSymDense(s.nodes-1, nil), mat.NewVecDense(s.nodes-1, nil)
	stamp := func(a, b dc.Node, siemens float64) {
		i, j := int(a)-1, int(b)-1
		if i >= 0 {
			g.SetSym(i, i, g.At(i, i)+siemens)
		}
		if j >= 0 {
			g.SetSym(j, j, g.At(j, j)+siemens)
		}
		if i >= 0 && j >= 0 {
			g.SetSym(i, j, g.At(i, j)-siemens)
		}
	}
	push := func(v dc.Node, amp float64) {
		if i := int(v) - 1; i >= 0 {
			rhs.SetVec(i, rhs.AtVec(i)+amp)
		}
	}
	for _, x := range s.resistors {
		stamp(x.a, x.b, 1/x.value)
	}
	for _, x := range s.voltages {
		stamp(x.a, x.b, 1/x.ohm)
		push(x.a, x.value/x.ohm)
		push(x.b, -x.value/x.ohm)
	}
	for _, x := range s.currents {
		push(x.a, -x.value)
		push(x.b, x.value)
	}
	return g, rhs
}

// Reference: gonum's dense Cholesky factorisation, with its solution improved once against the residual.
func (s *spec) dense(t testing.TB) *mat.VecDense {
	g, rhs := s.matrix()
	var c mat.Cholesky
	require.True(t, c.Factorize(g))
	var x, residual, fix mat.VecDense
	require.NoError(t, c.SolveVecTo(&x, rhs))
	for range 3 {
		residual.MulVec(g, &x)
		residual.SubVec(rhs, &residual)
		require.NoError(t, c.SolveVecTo(&fix, &residual))
		x.AddVec(&x, &fix)
	}
	return &x
}

func TestRandomAgainstDense(t *testing.T) {
	for seed := range uint64(300) {
		rng := rand.New(rand.NewPCG(seed, 1))
		nodes := 2 + rng.IntN(60)
		s := randomSpec(rng, nodes, nodes+rng.IntN(3*nodes))
		want := s.dense(t)
		got := s.build(t).solve()
		scale := mat.Norm(want, math.Inf(1))
		for v := 1; v < nodes; v++ {
			require.InDelta(t, want.AtVec(v-1), got.Volt[v], 1e-9*scale, "seed %d, node %d", seed, v)
		}
	}
}

// Foster 1949, "The average impedance of an electrical network": the sum over all edges of effective resistance by
// resistance is the number of nodes less one.
func TestFostersTheorem(t *testing.T) {
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 2))
		nodes := 2 + rng.IntN(40)
		s := randomSpec(rng, nodes, nodes+rng.IntN(2*nodes))
		s.voltages, s.currents = nil, nil
		r := s.build(t)
		probes := make([]dc.Element, len(s.resistors))
		for i, x := range s.resistors {
			probes[i] = r.current(x.b, x.a, 0)
		}
		sum := 0.0
		for i, x := range s.resistors {
			require.NoError(t, r.SetAmp(probes[i], 1))
			v := r.solve().Volt
			require.NoError(t, r.SetAmp(probes[i], 0))
			sum += (v[x.a] - v[x.b]) / x.value
		}
		require.InEpsilon(t, float64(nodes-1), sum, 1e-9, "seed %d", seed)
	}
}

// Reciprocity (H. A. Lorentz; Carson 1924): the voltage at one pair of nodes per ampere through another is the same
// the other way round.
func TestReciprocity(t *testing.T) {
	for seed := range uint64(100) {
		rng := rand.New(rand.NewPCG(seed, 3))
		nodes := 4 + rng.IntN(40)
		s := randomSpec(rng, nodes, 2*nodes)
		s.voltages, s.currents = nil, nil
		r := s.build(t)
		one, two := r.current(0, 1, 0), r.current(2, 3, 0)
		require.NoError(t, r.SetAmp(one, 1))
		v := r.solve().Volt
		forth := v[3] - v[2]
		require.NoError(t, r.SetAmp(one, 0))
		require.NoError(t, r.SetAmp(two, 1))
		v = r.solve().Volt
		scale := maxOf(v)
		require.InDelta(t, forth, v[1]-v[0], 1e-12*scale, "seed %d", seed)
	}
}

// Superposition (Helmholtz 1853): the currents of all sources together are the sums of the currents of each alone.
func TestSuperposition(t *testing.T) {
	for seed := range uint64(100) {
		rng := rand.New(rand.NewPCG(seed, 4))
		nodes := 2 + rng.IntN(40)
		s := randomSpec(rng, nodes, 2*nodes)
		r := s.build(t)
		all := r.solve().Clone()
		sum := make([]float64, r.Elements())
		off := func() {
			for e := range dc.Element(r.Elements()) {
				switch k, _ := r.Kind(e); k {
				case dc.KindVoltage:
					require.NoError(t, r.SetVolt(e, 0))
				case dc.KindCurrent:
					require.NoError(t, r.SetAmp(e, 0))
				}
			}
		}
		add := func() {
			for e, i := range r.solve().Amp {
				sum[e] += i
			}
		}
		first := len(s.resistors)
		for i, x := range s.voltages {
			off()
			require.NoError(t, r.SetVolt(dc.Element(first+i), x.value))
			add()
		}
		first += len(s.voltages)
		for i, x := range s.currents {
			off()
			require.NoError(t, r.SetAmp(dc.Element(first+i), x.value))
			add()
		}
		for e, want := range all.Amp {
			require.InDelta(t, want, sum[e], 1e-9, "seed %d, element %d", seed, e)
		}
	}
}

// 15 decades of conductance in one network: two nodes tied by 1 MS, held by 1 nS. The answer is that of a divider.
func TestStrongAndWeakTogether(t *testing.T) {
	r := newRig(t, 4, 0)
	r.voltage(1, 0, 12, 1e-6)
	up := r.resistor(1, 2, 1e9)
	link := r.resistor(2, 3, 1e-6)
	down := r.resistor(3, 0, 3e9)
	s := r.solve()
	for _, e := range []dc.Element{up, link, down} {
		require.InEpsilon(t, 3e-9, s.Amp[e], 1e-9)
	}
	require.InEpsilon(t, 9, s.Volt[2], 1e-12)
	require.InEpsilon(t, 9, s.Volt[3], 1e-12)

	// The same with 300 A through another such link, whose drop is far below the last digit of 12 V.
	r.voltage(1, 0, 12, 1e-6)
	r.resistor(1, 0, 0.04)
	s = r.solve()
	require.InEpsilon(t, s.Volt[1]/4e9, s.Amp[link], 1e-9)
}
