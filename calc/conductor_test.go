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

// IEC 60028: annealed copper of AWG area, ohm/km at 20 °C (ASTM B258 areas);
// spot values 4/0 0.0490, 1 0.1239, 6 0.3951 ohm/1000 ft appear in trade tables.
func TestResistanceOfAWG(t *testing.T) {
	for n, ohmPerKM := range map[int]float64{-3: 0.1608, -2: 0.2028, -1: 0.2557, 0: 0.3224, 1: 0.4066, 2: 0.5127, 3: 0.6465,
		4: 0.8152, 5: 1.0279, 6: 1.2962, 7: 1.6344, 8: 2.0610, 9: 2.5989, 10: 3.2771, 11: 4.1324, 12: 5.2108, 13: 6.5707,
		14: 8.2855, 15: 10.4478, 16: 13.1745, 17: 16.6127, 18: 20.9482, 19: 26.4152, 20: 33.3090, 21: 42.0019, 22: 52.9634,
		23: 66.7856, 24: 84.2151} {
		got := value(t)(calc.WireResistance(calc.Conductor{Metal: tables.Copper, Size: unit.GaugeAWG(n)}, 1e6, 20)) / 1.04
		assert.InDelta(t, ohmPerKM, got, 1e-4*math.Max(1, ohmPerKM/10), "AWG %d, but for the lay of the strands", n)
	}
}

// Temperature correction R(T) = R20·(234.5+T)/254.5, AC 43.13-1B 11-66d.
func TestResistanceAtTemperature(t *testing.T) {
	wire := calc.Conductor{Metal: tables.Copper, Size: unit.MM2(1.5)} // 12.7 mΩ/m
	at := func(tempC float64) float64 { return value(t)(calc.WireResistance(wire, 10000, tempC)) / 0.127 }
	assert.InDelta(t, 314.5/254.5, at(80), 1e-9)
	// IEC 60228 factors Kt, rounded there with α = 0.004: agree to 1 %.
	for c, kt := range map[float64]float64{5: 1.064, 10: 1.042, 30: 0.962, 50: 0.893, 75: 0.820, 100: 0.758} {
		assert.InDelta(t, 1, at(c)*kt, 0.01, "%v °C", c)
	}
	assert.InDelta(t, 0.00393, at(21)-1, 1e-6, "IEC 60028: 0.00393/K at 20 °C")

	for _, c := range []struct {
		mm, tempC float64
		says      string
	}{
		{0, 20, "wire length is missing"},
		{math.NaN(), 20, "wire length is missing"},
		{-1, 20, "the wire length is -1"},
		{1, math.NaN(), "conductor temperature is missing"},
		{1, math.Inf(1), "the conductor temperature is"},
	} {
		_, err := calc.WireResistance(wire, c.mm, c.tempC)
		unknown(t, err, c.says)
	}
}

func TestPerMetre(t *testing.T) {
	cu := func(s unit.Size) calc.Conductor { return calc.Conductor{Metal: tables.Copper, Size: s} }
	for _, c := range []struct {
		in     calc.Conductor
		mohm   float64
		memory bool
		why    string
	}{
		{cu(unit.MM2(0.75)), 24.7, true, "ISO 6722 plain"},
		{calc.Conductor{Metal: tables.Copper, Size: unit.MM2(0.75), Tinned: true}, 25.4, true, "ISO 6722 tinned"},
		{cu(unit.MM2(150)), 0.129, false, "only in IEC 60228"},
		{cu(unit.GaugeSAE(10)), 1000 / 58. / 4.734, true, "SAE minimum area 9343 cmil"},
		{cu(unit.GaugeSAE(22)), 48.365, false, "no minimum on record, usual stranding 7/30"},
		{calc.Conductor{Metal: tables.Aluminium, Size: unit.MM2(35)}, 0.527 * 28.264 / 17.2414, true, "IEC 60889 over IEC 60028"},
	} {
		r, err := calc.PerMetre(c.in)
		require.NoError(t, err, c.why)
		assert.InEpsilon(t, c.mohm/1000, r.Value, 5e-4, c.why)
		assert.Equal(t, c.memory, r.Source.FromMemory, c.why)
	}
	// A size between two rows lies between their resistances.
	r := value(t)(calc.PerMetre(cu(unit.MM2(4.5))))
	assert.True(t, r < 4.71e-3 && r > 3.94e-3)

	for in, says := range map[calc.Conductor]string{
		{Size: unit.MM2(1)}:            "conductor metal is missing",
		{Metal: 99, Size: unit.MM2(1)}: "conductor metal is missing",
		{Metal: tables.Copper}:         "conductor size is missing",
		cu(unit.MM2(500)):              "outside the conductor lists",
		cu(unit.MM2(0.02)):             "outside the conductor lists",
	} {
		_, err := calc.PerMetre(in)
		unknown(t, err, says)
	}
}
