package calc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
)

func bundle(t *testing.T, d ...float64) calc.Bundle {
	t.Helper()
	b, err := calc.BundleDiameter(d)
	require.NoError(t, err)
	value(t)(b.Result, err)
	return b
}

func same(n int, d float64) []float64 {
	s := make([]float64, n)
	for i := range s {
		s[i] = d
	}
	return s
}

// Best known packings of equal circles (public lists, cross-checked).
func TestBundleOfEqualWires(t *testing.T) {
	for n, ratio := range map[int]float64{1: 1, 2: 2, 3: 2.1547005384, 7: 3, 19: 4.8637033052, 37: 6.7587704831, 61: 8.6612975755} {
		b := bundle(t, same(n, 1.9)...)
		assert.InDelta(t, ratio*1.9, b.Value, 1e-8, n)
		assert.True(t, b.Exact)
	}
	assert.InDelta(t, 11.30, bundle(t, same(24, 2.0)...).Value, 0.005, "the practice formula 1.2·√Σd² gives 11.76")
	b := bundle(t, same(72, 1)...)
	assert.False(t, b.Exact, "72 is not listed, 75 is")
	assert.InDelta(t, 9.6720296319, b.Value, 1e-9)
	b = bundle(t, same(1000, 1)...)
	assert.Equal(t, 37.0, b.Value, "hexagon of 1027")
}

// Exact small cases of unequal circles.
func TestBundleOfUnequalWires(t *testing.T) {
	assert.InDelta(t, 10, bundle(t, 4, 6).Value, 1e-12, "two: d1 + d2")
	gap := 60. / 19 // the circle that fits beside 4 and 6, by the four-circle theorem
	assert.InDelta(t, 10, bundle(t, 4, gap, 6).Value, 1e-9)
	assert.InDelta(t, 10, bundle(t, 4, 6, 3.1).Value, 1e-9)
	assert.Greater(t, bundle(t, 4, 6, gap+0.01).Value, 10.0)
	assert.InDelta(t, 4, bundle(t, 2, 2, 4./3).Value, 1e-9, "gap of two unit circles is 2/3 in radius")
	assert.InDelta(t, 10, bundle(t, 2, 4, 6).Value, 1e-9, "radii 1, 2, 3: R = 5, not the tangent circle's 6")

	// Radii 1 to 5: R = 9.0014, confirmed by an optimiser.
	b := bundle(t, 2, 4, 6, 8, 10)
	assert.GreaterOrEqual(t, b.Value, 2*9.00139)
	assert.LessOrEqual(t, b.Value, 2*9.0014*1.01)
	assert.False(t, b.Exact)
	t.Logf("radii 1 to 5: R = %.5f", b.Value/2)
}

// The bound is never below what any bundle needs, grows with every wire, and
// is independent of the order and of the unit.
func TestBundleLaws(t *testing.T) {
	const seed = 11
	r := rand.New(rand.NewPCG(seed, seed))
	for range 300 {
		d := make([]float64, 2+r.IntN(30))
		sum, thick := 0.0, 0.0
		for i := range d {
			d[i] = 1 + r.Float64()*5
			sum += d[i] * d[i]
			thick = math.Max(thick, d[i])
		}
		b := bundle(t, d...)
		require.GreaterOrEqual(t, b.Value, math.Sqrt(sum), "the metal and plastic must fit: %v", d)
		require.LessOrEqual(t, b.Value, bundle(t, same(len(d), thick)...).Value*(1+1e-9), "never above all as thick as the thickest: %v", d)

		r.Shuffle(len(d), func(i, j int) { d[i], d[j] = d[j], d[i] })
		require.Equal(t, b.Value, bundle(t, d...).Value, "order does not matter")
		for i := range d {
			d[i] *= 4
		}
		require.InEpsilon(t, 4*b.Value, bundle(t, d...).Value, 1e-6, "scale")
	}
}

func TestBundleRefuses(t *testing.T) {
	_, err := calc.BundleDiameter(nil)
	unknown(t, err, "wires of the bundle")
	for _, bad := range []float64{0, math.NaN(), -1, math.Inf(1)} {
		_, err = calc.BundleDiameter([]float64{2, bad, 2})
		unknown(t, err, "outside diameter")
	}
}

func BenchmarkBundle(b *testing.B) {
	for _, n := range []int{12, 40, 120} {
		d := make([]float64, n)
		for i := range d {
			d[i] = 1.6 + float64(i%7)*0.4
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				if _, err := calc.BundleDiameter(d); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func ExampleBundleDiameter() {
	b, _ := calc.BundleDiameter([]float64{1.9, 1.9, 1.9, 1.9, 1.9, 1.9, 1.9})
	fmt.Println(b.Formula)
	// Output: 7 wires of 1.9 mm: D = 3 · d = 5.7 mm
}
