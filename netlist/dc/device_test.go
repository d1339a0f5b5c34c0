package dc_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

var allLaws = []dc.Device{
	dc.ConstantCurrent{Amp: 2, KneeVolt: 3},
	dc.ConstantPower{Watt: 55, MinVolt: 6},
	dc.Diode{ForwardVolt: 0.7, OnOhm: 0.05},
	dc.Diode{ForwardVolt: 0.7, OnOhm: 0.05, KneeVolt: 0.05},
	dc.Diode{OnOhm: 1},
	dc.Filament{NominalVolt: 12, NominalOhm: 144. / 55, ColdOhm: 0.26, Exponent: 0.5},
	dc.Filament{NominalVolt: 12, NominalOhm: 3, ColdOhm: 3},
	dc.LimitedSource{Volt: 14.2, Ohm: 0.02, LimitAmp: 90},
}

// Each law: its slope is that of its current, it makes no jumps, and it falls nowhere but for a constant power.
func TestLaws(t *testing.T) {
	for _, law := range allLaws {
		t.Run(fmt.Sprintf("%+v", law), func(t *testing.T) {
			require.NoError(t, law.Check())
			const h = 1e-6
			before, _ := law.Current(-30 - h)
			for v := -30.0; v < 30; v += 1.0 / 128 {
				low, slopeLow := law.Current(v - h)
				high, slopeHigh := law.Current(v + h)
				at, slope := law.Current(v)
				// At a corner the slope may be that of either side.
				chord := (high - low) / (2 * h)
				require.GreaterOrEqual(t, chord, min(slopeLow, slopeHigh)-1e-4, "at %g V", v)
				require.LessOrEqual(t, chord, max(slopeLow, slopeHigh)+1e-4, "at %g V", v)
				require.LessOrEqual(t, slope, max(slopeLow, slopeHigh)+1e-4, "at %g V", v)
				require.LessOrEqual(t, math.Abs(high-low), 4*h*60, "a jump at %g V", v)
				if p, power := law.(dc.ConstantPower); !power {
					require.GreaterOrEqual(t, at, before, "at %g V", v)
				} else if math.Abs(v) > p.MinVolt {
					require.InEpsilon(t, p.Watt, v*at, 1e-12)
				}
				before = at
			}
		})
	}
}

// A load takes power up at either polarity, a source never does.
func TestSignOfPower(t *testing.T) {
	for _, law := range allLaws {
		for v := -30.0; v < 30; v += 1.0 / 16 {
			i, _ := law.Current(v)
			if _, source := law.(dc.LimitedSource); source {
				require.LessOrEqual(t, i, 0.0)
			} else {
				require.GreaterOrEqual(t, v*i, 0.0, "%+v at %g V", law, v)
			}
		}
	}
}

// supply returns 12 V behind ohm at node 1.
func supply(t testing.TB, nodes int, volt, ohm float64) *rig {
	r := newRig(t, nodes, 0)
	r.voltage(1, 0, volt, ohm)
	return r
}

// A load of 100 W on 12 V behind 0.1 Ω takes 60 - √2600 A; above 12²/(4·0.1) = 360 W there is no such point.
func TestConstantPower(t *testing.T) {
	for _, least := range []float64{0.3, 1, 5.9} {
		r := supply(t, 2, 12, 0.1)
		load := r.device(1, 0, dc.ConstantPower{Watt: 100, MinVolt: least})
		s := r.solve()
		require.InEpsilon(t, 60-math.Sqrt(2600), s.Amp[load], 1e-8)
		require.InEpsilon(t, 11.0990195, s.Volt[1], 1e-8)
		require.InEpsilon(t, 100, s.Watt[load], 1e-6)
		require.Equal(t, dc.StateNormal, s.State[load])
		require.LessOrEqual(t, s.Iterations, 8)

		for _, watt := range []float64{359, 359.99, 359.99999} {
			require.NoError(t, r.SetDevice(load, dc.ConstantPower{Watt: watt, MinVolt: least}))
			s = r.solve()
			require.Equal(t, dc.StateNormal, s.State[load], "%g W above %g V", watt, least)
			require.InDelta(t, 6+math.Sqrt(36-watt/10), s.Volt[1], 1e-4)
		}
		for _, watt := range []float64{360.00001, 360.01, 361, 500, 5000} {
			require.NoError(t, r.SetDevice(load, dc.ConstantPower{Watt: watt, MinVolt: least}))
			s = r.solve()
			require.Equal(t, dc.StateStarved, s.State[load], "%g W above %g V", watt, least)
			require.True(t, s.Converged)
			// What is left is a resistance across the supply.
			ohm := least * least / watt
			require.InEpsilon(t, 12*ohm/(ohm+0.1), s.Volt[1], 1e-6)
			require.LessOrEqual(t, s.Iterations, 60)
		}
	}
}

func TestConstantPowerStarvedByItsLeastVoltage(t *testing.T) {
	r := supply(t, 2, 12, 0.1)
	load := r.device(1, 0, dc.ConstantPower{Watt: 300, MinVolt: 9})
	s := r.solve() // the curve alone would settle at 8.45 V
	require.Equal(t, dc.StateStarved, s.State[load])
	ohm := 81.0 / 300
	require.InEpsilon(t, 12*ohm/(ohm+0.1), s.Volt[1], 1e-7)
}

func TestConstantCurrent(t *testing.T) {
	r := newRig(t, 3, 0)
	feed := r.voltage(1, 0, 12, 0.1)
	contact := r.resistor(1, 2, 0.1)
	load := r.device(2, 0, dc.ConstantCurrent{Amp: 5, KneeVolt: 2})
	s := r.solve()
	require.InEpsilon(t, 5, s.Amp[load], 1e-8)
	require.InEpsilon(t, 11, s.Volt[2], 1e-8)
	require.Equal(t, dc.StateNormal, s.State[load])

	// Behind an open contact it draws nothing, and the dead side is at zero.
	require.NoError(t, r.Open(contact))
	s = r.solve()
	require.InDelta(t, 0, s.Amp[load], 1e-9)
	require.InDelta(t, 0, s.Volt[2], 1e-9)
	require.Equal(t, dc.StateUnpowered, s.State[load])
	require.NoError(t, r.Close(contact))

	// Behind 10 Ω the supply cannot give 5 A: 12 - v = 10·5·(v - v²/4), the smaller root.
	require.NoError(t, r.SetOhm(contact, 9.9))
	s = r.solve()
	require.InEpsilon(t, (51-math.Sqrt(51*51-4*12.5*12))/25, s.Volt[2], 1e-6)
	require.Equal(t, dc.StateStarved, s.State[load])

	// The other polarity.
	require.NoError(t, r.SetOhm(contact, 0.1))
	require.NoError(t, r.SetVolt(feed, -12))
	require.InEpsilon(t, -5, r.solve().Amp[load], 1e-8)
}

// Two unlike constant currents in series: the smaller one passes, the other keeps what voltage that takes.
func TestConstantCurrentsInSeries(t *testing.T) {
	r := supply(t, 3, 12, 0.1)
	large := r.device(1, 2, dc.ConstantCurrent{Amp: 2, KneeVolt: 1})
	small := r.device(2, 0, dc.ConstantCurrent{Amp: 1, KneeVolt: 1})
	s := r.solve()
	require.InEpsilon(t, 1, s.Amp[small], 1e-6)
	require.InEpsilon(t, 1-math.Sqrt(0.5), s.Volt[1]-s.Volt[2], 1e-6)
	require.Equal(t, dc.StateStarved, s.State[large])
	require.Equal(t, dc.StateNormal, s.State[small])
}

func TestDiode(t *testing.T) {
	r := supply(t, 2, 12, 100)
	forward := r.device(1, 0, dc.Diode{ForwardVolt: 0.7, OnOhm: 0.5})
	s := r.solve()
	require.InEpsilon(t, 11.3/100.5, s.Amp[forward], 1e-7)
	require.Equal(t, dc.StateConducting, s.State[forward])

	r = supply(t, 2, 12, 100)
	reverse := r.device(0, 1, dc.Diode{ForwardVolt: 0.7, OnOhm: 0.5})
	s = r.solve()
	require.InDelta(t, -12*dc.LeakSiemens, s.Amp[reverse], 1e-12)
	require.Equal(t, dc.StateBlocking, s.State[reverse])

	// Well below its forward voltage a rounded diode follows Shockley's exponential (Shockley 1949): a factor e for
	// each knee voltage.
	d := dc.Diode{ForwardVolt: 0.7, OnOhm: 0.5, KneeVolt: 0.03}
	low, _ := d.Current(0.40)
	high, _ := d.Current(0.43)
	require.InEpsilon(t, math.E, high/low, 1e-3)
	far, _ := d.Current(5)
	require.InEpsilon(t, (5-0.7)/0.5, far, 1e-9)
}

// Two supplies through a diode each: the higher one carries the load. A bridge of four gives one polarity out of two.
func TestDiodesSelectAndRectify(t *testing.T) {
	law := dc.Diode{ForwardVolt: 0.5, OnOhm: 0.1}
	r := newRig(t, 4, 0)
	r.voltage(1, 0, 12, 0.1)
	r.voltage(2, 0, 10, 0.1)
	one, two := r.device(1, 3, law), r.device(2, 3, law)
	r.resistor(3, 0, 11.3)
	s := r.solve()
	require.InEpsilon(t, 1, s.Amp[one], 1e-7)
	require.InDelta(t, 0, s.Amp[two], 1e-7)

	for _, volt := range []float64{10, -10} {
		r := newRig(t, 4, 0)
		r.voltage(1, 2, volt, 0.3)
		r.device(1, 3, law)
		r.device(2, 3, law)
		r.device(0, 1, law)
		r.device(0, 2, law)
		load := r.resistor(3, 0, 8.5)
		require.InEpsilon(t, 1, r.solve().Amp[load], 1e-7, "%g V", volt)
	}
}

// A filament with the exponent 1/2 draws k·√v, so that the divider with a resistance is a quadratic equation.
func TestFilament(t *testing.T) {
	lamp := dc.Filament{NominalVolt: 12, NominalOhm: 144. / 55, ColdOhm: 0.25, Exponent: 0.5}
	r := supply(t, 2, 12, stiff)
	e := r.device(1, 0, lamp)
	require.InEpsilon(t, 55, r.solve().Watt[e], 1e-6)

	k := 55. / 12 / math.Sqrt(12)
	for _, ohm := range []float64{0.01, 0.5, 2} {
		r = supply(t, 2, 12, ohm)
		r.device(1, 0, lamp)
		root := (-ohm*k + math.Sqrt(ohm*ohm*k*k+48)) / 2
		require.InEpsilon(t, root*root, r.solve().Volt[1], 1e-6, "behind %g Ω", ohm)
	}

	// Behind 1 kΩ it stays cold.
	r = supply(t, 2, 12, 1000)
	r.device(1, 0, lamp)
	require.InEpsilon(t, 12*0.25/1000.25, r.solve().Volt[1], 1e-6)

	// Two alike in series share the voltage; one behind an open contact is dark.
	r = supply(t, 4, 12, stiff)
	r.device(1, 2, lamp)
	r.device(2, 0, lamp)
	r.device(3, 0, lamp)
	s := r.solve()
	require.InEpsilon(t, 6, s.Volt[2], 1e-6)
	require.InDelta(t, 0, s.Volt[3], 1e-9)
}

func TestLimitedSource(t *testing.T) {
	law := dc.LimitedSource{Volt: 14.2, Ohm: 0.02, LimitAmp: 50}
	r := newRig(t, 2, 0)
	source := r.device(1, 0, law)
	load := r.resistor(1, 0, 1.4)
	s := r.solve()
	require.InEpsilon(t, 14.2/1.42, s.Amp[load], 1e-7)
	require.Equal(t, dc.StateNormal, s.State[source])
	require.Negative(t, s.Watt[source])

	require.NoError(t, r.SetOhm(load, 0.1))
	s = r.solve()
	require.InEpsilon(t, 50, s.Amp[load], 1e-7)
	require.InEpsilon(t, 5, s.Volt[1], 1e-7)
	require.Equal(t, dc.StateLimiting, s.State[source])

	// It charges a battery of 12.6 V behind 10 mΩ up to its limit, and takes nothing from one of 16 V.
	require.NoError(t, r.Open(load))
	battery := r.voltage(1, 0, 12.6, 0.06)
	require.InEpsilon(t, 1.6/0.08, r.solve().Amp[battery], 1e-7)
	require.NoError(t, r.SetOhm(battery, 0.01))
	s = r.solve()
	require.InEpsilon(t, 50, s.Amp[battery], 1e-7)
	require.InEpsilon(t, 13.1, s.Volt[1], 1e-7)
	require.NoError(t, r.SetVolt(battery, 16))
	s = r.solve()
	require.InDelta(t, 0, s.Amp[battery], 1e-7)
	require.Equal(t, dc.StateBlocking, s.State[source])
}

// A limited source alone with constant currents: all curves are level, only their corners hold a solution.
func TestLevelCurvesOnly(t *testing.T) {
	r := newRig(t, 2, 0)
	source := r.device(1, 0, dc.LimitedSource{Volt: 14, Ohm: 0.01, LimitAmp: 10})
	load := r.device(1, 0, dc.ConstantCurrent{Amp: 8, KneeVolt: 1})
	s := r.solve()
	require.InEpsilon(t, 14-0.08, s.Volt[1], 1e-7)
	require.NoError(t, r.SetDevice(load, dc.ConstantCurrent{Amp: 12, KneeVolt: 1}))
	s = r.solve()
	require.InEpsilon(t, 1-math.Sqrt(1-10./12), s.Volt[1], 1e-7)
	require.Equal(t, dc.StateLimiting, s.State[source])
	require.Equal(t, dc.StateStarved, s.State[load])
}

func TestStateNames(t *testing.T) {
	require.Equal(t, "starved", dc.StateStarved.String())
	require.Equal(t, "conducting", dc.StateConducting.String())
	require.Equal(t, "State(99)", dc.State(99).String())
	require.Equal(t, "device", dc.KindDevice.String())
	require.Equal(t, "Kind(99)", dc.Kind(99).String())
}
