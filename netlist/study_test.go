package netlist_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/schematic"
)

// edit changes one thing of a document at random: mostly values, now and then
// the network's shape.
func edit(rng *rand.Rand, d *schematic.Doc) *schematic.Doc {
	put := func(it schematic.Item) *schematic.Doc { return d.With(schematic.Put{Key: it.Key(), Item: it}) }
	wires, parts := slices.SortedFunc(d.Wires(), byKey), slices.SortedFunc(d.Parts(), byKey)
	w, p := *wires[rng.IntN(len(wires))], *parts[rng.IntN(len(parts))]
	set := func(name string, v float64) *schematic.Doc {
		m := map[string]float64{name: v}
		for k, v := range p.Values {
			if k != name {
				m[k] = v
			}
		}
		p.Values = m
		return put(&p)
	}
	switch rng.IntN(14) {
	case 0, 1:
		w.LengthMM = schematic.Some(100 + 3000*rng.Float64())
		return put(&w)
	case 2:
		w.LengthMM = schematic.Num{}
		return put(&w)
	case 3:
		w.Size = unit.MM2([]float64{0.5, 1, 2.5, 6}[rng.IntN(4)])
		return put(&w)
	case 4:
		w.Insulation = []string{"", "FLRY", "FLR2X"}[rng.IntN(3)]
		return put(&w)
	case 5:
		w.B.JointOhm = schematic.Some(rng.Float64() * 0.01)
		return put(&w)
	case 6:
		return set("amp", 1+20*rng.Float64())
	case 7:
		return set("ohm", 20*rng.Float64())
	case 8:
		return set("coil_ohm", 50+rng.Float64()*50)
	case 9:
		return set("watt", rng.Float64()*50-2)
	case 10:
		st := *d.States()[0]
		st.Set = append(slices.Clone(st.Set), schematic.Setting{Part: p.ID, Position: "on"})
		return put(&st)
	case 11:
		w.A, w.B = w.B, w.A
		return put(&w)
	case 12:
		info := *d.Info()
		info.AmbientC = schematic.Some(20 + float64(rng.IntN(60)))
		return put(&info)
	}
	p.Name += "x"
	return put(&p)
}

func byKey[T schematic.Item](x, y T) int { return x.Key().Compare(y.Key()) }

// After any edits a study says what a fresh computation says, to the last bit,
// and its network holds the same values.
func TestStudyAgainstFresh(t *testing.T) {
	kept := 0
	for seed := range uint64(60) {
		rng := rand.New(rand.NewPCG(seed, 12))
		parts, wires, states := randomPlan(rng)
		d := doc(t, join(parts, wires, states))
		var study netlist.Study
		n, _ := study.Solve(d)
		for step := range 15 {
			d = edit(rng, d)
			was := n
			var got []*netlist.Solution
			n, got = study.Solve(d)
			if len(was.Nodes) == len(n.Nodes) && len(n.Nodes) > 0 && &was.Nodes[0] == &n.Nodes[0] {
				kept++
			}
			fresh := netlist.Build(d)
			require.Same(t, d, n.Doc)
			require.Equal(t, fresh.Branches, n.Branches, "seed %d step %d", seed, step)
			require.Equal(t, fresh.Nodes, n.Nodes)
			require.Equal(t, fresh.Nets, n.Nets)
			want := fresh.SolveAll()
			require.Len(t, got, len(want))
			for i := range want {
				require.Equal(t, want[i].Err == nil, got[i].Err == nil)
				require.Equal(t, want[i].Chattering, got[i].Chattering)
				if want[i].Err != nil || len(want[i].Chattering) > 0 {
					continue
				}
				require.Equal(t, bits(want[i].Volt), bits(got[i].Volt), "seed %d step %d", seed, step)
				require.Equal(t, bits(want[i].Amp), bits(got[i].Amp), "seed %d step %d", seed, step)
				require.Equal(t, want[i].Over, got[i].Over)
			}
		}
	}
	assert.Greater(t, kept, 100, "most edits keep the network")
}

func bits(v []float64) string {
	out := make([]uint64, len(v))
	for i, x := range v {
		if !math.IsNaN(x) {
			out[i] = math.Float64bits(x)
		}
	}
	return fmt.Sprint(out)
}
