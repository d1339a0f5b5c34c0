package unit

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestShowSize(t *testing.T) {
	for _, c := range []struct {
		in    Size
		sizes SizeSystem
		want  string
		why   string
	}{
		{MM2(1.5), NoSize, "1.5 mm²", "as ordered"},
		{GaugeAWG(18), NoSize, "AWG 18", "as ordered"},
		{GaugeAWG(18), Metric, "≈ 0.82 mm²", "ASTM B258: 0.823 mm²"},
		{GaugeAWG(-3), Metric, "≈ 110 mm²", "ASTM B258: 4/0 is 107 mm²"},
		{MM2(1.5), Metric, "1.5 mm²", "nothing to change"},
		{MM2(0.5), AWG, "≈ AWG 20", "0.518 mm² is AWG 20"},
		{MM2(0.75), AWG, "≈ AWG 18", "between 0.823 (18) and 0.653 (19), nearer in ratio to 18"},
		{MM2(2.5), AWG, "≈ AWG 13", "2.62 mm² is AWG 13"},
		{MM2(16), AWG, "≈ AWG 5", "16.8 mm² is AWG 5"},
		{MM2(50), AWG, "≈ AWG 1/0", "53.5 mm² is AWG 1/0"},
		{MM2(1000), AWG, "≈ AWG 4/0", "the largest there is"},
		{GaugeSAE(14), AWG, "SAE 14", "a gauge of its own"},
		{GaugeSAE(22), Metric, "SAE 22", "its area is not on record"},
		{Size{}, Metric, Unknown, "not known"},
	} {
		assert.Equal(t, c.want, Show{Sizes: c.sizes}.Size(c.in), c.why)
	}
}

func TestShowText(t *testing.T) {
	inch := Show{System: Imperial, Sizes: AWG}
	for in, want := range map[string]string{
		"W104 has no fuse: 950 mm of wire lie unprotected.": "W104 has no fuse: 3 ft 1.4 in of wire lie unprotected.",
		"W311 (1 mm²) carries 13.2 A in air of 80 °C":       "W311 (≈ AWG 17) carries 13.2 A in air of 176 °F",
		"4.2 m, 312 mV, 5 mΩ, 3 m":                          "13 ft 9.4 in, 312 mV, 5 mΩ, 9 ft 10.1 in",
		"AWG 18 stays":                                      "AWG 18 stays",
		"X12 mm and R2.5 mm² are names":                     "X12 mm and R2.5 mm² are names",
		"-40 °C":                                            "-40 °F",
		"12 V, 2 W/m, 3 m/s":                                "12 V, 2 W/m, 3 m/s",
		"":                                                  "",
		"1.2.3 mm":                                          "1.2.3 mm",
	} {
		assert.Equal(t, want, inch.Text(in))
		assert.Equal(t, in, Show{}.Text(in))
	}
	assert.Equal(t, "≈ 0.82 mm², 1.5 mm², ≈ 67 mm²", Show{Sizes: Metric}.Text("AWG 18, 1.5 mm², AWG 2/0"))
}

func FuzzShowText(f *testing.F) {
	for _, s := range []string{"950 mm of 1 mm²", "AWG 2/0.", "°C 3 °C", "1e9 m", "AWG ", "-", "9 "} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		Show{System: Imperial, Sizes: AWG}.Text(s)
		Show{Sizes: Metric}.Text(s)
	})
}
