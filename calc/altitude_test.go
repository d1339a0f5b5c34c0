package calc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
	"loomwright/calc/unit"
)

// AC 43.13-1B, example 2: a factor of 0.91 at 20 000 ft. Its Table 11-9 already
// holds for 60 000 ft.
func TestAmpacityInThinAir(t *testing.T) {
	in := alone(unit.GaugeAWG(12), 105, 30)
	in.AltitudeM = 6096
	r := rated(t, in)
	assert.InDelta(t, 45*0.91, r.Value, 1e-9)
	assert.Contains(t, r.Formula, " · 0.91 at 6096 m = ")
	assert.Contains(t, r.Source.String(), "altitude derating")
	in.AltitudeM = -100
	assert.Equal(t, 45.0, rated(t, in).Value, "no credit below the sea")
	aircraft := alone(unit.GaugeAWG(24), 200, 70)
	aircraft.AltitudeM = 6096
	assert.Equal(t, 5.0, rated(t, aircraft).Value)
	for _, m := range []float64{30000, math.NaN()} {
		in.AltitudeM = m
		_, err := calc.Ampacity(in)
		require.ErrorIs(t, err, calc.ErrUnknown)
	}
}
