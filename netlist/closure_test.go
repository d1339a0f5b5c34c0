package netlist_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"loomwright/netlist"
)

// closes checks Kirchhoff's current law at every node and Tellegen's theorem
// over all branches, from the voltages and currents of the solution alone. What
// a regulator draws from its feed counts as a branch from the feed to its B.
func closes(t testing.TB, s *netlist.Solution) {
	t.Helper()
	if !assert.NoError(t, s.Err, s.State.Name) {
		return
	}
	sum := make([]float64, len(s.Netlist.Nodes))
	meet := make([]float64, len(s.Netlist.Nodes))
	watt, moved := 0.0, 0.0
	flow := func(a, b int, amp float64) {
		sum[a] -= amp
		sum[b] += amp
		meet[a] += math.Abs(amp)
		meet[b] += math.Abs(amp)
		if va, vb := s.Volt[a], s.Volt[b]; !math.IsNaN(va) && !math.IsNaN(vb) {
			watt += (va - vb) * amp
			moved += math.Abs((va - vb) * amp)
		}
	}
	for i := range s.Netlist.Branches {
		br := &s.Netlist.Branches[i]
		flow(br.A, br.B, s.Amp[i])
		if br.Feed >= 0 {
			flow(br.Feed, br.B, s.FeedAmp[i])
			assert.InDelta(t, math.Max(-s.Amp[i], 0), s.FeedAmp[i], 1e-8*(1+math.Abs(s.Amp[i])), "%s draws what it gives", br.Name())
		}
	}
	for i := range sum {
		assert.LessOrEqual(t, math.Abs(sum[i]), 1e-9*meet[i]+1e-9, "currents at %s", s.Netlist.Nodes[i].Name)
	}
	assert.LessOrEqual(t, math.Abs(watt), 1e-8*moved+1e-9, "power in %s", s.State.Name)
	assert.LessOrEqual(t, math.Abs(s.ImbalanceWatt), 1e-8*s.GeneratedWatt+1e-9)
	assert.InDelta(t, s.GeneratedWatt, s.DissipatedWatt, 1e-8*s.GeneratedWatt+1e-9)
}
