package check

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"loomwright/netlist"
	"loomwright/schematic"
)

// feedDoc is a random feed: two batteries, bars, fuses between some of them and
// wires, many of them in loops, all on known lengths.
func feedDoc(rng *rand.Rand) *schematic.Doc {
	num := func(v float64) schematic.Arg { return schematic.Arg{Value: v} }
	kinds := []*schematic.Kind{
		{Name: "bar", Pins: []schematic.Pin{{Name: "1"}}},
		{Name: "battery", Pins: []schematic.Pin{{Name: "+"}, {Name: "-"}}, Elements: []schematic.Element{{Name: "cells", Type: schematic.ElemBattery, A: "+", B: "-",
			Args: map[string]schematic.Arg{"volt": num(12.6), "ohm": num(0.005)}}}},
		{Name: "second", Pins: []schematic.Pin{{Name: "+"}, {Name: "-"}}, Elements: []schematic.Element{{Name: "cells", Type: schematic.ElemBattery, A: "+", B: "-",
			Args: map[string]schematic.Arg{"volt": num(12.2), "ohm": num(0.008)}}}},
		{Name: "fuse", Pins: []schematic.Pin{{Name: "1"}, {Name: "2"}}, Elements: []schematic.Element{{Name: "fuse", Type: schematic.ElemFuse, A: "1", B: "2",
			Args: map[string]schematic.Arg{"amp": num(30), "ohm": num(0.002)}}}},
	}
	d := schematic.New(schematic.NewLibrary(kinds...))
	put := func(it schematic.Item) { d = d.With(schematic.Put{Key: it.Key(), Item: it}) }
	id := func(s string) schematic.ID { return uuid.NewSHA1(uuid.Nil, []byte(s)) }
	var ends []schematic.End
	part := func(name, kind string, pins ...string) {
		put(&schematic.Part{ID: id(name), Name: name, Kind: kind})
		for _, pin := range pins {
			ends = append(ends, schematic.End{Part: id(name), Pin: pin})
		}
	}
	part("G1", "battery", "+")
	if rng.IntN(2) == 0 {
		part("G2", "second", "+")
		put(strap(id("minus"), schematic.End{Part: id("G2"), Pin: "-"}, schematic.End{Part: id("G1"), Pin: "-"}, 400))
	}
	wires := 0
	join := func(a, b schematic.End) {
		wires++
		put(strap(id(fmt.Sprint("wire", wires)), a, b, 50+3000*rng.Float64()))
	}
	for i := range 3 + rng.IntN(12) {
		before := ends
		name := fmt.Sprint("P", i)
		if rng.IntN(3) == 0 {
			part(name, "fuse", "1", "2")
		} else {
			part(name, "bar", "1")
		}
		join(before[rng.IntN(len(before))], schematic.End{Part: id(name), Pin: "1"})
	}
	for range rng.IntN(6) {
		join(ends[rng.IntN(len(ends))], ends[rng.IntN(len(ends))])
	}
	return d
}

// Every short and every branch's part in it, against the inverse of the whole
// conductance matrix (gonum).
func TestShortsAgainstTheWholeNetwork(t *testing.T) {
	tried, stems := 0, 0
	for seed := range uint64(120) {
		n := netlist.Build(feedDoc(rand.New(rand.NewPCG(seed, 21))))
		r := &run{n: n, doc: n.Doc}
		for _, temper := range []temper{hot, cold} {
			p := r.prospect(temper)
			z, before := wholeFeed(t, r, temper)
			for node := range n.Nodes {
				if math.IsNaN(before[node]) || node == n.Reference || r.zones().of(node) == ground {
					continue
				}
				s, ok := p.at(node)
				require.True(t, ok, "seed %d: %s", seed, n.Nodes[node].Name)
				require.InEpsilon(t, z.At(node, node), s.ohm, 1e-6, "seed %d: %s", seed, n.Nodes[node].Name)
				require.InEpsilon(t, before[node], s.volt, 1e-6)
				if p.up[node] >= 0 {
					stems++
				}
				for i := range n.Branches {
					br := &n.Branches[i]
					if p.ohm[i] == 0 || r.zones().of(br.A) == ground {
						continue
					}
					// a short draws its current out of the node
					want := (z.At(br.B, node) - z.At(br.A, node)) / p.ohm[i]
					part, idle, ok := p.share(i, node)
					require.True(t, ok)
					require.InDelta(t, want, part, 1e-5, "seed %d: %s at %s", seed, br.Name(), n.Nodes[node].Name)
					require.InDelta(t, (before[br.A]-before[br.B])/p.ohm[i], idle, 1e-4, "seed %d: %s", seed, br.Name())
					tried++
				}
			}
		}
	}
	assert.Greater(t, tried, 10000)
	assert.Greater(t, stems, 500, "points on branches of the feed")
}

// wholeFeed returns the resistances between all nodes and the reference and the
// volts without a short; NaN where nothing feeds a node.
func wholeFeed(t *testing.T, r *run, how temper) (*mat.Dense, []float64) {
	t.Helper()
	n := r.n
	count := len(n.Nodes)
	g, push := mat.NewDense(count, count, nil), mat.NewVecDense(count, nil)
	add := func(a, b int, ohm float64) {
		g.Set(a, a, g.At(a, a)+1/ohm)
		g.Set(b, b, g.At(b, b)+1/ohm)
		g.Set(a, b, g.At(a, b)-1/ohm)
		g.Set(b, a, g.At(b, a)-1/ohm)
	}
	joined := netlist.NewGroups(count)
	for i := range n.Branches {
		br := &n.Branches[i]
		if br.A == br.B {
			continue
		}
		if br.IsSource() {
			cells := br.Cells()
			add(br.A, br.B, cells.Ohm)
			push.SetVec(br.A, push.AtVec(br.A)+cells.Volt/cells.Ohm)
			push.SetVec(br.B, push.AtVec(br.B)-cells.Volt/cells.Ohm)
		} else {
			ohm, ok := r.lineOhm(br, how)
			require.True(t, ok)
			add(br.A, br.B, ohm)
		}
		joined.Join(br.A, br.B)
	}
	g.Set(n.Reference, n.Reference, g.At(n.Reference, n.Reference)+1e12) // battery negative is at 0 V
	for node := range count {
		if joined.Of(node) != joined.Of(n.Reference) {
			g.Set(node, node, g.At(node, node)+1)
		}
	}
	var z mat.Dense
	require.NoError(t, z.Inverse(g))
	var volts mat.VecDense
	volts.MulVec(&z, push)
	out := make([]float64, count)
	for node := range count {
		out[node] = volts.AtVec(node)
		if joined.Of(node) != joined.Of(n.Reference) {
			out[node] = math.NaN()
		}
	}
	return &z, out
}
