package netlist_test

import (
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

// A wire tried in the place of another, from the state as it was computed, draws
// what a harness drawn with that wire draws; and putting the old one back leaves
// no trace.
func TestTriedWiresAgreeWithDrawnOnes(t *testing.T) {
	tried := 0
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 15))
		plan, _ := switchedPlan(rng)
		plan += "state on running S1=on S2=on S3=on\nstate start cranking S1=on\nstate off off"
		d := doc(t, plan)
		n := netlist.Build(d)
		sols := n.SolveAll()
		solver := netlist.NewSolver(n)
		wires := slices.SortedFunc(d.Wires(), byKey)
		for range 6 {
			base := sols[rng.IntN(len(sols))]
			w := *wires[rng.IntN(len(wires))]
			w.Size = unit.MM2([]float64{0.75, 1, 4, 10}[rng.IntN(4)])
			i := n.WireBranch(w.ID)
			if !solver.SetWire(i, &w) {
				continue
			}
			got := solver.SolveNear(base)
			require.NoError(t, got.Err)
			require.True(t, solver.SetWire(i, n.Branches[i].Wire))
			drawn := d.With(schematic.Put{Key: w.Key(), Item: &w})
			want := netlist.Build(drawn).Solve(base.State)
			require.NoError(t, want.Err)
			tried++
			for b := range n.Branches {
				assert.InDelta(t, want.Amp[b], got.Amp[b], 2e-3*math.Max(1, math.Abs(want.Amp[b])), "seed %d, %s in %s", seed, n.Branches[b].Name(), base.State.Name)
			}
			back := solver.SolveNear(base)
			for b := range n.Branches {
				assert.InDelta(t, base.Amp[b], back.Amp[b], 2e-3*math.Max(1, math.Abs(base.Amp[b])), "seed %d, back again", seed)
			}
			if t.Failed() {
				t.Fatal(plan)
			}
		}
	}
	assert.Greater(t, tried, 150)
}
