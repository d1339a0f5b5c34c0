package calc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
	"loomwright/calc/tables"
)

// pvc is thin-wall PVC in air of 30 °C, where ISO 10133 (from memory) gives
// 1 mm² 20 A and 1.5 mm² 25 A at 105 °C.
func pvc(t *testing.T, area, rated float64) calc.Heating {
	t.Helper()
	h, err := calc.NewHeating(calc.HeatingInput{Metal: tables.Copper, AreaMM2: area, InsulationC: 105, ShortC: 160,
		Rated: calc.Rated{Result: calc.Result{Value: rated}, ConductorC: 105, AmbientC: 30}})
	require.NoError(t, err)
	return h
}

// Where a short is over before any heat is lost, the adiabatic equation of IEC
// 60364-5-54 remains: k = 115 for PVC from 70 to 160 °C, published; 2.5 mm²
// bear 909.2 A for 0.1 s.
func TestHeatingOfAShortIsAdiabatic(t *testing.T) {
	h, err := calc.NewHeating(calc.HeatingInput{Metal: tables.Copper, AreaMM2: 2.5, InsulationC: 70, ShortC: 160,
		Rated: calc.Rated{Result: calc.Result{Value: 25}, ConductorC: 70, AmbientC: 30}})
	require.NoError(t, err)
	assert.InEpsilon(t, 115*115*2.5*2.5, h.WithstandI2t(), 1e-3)
	assert.InEpsilon(t, 0.1, h.BearsS(909.2), 0.005)
	assert.Greater(t, h.BearsS(287.5), 1.0, "287.5 A for 1 s, and some heat is lost meanwhile")
	assert.InEpsilon(t, 1, h.BearsS(287.5), 0.03)
}

// A lasting current leads to the temperature calc.WireTemperature gives: the
// heat balance of IEC 60287 with the resistance of IEC 60228.
func TestHeatingSettles(t *testing.T) {
	h := pvc(t, 1, 20)
	assert.InDelta(t, 105, h.SteadyC(20), 1e-9)
	for a := 1.0; a < 30; a += 1.7 {
		assert.InDelta(t, value(t)(calc.WireTemperature(20, 105, 30, a, 30)), h.SteadyC(a), 1e-6, "%v A", a)
	}
	assert.True(t, math.IsInf(h.BearsS(20), 1), "its ampacity for good")
	assert.True(t, math.IsInf(h.SteadyC(45), 1), "no balance: more current, more resistance")
	// ISO 6722-1 (from memory): 3000 h at the class, 240 h at 25 K above, 6 h at
	// 50 K; half way between, the geometric mean.
	for _, c := range []struct{ overC, hours float64 }{{12.5, math.Sqrt(3000 * 240)}, {25, 240}, {37.5, math.Sqrt(240 * 6)}, {50, 6}} {
		// the current that settles at 105 °C + overC, by the heat balance
		amp := 20 * math.Sqrt((75+c.overC)/(234.5+105+c.overC)*(234.5+105)/75)
		assert.InDelta(t, 105+c.overC, h.SteadyC(amp), 1e-9)
		assert.InEpsilon(t, c.hours*3600, h.BearsS(amp*(1-1e-9)), 1e-5)
	}
}

// The same differential equation in small steps (Heun 1900).
func TestHeatingAgainstSmallSteps(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 7))
	for range 60 {
		area, rated := 0.35+10*rng.Float64(), 5+60*rng.Float64()
		h := pvc(t, area, rated)
		amp := rated * math.Pow(12, rng.Float64())
		if h.SteadyC(amp) <= 155 {
			continue
		}
		bears := h.BearsS(amp)
		gain := 1 / (226 * area * 226 * area)
		loss := gain * rated * rated * (234.5 + 105) / 75
		slope := func(c float64) float64 { return gain*amp*amp*(234.5+c) - loss*(c-30) }
		c, n := 105.0, 20000
		for dt, i := bears/float64(n), 0; i < n; i++ {
			k := slope(c)
			c += dt * (k + slope(c+dt*k)) / 2
		}
		limit := 160.0
		if bears > 5 { // straight over the logarithm of time from 160 °C at 5 s to 155 °C at 6 h
			limit = 155 + 5*math.Log(21600/bears)/math.Log(21600./5)
		}
		assert.InDelta(t, limit, c, 0.05, "%.2f mm², %.1f A rated, %.1f A for %.3g s", area, rated, amp, bears)
	}
}

func TestHeatingFallsWithCurrent(t *testing.T) {
	for _, shortC := range []float64{0, 160, 250} {
		h, err := calc.NewHeating(calc.HeatingInput{Metal: tables.Copper, AreaMM2: 1, InsulationC: 105, ShortC: shortC,
			Rated: calc.Rated{Result: calc.Result{Value: 20}, ConductorC: 105, AmbientC: 30}})
		require.NoError(t, err)
		last := math.Inf(1)
		for a := 1.0; a < 3000; a *= 1.01 {
			s := h.BearsS(a)
			require.LessOrEqual(t, s, last*(1+1e-6), "%v A, short-circuit limit %v °C", a, shortC)
			require.Positive(t, s)
			if !math.IsInf(s, 1) {
				require.True(t, h.Bears(a, s*(1-1e-5)), "%v A for %v s", a, s)
				require.False(t, h.Bears(a, s*(1+1e-5)), "%v A for %v s", a, s)
			}
			last = s
		}
	}
}

func TestHeatingNeedsData(t *testing.T) {
	ok := calc.HeatingInput{Metal: tables.Copper, AreaMM2: 1, InsulationC: 105, ShortC: 160, Rated: calc.Rated{Result: calc.Result{Value: 20}, ConductorC: 105, AmbientC: 30}}
	for _, c := range []struct {
		spoil func(*calc.HeatingInput)
		what  string
	}{
		{func(in *calc.HeatingInput) { in.AreaMM2 = 0 }, "the cross-section is missing"},
		{func(in *calc.HeatingInput) { in.InsulationC = math.NaN() }, "the insulation temperature is missing"},
		{func(in *calc.HeatingInput) { in.Rated.Value = 0 }, "the ampacity of the wire is missing"},
		{func(in *calc.HeatingInput) { in.Metal = 99 }, "adiabatic constant"},
		{func(in *calc.HeatingInput) { in.Rated.AmbientC = 110 }, "as hot as the wire may be"},
	} {
		in := ok
		c.spoil(&in)
		_, err := calc.NewHeating(in)
		unknown(t, err, c.what)
	}
	in := ok
	in.ShortC = 0
	h, err := calc.NewHeating(in)
	require.NoError(t, err)
	assert.False(t, h.ShortKnown)
	assert.Less(t, h.BearsS(200), pvc(t, 1, 20).BearsS(200), "judged by the lower limit for 6 h")
}
