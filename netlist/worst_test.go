package netlist_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/schematic"
)

// switchedPlan is a small harness with up to eight switches: fused feeds, some
// circuits by relay, some with two switches in a row, one change-over switch,
// loads of every sort, shared grounds. It returns the names of the switches.
func switchedPlan(rng *rand.Rand) (plan string, switches map[string][]string) {
	switches = map[string][]string{}
	w := 0
	wire := func(a, b, size string) {
		w++
		plan += fmt.Sprintf("W%d %s %s %s %d joints flry\n", w, a, b, size, 300+rng.IntN(2500))
	}
	plan = "ambient 30\nG1 battery volt=12.6 ohm=0.008\nG2 alternator limit_amp=90\nSP0 splice\nGND0 ground-body\nGND1 ground-body\nGND2 ground-body\n"
	wire("G1.+", "SP0.1", "16mm2")
	wire("G2.B+", "SP0.1", "16mm2")
	wire("G2.B-", "G1.-", "16mm2")
	wire("GND0.1", "G1.-", "16mm2")
	loads := 0
	load := func(from string) {
		loads++
		name, feed, back := fmt.Sprintf("E%d", loads), "1", "2"
		switch rng.IntN(5) {
		case 0:
			plan += fmt.Sprintf("%s lamp watt=%d\n", name, 5+rng.IntN(50))
		case 1:
			plan += fmt.Sprintf("%s load-resistive ohm=%d\n", name, 2+rng.IntN(20))
		case 2:
			plan += fmt.Sprintf("%s motor amp=%d\n", name, 1+rng.IntN(8))
			feed, back = "33", "32"
		case 3:
			plan += fmt.Sprintf("%s lamp-led watt=%d\n", name, 5+rng.IntN(30))
			feed, back = "+", "-"
		default:
			plan += fmt.Sprintf("%s load-two-pin amp=%d\n", name, 1+rng.IntN(4))
			feed, back = "+", "-"
		}
		wire(from, name+"."+feed, "1.5mm2")
		wire(name+"."+back, fmt.Sprintf("GND%d.1", 1+rng.IntN(2)), "1.5mm2")
	}
	for i := 1; len(switches) < 4+rng.IntN(4); i++ {
		plan += fmt.Sprintf("F%d fuse-regular amp=30\nS%d switch-toggle\nSP%d splice\n", i, i, i)
		wire("SP0.1", fmt.Sprintf("F%d.1", i), "4mm2")
		wire(fmt.Sprintf("F%d.2", i), fmt.Sprintf("S%d.82", i), "2.5mm2")
		switches[fmt.Sprintf("S%d", i)] = []string{"off", "on"}
		out := fmt.Sprintf("S%d.82a", i)
		switch rng.IntN(4) {
		case 0:
			plan += fmt.Sprintf("K%d relay-make\n", i)
			wire(out, fmt.Sprintf("K%d.86", i), "0.75mm2")
			wire(fmt.Sprintf("K%d.85", i), "GND1.1", "0.75mm2")
			wire(fmt.Sprintf("F%d.2", i), fmt.Sprintf("K%d.30", i), "2.5mm2")
			out = fmt.Sprintf("K%d.87", i)
		case 1:
			plan += fmt.Sprintf("S%d0 switch-change-over\nSP%d0 splice\n", i, i)
			switches[fmt.Sprintf("S%d0", i)] = []string{"a", "b"}
			wire(out, fmt.Sprintf("S%d0.81", i), "2.5mm2")
			wire(fmt.Sprintf("S%d0.81b", i), fmt.Sprintf("SP%d0.1", i), "2.5mm2")
			load(fmt.Sprintf("SP%d0.1", i))
			out = fmt.Sprintf("S%d0.81a", i)
		case 2:
			load(out)
			plan += fmt.Sprintf("S%d1 switch-toggle\n", i)
			switches[fmt.Sprintf("S%d1", i)] = []string{"off", "on"}
			wire(out, fmt.Sprintf("S%d1.82", i), "2.5mm2")
			out = fmt.Sprintf("S%d1.82a", i)
		}
		wire(out, fmt.Sprintf("SP%d.1", i), "2.5mm2")
		for range 1 + rng.IntN(3) {
			load(fmt.Sprintf("SP%d.1", i))
		}
	}
	wire("GND1.1", "GND2.1", "4mm2")
	return plan, switches
}

// Every combination of switches, engine off and running, against what Worst
// says.
func TestWorstAgainstAllCombinations(t *testing.T) {
	reached, over, count, sure := 1.0, 0.0, 0, 0
	for seed := range uint64(60) {
		rng := rand.New(rand.NewPCG(seed, 14))
		plan, switches := switchedPlan(rng)
		d := doc(t, plan)
		n := netlist.Build(d)
		solver := netlist.NewSolver(n)
		truth := map[int]float64{}
		combos := []schematic.State{{Engine: schematic.EngineOff}, {Engine: schematic.EngineRunning}, {Engine: schematic.EngineCranking}}
		for name, positions := range switches {
			k, _ := d.Named(name)
			var next []schematic.State
			for _, st := range combos {
				for _, pos := range positions {
					st2 := st
					st2.Set = append(append([]schematic.Setting{}, st.Set...), schematic.Setting{Part: k.ID, Position: pos})
					next = append(next, st2)
				}
			}
			combos = next
		}
		require.Greater(t, len(combos), 16)
		for i := range combos {
			s := solver.Solve(&combos[i])
			require.NoError(t, s.Err)
			for b := range n.Branches {
				truth[b] = math.Max(truth[b], math.Abs(s.Amp[b]))
			}
		}
		found := n.Worst()
		require.NoError(t, found.Err)
		require.Empty(t, found.Missed)
		for _, x := range found.Wires {
			want := truth[x.Wire]
			name := n.Branches[x.Wire].Name()
			assert.LessOrEqual(t, x.Amp, want*(1+1e-3)+1e-6, "seed %d %s: what is found occurs", seed, name)
			assert.GreaterOrEqual(t, x.Bound, want*(1-1e-6)-1e-6, "seed %d %s: the bound is never exceeded", seed, name)
			if x.State != nil {
				again := solver.Solve(x.State)
				assert.InDelta(t, x.Amp, math.Abs(again.Amp[x.Wire]), 1e-9, "%s in %s", name, x.State.Name)
			}
			if want >= 1 {
				count++
				if x.Sure {
					sure++
				}
				reached = math.Min(reached, x.Amp/want)
				over = math.Max(over, x.Bound/want)
			}
		}
		if t.Failed() {
			t.Fatalf("seed %d\n%s", seed, plan)
		}
	}
	assert.Greater(t, 4*sure, 3*count)
	t.Logf("%d wires, bound sure for %d, reached %.3f, bound %.3f", count, sure, reached, over)
	assert.Greater(t, count, 300)
	assert.GreaterOrEqual(t, reached, 0.95)
	assert.LessOrEqual(t, over, 1.2)
}

// Loads of which not every way to switch them on is looked at are named.
func TestWorstNamesWhatItMissed(t *testing.T) {
	plan := "G1 battery ohm=0.01\nE1 lamp watt=21\nSP1 splice\nSP2 splice\nW1 G1.+ SP1.1" + fat + "\nW2 SP2.1 E1.1" + fat + "\nW3 E1.2 G1.-" + fat
	for i := range 5 {
		plan += fmt.Sprintf("\nS%d switch-toggle\nW%d SP1.1 S%d.82%s\nW%d S%d.82a SP2.1%s", i, 10+2*i, i, fat, 11+2*i, i, fat)
		n := netlist.Build(doc(t, plan))
		assert.Equal(t, i == 4, len(n.Worst().Missed) == 1, "%d ways", i+1)
	}
	n := netlist.Build(doc(t, plan))
	steps := 0
	_, ok := n.WorstWhile(func(share float64) bool {
		steps++
		assert.Positive(t, share)
		assert.LessOrEqual(t, share, 1.0)
		return steps < 3
	})
	assert.False(t, ok)
	assert.Equal(t, 3, steps, "it stops at once when told so")
}
