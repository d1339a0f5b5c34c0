package dc

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// entries returns the count of entries the factor of n has below its diagonal.
func entries(n *Network) int {
	n.prepare()
	return len(n.sym.rows)
}

func randomNetwork(rng *rand.Rand, nodes, resistors int) *Network {
	n := New(nodes)
	for range resistors {
		a, b := Node(rng.IntN(nodes)), Node(rng.IntN(nodes))
		if a != b {
			_, _ = n.Resistor(a, b, 1)
		}
	}
	return n
}

func TestEveryNodeIsOrderedOnce(t *testing.T) {
	for seed := range uint64(300) {
		rng := rand.New(rand.NewPCG(seed, 10))
		nodes := 1 + rng.IntN(300)
		n := randomNetwork(rng, nodes, rng.IntN(6*nodes))
		if rng.IntN(2) == 0 {
			require.NoError(t, n.SetReference(Node(rng.IntN(nodes))))
		}
		n.prepare()
		sorted := slices.Clone(n.sym.position)
		slices.Sort(sorted)
		for i, p := range sorted {
			require.Equal(t, int32(i), p, "seed %d", seed)
		}
		for j, p := range n.sym.parent {
			require.True(t, p == none || p > int32(j) && p < n.sym.size, "seed %d: parent %d of column %d", seed, p, j)
		}
	}
}

// The pattern must be that of elimination carried out on a plain set of neighbours.
func TestPatternIsThatOfElimination(t *testing.T) {
	for seed := range uint64(200) {
		rng := rand.New(rand.NewPCG(seed, 11))
		nodes := 1 + rng.IntN(60)
		n := randomNetwork(rng, nodes, rng.IntN(4*nodes))
		n.prepare()
		later := make([]map[int32]bool, nodes)
		for j := range later {
			later[j] = map[int32]bool{}
		}
		for _, e := range n.sym.ends {
			later[min(e.a, e.b)][max(e.a, e.b)] = true
		}
		for j := range later {
			for a := range later[j] {
				for b := range later[j] {
					if a < b {
						later[a][b] = true
					}
				}
			}
			rows := n.sym.rows[n.sym.colPtr[j]:n.sym.colPtr[j+1]]
			require.True(t, slices.IsSorted(rows))
			require.Len(t, rows, len(later[j]), "seed %d, column %d", seed, j)
			for _, r := range rows {
				require.True(t, later[j][r], "seed %d, column %d, row %d", seed, j, r)
			}
		}
	}
}

func TestTreesHaveNoFill(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 12))
	for _, nodes := range []int{2, 10, 1000, 20000} {
		n := New(nodes)
		for v := 1; v < nodes; v++ {
			_, err := n.Resistor(Node(rng.IntN(v)), Node(v), 1)
			require.NoError(t, err)
		}
		require.Equal(t, nodes-1, entries(n))
	}
}

// A star with a ring around it, a wheel: the hub goes late, so that a rim node costs three entries at most.
func TestWheel(t *testing.T) {
	const rim = 5000
	n := New(rim + 1)
	for v := range Node(rim) {
		_, err := n.Resistor(v, (v+1)%rim, 1)
		require.NoError(t, err)
		_, err = n.Resistor(v, rim, 1)
		require.NoError(t, err)
	}
	require.LessOrEqual(t, entries(n), 3*rim)
}

// On a square grid of m = n² nodes nested dissection needs about 31/4·n²·log2(n) entries (A. George, "Nested dissection
// of a regular finite element mesh", SIAM J. Numer. Anal. 10 (1973); the factor is from memory). Minimum degree must
// stay below that; row by row it would be n³.
func TestGridFill(t *testing.T) {
	const side = 128
	n := New(side * side)
	for v := range Node(side * side) {
		if (v+1)%side != 0 {
			_, err := n.Resistor(v, v+1, 1)
			require.NoError(t, err)
		}
		if v+side < side*side {
			_, err := n.Resistor(v, v+side, 1)
			require.NoError(t, err)
		}
	}
	m := float64(side * side)
	got := float64(entries(n))
	t.Logf("%.0f entries, %.2f·m·log2(m)", got, got/m/math.Log2(m))
	require.Less(t, got, 31.0/4*m*math.Log2(side))
	require.Less(t, got, 0.25*math.Pow(m, 1.5))
}
