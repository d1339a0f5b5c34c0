package calc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/calc/unit"
)

// k of IEC 60364-5-54 and IEC 60949; published figures are whole numbers.
func TestAdiabaticK(t *testing.T) {
	for _, c := range []struct {
		m          tables.Metal
		start, end float64
		want, tol  float64
		why        string
	}{
		{tables.Copper, 70, 160, 115, 0.5, "IEC 60364-5-54 PVC up to 300 mm²"},
		{tables.Copper, 70, 140, 103, 0.5, "PVC above 300 mm², from memory"},
		{tables.Copper, 90, 250, 143, 0.5, "XLPE, EPR, from memory"},
		{tables.Copper, 90, 160, 100, 0.5, "PVC 90 °C, from memory"},
		{tables.Copper, 90, 140, 86, 0.5, "from memory"},
		{tables.Copper, 60, 200, 141, 0.5, "rubber 60 °C, from memory"},
		{tables.Copper, 85, 220, 134, 0.5, "rubber 85 °C, from memory"},
		{tables.Copper, 30, 160, 143, 0.5, "separate PVC conductor"},
		{tables.Copper, 30, 250, 176, 0.5, "separate XLPE conductor"},
		{tables.Copper, 30, 200, 159, 0.5, "bare, from memory"},
		{tables.Copper, 30, 500, 228, 0.5, "bare, visible, from memory"},
		{tables.Copper, 180, 350, 132, 0.5, "silicone, from memory"},
		{tables.Aluminium, 70, 160, 76, 0.5, "from memory"},
		{tables.Aluminium, 90, 250, 94, 0.5, "from memory"},
		{tables.Copper, 105, 160, 87.57, 0.005, "thin-wall PVC from rated temperature, computed"},
		{tables.Copper, 105, 250, 134.78, 0.005, "cross-linked from 105 °C, computed"},
		{tables.Copper, 25, 1083, 288.07, 0.005, "melting, computed"},
	} {
		assert.InDelta(t, c.want, value(t)(calc.AdiabaticK(c.m, c.start, c.end)), c.tol, "%s %v→%v %s", c.m, c.start, c.end, c.why)
	}
	// K = √(Qc·(β+20)/ρ20), IEC 60949; copper gives 225.67 for the rounded 226.
	for _, m := range []tables.Metal{tables.Copper, tables.Aluminium} {
		r, _, ok := tables.Adiabatic(m)
		require.True(t, ok)
		assert.InEpsilon(t, r.K, math.Sqrt(r.Qc*(r.Beta+20)/r.Rho20), 0.01, m.String())
	}
	_, err := calc.AdiabaticK(99, 70, 160)
	unknown(t, err, "adiabatic constant")
	_, err = calc.AdiabaticK(tables.Copper, 160, 160)
	unknown(t, err, "not above the start")
	_, err = calc.AdiabaticK(tables.Copper, 70, 0)
	unknown(t, err, "final temperature of the insulation is missing")
	_, err = calc.AdiabaticK(tables.Copper, math.NaN(), 160)
	unknown(t, err, "start temperature is missing")
}

func TestWithstand(t *testing.T) {
	// Published example: 3000 A, 0.4 s, k 115 asks for about 16.5 mm².
	assert.InDelta(t, 3000, value(t)(calc.WithstandAmps(16.499, 115, 0.4)), 0.1)
	for _, c := range []struct{ area, k, i2t float64 }{{2.5, 115, 82656}, {1, 115, 13225}, {0.5, 115, 3306}, {2.5, 143, 127806}} {
		assert.InDelta(t, c.i2t, value(t)(calc.WithstandI2t(c.area, c.k)), 0.5, "k²S²")
	}
	for _, c := range []struct{ area, seconds, amps float64 }{{2.5, 1, 287.5}, {2.5, 0.1, 909.2}, {2.5, 5, 128.6}, {1, 1, 115}, {1, 0.1, 363.7}, {1, 5, 51.4}} {
		assert.InDelta(t, c.amps, value(t)(calc.WithstandAmps(c.area, 115, c.seconds)), 0.05)
		assert.InEpsilon(t, c.seconds, value(t)(calc.WithstandI2t(c.area, 115))/c.amps/c.amps, 2e-3)
	}
	// Melting of AWG 16 (2581 cmil) in 5 s from 25 °C: 168.5 A by IEC 60949,
	// 168.9 A by the short-time fusing equation; AWG 14 (4107 cmil) at 400 A
	// melts after 2.26 s by the latter.
	k := value(t)(calc.AdiabaticK(tables.Copper, 25, tables.CopperMeltsC))
	assert.InDelta(t, 168.5, value(t)(calc.WithstandAmps(2581*unit.MM2PerCmil, k, 5)), 0.1)
	assert.InDelta(t, 2.26, value(t)(calc.WithstandI2t(4107*unit.MM2PerCmil, k))/400/400, 0.02)

	_, err := calc.WithstandI2t(0, 115)
	unknown(t, err, "cross-section is missing")
	_, err = calc.WithstandAmps(1, 115, 0)
	unknown(t, err, "time is missing")
}

func TestFuseForLoad(t *testing.T) {
	for _, c := range []struct {
		f        tables.FuseFamily
		load, in float64
	}{{tables.Blade, 7.5, 10}, {tables.Blade, 7.6, 15}, {tables.MiniBlade, 0.1, 2}, {tables.BoltSF51, 150, 200}} {
		assert.Equal(t, c.in, value(t)(calc.FuseForLoad(c.f, c.load)), "at most 75 % of the rating")
	}
	_, err := calc.FuseForLoad(tables.Blade, 100)
	unknown(t, err, "is large enough")
	_, err = calc.FuseForLoad(tables.Blade, math.NaN())
	unknown(t, err, "load current is missing")
	_, err = calc.FuseForLoad(0, 1)
	unknown(t, err, "fuse family is missing")
}

// 85 °C leaves 0.88 to 0.94 and 125 °C about 0.80 to 0.85 of the rating, from
// memory with low confidence; the lower end is kept.
func TestFuseAtAmbient(t *testing.T) {
	for c, part := range map[float64]float64{25: 1, 85: 0.88, 125: 0.80} {
		assert.InDelta(t, 10*part, value(t)(calc.FuseAtAmbient(10, c)), 1e-9)
	}
	assert.Greater(t, value(t)(calc.FuseAtAmbient(10, -20)), 10.0, "in the cold a fuse opens later")
	_, err := calc.FuseAtAmbient(10, 130)
	unknown(t, err, "outside -40 to 125")
	_, err = calc.FuseAtAmbient(10, math.NaN())
	unknown(t, err, "ambient temperature is missing")
}

func TestProtection(t *testing.T) {
	src := tables.CFR183().Source
	p, err := calc.FuseAgainstAmpacity(15, 20, src)
	require.NoError(t, err)
	assert.True(t, p.Within)
	p, err = calc.FuseAgainstAmpacity(30, 20, src)
	require.NoError(t, err)
	assert.False(t, p.Within)
	assert.Contains(t, p.Formula, "<")
	p, err = calc.FuseAgainstAmpacity(30, 0, src)
	require.NoError(t, err)
	assert.False(t, p.Within, "an ampacity of zero is known and covers nothing")
	_, err = calc.FuseAgainstAmpacity(30, math.NaN(), src)
	unknown(t, err, "ampacity of the wire is missing")

	// 33 CFR 183.455, from memory: next standard size, at most 150 %.
	for _, c := range []struct {
		in, ampacity float64
		within       bool
	}{{20, 17, true}, {25, 17, false}, {2, 1.2, false}, {15, 20, true}} {
		p, err := calc.NextSizeAllowed(tables.Blade, c.in, c.ampacity)
		require.NoError(t, err)
		assert.Equal(t, c.within, p.Within, "%v A on %v A", c.in, c.ampacity)
	}

	p, err = calc.NextSizeAllowed(tables.Blade, 50, 45)
	require.NoError(t, err)
	assert.False(t, p.Within, "45 A is above every blade fuse")
	assert.Contains(t, p.Formula, "no standard size")

	// 5 A blade, melting 26 A²s (seen), on 0.5 mm² PVC 3306 A²s: factor 127.
	e, _, ok := tables.FuseElement(5)
	require.True(t, ok)
	assert.InDelta(t, 127, value(t)(calc.WithstandI2t(0.5, 115))/e.MeltI2t, 0.5)
}
