package calc_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/calc/unit"
)

func alone(s unit.Size, insulationC, ambientC float64) calc.AmpacityInput {
	return calc.AmpacityInput{Metal: tables.Copper, Size: s, InsulationC: insulationC, AmbientC: ambientC, Bundled: 1}
}

func rated(t *testing.T, in calc.AmpacityInput) calc.Rated {
	t.Helper()
	r, err := calc.Ampacity(in)
	require.NoError(t, err)
	value(t)(r.Result, err)
	return r
}

// 33 CFR 183.425 Table 5, 105 °C column, outside and inside engine spaces as
// a chandler's table prints it (rounded).
func TestAmpacityEngineSpace(t *testing.T) {
	for n, want := range map[int][2]float64{18: {20, 17}, 16: {25, 21}, 14: {35, 30}, 12: {45, 38}, 10: {60, 51}, 8: {80, 68},
		6: {120, 102}, 4: {160, 136}, 3: {180, 153}, 2: {210, 178}, 1: {245, 208}, 0: {285, 242}, -1: {330, 280}, -2: {385, 327}, -3: {445, 378}} {
		assert.InDelta(t, want[0], rated(t, alone(unit.GaugeAWG(n), 105, 30)).Value, 1e-9, "AWG %d", n)
		assert.InDelta(t, want[1], rated(t, alone(unit.GaugeAWG(n), 105, 50)).Value, 0.5, "AWG %d", n)
	}
}

// √((Tr−Ta)/(Tr−30)) is the published ambient factor of IEC 60364-5-52 for
// PVC 70 °C: 0.87 at 40, 0.71 at 50, 0.50 at 60 °C.
func TestAmpacityAmbientLaw(t *testing.T) {
	for c, want := range map[float64]float64{40: 0.87, 50: 0.71, 60: 0.50} {
		in := alone(unit.MM2(2.5), 70, c)
		r := rated(t, in)
		assert.InDelta(t, want, r.AmbientFactor, 0.005)
		assert.InDelta(t, 25*want, r.Value, 0.13)
	}
	assert.Zero(t, rated(t, alone(unit.GaugeAWG(12), 105, 110)).Value, "the air alone is too hot")
	assert.Equal(t, 45.0, rated(t, alone(unit.GaugeAWG(12), 105, -20)).Value, "no credit for cold")
}

func TestAmpacityLookup(t *testing.T) {
	for _, c := range []struct {
		in    calc.AmpacityInput
		want  float64
		delta float64
		why   string
	}{
		{alone(unit.MM2(2.5), 105, 30), 35, 1e-9, "ISO 10133 row"},
		{alone(unit.GaugeAWG(12), 85, 30), 35, 1e-9, "85 °C takes the 80 °C column of 33 CFR"},
		{alone(unit.MM2(0.5), 105, 30), 11, 1e-9, "thin-wall PVC list below the ISO 10133 range"},
		{alone(unit.GaugeAWG(22), 105, 70), 3, 1e-9, "AC 43.13-1B Table 11-9 as printed, 70 °C"},
		{alone(unit.GaugeAWG(24), 200, 70), 5, 1e-9, "AC 43.13-1B Table 11-9"},
		{alone(unit.GaugeAWG(24), 105, 30), 2.5 * math.Sqrt(75./35), 1e-9, "the same in cooler air"},
	} {
		assert.InDelta(t, c.want, rated(t, c.in).Value, c.delta, c.why)
	}
	// Between two rows a power law of the area: 4.5 mm² of ISO 10133 at 105 °C
	// lies on the line through 4 mm² 45 A and 6 mm² 60 A.
	slope := math.Log(60./45) / math.Log(6./4)
	assert.InDelta(t, 45*math.Pow(4.5/4, slope), rated(t, alone(unit.MM2(4.5), 105, 30)).Value, 1e-9)

	// The thin-wall PVC list, scaled to 65 °C, would give 0.7 mm² more than ISO
	// 10133 gives 0.75 mm² in its 60 °C column: the thicker size's 6 A hold.
	r := rated(t, alone(unit.MM2(0.7), 65, 30))
	assert.InDelta(t, 6, r.Value, 1e-9)
	assert.Contains(t, r.Formula, "not exceeded by the thinner 0.7 mm²")

	bundled := alone(unit.GaugeAWG(12), 105, 30)
	bundled.Bundled = 8
	for set, f := range map[tables.BundleSet]float64{tables.BundleCFR183: 0.5, tables.BundleISO13297: 0.6, tables.BundleIEC60364: 0.52} {
		bundled.Set = set
		r := rated(t, bundled)
		assert.InDelta(t, 45*f, r.Value, 1e-9)
		assert.True(t, r.Source.FromMemory, "the bundle factors are from memory")
	}
	assert.Contains(t, rated(t, bundled).Formula, "for 8 loaded")
	thin := alone(unit.GaugeAWG(22), 105, 70)
	thin.Bundled, thin.Set = 7, tables.BundleCFR183
	assert.InDelta(t, 3, rated(t, thin).Value, 1e-9, "Table 11-9 already holds for a bundle")
}

func TestAmpacityRefuses(t *testing.T) {
	ok := alone(unit.GaugeAWG(12), 105, 30)
	for says, change := range map[string]func(*calc.AmpacityInput){
		"conductor metal is missing":                  func(in *calc.AmpacityInput) { in.Metal = 0 },
		"a rating list for aluminium wire is missing": func(in *calc.AmpacityInput) { in.Metal = tables.Aluminium },
		"conductor size is missing":                   func(in *calc.AmpacityInput) { in.Size = unit.Size{} },
		"insulation temperature is missing":           func(in *calc.AmpacityInput) { in.InsulationC = 0 },
		"ambient temperature is missing":              func(in *calc.AmpacityInput) { in.AmbientC = math.NaN() },
		"loaded conductors in the bundle":             func(in *calc.AmpacityInput) { in.Bundled = 0 },
		"loaded conductors is -1":                     func(in *calc.AmpacityInput) { in.Bundled = -1 },
		"choice of bundle factors is missing":         func(in *calc.AmpacityInput) { in.Bundled = 4 },
		"no bundle factor for 30":                     func(in *calc.AmpacityInput) { in.Bundled, in.Set = 30, tables.BundleIEC60364 },
		"AWG 30 is outside the rating lists":          func(in *calc.AmpacityInput) { in.Size = unit.GaugeAWG(30) },
		"240 mm² is outside the rating lists":         func(in *calc.AmpacityInput) { in.Size = unit.MM2(240) },
		"conductor area of SAE 22 is missing":         func(in *calc.AmpacityInput) { in.Size = unit.GaugeSAE(22) },
		"insulation temperature is 5000 °C":           func(in *calc.AmpacityInput) { in.InsulationC = 5000 },
	} {
		in := ok
		change(&in)
		_, err := calc.Ampacity(in)
		unknown(t, err, says)
	}
}

// More metal, cooler air, fewer neighbours and better insulation never lower
// the ampacity, whichever list answers.
func TestAmpacityIsMonotonic(t *testing.T) {
	const seed = 7
	r := rand.New(rand.NewPCG(seed, seed))
	var awg, sae, metric []unit.Size
	for n := 24; n >= -3; n-- {
		awg = append(awg, unit.GaugeAWG(n))
		if s := unit.GaugeSAE(n); s.Known() && n != 22 {
			sae = append(sae, s)
		}
	}
	for a := 0.25; a <= 120; a *= 1.07 {
		metric = append(metric, unit.MM2(a))
	}
	sets := []tables.BundleSet{tables.BundleCFR183, tables.BundleISO13297, tables.BundleIEC60364}
	for range 4000 {
		in := alone(unit.Size{}, 60+r.Float64()*150, -20+r.Float64()*150)
		in.Bundled, in.Set = 1+r.IntN(20), sets[r.IntN(3)]
		sizes := [][]unit.Size{awg, sae, metric}[r.IntN(3)]
		i := r.IntN(len(sizes) - 1)
		in.Size = sizes[i]
		base := rated(t, in)

		thicker := in
		thicker.Size = sizes[i+1+r.IntN(len(sizes)-1-i)]
		require.GreaterOrEqual(t, rated(t, thicker).Value, base.Value*(1-1e-12), "%+v against %v", in, thicker.Size)
		hotter := in
		hotter.AmbientC += r.Float64() * 60
		require.LessOrEqual(t, rated(t, hotter).Value, base.Value, "%+v against %v °C", in, hotter.AmbientC)
		fuller := in
		fuller.Bundled = min(20, in.Bundled+r.IntN(10))
		require.LessOrEqual(t, rated(t, fuller).Value, base.Value, "%+v against %d", in, fuller.Bundled)
		better := in
		better.InsulationC += r.Float64() * 60
		require.GreaterOrEqual(t, rated(t, better).Value, base.Value*(1-1e-12), "%+v against %v °C", in, better.InsulationC)
	}
}

func TestResistanceIsMonotonic(t *testing.T) {
	const seed = 3
	r := rand.New(rand.NewPCG(seed, seed))
	for range 2000 {
		c := calc.Conductor{Metal: tables.Copper, Size: unit.MM2(0.14 + r.Float64()*100), Tinned: r.IntN(2) == 0}
		length, temp := 1+r.Float64()*1e4, -40+r.Float64()*200
		base := value(t)(calc.WireResistance(c, length, temp))
		require.Less(t, base, value(t)(calc.WireResistance(c, length*1.01, temp)), "%v longer", c.Size)
		require.Less(t, base, value(t)(calc.WireResistance(c, length, temp+1)), "%v warmer", c.Size)
		c.Size = unit.MM2(c.Size.N * (1 + r.Float64()*0.2))
		require.LessOrEqual(t, value(t)(calc.WireResistance(c, length, temp)), base, "%v thicker", c.Size)
	}
}

func ExampleAmpacity() {
	r, _ := calc.Ampacity(calc.AmpacityInput{
		Metal: tables.Copper, Size: unit.GaugeAWG(12), InsulationC: 105, AmbientC: 50,
		Bundled: 4, Set: tables.BundleCFR183,
	})
	fmt.Println(r.Formula)
	fmt.Println(r.Source)
	// Output:
	// AWG 12: 45 A at 105 °C · 0.85 (engine space) · 0.6 for 4 loaded = 22.9 A
	// 33 CFR 183.425, Table 5; 33 CFR 183.425, note 2, bundled conductors (from memory)
}
