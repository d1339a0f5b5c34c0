package dc_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

// A circuit without any tie to the reference: its currents are as if it had one, its voltages count from its lowest
// node.
func TestFloatingCircuit(t *testing.T) {
	r := newRig(t, 6, 0)
	r.voltage(1, 0, 12, 1)
	r.resistor(1, 0, 5)
	source := r.voltage(4, 5, 6, 1)
	r.resistor(4, 2, 1)
	load := r.resistor(2, 5, 4)
	s := r.solve()
	require.Equal(t, []int32{0, 0, 1, 2, 1, 1}, s.Island)
	require.Equal(t, []dc.Island{
		{First: 0, Nodes: 2}, {First: 2, Nodes: 3, Floating: true}, {First: 3, Nodes: 1, Floating: true},
	}, s.Islands)
	require.InEpsilon(t, 1, s.Amp[load], 1e-12)
	require.InEpsilon(t, -1, s.Amp[source], 1e-12)
	require.Zero(t, s.Volt[2])
	require.Zero(t, s.Volt[3])
	require.InEpsilon(t, 1, s.Volt[4], 1e-12)
	require.InEpsilon(t, -4, s.Volt[5], 1e-12)
	require.False(t, s.Floating(1))
	require.True(t, s.Floating(4))
	require.True(t, s.Floating(99), "a node that is not there has no defined voltage")
}

func TestNoReference(t *testing.T) {
	r := newRig(t, 2, dc.NoNode)
	r.voltage(1, 0, 10, 1)
	r.resistor(1, 0, 4)
	s := r.solve()
	require.True(t, s.Floating(0))
	require.Zero(t, s.Volt[0])
	require.InEpsilon(t, 8, s.Volt[1], 1e-12)
}

func TestNothing(t *testing.T) {
	for _, nodes := range []int{-3, 0} {
		r := newRig(t, nodes, dc.NoNode)
		require.Empty(t, r.solve().Volt)
		require.Equal(t, dc.NoNode, r.sol.ResidualNode)
	}
	r := newRig(t, 3, 1)
	s := r.solve()
	require.Equal(t, []float64{0, 0, 0}, s.Volt)
	require.Len(t, s.Islands, 3)
	require.True(t, s.Converged)
}

func TestOpeningSplitsAnIsland(t *testing.T) {
	r := newRig(t, 4, 0)
	r.voltage(1, 0, 12, 0.1)
	link := r.resistor(1, 2, 0.1)
	r.resistor(2, 3, 10)
	require.Len(t, r.solve().Islands, 1)
	require.InEpsilon(t, 12, r.sol.Volt[3], 1e-12)
	require.NoError(t, r.Open(link))
	s := r.solve()
	require.Equal(t, []int32{0, 0, 1, 1}, s.Island)
	require.True(t, s.Floating(3))
	require.Zero(t, s.Volt[3])
	require.NoError(t, r.Close(link))
	require.InEpsilon(t, 12, r.solve().Volt[3], 1e-12)
}

func TestCurrentWithoutReturn(t *testing.T) {
	r := newRig(t, 4, 0)
	r.resistor(1, 0, 1)
	r.resistor(2, 3, 1)
	in := r.current(1, 2, 2)
	err := r.Solve(&r.sol)
	var lost *dc.NoReturnError
	require.ErrorAs(t, err, &lost)
	require.Equal(t, &dc.NoReturnError{Island: 1, First: 2, Element: in, Amp: 2}, lost)
	require.Contains(t, err.Error(), "island of node 2")

	out := r.current(3, 0, 2)
	s := r.solve()
	require.InEpsilon(t, 2, s.Volt[2]-s.Volt[3], 1e-12, "what goes in comes out: the island is solvable")
	require.NoError(t, r.SetAmp(out, 2.5))
	require.True(t, errors.As(r.Solve(&r.sol), &lost))
	require.NoError(t, r.Open(in))
	require.NoError(t, r.Open(out))
	r.solve()
}

// Islands against a plain flood fill, over random openings.
func TestIslandsAgainstFloodFill(t *testing.T) {
	for seed := range uint64(50) {
		rng := rand.New(rand.NewPCG(seed, 30))
		nodes := 1 + rng.IntN(40)
		r := newRig(t, nodes, dc.Node(rng.IntN(nodes)))
		for range rng.IntN(2 * nodes) {
			a, b := dc.Node(rng.IntN(nodes)), dc.Node(rng.IntN(nodes))
			if a != b {
				r.resistor(a, b, 1)
			}
		}
		for range 10 {
			for e := range dc.Element(r.Elements()) {
				if rng.IntN(4) == 0 {
					require.NoError(t, r.Open(e))
				} else if rng.IntN(2) == 0 {
					require.NoError(t, r.Close(e))
				}
			}
			s := r.solve()
			want := floodFill(r.Network)
			require.Equal(t, want, s.Island, "seed %d", seed)
			for v, island := range want {
				require.Equal(t, island != want[r.Reference()], s.Floating(dc.Node(v)))
			}
		}
	}
}

func floodFill(n *dc.Network) []int32 {
	island := make([]int32, n.Nodes())
	for v := range island {
		island[v] = -1
	}
	next := int32(0)
	for v := range island {
		if island[v] >= 0 {
			continue
		}
		island[v] = next
		for grown := true; grown; {
			grown = false
			for e := range dc.Element(n.Elements()) {
				a, b := n.Ends(e)
				k, _ := n.Kind(e)
				if !n.IsOpen(e) && k != dc.KindCurrent && (island[a] == next) != (island[b] == next) {
					island[a], island[b] = next, next
					grown = true
				}
			}
		}
		next++
	}
	return island
}
