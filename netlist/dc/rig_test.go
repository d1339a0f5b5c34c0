package dc_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

// rig is a network under test. Every solve through it is checked against Kirchhoff's current law and Tellegen's
// theorem, from the currents and voltages in the solution alone.
type rig struct {
	t testing.TB
	*dc.Network
	sol dc.Solution
}

func newRig(t testing.TB, nodes int, reference dc.Node) *rig {
	t.Helper()
	r := &rig{t: t, Network: dc.New(nodes)}
	require.NoError(t, r.SetReference(reference))
	return r
}

func (r *rig) must(e dc.Element, err error) dc.Element {
	r.t.Helper()
	require.NoError(r.t, err)
	return e
}

func (r *rig) resistor(a, b dc.Node, ohm float64) dc.Element {
	r.t.Helper()
	return r.must(r.Resistor(a, b, ohm))
}

func (r *rig) current(a, b dc.Node, amp float64) dc.Element {
	r.t.Helper()
	return r.must(r.CurrentSource(a, b, amp))
}

func (r *rig) voltage(a, b dc.Node, volt, ohm float64) dc.Element {
	r.t.Helper()
	return r.must(r.VoltageSource(a, b, volt, ohm))
}

func (r *rig) device(a, b dc.Node, law dc.Device) dc.Element {
	r.t.Helper()
	return r.must(r.Device(a, b, law))
}

func (r *rig) solve() *dc.Solution {
	r.t.Helper()
	require.NoError(r.t, r.Solve(&r.sol))
	checkCloses(r.t, r.Network, &r.sol, nil)
	return &r.sol
}

// stiff is a series resistance small enough to count as none against 1 Ω in ten digits.
const stiff = 1e-9

// effective returns the resistance between two nodes of a network without sources.
func (r *rig) effective(a, b dc.Node) float64 {
	r.t.Helper()
	e := r.current(b, a, 1)
	s := r.solve()
	require.NoError(r.t, r.Open(e))
	return s.Volt[a] - s.Volt[b]
}

// checkCloses checks s. Where laws are given, their currents may be off by what the last digits of their voltages make.
func checkCloses(t testing.TB, n *dc.Network, s *dc.Solution, laws map[dc.Element]dc.Device) {
	t.Helper()
	sum, gross := make([]float64, n.Nodes()), make([]float64, n.Nodes())
	power, grossPower, powerRoom, highest := 0.0, 0.0, 0.0, 0.0
	for e := range dc.Element(n.Elements()) {
		a, b := n.Ends(e)
		i := s.Amp[e]
		require.False(t, math.IsNaN(i) || math.IsInf(i, 0), "current of element %d is %g", e, i)
		sum[a] -= i
		sum[b] += i
		gross[a] += math.Abs(i)
		gross[b] += math.Abs(i)
		if law := laws[e]; law != nil && i != 0 {
			v := s.Watt[e] / i // with more digits than the difference of two large voltages
			room := 1e-14 * steepest(law) * math.Abs(v)
			gross[a] += room / 1e-8
			gross[b] += room / 1e-8
			powerRoom += room * (math.Abs(s.Volt[a]) + math.Abs(s.Volt[b]))
		}
		power += s.Watt[e]
		grossPower += math.Abs(s.Watt[e])
		// The power is voltage times current, to the digits the voltages have as float64.
		volt := math.Abs(s.Volt[a]) + math.Abs(s.Volt[b])
		highest = max(highest, volt)
		if s.Island[a] == s.Island[b] {
			require.InDelta(t, (s.Volt[a]-s.Volt[b])*i, s.Watt[e], 1e-14*volt*math.Abs(i)+1e-15, "power of element %d", e)
		}
	}
	largest, most := 0.0, maxOf(gross)
	for v := range sum {
		require.LessOrEqual(t, math.Abs(sum[v]), 1e-8*gross[v]+1e-8+1e-12*most, "Kirchhoff's current law at node %d", v)
		largest = max(largest, math.Abs(sum[v]))
	}
	require.InDelta(t, largest, s.ResidualAmp, 1e-13+1e-12*largest+1e-13*most, "residual as reported")
	require.LessOrEqual(t, math.Abs(power), 2e-9*grossPower+1e-9+powerRoom+1e-12*(1+most)*highest*float64(n.Nodes()), "power balance")
	require.InDelta(t, 0, s.GeneratedWatt-s.DissipatedWatt-s.ImbalanceWatt, 1e-12*grossPower)
}

func maxOf(values []float64) float64 {
	largest := 0.0
	for _, v := range values {
		largest = max(largest, v)
	}
	return largest
}

// steepest returns the largest slope a law has anywhere, in S.
func steepest(law dc.Device) float64 {
	switch d := law.(type) {
	case dc.ConstantCurrent:
		return 2 * d.Amp / d.KneeVolt
	case dc.ConstantPower:
		return d.Watt / (d.MinVolt * d.MinVolt)
	case dc.Diode:
		return 1 / d.OnOhm
	case dc.Filament:
		return 1 / d.ColdOhm
	case dc.LimitedSource:
		return 1 / d.Ohm
	}
	return 0
}
