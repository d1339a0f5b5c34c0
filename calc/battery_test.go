package calc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
)

func TestBattery(t *testing.T) {
	cold := value(t)(calc.BatteryCold(12.6, 600, 12))
	assert.InDelta(t, 9.0e-3, cold, 1e-9, "(12.6 − 7.2)/600")
	assert.InDelta(t, 18.0e-3, value(t)(calc.BatteryCold(25.2, 600, 24)), 1e-9, "two in series")
	warm := value(t)(calc.BatteryWarm(cold))
	assert.True(t, warm >= 4e-3 && warm <= 8e-3, "typical 4 to 8 mΩ at 25 °C, common practice")
	assert.InDelta(t, 25, value(t)(calc.ParkedDays(60, 0.05)), 1e-9, "60 Ah at 50 mA: 600 h")

	for charge, want := range map[float64]float64{1: 12.6, 0.75: 12.4, 0.5: 12.2, 0.25: 12.0, 0.125: 11.8, 0: 11.6} {
		assert.InDelta(t, want, value(t)(calc.RestVoltage(charge, 12)), 1e-9)
		assert.InDelta(t, 2*want, value(t)(calc.RestVoltage(charge, 24)), 1e-9)
	}
	r, err := calc.RestVoltage(0.75, 12)
	require.NoError(t, err)
	assert.Equal(t, "75 % charged rests at 12.4 V", r.Formula)
	step := value(t)(calc.RestVoltage(0.9, 12)) - value(t)(calc.RestVoltage(0.8, 12))
	assert.InDelta(t, 0.080, step, 1e-9, "10 % of charge is about 80 mV, same list")

	_, err = calc.BatteryCold(7, 600, 12)
	unknown(t, err, "not above")
	_, err = calc.BatteryCold(12.6, 600, 48)
	unknown(t, err, "12 and 24 V")
	_, err = calc.BatteryCold(12.6, 0, 12)
	unknown(t, err, "cold cranking current is missing")
	_, err = calc.RestVoltage(1.2, 12)
	unknown(t, err, "outside 0 to 1")
	_, err = calc.RestVoltage(math.NaN(), 12)
	unknown(t, err, "state of charge is missing")
	_, err = calc.RestVoltage(1, math.NaN())
	unknown(t, err, "nominal voltage is missing")
	_, err = calc.ParkedDays(60, 0)
	unknown(t, err, "key-off current is missing")
}
