package dc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

// Every input outside the limits is an error that says what is wrong, and leaves the network as it was.
func TestBadInput(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	one := dc.ConstantCurrent{Amp: 1, KneeVolt: 1}
	only := func(_ dc.Element, err error) error { return err }
	for _, c := range []struct {
		name, want string
		do         func(r *rig) error
	}{
		{"short", "below 1e-09 Ω", func(r *rig) error { return only(r.Resistor(0, 1, 0)) }},
		{"negative", "below 1e-09 Ω", func(r *rig) error { return only(r.Resistor(0, 1, -5)) }},
		{"open", "open the element instead", func(r *rig) error { return only(r.Resistor(0, 1, inf)) }},
		{"not a number", "not a number", func(r *rig) error { return only(r.Resistor(0, 1, nan)) }},
		{"one node", "both ends are one node", func(r *rig) error { return only(r.Resistor(1, 1, 1)) }},
		{"node below", "no such node; the network has 3 nodes", func(r *rig) error { return only(r.Resistor(-1, 1, 1)) }},
		{"node above", "node 3", func(r *rig) error { return only(r.Resistor(0, 3, 1)) }},
		{"ideal source", "below 1e-09 Ω", func(r *rig) error { return only(r.VoltageSource(0, 1, 12, 0)) }},
		{"source voltage", "voltage NaN V", func(r *rig) error { return only(r.VoltageSource(0, 1, nan, 1)) }},
		{"source too high", "voltage 1e+10 V", func(r *rig) error { return only(r.VoltageSource(0, 1, 1e10, 1)) }},
		{"source current", "current -Inf A", func(r *rig) error { return only(r.CurrentSource(0, 1, -inf)) }},
		{"source on one node", "current source from node 2", func(r *rig) error { return only(r.CurrentSource(2, 2, 1)) }},
		{"no law", "no law", func(r *rig) error { return only(r.Device(0, 1, nil)) }},
		{"load without knee", "knee voltage 0 V", func(r *rig) error { return only(r.Device(0, 1, dc.ConstantCurrent{Amp: 1})) }},
		{"negative load", "current -1 A", func(r *rig) error {
			return only(r.Device(0, 1, dc.ConstantCurrent{Amp: -1, KneeVolt: 1}))
		}},
		{"power", "power NaN W", func(r *rig) error { return only(r.Device(0, 1, dc.ConstantPower{Watt: nan, MinVolt: 1})) }},
		{"power without least voltage", "least voltage 0 V", func(r *rig) error {
			return only(r.Device(0, 1, dc.ConstantPower{Watt: 1}))
		}},
		{"diode", "on resistance 0 Ω", func(r *rig) error { return only(r.Device(0, 1, dc.Diode{ForwardVolt: 0.7})) }},
		{"diode knee", "knee voltage", func(r *rig) error {
			return only(r.Device(0, 1, dc.Diode{ForwardVolt: 0.7, OnOhm: 1, KneeVolt: -1}))
		}},
		{"filament", "above the nominal", func(r *rig) error {
			return only(r.Device(0, 1, dc.Filament{NominalVolt: 12, NominalOhm: 1, ColdOhm: 2}))
		}},
		{"filament exponent", "exponent 1", func(r *rig) error {
			return only(r.Device(0, 1, dc.Filament{NominalVolt: 12, NominalOhm: 1, ColdOhm: 1, Exponent: 1}))
		}},
		{"limited source", "current limit 0 A", func(r *rig) error {
			return only(r.Device(0, 1, dc.LimitedSource{Volt: 14, Ohm: 1}))
		}},
		{"set short", "below", func(r *rig) error { return r.SetOhm(0, 0) }},
		{"set nothing", "no element 9; the network has 4 elements", func(r *rig) error { return r.SetOhm(9, 1) }},
		{"set below nothing", "no element -1", func(r *rig) error { return r.SetAmp(-1, 1) }},
		{"ohms of a current source", "it is a current source", func(r *rig) error { return r.SetOhm(2, 1) }},
		{"volts of a resistor", "it is a resistor", func(r *rig) error { return r.SetVolt(0, 1) }},
		{"amperes of a device", "it is a device", func(r *rig) error { return r.SetAmp(3, 1) }},
		{"law of a source", "it is a voltage source", func(r *rig) error { return r.SetDevice(1, one) }},
		{"set no law", "no law", func(r *rig) error { return r.SetDevice(3, nil) }},
		{"set volts", "voltage +Inf V", func(r *rig) error { return r.SetVolt(1, inf) }},
		{"set amperes", "current NaN A", func(r *rig) error { return r.SetAmp(2, nan) }},
		{"open nothing", "open: there is no element 4", func(r *rig) error { return r.Open(4) }},
		{"close nothing", "close: there is no element", func(r *rig) error { return r.Close(-7) }},
		{"reference", "no node 3", func(r *rig) error { return r.SetReference(3) }},
		{"reference below", "no node -2", func(r *rig) error { return r.SetReference(-2) }},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := newRig(t, 3, 0)
			r.resistor(0, 1, 1)
			r.voltage(1, 2, 1, 1)
			r.current(0, 2, 1)
			r.device(0, 2, one)
			before := r.solve().Clone()
			require.ErrorContains(t, c.do(r), c.want)
			require.Equal(t, 4, r.Elements())
			require.Equal(t, before, r.solve())
		})
	}
}

func TestAsking(t *testing.T) {
	r := newRig(t, 3, 0)
	e := r.voltage(1, 2, 1, 1)
	k, ok := r.Kind(e)
	require.True(t, ok)
	require.Equal(t, dc.KindVoltage, k)
	_, ok = r.Kind(1)
	require.False(t, ok)
	a, b := r.Ends(e)
	require.Equal(t, [2]dc.Node{1, 2}, [2]dc.Node{a, b})
	a, b = r.Ends(dc.NoElement)
	require.Equal(t, [2]dc.Node{dc.NoNode, dc.NoNode}, [2]dc.Node{a, b})
	require.True(t, r.IsOpen(9))
}

// Values at the very limits must still give a solution that closes.
func TestLimits(t *testing.T) {
	r := newRig(t, 3, 0)
	r.voltage(1, 0, dc.MaxVolt, dc.MinOhm)
	load := r.resistor(1, 2, dc.MaxOhm)
	r.resistor(2, 0, dc.MinOhm)
	require.InEpsilon(t, dc.MaxVolt/dc.MaxOhm, r.solve().Amp[load], 1e-9)
	r = newRig(t, 2, 0)
	r.current(0, 1, dc.MaxAmp)
	r.resistor(1, 0, dc.MaxOhm)
	require.InEpsilon(t, dc.MaxAmp*dc.MaxOhm, r.solve().Volt[1], 1e-12)
}
