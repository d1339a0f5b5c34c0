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
	case "ring":
		for v := range nodes {
			r.resistor(dc.Node(v), dc.Node((v+1)%nodes), ohm())
		}
	case "star":
		for v := 2; v < nodes; v++ {
			r.resistor(1, dc.Node(v), ohm())
		}
		r.resistor(0, 1, ohm())
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

var shapes = []string{"chain", "tree", "harness", "star", "ring", "grid"}

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

// again returns a function that builds the network of r anew, with the same elements in the same order.
func again(r *rig) func() *dc.Network {
	type element struct {
		a, b  dc.Node
		kind  dc.Kind
		value [3]float64
	}
	list := make([]element, r.Elements())
	for e := range list {
		x := &list[e]
		x.kind, _ = r.Kind(dc.Element(e))
		x.a, x.b = r.Ends(dc.Element(e))
		x.value[0], x.value[1], x.value[2] = r.Values(dc.Element(e))
	}
	nodes, reference := r.Nodes(), r.Reference()
	return func() *dc.Network {
		n := dc.New(nodes)
		_ = n.SetReference(reference)
		for i := range list {
			x := &list[i]
			switch x.kind {
			case dc.KindResistor:
				_, _ = n.Resistor(x.a, x.b, 1/x.value[0])
			case dc.KindVoltage:
				_, _ = n.VoltageSource(x.a, x.b, x.value[1], 1/x.value[0])
			case dc.KindCurrent:
				_, _ = n.CurrentSource(x.a, x.b, x.value[2])
			}
		}
		return n
	}
}

// BenchmarkScratch adds all elements one by one to a new network and solves: order, pattern, factor, solution.
func BenchmarkScratch(b *testing.B) {
	eachShape(b, func(b *testing.B, name string, nodes int) {
		build := again(shape(b, name, nodes))
		for b.Loop() {
			var sol dc.Solution
			if err := build().Solve(&sol); err != nil {
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

// BenchmarkOneChange makes one change of each kind and solves. In the tree most openings cut a part off.
func BenchmarkOneChange(b *testing.B) {
	for _, name := range []string{"tree", "harness"} {
		r := shape(b, name, 100_000)
		rng := rand.New(rand.NewPCG(3, 4))
		source := dc.Element(r.Elements() - 1)
		set := r.SetVolt
		if k, _ := r.Kind(source); k == dc.KindCurrent {
			set = r.SetAmp
		}
		for _, c := range []struct {
			name   string
			change func(i int)
		}{
			{"ohm", func(i int) { _ = r.SetOhm(dc.Element(rng.IntN(90_000)), 0.01+0.001*float64(i%7)) }},
			{"open", func(i int) {
				_ = r.Close(dc.Element(i % 90_000))
				_ = r.Open(dc.Element((i + 1) % 90_000))
			}},
			{"source", func(i int) { _ = set(source, 12+0.1*float64(i%3)) }},
		} {
			b.Run(name+"/"+c.name, func(b *testing.B) {
				b.ReportAllocs()
				r.solve()
				for i := 0; b.Loop(); i++ {
					c.change(i)
					if err := r.Solve(&r.sol); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// BenchmarkVariations opens each wire in turn; the time is that of one variation.
func BenchmarkVariations(b *testing.B) {
	for _, nodes := range []int{1_000, 10_000, 100_000} {
		b.Run(fmt.Sprintf("harness/%d", nodes), func(b *testing.B) {
			b.ReportAllocs()
			r := shape(b, "harness", nodes)
			r.solve()
			changes := make([]dc.Change, b.N)
			for i := range changes {
				changes[i] = dc.Opened(dc.Element(i % nodes))
			}
			b.ResetTimer()
			for _, err := range r.Variations(&r.sol, changes) {
				if err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkResistance measures between two random nodes.
func BenchmarkResistance(b *testing.B) {
	for _, name := range []string{"tree", "harness", "grid"} {
		b.Run(name+"/100000", func(b *testing.B) {
			b.ReportAllocs()
			r := shape(b, name, 100_000)
			r.solve()
			rng := rand.New(rand.NewPCG(3, 4))
			for b.Loop() {
				if _, err := r.ResistanceBetween(dc.Node(rng.IntN(100_000)), dc.Node(rng.IntN(100_000))); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkDense solves one random network with this package, from scratch, and with gonum's dense Cholesky
// factorisation.
func BenchmarkDense(b *testing.B) {
	for _, nodes := range []int{500, 2000} {
		spec := randomSpec(rand.New(rand.NewPCG(5, 6)), nodes, 2*nodes)
		b.Run(fmt.Sprintf("dc/%d", nodes), func(b *testing.B) {
			build := again(spec.build(b))
			for b.Loop() {
				var sol dc.Solution
				if err := build().Solve(&sol); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("gonum/%d", nodes), func(b *testing.B) {
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
