package unit_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
)

var all = []unit.Quantity{unit.Volt, unit.Amp, unit.Ohm, unit.Watt, unit.Length, unit.Area, unit.Temp,
	unit.AmpHour, unit.Percent, unit.Ratio, unit.Count}

// good feeds TestParse and the seeds of FuzzParse.
var good = []struct {
	q    unit.Quantity
	in   string
	want float64
	why  string
}{
	{unit.Volt, "12.6 V", 12.6, "as written on a battery"},
	{unit.Volt, "12,6V", 12.6, "decimal comma, no space"},
	{unit.Volt, "312 mV", 0.312, "SI prefix milli is 1e-3"},
	{unit.Volt, "-0.7", -0.7, "bare number is in volts"},
	{unit.Volt, "\u22120.7 V", -0.7, "typographic minus"},
	{unit.Volt, "13.8 vdc", 13.8, "trade spelling"},
	{unit.Volt, "50 µV", 50e-6, "micro sign U+00B5"},
	{unit.Volt, "50 μV", 50e-6, "Greek mu U+03BC"},
	{unit.Volt, "50uV", 50e-6, "typed u"},
	{unit.Volt, "1.5e-3 V", 0.0015, "exponent"},
	{unit.Volt, "-0 V", 0, "zero has no sign"},
	{unit.Amp, "2.5A", 2.5, "no space"},
	{unit.Amp, "50 ma", 0.05, "no shift key"},
	{unit.Amp, "20 amps", 20, "word"},
	{unit.Amp, "0,750 A", 0.75, "a leading zero makes the comma decimal"},
	{unit.Ohm, "3.4 mΩ", 0.0034, "exact decimal"},
	{unit.Ohm, "3.4 m\u2126", 0.0034, "ohm sign U+2126"},
	{unit.Ohm, "3.4 mohm", 0.0034, "word"},
	{unit.Ohm, "2.7 kΩ", 2700, "SI prefix kilo"},
	{unit.Ohm, "2.7 K ohm", 2700, "capital K is common for kilo"},
	{unit.Ohm, "10 MΩ", 1e7, "SI prefix mega"},
	{unit.Ohm, ".5", 0.5, "no leading zero"},
	{unit.Watt, "1.4kW", 1400, "SI prefix kilo"},
	{unit.Watt, "55W", 55, "lamp base marking"},
	{unit.Length, "120 mm", 120, ""},
	{unit.Length, "120", 120, "bare number is mm"},
	{unit.Length, "1.2 m", 1200, ""},
	{unit.Length, "12 cm", 120, ""},
	{unit.Length, "1 in", 25.4, "1959 international inch"},
	{unit.Length, "4 ft", 1219.2, "12 in of 25.4 mm"},
	{unit.Length, "4'6\"", 1371.6, "54 in of 25.4 mm"},
	{unit.Length, "4'6", 1371.6, "inches follow feet"},
	{unit.Length, "4 ft. 6 in.", 1371.6, "abbreviation dots"},
	{unit.Length, "4’ 6 1/2”", 1384.3, "typographic quotes and a fraction"},
	{unit.Length, "3 1/2 in", 88.9, "3.5 in of 25.4 mm"},
	{unit.Length, "3-1/2 in", 88.9, "drawing style"},
	{unit.Length, "3½\"", 88.9, "fraction character"},
	{unit.Length, "½ in", 12.7, "fraction character alone"},
	{unit.Length, "1/2 in", 12.7, "fraction alone"},
	{unit.Length, "4' ½\"", 1231.9, "feet and a fraction"},
	{unit.Area, "0.75 mm²", 0.75, ""},
	{unit.Area, "0,75mm2", 0.75, ""},
	{unit.Area, "0.75 mm^2", 0.75, ""},
	{unit.Area, "0.75 sq mm", 0.75, ""},
	{unit.Area, "0.75 sqmm", 0.75, ""},
	{unit.Area, "1000 cmil", 0.5067074790974977, "1 cmil = pi/4 (0.0254 mm)^2"},
	{unit.Temp, "85°C", 85, ""},
	{unit.Temp, "85 C", 85, ""},
	{unit.Temp, "-18 °C", -18, "cold cranking temperature"},
	{unit.Temp, "185 F", 85, "(185-32)·5/9"},
	{unit.Temp, "0 °F", -160. / 9, "(0-32)·5/9"},
	{unit.Temp, "300 K", 26.85, "minus 273.15"},
	{unit.Temp, "105 degC", 105, ""},
	{unit.AmpHour, "60 Ah", 60, ""},
	{unit.AmpHour, "800 mAh", 0.8, ""},
	{unit.Percent, "3 %", 0.03, "held as fraction"},
	{unit.Percent, "7", 0.07, "bare number is percent, exact decimal"},
	{unit.Ratio, "0.85", 0.85, ""},
	{unit.Ratio, "85%", 0.85, ""},
	{unit.Count, "12", 12, ""},
}

func TestParse(t *testing.T) {
	for _, c := range good {
		t.Run(c.q.String()+" "+c.in, func(t *testing.T) {
			v, err := unit.Parse(c.q, c.in)
			require.NoError(t, err, c.why)
			assert.InDelta(t, c.want, v, 1e-12*math.Max(1, math.Abs(c.want)), c.why)
			assert.False(t, v == 0 && math.Signbit(v), "minus zero")
		})
	}
}

func TestParseIsDecimalExact(t *testing.T) {
	for in, want := range map[string]float64{"3.4 mΩ": 0.0034, "17.85 mohm": 0.01785, "0.1 kohm": 100} {
		v, err := unit.Parse(unit.Ohm, in)
		require.NoError(t, err)
		assert.Equal(t, want, v, in)
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		q    unit.Quantity
		in   string
		says string
		why  string
	}{
		{unit.Volt, "", "nothing written", ""},
		{unit.Volt, "abc", "begin with a number", ""},
		{unit.Volt, "12 A", `unknown unit "A"`, "wrong quantity"},
		{unit.Volt, "NaN", "begin with a number", ""},
		{unit.Volt, "Inf V", "begin with a number", ""},
		{unit.Volt, "1e400 V", "not a usable number", "overflow"},
		{unit.Volt, "1e9 V", "out of the range", "no vehicle has it"},
		{unit.Volt, "1,250 V", "1.250 or 1250", "thousands or decimal comma"},
		{unit.Volt, "1.2.3", "more than one", ""},
		{unit.Amp, "5 MA", "unknown unit", "shift held: not a million amps"},
		{unit.Ohm, "5k6", "unknown unit", "letter as decimal point is not taken"},
		{unit.Ohm, "-1 Ω", "out of the range", "no negative resistance"},
		{unit.Length, "-3 mm", "out of the range", ""},
		{unit.Length, "4 m 6 in", "unexpected", "only feet take a second piece"},
		{unit.Length, "4 ft 6 mm", "feet are followed by inches", ""},
		{unit.Length, "4 ft .5 in", "could be a decimal", "never 5 inches"},
		{unit.Length, "4 ft -6 in", "unknown unit", ""},
		{unit.Length, "1 2 3 mm", "unexpected", ""},
		{unit.Length, "3 1/0 in", "fraction", ""},
		{unit.Length, "3 5/4 in", "fraction", "not a proper fraction"},
		{unit.Length, "5 V", `unknown unit "V"`, ""},
		{unit.Temp, "85°", "unknown unit", "which scale is open"},
		{unit.Temp, "-300 °C", "out of the range", "below absolute zero"},
		{unit.Count, "1.5", "whole number", ""},
		{unit.Percent, "3 A", "unknown unit", ""},
		{unit.Amp, strings.Repeat("9", 500), "too long", ""},
		{unit.Quantity(99), "1", "unknown quantity", "no panic"},
	} {
		t.Run(c.q.String()+" "+c.in[:min(len(c.in), 20)], func(t *testing.T) {
			_, err := unit.Parse(c.q, c.in)
			require.ErrorContains(t, err, c.says, c.why)
			if int(c.q) < len(all) {
				assert.ErrorContains(t, err, "for example", "the message shows how to write it")
			}
			assert.Less(t, len(err.Error()), 320)
		})
	}
}

// Every example given in an error message must itself parse.
func TestExamplesParse(t *testing.T) {
	for _, q := range all {
		_, err := unit.Parse(q, "?")
		require.Error(t, err)
		_, example, ok := strings.Cut(err.Error(), "for example ")
		require.True(t, ok)
		for _, e := range strings.Split(example, " or ") {
			_, err := unit.Parse(q, e)
			assert.NoError(t, err, q.String())
		}
	}
}

func TestFormat(t *testing.T) {
	for _, c := range []struct {
		q    unit.Quantity
		v    float64
		sys  unit.System
		want string
	}{
		{unit.Volt, 0.312, unit.SI, "0.312 V"},
		{unit.Volt, 12.651, unit.SI, "12.65 V"},
		{unit.Volt, 0.0024, unit.SI, "2.4 mV"},
		{unit.Volt, -1e-15, unit.SI, "0 V"},
		{unit.Volt, math.Copysign(0, -1), unit.SI, "0 V"},
		{unit.Volt, -0.0996, unit.SI, "-99.6 mV"},
		{unit.Volt, 0.09996, unit.SI, "0.1 V"},
		{unit.Volt, math.NaN(), unit.SI, "unknown"},
		{unit.Volt, math.Inf(1), unit.SI, "unknown"},
		{unit.Amp, 12.5678, unit.SI, "12.6 A"},
		{unit.Amp, 0.05, unit.SI, "50 mA"},
		{unit.Amp, 1500, unit.SI, "1500 A"},
		{unit.Amp, 82656, unit.SI, "82.7 kA"},
		{unit.Ohm, 0.0034, unit.SI, "3.4 mΩ"},
		{unit.Ohm, 2700, unit.SI, "2.7 kΩ"},
		{unit.Ohm, 90, unit.SI, "90 Ω"},
		{unit.Ohm, 1e7, unit.SI, "10 MΩ"},
		{unit.Watt, 1234, unit.SI, "1234 W"},
		{unit.Length, 1250, unit.SI, "1.25 m"},
		{unit.Length, 1256.4, unit.SI, "1.256 m"},
		{unit.Length, 999.6, unit.SI, "1 m"},
		{unit.Length, 120, unit.SI, "120 mm"},
		{unit.Length, 11.757, unit.SI, "11.8 mm"},
		{unit.Length, 1e-7, unit.SI, "0 mm"},
		{unit.Length, 1371.6, unit.Imperial, "4 ft 6 in"},
		{unit.Length, 1219.2, unit.Imperial, "4 ft"},
		{unit.Length, 88.9, unit.Imperial, "3.5 in"},
		{unit.Length, 304.79, unit.Imperial, "1 ft"},
		{unit.Length, 2.4, unit.Imperial, "0.0945 in"},
		{unit.Area, 0.75, unit.SI, "0.75 mm²"},
		{unit.Area, 107.2193, unit.Imperial, "107 mm²"},
		{unit.Temp, 85, unit.SI, "85 °C"},
		{unit.Temp, 85, unit.Imperial, "185 °F"},
		{unit.Temp, -0.01, unit.SI, "0 °C"},
		{unit.AmpHour, 60, unit.SI, "60 Ah"},
		{unit.AmpHour, 0.05, unit.SI, "50 mAh"},
		{unit.Percent, 0.03, unit.SI, "3 %"},
		{unit.Percent, 0.07, unit.SI, "7 %"},
		{unit.Ratio, 0.85, unit.SI, "0.85"},
		{unit.Count, 12, unit.SI, "12"},
		{unit.Quantity(99), 1, unit.SI, "unknown"},
	} {
		assert.Equal(t, c.want, unit.Format(c.q, c.v, c.sys))
	}
}

// sample draws numbers over the sizes a quantity takes in a vehicle.
func sample(r *rand.Rand, q unit.Quantity) float64 {
	switch v := math.Pow(10, r.Float64()*8-3); q {
	case unit.Count:
		return math.Floor(v)
	case unit.Temp:
		return r.Float64()*400 - 60
	case unit.Percent, unit.Ratio:
		return r.Float64() * 3
	case unit.Area:
		return math.Min(v, 9e4)
	default:
		return v
	}
}

func TestRoundTrip(t *testing.T) {
	const seed = 1
	r := rand.New(rand.NewPCG(seed, seed))
	for _, q := range all {
		for range 2000 {
			v := sample(r, q)
			back, err := unit.Parse(q, unit.Exact(q, v))
			require.NoError(t, err, "%v %v", q, v)
			require.Equal(t, v, back, "Exact gives the same number back: %v %s", q, unit.Exact(q, v))

			for _, sys := range []unit.System{unit.SI, unit.Imperial} {
				text := unit.Format(q, v, sys)
				back, err = unit.Parse(q, text)
				require.NoError(t, err, text)
				tol := 0.0051 * math.Abs(v) // half of the third digit
				switch {
				case q == unit.Length && v < 1 || q == unit.Volt:
					tol += 1.3e-3
				case q == unit.Length:
					tol += 1.3 // a tenth of an inch
				case q == unit.Temp:
					tol = 0.051
				}
				require.InDelta(t, v, back, tol, "%v printed as %s", v, text)
				require.Equal(t, text, unit.Format(q, back, sys), "printing what was read changes nothing")
			}
		}
	}
}

func FuzzParse(f *testing.F) {
	for _, c := range good {
		f.Add(uint8(c.q), c.in)
	}
	f.Fuzz(func(t *testing.T, q uint8, s string) {
		v, err := unit.Parse(unit.Quantity(q), s)
		if err != nil {
			return
		}
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("%q gave %v", s, v)
		}
		back, err := unit.Parse(unit.Quantity(q), unit.Exact(unit.Quantity(q), v))
		if err != nil && len(unit.Exact(unit.Quantity(q), v)) <= 60 {
			t.Fatalf("%q: %v", s, err)
		}
		if err == nil && back != v {
			t.Fatalf("%q: %v then %v", s, v, back)
		}
		_ = unit.Format(unit.Quantity(q), v, unit.Imperial)
	})
}

func ExampleParse() {
	v, _ := unit.Parse(unit.Length, `4'6"`)
	fmt.Println(unit.Format(unit.Length, v, unit.SI))
	// Output: 1.372 m
}
