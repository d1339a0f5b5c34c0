package dc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

// act makes a random change to the network and returns it, to be made to another one.
func act(rng *rand.Rand, r *rig) func(r *rig) {
	e := dc.Element(rng.IntN(r.Elements()))
	switch rng.IntN(4) {
	case 0:
		return func(r *rig) { require.NoError(r.t, r.Open(e)) }
	case 1:
		return func(r *rig) { require.NoError(r.t, r.Close(e)) }
	}
	k, _ := r.Kind(e)
	value := rng.Float64()
	switch {
	case k == dc.KindCurrent:
		return func(r *rig) { require.NoError(r.t, r.SetAmp(e, 10*(value-0.5))) }
	case k == dc.KindDevice:
		return func(r *rig) {
			require.NoError(r.t, r.SetDevice(e, dc.ConstantCurrent{Amp: 5 * value, KneeVolt: 2}))
		}
	case k == dc.KindVoltage && rng.IntN(2) == 0:
		return func(r *rig) { require.NoError(r.t, r.SetVolt(e, 24*(value-0.3))) }
	}
	return func(r *rig) { require.NoError(r.t, r.SetOhm(e, math.Pow(10, -6+12*value))) }
}

// After any sequence of changes the solution is, to the last bit, that of a network built with the final values: what
// is computed again goes through the same arithmetic as in a full factorisation. That holds whatever was opened and
// closed, with islands split and joined, and with devices. A resistance is measured now and then in between.
func TestChangesEqualFullFactorisation(t *testing.T) {
	split := 0
	for seed := range uint64(120) {
		rng := rand.New(rand.NewPCG(seed, 20))
		nodes := 2 + rng.IntN(80)
		resistors := nodes + rng.IntN(nodes)
		if seed%3 == 1 { // trees, which fall apart with every resistor opened
			nodes, resistors = 300, 299
		}
		s := randomSpec(rng, nodes, resistors)
		build := func() *rig {
			r := s.build(t)
			if seed%3 == 2 {
				randomMonotone(rand.New(rand.NewPCG(seed, 23)), r, 1+nodes/4)
			}
			return r
		}
		changed := build()
		var acts []func(r *rig)
		for range 20 {
			for range rng.IntN(4) {
				acts = append(acts, act(rng, changed))
				acts[len(acts)-1](changed)
			}
			if rng.IntN(4) == 0 {
				_, err := changed.ResistanceBetween(dc.Node(rng.IntN(nodes)), dc.Node(rng.IntN(nodes)))
				require.NoError(t, err)
			}
			fresh := build()
			for _, act := range acts {
				act(fresh)
			}
			errFresh := fresh.Solve(&fresh.sol)
			errChanged := changed.Solve(&changed.sol)
			require.Equal(t, errFresh, errChanged, "seed %d", seed)
			require.Equal(t, fresh.sol, changed.sol, "seed %d", seed)
			require.Equal(t, floodFill(changed.Network), changed.sol.Island, "seed %d", seed)
			split = max(split, len(changed.sol.Islands))
		}
	}
	require.Greater(t, split, 5)
}

// Over a long run against the dense reference, with values from 1 mΩ to 1 kΩ.
func TestChangesAgainstDense(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 21))
	s := randomSpec(rng, 40, 90)
	r := s.build(t)
	for range 300 {
		i := rng.IntN(len(s.resistors))
		s.resistors[i].value = math.Pow(10, -3+6*rng.Float64())
		require.NoError(t, r.SetOhm(dc.Element(i), s.resistors[i].value))
		i = rng.IntN(len(s.voltages))
		s.voltages[i].value, s.voltages[i].ohm = 24*rng.Float64(), math.Pow(10, -3+3*rng.Float64())
		e := dc.Element(len(s.resistors) + i)
		require.NoError(t, r.SetVolt(e, s.voltages[i].value))
		require.NoError(t, r.SetOhm(e, s.voltages[i].ohm))
		want := s.dense(t)
		got := r.solve()
		scale := maxOf(got.Volt) + 1
		for v := 1; v < s.nodes; v++ {
			require.InDelta(t, want.AtVec(v-1), got.Volt[v], 1e-9*scale)
		}
	}
}

func TestOpenAndClose(t *testing.T) {
	r := newRig(t, 3, 0)
	source := r.voltage(1, 0, 12, 1)
	load := r.resistor(1, 0, 2)
	push := r.current(0, 1, 3)
	before := r.solve().Clone()

	for _, e := range []dc.Element{source, load, push} {
		require.NoError(t, r.Open(e))
		require.NoError(t, r.Open(e), "opening twice is no change")
		require.True(t, r.IsOpen(e))
		if e == load {
			require.NoError(t, r.SetOhm(load, 5))
			require.Zero(t, r.solve().Amp[load], "a value set while open must not close it")
			require.NoError(t, r.SetOhm(load, 2))
		}
		if e == push {
			require.NoError(t, r.SetAmp(push, 7))
			require.Zero(t, r.solve().Amp[push])
			require.NoError(t, r.SetAmp(push, 3))
		}
		require.Zero(t, r.solve().Amp[e])
		require.NoError(t, r.Close(e))
		require.NoError(t, r.Close(e))
		require.False(t, r.IsOpen(e))
		require.Equal(t, before, r.solve())
	}

	d := r.device(1, 0, dc.ConstantCurrent{Amp: 1, KneeVolt: 1})
	require.InEpsilon(t, 1, r.solve().Amp[d], 1e-6)
	require.NoError(t, r.Open(d))
	require.Equal(t, before.Volt, r.solve().Volt)
	require.Zero(t, r.sol.Amp[d])
	require.NoError(t, r.Close(d))
	require.InEpsilon(t, 1, r.solve().Amp[d], 1e-6)
	require.NoError(t, r.SetDevice(d, dc.ConstantCurrent{Amp: 2, KneeVolt: 1}))
	require.InEpsilon(t, 2, r.solve().Amp[d], 1e-6)
}

// Elements may be added after a solve.
func TestGrow(t *testing.T) {
	r := newRig(t, 2, 0)
	r.solve()
	v := dc.Node(1)
	r.resistor(v, 0, 4)
	r.current(0, v, 2)
	require.InEpsilon(t, 8, r.solve().Volt[v], 1e-12)
	require.NoError(t, r.SetReference(v))
	require.InEpsilon(t, -8, r.solve().Volt[0], 1e-12)
	require.Equal(t, v, r.Reference())
}

func TestSolvingAgainNeedsNoMemory(t *testing.T) {
	s := randomSpec(rand.New(rand.NewPCG(1, 22)), 200, 500)
	r := s.build(t)
	r.solve()
	i := 0
	require.Zero(t, testing.AllocsPerRun(50, func() {
		i++
		_ = r.SetOhm(dc.Element(i%100), float64(i))
		if i%2 == 0 {
			_ = r.Open(7)
		} else {
			_ = r.Close(7)
		}
		_ = r.Solve(&r.sol)
	}))
	h := loadedHarness(t, 400)
	h.solve()
	require.Zero(t, testing.AllocsPerRun(20, func() {
		i++
		_ = h.SetOhm(0, 0.001*float64(1+i%5))
		_ = h.Solve(&h.sol)
	}))
}
