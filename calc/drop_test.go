package calc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
	"loomwright/calc/tables"
)

// AC 43.13-1B Tables 11-7 and 11-8 and its Example No. 1: 20 A over wire of its
// own Table 11-9.
func TestVoltageDrop(t *testing.T) {
	drop := func(size int, feet float64) float64 {
		row, ok := tables.AircraftWire().Find(func(r tables.AircraftRow) bool { return r.Gauge == size })
		require.True(t, ok)
		return value(t)(calc.VoltageDrop(20, row.OhmPerKft*feet/1000))
	}
	for _, c := range []struct {
		size       int
		feet, drop float64
		why        string
	}{
		{6, 107, 0.9416, "Table 11-7, prints 0.942"},
		{8, 107, 1.498, "Table 11-7 row 1: size 8 is too thin"},
		{12, 88, 3.5552, "Table 11-7, prints 3.60, rounded up"},
		{14, 100, 6.1200, "Table 11-7"},
		{8, 50, 0.70, "Example No. 1"},
		{10, 50, 1.26, "Example No. 1: size 10 fails"},
		{10, 39, 0.9828, "Table 11-8"},
		{10, 19.5, 0.4914, "Table 11-8 prints 0.366 V, which its own resistance contradicts"},
		{10, 156, 3.931, "Table 11-8"},
		{10, 273, 6.8796, "Table 11-8"},
	} {
		assert.InDelta(t, c.drop, drop(c.size, c.feet), 1e-3, c.why)
	}
	_, err := calc.VoltageDrop(math.NaN(), 1)
	unknown(t, err, "current is missing")
	_, err = calc.VoltageDrop(1, math.NaN())
	unknown(t, err, "resistance is missing")
	assert.Zero(t, value(t)(calc.VoltageDrop(0, 1)))
}

func TestGround(t *testing.T) {
	assert.InDelta(t, 2e-3, value(t)(calc.GroundLimit(0.1, 50)), 1e-12, "0.1 V at 50 A")
	assert.InDelta(t, 1e-3, value(t)(calc.GroundLimit(0.3, 300)), 1e-12, "starter return, 0.3 V at 300 A")
	_, err := calc.GroundLimit(0.1, 0)
	unknown(t, err, "the current is missing")
}
