package tables_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/tables"
	"loomwright/calc/unit"
)

func TestSourceLine(t *testing.T) {
	assert.Equal(t, "33 CFR 183.425, Table 5", tables.CFR183().Source.String())
	assert.Equal(t, "ISO 6722-1, maximum conductor resistance at 20 °C (from memory)", tables.ISO6722().Source.String())
	assert.Contains(t, tables.FusibleLinks().Source.String(), "common practice, no source")
	assert.Equal(t, "no source given", tables.Source{}.String())

	both := tables.CFR183().Source.And(tables.BundleCFR183.Source())
	assert.Equal(t, "33 CFR 183.425, Table 5; 33 CFR 183.425, note 2, bundled conductors (from memory)", both.String())
	assert.True(t, both.FromMemory)
	assert.Equal(t, tables.ASTMB258(), tables.ASTMB258().And(tables.Source{}))
	assert.Equal(t, tables.ASTMB258(), tables.ASTMB258().And(tables.ASTMB258()))
}

// A conductor of its nominal area in ideal copper (IEC 60028, 58 MS/m) would
// have R·A·58/1000 = 1. Published maxima lie 2 to 15 % above it for vehicle
// cable; a slip of a digit leaves that range.
func TestMetricConductorsArePlausible(t *testing.T) {
	check := func(name string, tab tables.Table[tables.ConductorRow], lo, hi float64) {
		var last tables.ConductorRow
		for i, r := range tab.All() {
			ratio := r.Plain * r.AreaMM2 * 58 / 1000
			assert.True(t, ratio >= lo && ratio <= hi, "%s %v mm²: %.3f", name, r.AreaMM2, ratio)
			if r.Tinned > 0 {
				assert.Greater(t, r.Tinned, r.Plain, "tin adds resistance: %s %v", name, r.AreaMM2)
				assert.Less(t, r.Tinned, r.Plain*1.08)
			}
			if i > 0 {
				assert.Greater(t, r.AreaMM2, last.AreaMM2)
				assert.Less(t, r.Plain, last.Plain)
			}
			last = r
		}
	}
	check("ISO 6722", tables.ISO6722(), 1.02, 1.15)
	check("IEC 60228 class 5, VDE 0295", tables.IEC60228Class5(), 1.03, 1.23)

	// ISO 6722 asks for a little less resistance than class 5 of the same size.
	for _, iso := range tables.ISO6722().All() {
		iec, ok := tables.IEC60228Class5().Find(func(r tables.ConductorRow) bool { return r.AreaMM2 == iso.AreaMM2 })
		if ok {
			assert.Less(t, iso.Plain, iec.Plain, "%v mm²", iso.AreaMM2)
		}
	}
}

// SAE: the resistance of the usual stranding follows from strand count and
// ASTM B258 strand diameter; the minimum area (where remembered) is 0.95 to
// 0.97 of that stranding, except gauge 6.
func TestSAEConductors(t *testing.T) {
	for _, r := range tables.SAEConductors().All() {
		if r.Strands == 0 {
			continue
		}
		strand, _ := unit.GaugeAWG(r.StrandAWG).AreaMM2()
		area := float64(r.Strands) * strand
		assert.InDelta(t, 1000/58./area, r.OhmPerKM, 0.002*r.OhmPerKM, "SAE %d", r.Gauge)
		if lowest, ok := unit.GaugeSAE(r.Gauge).AreaMM2(); ok && r.Gauge > 6 {
			assert.InDelta(t, 0.963, lowest/area, 0.009, "SAE %d", r.Gauge)
		}
	}
}

// AC 43.13-1B Table 11-9: a conductor of the printed circular mils cannot have
// less resistance than ideal copper, and stays within 25 % of it (tin-plated,
// high strand count; small numbers are printed with two digits).
func TestAircraftWireIsPlausible(t *testing.T) {
	for i, r := range tables.AircraftWire().All() {
		area := r.CircMils * unit.MM2PerCmil
		ratio := r.OhmPerKft / 0.3048 * area * 58 / 1000
		assert.True(t, ratio > 0.99 && ratio < 1.32, "size %d: %.3f", r.Gauge, ratio)
		assert.True(t, r.Amps[0] < r.Amps[1] && r.Amps[1] < r.Amps[2], "size %d", r.Gauge)
		if i > 0 {
			above := tables.AircraftWire().At(i - 1)
			assert.Greater(t, r.CircMils, above.CircMils)
			assert.Greater(t, r.Amps[2], above.Amps[2])
		}
	}
}

// 33 CFR 183.425 note 1 follows the square-root law √((Tr−50)/(Tr−30)) to a
// hundredth, except 200 °C, where 1.00 is printed against 0.939.
func TestEngineSpaceFactors(t *testing.T) {
	c := tables.CFR183()
	for i := range c.Columns() {
		f, ok := c.EngineFactor(i)
		require.True(t, ok)
		law := math.Sqrt((c.ColumnC(i) - 50) / (c.ColumnC(i) - 30))
		if c.ColumnC(i) == 200 {
			assert.InDelta(t, 0.939, law, 5e-4)
			assert.Equal(t, 1.0, f)
			continue
		}
		assert.InDelta(t, law, f, 0.0075, "%v °C", c.ColumnC(i))
	}
	_, ok := c.EngineFactor(-1)
	assert.False(t, ok)
}

func TestAmpacityTablesRise(t *testing.T) {
	for _, tab := range []tables.AmpacityTable{tables.CFR183(), tables.ISO10133(), tables.ThinPVC(), tables.AircraftAmpacity()} {
		for i, r := range tab.All() {
			for c := range tab.Columns() {
				require.Positive(t, r.Amps[c], "%s %s", tab.Source, r.Size)
				if c > 0 {
					assert.GreaterOrEqual(t, r.Amps[c], r.Amps[c-1], "%s %s", tab.Source, r.Size)
					assert.Greater(t, tab.ColumnC(c), tab.ColumnC(c-1))
				}
				if i > 0 {
					assert.Greater(t, r.Amps[c], tab.At(i - 1).Amps[c], "%s %s", tab.Source, r.Size)
					assert.Greater(t, r.AreaMM2, tab.At(i-1).AreaMM2)
				}
			}
		}
	}
	// The maker's list follows 16.5·A^0.62 within 2.4 %.
	for _, r := range tables.ThinPVC().All() {
		assert.InEpsilon(t, 16.5*math.Pow(r.AreaMM2, 0.62), r.Amps[0], 0.025)
	}
}

func TestBundleFactors(t *testing.T) {
	// IEC 60364-5-52 Table B.52.17 item 1; n^-0.32 fits it within 1.7 % from
	// 2 to 20 (a check on every digit of the row).
	for n, want := range map[int]float64{1: 1, 2: 0.80, 3: 0.70, 4: 0.65, 5: 0.60, 6: 0.57, 7: 0.54, 8: 0.52, 9: 0.50,
		10: 0.48, 12: 0.45, 14: 0.43, 16: 0.41, 18: 0.39, 20: 0.38} {
		f, ok := tables.BundleIEC60364.Factor(n)
		require.True(t, ok)
		assert.Equal(t, want, f, n)
		assert.InEpsilon(t, math.Pow(float64(n), -0.32), f, 0.018, n)
	}
	_, ok := tables.BundleIEC60364.Factor(21)
	assert.False(t, ok, "not published")

	// 33 CFR 183.425 note 2 and the ISO 13297 row.
	for n, want := range map[int][2]float64{1: {1, 1}, 2: {1, 1}, 3: {0.7, 1}, 4: {0.6, 0.7}, 6: {0.6, 0.7}, 7: {0.5, 0.6},
		24: {0.5, 0.6}, 25: {0.4, 0.5}, 500: {0.4, 0.5}} {
		cfr, _ := tables.BundleCFR183.Factor(n)
		iso, _ := tables.BundleISO13297.Factor(n)
		assert.Equal(t, want, [2]float64{cfr, iso}, n)
	}
	for _, s := range []tables.BundleSet{tables.NoBundleSet, tables.BundleCFR183, 77} {
		_, ok := s.Factor(0)
		assert.False(t, ok)
	}
}

// Closed forms of circle packing: 3, 4, 5, 6 and 7, 8, 9, 11, 13, 18 and 19.
func TestPackingClosedForms(t *testing.T) {
	ratio := func(n int) float64 {
		r, ok := tables.Packing().Find(func(r tables.PackingRow) bool { return r.N == n })
		require.True(t, ok, n)
		return r.Ratio
	}
	csc := func(x float64) float64 { return 1 / math.Sin(x) }
	for n, want := range map[int]float64{
		1: 1, 2: 2, 3: 1 + 2/math.Sqrt(3), 4: 1 + math.Sqrt2, 5: 1 + math.Sqrt(2*(1+1/math.Sqrt(5))), 6: 3, 7: 3,
		8: 1 + csc(math.Pi/7), 9: 1 + math.Sqrt(2*(2+math.Sqrt2)), 11: 1 + csc(math.Pi/9), 13: 2 + math.Sqrt(5),
		18: 1 + math.Sqrt2 + math.Sqrt(6), 19: 1 + math.Sqrt2 + math.Sqrt(6),
	} {
		assert.InDelta(t, want, ratio(n), 1e-9, n)
	}
	last := 0.0
	for _, r := range tables.Packing().All() {
		assert.GreaterOrEqual(t, r.Ratio, last, "more circles never need less room")
		last = r.Ratio
		// No packing is denser than the hexagonal lattice, π/√12 = 0.9069; the
		// rim lets a finite one exceed it only in the formula's first row.
		if r.N > 1 {
			assert.Less(t, float64(r.N)/(r.Ratio*r.Ratio), math.Pi/math.Sqrt(12), r.N)
		}
	}
	assert.Equal(t, 200, tables.Packing().At(tables.Packing().Len()-1).N)
}

func TestFuseBands(t *testing.T) {
	for _, f := range []tables.FuseFamily{tables.MiniBlade, tables.Blade, tables.MaxiBlade, tables.BoltSF30, tables.BoltSF51} {
		for _, tab := range []tables.Table[tables.FusePoint]{tables.FuseTimes(f, 2), tables.FuseTimes(f, 30)} {
			assert.True(t, tab.Source.FromMemory)
			for i, p := range tab.All() {
				assert.Less(t, p.MinS, p.MaxS)
				if i > 0 {
					assert.Greater(t, p.Multiple, tab.At(i-1).Multiple)
					assert.LessOrEqual(t, p.MinS, tab.At(i-1).MinS)
					assert.Less(t, p.MaxS, tab.At(i-1).MaxS)
				}
			}
		}
	}
	assert.Zero(t, tables.FuseTimes(tables.Torpedo, 8).Len(), "not on record")
}

// A fuse element is 40 to 50 % warmer in resistance at its rating than cold
// (fuse maker's note, 3 to 30 A), and its rating times its drop is power.
func TestFuseElements(t *testing.T) {
	for i, r := range tables.FuseElements().All() {
		if r.RatingA >= 3 && r.RatingA <= 30 {
			rise := r.DropV / r.RatingA / r.ColdOhm
			assert.True(t, rise >= 1.395 && rise <= 1.505, "%v A: %.3f", r.RatingA, rise)
		}
		if i > 0 {
			assert.Less(t, r.ColdOhm, tables.FuseElements().At(i-1).ColdOhm)
			assert.Greater(t, r.MeltI2t, tables.FuseElements().At(i-1).MeltI2t)
		}
	}
	r, src, ok := tables.FuseElement(10)
	require.True(t, ok)
	assert.False(t, src.FromMemory)
	assert.InDelta(t, 0.312, 0.0024/r.ColdOhm, 5e-4, "2.4 mV across a cold 10 A fuse is 312 mA (maker's example)")
	_, src, _ = tables.FuseElement(5)
	assert.True(t, src.FromMemory)
}

func TestFuseRatingsRise(t *testing.T) {
	for _, f := range tables.Fuses().All() {
		for i := 1; i < f.Ratings(); i++ {
			assert.Greater(t, f.RatingA(i), f.RatingA(i-1), f.Name)
		}
	}
}

// A fusible link of four gauge numbers less has 1/2.53 of the area.
func TestFusibleLinks(t *testing.T) {
	for _, l := range tables.FusibleLinks().All() {
		assert.Equal(t, l.Wire+4, l.Link)
		w, _ := unit.GaugeAWG(l.Wire).AreaMM2()
		k, _ := unit.GaugeAWG(l.Link).AreaMM2()
		assert.InDelta(t, 2.53, w/k, 0.01)
	}
}

func TestColours(t *testing.T) {
	// The order of IEC 60757.
	var codes []string
	for _, c := range tables.Colours().All() {
		codes = append(codes, c.Code)
	}
	assert.Equal(t, []string{"BK", "BN", "RD", "OG", "YE", "GN", "BU", "VT", "GY", "WH", "PK", "GD", "TQ", "SR", "GNYE"}, codes)
}

func TestOutsideDiameter(t *testing.T) {
	for _, c := range []struct {
		wall   tables.Wall
		size   unit.Size
		want   float64
		memory bool
	}{
		{tables.ThinWall, unit.MM2(0.75), 1.90, false},
		{tables.ThinWall, unit.MM2(16), 7.20, true},
		{tables.ThickWall, unit.MM2(2.5), 3.60, true},
		{tables.GXLWall, unit.GaugeSAE(14), 3.5, false},
		{tables.TXLWall, unit.GaugeAWG(18), 2.0, true},
	} {
		d, src, ok := tables.OutsideDiameterMM(c.wall, c.size)
		require.True(t, ok, c.size.String())
		assert.Equal(t, c.want, d)
		assert.Equal(t, c.memory, src.FromMemory, c.size.String())
	}
	for _, c := range []struct {
		wall tables.Wall
		size unit.Size
	}{{tables.ThinWall, unit.Size{}}, {tables.ThinWall, unit.GaugeAWG(18)}, {tables.TXLWall, unit.MM2(1)},
		{tables.TXLWall, unit.GaugeSAE(8)}, {tables.NoWall, unit.GaugeSAE(8)}, {tables.ThinWall, unit.MM2(0.6)}} {
		_, _, ok := tables.OutsideDiameterMM(c.wall, c.size)
		assert.False(t, ok, "%v %v", c.wall, c.size)
	}
	// The insulation cannot be thinner than nothing: OD exceeds solid metal.
	for _, r := range tables.ISO6722().All() {
		d, _, ok := tables.OutsideDiameterMM(tables.ThinWall, unit.MM2(r.AreaMM2))
		require.True(t, ok)
		assert.Greater(t, d, 2*math.Sqrt(r.AreaMM2/math.Pi))
	}
}

func TestDropLimits(t *testing.T) {
	v, _, ok := tables.DropLimitV(tables.VitalCircuit, 12)
	assert.True(t, ok)
	assert.InDelta(t, 0.36, v, 1e-12, "3 % of 12 V")
	pos, _, _ := tables.DropLimitV(tables.StarterPositive, 12)
	neg, _, _ := tables.DropLimitV(tables.StarterNegative, 12)
	sum, _, _ := tables.DropLimitV(tables.StarterTotal, 12)
	assert.InDelta(t, sum, pos+neg, 1e-12, "0.5 + 0.3 = 0.8 V, starter tester manual")
	_, _, ok = tables.DropLimitV(tables.GroundConnection, 24)
	assert.False(t, ok, "not published for 24 V")
	_, _, ok = tables.DropLimitV(tables.LampLine, 48)
	assert.False(t, ok)
	_, _, ok = tables.DropLimitV(0, 12)
	assert.False(t, ok)
}

// Every kind that other packages may look up has a row.
func TestClosedSetsAreComplete(t *testing.T) {
	for m := tables.Copper; m <= tables.Aluminium; m++ {
		r, ok := tables.MetalData(m)
		assert.True(t, ok && r.Rho20 > 0, m)
	}
	for k := tables.SmallConnection; k <= tables.StarterControlCircuit; k++ {
		_, ok := tables.DropLimits().Find(func(r tables.DropLimit) bool { return r.Kind == k })
		assert.True(t, ok, k)
	}
	for f := tables.MiniBlade; f <= tables.Torpedo; f++ {
		_, ok := tables.FuseData(f)
		assert.True(t, ok, f)
	}
	for k := tables.BondToStructure; k <= tables.SpliceDesign; k++ {
		_, ok := tables.Joint(k)
		assert.True(t, ok, k)
	}
	seen := map[string]bool{}
	for _, in := range tables.Insulations().All() {
		assert.False(t, seen[in.Code], in.Code)
		seen[in.Code] = true
		assert.NotEmpty(t, in.Source.Title)
	}
	assert.Equal(t, "unknown metal", tables.NoMetal.String())
	assert.Equal(t, "unknown fuse family", tables.FuseFamily(99).String())
}

// AC 43.13-1B Table 11-4: a load asks more of a switch at 28 V than at 12 V.
func TestSwitchesAskMoreAtHigherVoltage(t *testing.T) {
	for _, r := range tables.Switches().All() {
		assert.Greater(t, r.At28V, r.At12V, r.Name)
	}
}

// Classes of ISO 6722 and ISO 19642: 240 h at 25 K above, 6 h at 50 K above.
func TestClasses(t *testing.T) {
	for _, c := range tables.Classes().All() {
		assert.Equal(t, c.MaxC+25, c.ShortTermC, c.Class)
		assert.Equal(t, c.MaxC+50, c.OverloadC, c.Class)
	}
}

func ExampleCFR183() {
	t := tables.CFR183()
	row, _ := t.Find(func(r tables.AmpacityRow) bool { return r.Size == unit.GaugeAWG(12) })
	fmt.Printf("%s at %g °C: %g A (%s)\n", row.Size, t.ColumnC(4), row.Amps[4], t.Source)
	// Output: AWG 12 at 105 °C: 45 A (33 CFR 183.425, Table 5)
}

// The letter after FLRY and its like tells the stranding, not the insulation
// (common practice, no source).
func TestInsulationByCode(t *testing.T) {
	for in, want := range map[string]string{"FLRY": "FLRY", "FLRY-A": "FLRY", "FLRY-B": "FLRY", "flr2x-b": "FLR2X", " txl ": "TXL"} {
		r, ok := tables.InsulationByCode(in)
		assert.True(t, ok, in)
		assert.Equal(t, want, r.Code)
	}
	for _, in := range []string{"", "FLRY-C", "FLRY-B-A", "TXL-A", "-A", "FLR"} {
		_, ok := tables.InsulationByCode(in)
		assert.False(t, ok, in)
	}
}

// IEC 60364-5-54: PVC 160 °C, cross-linked polyethylene 250, silicone rubber
// 350 (the last two from memory).
func TestShortCircuitLimitFollowsMaterial(t *testing.T) {
	for _, row := range tables.Insulations().All() {
		want := 0.0
		switch {
		case strings.Contains(row.Material, "PVC"):
			want = 160
		case strings.Contains(row.Material, "cross-linked"):
			want = 250
		case row.Material == "silicone":
			want = 350
		}
		assert.Equal(t, want, row.ShortCircuitC, row.Code)
	}
}
