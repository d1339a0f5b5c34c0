package unit_test

import (
	"encoding"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
)

var (
	_ encoding.TextMarshaler   = unit.Size{}
	_ encoding.TextUnmarshaler = (*unit.Size)(nil)
)

func TestParseSize(t *testing.T) {
	for _, c := range []struct {
		in, shown, key string
	}{
		{"18 AWG", "AWG 18", "AWG 18"},
		{"AWG 18", "AWG 18", "AWG 18"},
		{"awg18", "AWG 18", "AWG 18"},
		{"AWG-18", "AWG 18", "AWG 18"},
		{"#18 AWG", "AWG 18", "AWG 18"},
		{"2/0 AWG", "AWG 2/0", "AWG 2/0"},
		{"00 AWG", "AWG 2/0", "AWG 2/0"},
		{"AWG 0", "AWG 1/0", "AWG 1/0"},
		{"4/0AWG", "AWG 4/0", "AWG 4/0"},
		{"SAE 14", "SAE 14", "SAE 14"},
		{"14 sae", "SAE 14", "SAE 14"},
		{"1/0 SAE", "SAE 1/0", "SAE 1/0"},
		{"0.75 mm²", "0.75 mm²", "0.75 mm2"},
		{"0.75", "0.75 mm²", "0.75 mm2"},
		{"0,75 mm2", "0.75 mm²", "0.75 mm2"},
		{"2.50 sqmm", "2.5 mm²", "2.5 mm2"},
		{"16 mm^2", "16 mm²", "16 mm2"},
		{"120", "120 mm²", "120 mm2"},
	} {
		s, err := unit.ParseSize(c.in)
		require.NoError(t, err, c.in)
		assert.Equal(t, c.shown, s.String(), c.in)
		assert.Equal(t, c.key, s.Key(), c.in)
		for _, text := range []string{s.String(), s.Key()} {
			back, err := unit.ParseSize(text)
			require.NoError(t, err)
			assert.Equal(t, s, back, "canonical text reads back")
		}
	}
}

func TestParseSizeRefuses(t *testing.T) {
	for in, says := range map[string]string{
		"":              "nothing written",
		"16":            "16 mm², AWG 16 or SAE 16", // 16 mm² and AWG 16 are both common
		"2/0":           "AWG 2/0 or SAE 2/0",
		"AWG":           "not a number",
		"AWG 5/0":       "1/0 to 4/0",
		"AWG 41":        "no AWG 41",
		"SAE 13":        "no SAE 13",
		"-18 AWG":       "not a number",
		"0 mm²":         "no conductor",
		"5000 mm²":      "no conductor",
		"0.75 mm":       "unknown unit",
		"1,250 mm²":     "1.250 or 1250",
		"18 gauge":      "unknown unit",
		"AWG 18 AWG":    "not a number",
		"a\x00\xff mm²": "begin with a number",
	} {
		_, err := unit.ParseSize(in)
		assert.ErrorContains(t, err, says, in)
		if !strings.Contains(says, " or SAE ") {
			assert.ErrorContains(t, err, "for example", in)
		}
	}
}

// What to write instead is said once, with the number that was typed.
func TestNumberThatStandsForSeveralSizes(t *testing.T) {
	_, err := unit.ParseSize("16")
	assert.EqualError(t, err, `"16" is not clear as a conductor size: write 16 mm², AWG 16 or SAE 16`)
	_, err = unit.ParseSize("2/0")
	assert.EqualError(t, err, `"2/0" is not clear as a conductor size: write AWG 2/0 or SAE 2/0`)
}

func TestSizeText(t *testing.T) {
	var zero unit.Size
	assert.False(t, zero.Known())
	assert.Equal(t, "unknown", zero.String())
	assert.Empty(t, zero.Key())

	type wire struct{ Size unit.Size }
	for _, s := range []unit.Size{zero, unit.MM2(0.35), unit.GaugeAWG(-3), unit.GaugeSAE(8)} {
		b, err := json.Marshal(wire{s})
		require.NoError(t, err)
		var w wire
		require.NoError(t, json.Unmarshal(b, &w))
		assert.Equal(t, s, w.Size)
	}
	_, err := unit.Size{System: unit.AWG, N: 18.5}.MarshalText()
	assert.ErrorContains(t, err, "does not exist")
	for _, s := range []unit.Size{{System: 9, N: 1}, unit.MM2(math.NaN()), unit.MM2(math.Inf(1)), {System: unit.SAE, N: 3}} {
		_, ok := s.AreaMM2()
		assert.False(t, ok)
		assert.Equal(t, "unknown", s.String())
	}
}

// ASTM B258 solid wire: diameters 4/0 = 0.4600 in and 36 = 0.0050 in are the
// standard's anchors; areas and diameters as tabulated to its formula.
func TestAWG(t *testing.T) {
	for _, c := range []struct {
		n          int
		dMM, inch  float64
		mm2, cmils float64
	}{
		{-3, 11.6840, 0.46000, 107.2193, 211600}, {-2, 10.4049, 0.40964, 85.0288, 167806},
		{-1, 9.2658, 0.36480, 67.4309, 133077}, {0, 8.2515, 0.32486, 53.4751, 105535},
		{1, 7.3481, 0.28930, 42.4077, 83693}, {2, 6.5437, 0.25763, 33.6308, 66371},
		{3, 5.8273, 0.22942, 26.6705, 52635}, {4, 5.1894, 0.20431, 21.1506, 41741},
		{5, 4.6213, 0.18194, 16.7732, 33102}, {6, 4.1154, 0.16202, 13.3018, 26251},
		{7, 3.6649, 0.14429, 10.5488, 20818}, {8, 3.2636, 0.12849, 8.3656, 16510},
		{9, 2.9064, 0.11442, 6.6342, 13093}, {10, 2.5882, 0.10190, 5.2612, 10383},
		{11, 2.3048, 0.09074, 4.1723, 8234}, {12, 2.0525, 0.08081, 3.3088, 6530},
		{13, 1.8278, 0.07196, 2.6240, 5178}, {14, 1.6277, 0.06408, 2.0809, 4107},
		{15, 1.4495, 0.05707, 1.6502, 3257}, {16, 1.2908, 0.05082, 1.3087, 2583},
		{17, 1.1495, 0.04526, 1.0378, 2048}, {18, 1.0237, 0.04030, 0.8230, 1624},
		{19, 0.9116, 0.03589, 0.6527, 1288}, {20, 0.8118, 0.03196, 0.5176, 1022},
		{21, 0.7229, 0.02846, 0.4105, 810}, {22, 0.6438, 0.02535, 0.3255, 642},
		{23, 0.5733, 0.02257, 0.2582, 509}, {24, 0.5106, 0.02010, 0.2047, 404},
	} {
		d := unit.AWGDiameterMM(c.n)
		a, ok := unit.GaugeAWG(c.n).AreaMM2()
		require.True(t, ok)
		assert.InDelta(t, c.dMM, d, 5.1e-5, "AWG %d", c.n)
		assert.InDelta(t, c.inch, d/25.4, 5.1e-6, "AWG %d", c.n)
		assert.InDelta(t, c.mm2, a, 5.1e-5, "AWG %d", c.n)
		assert.InDelta(t, c.cmils, d/0.0254*d/0.0254, 0.51, "AWG %d", c.n)
	}
	assert.InDelta(t, 0.0050, unit.AWGDiameterMM(36)/25.4, 1e-9, "anchor of the standard")
}

// Laws of the gauge that every trade handbook gives: three numbers halve the
// area, six halve the diameter, ten take nine tenths of the area.
func TestAWGRules(t *testing.T) {
	area := func(n int) float64 { a, _ := unit.GaugeAWG(n).AreaMM2(); return a }
	for n := -3; n <= 30; n++ {
		assert.InDelta(t, 0.49874, area(n+3)/area(n), 1e-5)
		assert.InDelta(t, 0.49874, unit.AWGDiameterMM(n+6)/unit.AWGDiameterMM(n), 1e-5)
		assert.InDelta(t, 0.098385, area(n+10)/area(n), 1e-5) // 92^(-20/39)
	}
}

// SAE J1128/J1127 minimum areas; the ratio of the minimum to the usual
// stranding stays within 0.95 to 0.97 up to gauge 8, see calc/tables.
func TestSAEArea(t *testing.T) {
	for n, mm2 := range map[int]float64{20: 0.543, 18: 0.779, 16: 1.184, 14: 1.876, 12: 2.956, 10: 4.734, 8: 7.504,
		6: 12.434, 4: 18.931, 2: 31.644, 1: 39.417, 0: 50.154, -1: 63.389, -2: 80.364, -3: 104.128} {
		a, ok := unit.GaugeSAE(n).AreaMM2()
		require.True(t, ok)
		assert.InDelta(t, mm2, a, 5.1e-4, "SAE %d", n)
		awg, _ := unit.GaugeAWG(n).AreaMM2()
		if n > 0 && n != 20 {
			assert.Less(t, a, awg, "an SAE gauge is smaller than the AWG of its number")
		}
	}
	_, ok := unit.GaugeSAE(22).AreaMM2()
	assert.False(t, ok, "no minimum on record")
}

func FuzzParseSize(f *testing.F) {
	for _, s := range []string{"18 AWG", "2/0 AWG", "SAE 14", "0.75 mm²", "0.75", "16", "AWG -3"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		z, err := unit.ParseSize(s)
		if err != nil {
			return
		}
		back, err := unit.ParseSize(z.Key())
		if err != nil || back != z {
			t.Fatalf("%q: %v, %v then %v", s, err, z, back)
		}
	})
}

func ExampleParseSize() {
	s, _ := unit.ParseSize("18 awg")
	mm2, _ := s.AreaMM2()
	fmt.Printf("%s is %.3f mm²\n", s, mm2)
	// Output: AWG 18 is 0.823 mm²
}
