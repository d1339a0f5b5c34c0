package tables_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/calc/tables"
)

// AC 43.13-1B, example 2: 0.91 at 20 000 ft (seen second-hand); paragraph
// 11-69: 0.79 at 60 000 ft (from memory).
func TestAltitudeFactor(t *testing.T) {
	for _, c := range []struct{ m, want float64 }{{0, 1}, {-50, 1}, {6096, 0.91}, {3048, 0.955}, {18288, 0.79}} {
		f, src, ok := tables.AltitudeFactor(c.m)
		assert.True(t, ok)
		assert.InDelta(t, c.want, f, 1e-12)
		assert.Equal(t, c.m > 6096, src.FromMemory)
	}
	for _, m := range []float64{18289, math.NaN(), math.Inf(1)} {
		_, _, ok := tables.AltitudeFactor(m)
		assert.False(t, ok, "%v", m)
	}
}

// US building code, 310.15 (seen second-hand in two places).
func TestBundleFactorsOfTheUSBuildingCode(t *testing.T) {
	for n, want := range map[int]float64{1: 1, 3: 1, 4: 0.8, 6: 0.8, 7: 0.7, 9: 0.7, 10: 0.5, 20: 0.5, 21: 0.45, 30: 0.45, 31: 0.4, 40: 0.4, 41: 0.35, 99: 0.35} {
		f, ok := tables.BundleUSBuilding.Factor(n)
		assert.True(t, ok)
		assert.Equal(t, want, f, "%d", n)
	}
	assert.False(t, tables.BundleUSBuilding.Source().FromMemory)
}
