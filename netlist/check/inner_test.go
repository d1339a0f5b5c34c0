package check

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/schematic"
)

// Blocks against the definition: two branches are in one block when a loop
// without repeated nodes runs through both.
func TestBlocksAgainstLoops(t *testing.T) {
	for seed := range uint64(300) {
		rng := rand.New(rand.NewPCG(seed, 1))
		nodes := 2 + rng.IntN(6)
		edges := make([]edge, 1+rng.IntN(9))
		for i := range edges {
			edges[i] = edge{rng.IntN(nodes), rng.IntN(nodes)}
		}
		b := findBlocks(nodes, edges, func(int) bool { return true })
		together := loops(nodes, edges)
		for i := range edges {
			if edges[i].a == edges[i].b {
				assert.Equal(t, -1, b.of[i])
				continue
			}
			for j := range edges {
				if i != j && edges[j].a != edges[j].b {
					assert.Equal(t, together[[2]int{i, j}], b.of[i] == b.of[j], "seed %d: %v, branches %d and %d", seed, edges, i, j)
				}
			}
		}
	}
}

// loops finds all pairs of branches on a common loop by walking every path.
func loops(nodes int, edges []edge) map[[2]int]bool {
	pairs := map[[2]int]bool{}
	var path []int
	used := make([]bool, nodes)
	var walk func(start, at int)
	walk = func(start, at int) {
		for i, e := range edges {
			if e.a == e.b || len(path) > 0 && (i == path[len(path)-1] || i == path[0]) {
				continue
			}
			to := e.a
			switch at {
			case e.a:
				to = e.b
			case e.b:
			default:
				continue
			}
			if to == start && len(path) > 0 {
				loop := append(append([]int{}, path...), i)
				for _, x := range loop {
					for _, y := range loop {
						pairs[[2]int{x, y}] = true
					}
				}
				continue
			}
			if used[to] {
				continue
			}
			used[to] = true
			path = append(path, i)
			walk(start, to)
			path = path[:len(path)-1]
			used[to] = false
		}
	}
	for start := range nodes {
		used[start] = true
		walk(start, start)
		used[start] = false
	}
	return pairs
}

// The feed of a zone is a largest flow, so it equals the smallest sum of
// ratings that cuts the zone off (Ford and Fulkerson 1956): here by trying all
// cuts.
func TestFeedAgainstAllCuts(t *testing.T) {
	for seed := range uint64(400) {
		rng := rand.New(rand.NewPCG(seed, 2))
		count := 2 + rng.IntN(5)
		z := &zones{live: make([]bool, count), at: make([][]int, count)}
		z.live[0] = true
		z.live[rng.IntN(count-1)] = true // never the last one
		for i := range 1 + rng.IntN(9) {
			l := link{branch: i, from: rng.IntN(count), to: rng.IntN(count), known: true, amp: []float64{5, 7.5, 10, 20, 30}[rng.IntN(5)]}
			switch rng.IntN(8) {
			case 0:
				l.amp, l.oneWay = math.Inf(1), true
			case 1:
				l.amp, l.known = math.Inf(1), false
			case 2:
				l.oneWay = true
			}
			z.link(l)
		}
		sink := count - 1
		want := math.Inf(1)
		for cut := range 1 << count { // set: on the side of the sources
			if cut>>sink&1 == 1 {
				continue
			}
			sum, ok := 0.0, true
			for zone, live := range z.live {
				ok = ok && (!live || cut>>zone&1 == 1)
			}
			for _, l := range z.links {
				from, to := cut>>l.from&1 == 1, cut>>l.to&1 == 1
				if from && !to || to && !from && !l.oneWay {
					sum += l.amp
				}
			}
			if ok {
				want = math.Min(want, sum)
			}
		}
		got := z.feed(sink)
		require.Equal(t, want, got.amp, "seed %d: %+v", seed, z.links)
		if !math.IsInf(want, 1) {
			sum := 0.0
			for _, i := range got.by {
				sum += z.links[linkOf(z, i)].amp
			}
			assert.Equal(t, want, sum, "seed %d: the fuses named let just that through", seed)
		}
	}
}

func linkOf(z *zones, branch int) int {
	for i := range z.links {
		if z.links[i].branch == branch {
			return i
		}
	}
	return -1
}

// groundDoc is a random ground of bonding straps between bus bars.
func groundDoc(rng *rand.Rand) (*schematic.Doc, int) {
	id := func(b ...byte) schematic.ID { return uuid.NewSHA1(uuid.Nil, b) }
	kind := &schematic.Kind{Name: "bar", OwnPins: false, Pins: []schematic.Pin{{Name: "1"}}}
	battery := &schematic.Kind{Name: "battery", Pins: []schematic.Pin{{Name: "+"}, {Name: "-"}},
		Elements: []schematic.Element{{Name: "cells", Type: schematic.ElemBattery, A: "+", B: "-",
			Args: map[string]schematic.Arg{"volt": {Value: 12}, "ohm": {Value: 0.01}}}}}
	d := schematic.New(schematic.NewLibrary(kind, battery))
	put := func(it schematic.Item) { d = d.With(schematic.Put{Key: it.Key(), Item: it}) }
	put(&schematic.Part{ID: id(0), Name: "G1", Kind: "battery"})
	bars := 1 + rng.IntN(12)
	for i := range bars {
		put(&schematic.Part{ID: id(1, byte(i)), Name: "X" + string(rune('a'+i)), Kind: "bar"})
	}
	end := func(i int) schematic.End {
		if i == bars {
			return schematic.End{Part: id(0), Pin: "-"}
		}
		return schematic.End{Part: id(1, byte(i)), Pin: "1"}
	}
	for i := range bars + rng.IntN(2*bars) {
		a, b := rng.IntN(bars+1), rng.IntN(bars+1)
		if i < bars {
			a, b = i, i+1+rng.IntN(bars-i)
		}
		put(strap(id(2, byte(i)), end(a), end(b), 100+2000*rng.Float64()))
	}
	return d, bars
}

func strap(id schematic.ID, a, b schematic.End, mm float64) *schematic.Wire {
	return &schematic.Wire{ID: id, Name: "W" + id.String()[:8], A: a, B: b, Size: unit.MM2(2.5), LengthMM: schematic.Some(mm)}
}

// Resistances to battery negative against the inverse of the conductance
// matrix (gonum); and a strap more never raises one (Rayleigh 1899).
func TestGroundResistance(t *testing.T) {
	for seed := range uint64(150) {
		rng := rand.New(rand.NewPCG(seed, 3))
		d, bars := groundDoc(rng)
		n := netlist.Build(d)
		g := newGroundNet(n)
		want := inverted(t, n)
		for node := range n.Nodes {
			ohm, ok := g.ohm(node)
			require.Equal(t, n.Nodes[node].Net == n.Nodes[n.Reference].Net, ok, n.Nodes[node].Name)
			if ok {
				require.InDelta(t, want[node], ohm, 1e-9, "seed %d: %s", seed, n.Nodes[node].Name)
			}
		}
		parts := []schematic.ID{uuid.NewSHA1(uuid.Nil, []byte{0})}
		for i := range bars {
			parts = append(parts, uuid.NewSHA1(uuid.Nil, []byte{1, byte(i)}))
		}
		more := strap(schematic.ID{99}, schematic.End{Part: parts[1+rng.IntN(bars)], Pin: "1"}, schematic.End{Part: parts[0], Pin: "-"}, 500)
		strapped := newGroundNet(netlist.Build(d.With(schematic.Put{Key: more.Key(), Item: more})))
		for node := range n.Nodes {
			before, ok := g.ohm(node)
			after, ok2 := strapped.ohm(node)
			assert.Equal(t, ok, ok2)
			assert.LessOrEqual(t, after, before+1e-12, "seed %d: %s", seed, n.Nodes[node].Name)
		}
	}
}

func inverted(t *testing.T, n *netlist.Netlist) []float64 {
	t.Helper()
	row := map[int]int{}
	for node := range n.Nodes {
		if node != n.Reference && n.Nodes[node].Net == n.Nodes[n.Reference].Net {
			row[node] = len(row)
		}
	}
	out := make([]float64, len(n.Nodes))
	if len(row) == 0 {
		return out
	}
	m := mat.NewDense(len(row), len(row), nil)
	for i := range n.Branches {
		br := &n.Branches[i]
		if br.Role != netlist.RoleWire || br.A == br.B {
			continue
		}
		a, okA := row[br.A]
		b, okB := row[br.B]
		if okA {
			m.Set(a, a, m.At(a, a)+1/br.Ohm)
		}
		if okB {
			m.Set(b, b, m.At(b, b)+1/br.Ohm)
		}
		if okA && okB {
			m.Set(a, b, m.At(a, b)-1/br.Ohm)
			m.Set(b, a, m.At(b, a)-1/br.Ohm)
		}
	}
	var inv mat.Dense
	require.NoError(t, inv.Inverse(m))
	for node, r := range row {
		out[node] = inv.At(r, r)
	}
	return out
}
