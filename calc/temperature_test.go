package calc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
)

// The heat balance solved here by repeating R(T) until it settles.
func TestWireTemperature(t *testing.T) {
	settle := func(ir, tr, tar, i, ta float64) float64 {
		temp := ta
		for range 500 {
			temp = ta + (tr-tar)*(i/ir)*(i/ir)*(234.5+temp)/(234.5+tr)
		}
		return temp
	}
	for _, c := range [][5]float64{{26, 200, 50, 20, 50}, {45, 105, 30, 45, 30}, {45, 105, 30, 10, 80}, {10, 85, 30, 12, 20}} {
		got := value(t)(calc.WireTemperature(c[0], c[1], c[2], c[3], c[4]))
		assert.InDelta(t, settle(c[0], c[1], c[2], c[3], c[4]), got, 1e-6)
	}
	assert.InDelta(t, 105, value(t)(calc.WireTemperature(45, 105, 30, 45, 30)), 1e-9, "rated current, rated temperature")
	assert.InDelta(t, 40, value(t)(calc.WireTemperature(45, 105, 30, 0, 40)), 1e-9, "no current")
	// AC 43.13-1B Example No. 2: the law without the rise of resistance would
	// give 138.8 °C, its own estimate 182; the exact form is below both.
	assert.Less(t, value(t)(calc.WireTemperature(26, 200, 50, 20, 50)), 138.8)

	r, err := calc.WireTemperature(10, 105, 30, 100, 30)
	require.NoError(t, err)
	assert.Equal(t, 1083.0, r.Value)
	assert.Contains(t, r.Formula, "copper melts")

	_, err = calc.WireTemperature(0, 105, 30, 1, 30)
	unknown(t, err, "rated current is missing")
	_, err = calc.WireTemperature(10, 105, 30, math.NaN(), 30)
	unknown(t, err, "the current is missing")
	_, err = calc.WireTemperature(10, 30, 30, 1, 30)
	unknown(t, err, "not above its ambient")
}
