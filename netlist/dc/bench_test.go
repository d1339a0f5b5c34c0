package dc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"loomwright/netlist/dc"
)

// shape builds one of the benchmark networks: unit-sized resistors, a source from node 0, and loads.
func shape(b testing.TB, name string, nodes int) *rig {
	rng := rand.New(rand.NewPCG(1, uint64(nodes)))
	r := newRig(b, nodes, 0)
	ohm := func() float64 { return 0.001 + 0.01*rng.Float64() }
	switch name {
	case "chain":
		for v := 1; v < nodes; v++ {
			r.resistor(dc.Node(v-1), dc.Node(v), ohm())
		}
	case "tree":
		for v := 1; v < nodes; v++ {
			r.resistor(dc.Node(rng.IntN(v)), dc.Node(v), ohm())
		}
	case "grid":
		side := int(math.Sqrt(float64(nodes)))
		for _, e := range gridEdges(side) {
			r.resistor(dc.Node(e[0]), dc.Node(e[1]), ohm())
		}
		for v := side * side; v < nodes; v++ {
			r.resistor(dc.Node(v-1), dc.Node(v), ohm())
		}
	case "harness":
		// Supply and return wires side by side in one branching loom, a load at each end, and a ground stud at every
		// twentieth branch.
		half := nodes / 2
		parent := make([]bool, nodes)
		for v := 1; v < half; v++ {
			p := rng.IntN(v)
			parent[p] = true
			r.resistor(dc.Node(p), dc.Node(v), ohm())
			r.resistor(dc.Node(half+p), dc.Node(half+v), ohm())
			if v%20 == 0 {
				r.resistor(dc.Node(half+v), dc.Node(half), 0.003)
			}
		}
		for v := 1; v < half; v++ {
			if !parent[v] {
				r.resistor(dc.Node(v), dc.Node(half+v), 1e4+1e5*rng.Float64())
			}
		}
		r.voltage(0, dc.Node(half), 12.6, 0.01)
		require.NoError(b, r.SetReference(dc.Node(half)))
		return r
	}
	for range max(1, nodes/100) {
		v := 1 + rng.IntN(nodes-1)
		r.resistor(dc.Node(v), 0, 1000)
	}
	r.current(0, dc.Node(nodes-1), 1)
	return r
}

var shapes = []string{"chain", "tree", "grid", "harness"}

func eachShape(b *testing.B, run func(b *testing.B, name string, nodes int)) {
	for _, name := range shapes {
		for _, nodes := range []int{1_000, 10_000, 100_000} {
			b.Run(fmt.Sprintf("%s/%d", name, nodes), func(b *testing.B) {
				b.ReportAllocs()
				run(b, name, nodes)
			})
		}
	}
}

// BenchmarkScratch solves a network whose elements are all new: order, pattern, factor, solution.
func BenchmarkScratch(b *testing.B) {
	eachShape(b, func(b *testing.B, name string, nodes int) {
		r := shape(b, name, nodes)
		node := []dc.Node{r.Reference(), dc.NoNode}
		for i := 0; b.Loop(); i++ {
			// Setting the reference anew throws the analysis away; the second call restores it.
			_ = r.SetReference(node[1])
			_ = r.SetReference(node[0])
			if err := r.Solve(&r.sol); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkAllValues changes every resistance and solves.
func BenchmarkAllValues(b *testing.B) {
	eachShape(b, func(b *testing.B, name string, nodes int) {
		r := shape(b, name, nodes)
		r.solve()
		for i := 0; b.Loop(); i++ {
			for e := range dc.Element(r.Elements()) {
				if k, _ := r.Kind(e); k == dc.KindResistor {
					_ = r.SetOhm(e, 0.01+0.001*float64((i+int(e))%7))
				}
			}
			if err := r.Solve(&r.sol); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkOneValue changes one resistance and solves.
func BenchmarkOneValue(b *testing.B) {
	eachShape(b, func(b *testing.B, name string, nodes int) {
		r := shape(b, name, nodes)
		r.solve()
		rng := rand.New(rand.NewPCG(3, 4))
		for i := 0; b.Loop(); i++ {
			_ = r.SetOhm(dc.Element(rng.IntN(nodes/3)), 0.01+0.001*float64(i%7))
			if err := r.Solve(&r.sol); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkSameFactor changes a source only.
func BenchmarkSameFactor(b *testing.B) {
	for _, name := range shapes[:3] {
		b.Run(name+"/100000", func(b *testing.B) {
			b.ReportAllocs()
			r := shape(b, name, 100_000)
			r.solve()
			last := dc.Element(r.Elements() - 1)
			for i := 0; b.Loop(); i++ {
				_ = r.SetAmp(last, 1+float64(i%3))
				if err := r.Solve(&r.sol); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkDense500 solves one random network of 500 nodes with this package, from scratch, and with gonum's dense
// Cholesky factorisation.
func BenchmarkDense500(b *testing.B) {
	const nodes = 500
	spec := randomSpec(rand.New(rand.NewPCG(5, 6)), nodes, 2*nodes)
	b.Run("dc", func(b *testing.B) {
		r := spec.build(b)
		for b.Loop() {
			_ = r.SetReference(dc.NoNode)
			_ = r.SetReference(0)
			if err := r.Solve(&r.sol); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("gonum", func(b *testing.B) {
		g, rhs := spec.matrix()
		for b.Loop() {
			var c mat.Cholesky
			if !c.Factorize(g) {
				b.Fatal("not positive definite")
			}
			var x mat.VecDense
			if err := c.SolveVecTo(&x, rhs); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// BenchmarkDevices solves a harness with a generator, a battery and a load on every twig, cold start each time.
func BenchmarkDevices(b *testing.B) {
	for _, nodes := range []int{1_000, 10_000} {
		b.Run(fmt.Sprint(nodes), func(b *testing.B) {
			b.ReportAllocs()
			r := loadedHarness(b, nodes)
			for i := 0; b.Loop(); i++ {
				_ = r.SetOhm(0, 0.01+0.001*float64(i%7))
				if err := r.Solve(&r.sol); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(float64(r.sol.Iterations), "iterations")
		})
	}
}

// loadedHarness is the harness shape with devices: generator and battery at the root, and on the twigs in turn lamps,
// constant-current and constant-power loads and coils with a diode across.
func loadedHarness(b testing.TB, nodes int) *rig {
	rng := rand.New(rand.NewPCG(7, uint64(nodes)))
	half := nodes / 2
	ground := dc.Node(half)
	r := newRig(b, nodes, ground)
	parent := make([]bool, half)
	for v := 1; v < half; v++ {
		p := rng.IntN(v)
		parent[p] = true
		r.resistor(dc.Node(p), dc.Node(v), 0.0005+0.002*rng.Float64())
		r.resistor(ground, ground+dc.Node(v), 0.002)
	}
	r.voltage(0, ground, 12.6, 0.01)
	r.device(0, ground, dc.LimitedSource{Volt: 14.2, Ohm: 0.005, LimitAmp: 120})
	watt := 1500 / float64(half) // the whole harness stays within what its sources give
	for v := 1; v < half; v++ {
		if parent[v] {
			continue
		}
		a, c := dc.Node(v), ground+dc.Node(v)
		switch v % 4 {
		case 0:
			r.device(a, c, dc.Filament{NominalVolt: 12, NominalOhm: 144 / watt, ColdOhm: 14 / watt, Exponent: 0.5})
		case 1:
			r.device(a, c, dc.ConstantCurrent{Amp: watt / 12, KneeVolt: 2})
		case 2:
			r.device(a, c, dc.ConstantPower{Watt: watt, MinVolt: 6})
		default:
			r.resistor(a, c, 144/watt)
			r.device(c, a, dc.Diode{ForwardVolt: 0.7, OnOhm: 0.05})
		}
	}
	return r
}

// BenchmarkBuildAndSolve adds all elements of a tree one by one and solves.
func BenchmarkBuildAndSolve(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		r := shape(b, "tree", 100_000)
		if err := r.Solve(&r.sol); err != nil {
			b.Fatal(err)
		}
	}
}
