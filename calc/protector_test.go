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

func protector(t *testing.T) func(calc.Protector, error) calc.Protector {
	return func(p calc.Protector, err error) calc.Protector {
		t.Helper()
		require.NoError(t, err)
		return p
	}
}

// ISO 8820-3 type C, 10 A (from memory): 13.5 A 0.75 to 600 s, 20 A 0.15 to
// 5 s, 35 A 0.04 to 0.5 s, 60 A 0.02 to 0.1 s.
func TestFuseProtector(t *testing.T) {
	p := protector(t)(calc.FuseProtector(tables.Blade, 10, math.NaN()))
	for _, c := range []struct{ amp, early, late float64 }{{13.5, 0.75, 600}, {20, 0.15, 5}, {35, 0.04, 0.5}, {60, 0.02, 0.1}} {
		assert.InDelta(t, c.early, p.Early(c.amp), 1e-9)
		assert.InDelta(t, c.late, p.Late(c.amp), 1e-9)
	}
	assert.Equal(t, 13.5, p.SureA)
	assert.GreaterOrEqual(t, p.Early(11), 100*3600.0, "110 %: not within 100 h")
	assert.True(t, p.Source.FromMemory)
	assert.Equal(t, 120.0, protector(t)(calc.FuseProtector(tables.Blade, 2, 25)).Late(2.7), "2 A and less open sooner")
	assert.True(t, math.IsInf(p.Late(13.4), 1))
	assert.True(t, math.IsInf(p.Early(10), 1))
	// Beyond the table the heat stays: 60² · 0.1 = 360 A²s, above the 115 A²s
	// (from memory) that typically melt it, which leaves room for the arc.
	assert.InDelta(t, 360, p.LetThroughI2t(), 1e-9)
	assert.InDelta(t, 0.1/4, p.Late(120), 1e-12)
	assert.InDelta(t, 72, p.MeltI2t(), 1e-9)
	row, _, _ := tables.FuseElement(10)
	assert.Less(t, p.MeltI2t(), row.MeltI2t)
	assert.Greater(t, p.LetThroughI2t(), row.MeltI2t)

	// Blades lose 0.2 % per kelvin above 25 °C (from memory) and gain it below.
	hot := protector(t)(calc.FuseProtector(tables.Blade, 10, 75))
	assert.InDelta(t, 0.15, hot.Early(18), 1e-9, "as 9 A")
	assert.InDelta(t, 5, hot.Late(20), 1e-9, "the late edge is not bettered")
	cold := protector(t)(calc.FuseProtector(tables.Blade, 10, -25))
	assert.InDelta(t, 5, cold.Late(22), 1e-9, "as 11 A")
	assert.InDelta(t, 14.85, cold.SureA, 1e-9)
	assert.Equal(t, 80*1.35, protector(t)(calc.FuseProtector(tables.BoltSF51, 80, -40)).SureA, "the rule is for blades")

	_, err := calc.FuseProtector(0, 10, 25)
	unknown(t, err, "fuse family is missing")
	_, err = calc.FuseProtector(tables.Blade, 0, 25)
	unknown(t, err, "fuse rating is missing")
	_, err = calc.FuseProtector(tables.Torpedo, 8, 25)
	unknown(t, err, "no operating times on record")
}

func TestBreakerProtector(t *testing.T) {
	p := protector(t)(calc.BreakerProtector(30))
	assert.InDelta(t, 1800, p.Late(40.5), 1e-6, "SAE J553, from memory: 135 % within half an hour")
	assert.InDelta(t, 60, p.Late(60), 1e-9, "200 % within a minute")
	assert.True(t, math.IsInf(p.Late(40), 1))
	assert.Contains(t, p.Source.String(), "low confidence")
	_, err := calc.BreakerProtector(0)
	unknown(t, err, "rating of the breaker is missing")
}

// A link is a bare copper wire. Published fusing table: 100 A melt 0.0457 in.
// Short-time fusing equation: 16 AWG (2581 cmil) at 168.9 A melts after 5 s
// from 25 °C.
func TestLinkProtector(t *testing.T) {
	inch := 0.0457 * 25.4
	p := protector(t)(calc.LinkProtector(math.Pi/4*inch*inch, math.NaN()))
	assert.InEpsilon(t, 100, p.RatingA, 0.002)
	assert.True(t, math.IsInf(p.Early(99), 1))
	assert.True(t, math.IsInf(p.Late(105), 1), "too near to what just melts it")
	p = protector(t)(calc.LinkProtector(2581*unit.MM2PerCmil, 25))
	assert.InEpsilon(t, 5, p.Early(168.9), 0.01)
	assert.InEpsilon(t, 2*p.Early(3000), p.Late(3000), 0.01, "without loss, and doubled")
	_, err := calc.LinkProtector(0, 25)
	unknown(t, err, "conductor area of the link is missing")
}

// A wire whose loss just holds the melting point at the fusing current, heated
// in small steps (Heun 1900); copper melts at 1083 °C.
func TestLinkProtectorAgainstSmallSteps(t *testing.T) {
	for _, c := range []struct{ area, airC, times float64 }{{1, 25, 1.2}, {2, 60, 1.5}, {0.5, -20, 3}} {
		p := protector(t)(calc.LinkProtector(c.area, c.airC))
		gain := 1 / (226 * c.area * 226 * c.area)
		loss := gain * p.RatingA * p.RatingA * (234.5 + 1083) / (1083 - c.airC)
		amp := c.times * p.RatingA
		slope := func(tempC float64) float64 { return gain*amp*amp*(234.5+tempC) - loss*(tempC-c.airC) }
		seconds, dt := 0.0, p.Late(amp)/50_000
		for tempC := c.airC; tempC < 1083; seconds += dt {
			k := slope(tempC)
			tempC += dt * (k + slope(tempC+dt*k)) / 2
		}
		assert.InEpsilon(t, 2*seconds, p.Late(amp), 1e-3, "%v mm² at %v times what melts it", c.area, c.times)
	}
}

func TestProtectorFormulas(t *testing.T) {
	fuse := protector(t)(calc.FuseProtector(tables.Blade, 10, math.NaN()))
	assert.Equal(t, "20 A/10 A = 2 times the rating: open within 5 s", fuse.Formula(20))
	assert.Equal(t, "12 A/10 A = 1.2 times the rating: need not open below 13.5 A", fuse.Formula(12))
	cold := protector(t)(calc.FuseProtector(tables.Blade, 10, -25))
	assert.Equal(t, "22 A/11 A = 2 times the rating as it is in the cold: open within 5 s", cold.Formula(22))
}

func TestProtectorsOpenSoonerAtMoreCurrent(t *testing.T) {
	for _, p := range []calc.Protector{
		protector(t)(calc.FuseProtector(tables.MiniBlade, 15, 80)), protector(t)(calc.FuseProtector(tables.Blade, 2, -20)),
		protector(t)(calc.FuseProtector(tables.MaxiBlade, 40, 25)), protector(t)(calc.FuseProtector(tables.BoltSF30, 80, 25)),
		protector(t)(calc.FuseProtector(tables.BoltSF51, 150, 25)), protector(t)(calc.BreakerProtector(20)), protector(t)(calc.LinkProtector(1, 60)),
	} {
		early, late := math.Inf(1), math.Inf(1)
		for a := p.RatingA / 2; a < 200*p.RatingA; a *= 1.01 {
			require.LessOrEqual(t, p.Early(a), early*(1+1e-12), "%v A of %v A", a, p.RatingA)
			require.LessOrEqual(t, p.Late(a), late*(1+1e-12), "%v A of %v A", a, p.RatingA)
			require.LessOrEqual(t, p.Early(a), p.Late(a))
			early, late = p.Early(a), p.Late(a)
		}
		assert.InEpsilon(t, p.LetThroughI2t(), late*math.Pow(200*p.RatingA, 2), 0.06)
		for i, a := range p.Knots() {
			assert.False(t, math.IsInf(p.Late(a), 1), "%v A", a)
			if i > 0 {
				assert.Greater(t, a, p.Knots()[i-1])
			}
		}
		assert.NotContains(t, p.Formula(p.SureA)+p.Formula(p.RatingA), "Inf")
	}
}
