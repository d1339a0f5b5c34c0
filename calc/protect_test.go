package calc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
	"loomwright/calc/tables"
)

// AC 43.13-1B Table 11-4: two 55 W lamps at 12 V ask for 45.8 A, a 4 A motor
// at 28 V for 12 A.
func TestSwitchRating(t *testing.T) {
	assert.InDelta(t, 45.8, value(t)(calc.SwitchRating(tables.LampLoad, 110./12, 12)), 0.05)
	assert.InDelta(t, 12, value(t)(calc.SwitchRating(tables.MotorLoad, 4, 28)), 1e-9)
	_, err := calc.SwitchRating(tables.MotorLoad, 4, 48)
	unknown(t, err, "12 and 24 V")
	_, err = calc.SwitchRating(0, 4, 12)
	unknown(t, err, "kind of load")
}

// A fuse may be as large as what its wire bears, and no larger.
func TestFuseAgainstAmpacity(t *testing.T) {
	for _, c := range []struct {
		rating, ampacity float64
		within           bool
		formula          string
	}{
		{15, 15.01, true, "wire 15 A ≥ fuse 15 A"},
		{15, 15, true, "wire 15 A ≥ fuse 15 A"},
		{15, 14.9, false, "wire 14.9 A < fuse 15 A"},
	} {
		p, err := calc.FuseAgainstAmpacity(c.rating, c.ampacity, tables.Source{Title: "a list"})
		require.NoError(t, err)
		assert.Equal(t, c.within, p.Within, c.formula)
		assert.Equal(t, c.formula, p.Formula)
	}
	_, err := calc.FuseAgainstAmpacity(15, math.NaN(), tables.Source{})
	unknown(t, err, "ampacity of the wire is missing")
	_, err = calc.FuseAgainstAmpacity(0, 15, tables.Source{})
	unknown(t, err, "fuse rating")
}
