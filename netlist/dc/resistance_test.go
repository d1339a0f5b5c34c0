package dc_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist/dc"
)

// resistance returns the resistance between two nodes, which must be the same both ways round.
func (r *rig) resistance(a, b dc.Node) float64 {
	r.t.Helper()
	ohm, err := r.ResistanceBetween(a, b)
	require.NoError(r.t, err)
	back, err := r.ResistanceBetween(b, a)
	require.NoError(r.t, err)
	require.Equal(r.t, ohm, back)
	return ohm
}

// The cube: analyticphysics.com and physicstasks.eu. Complete graphs, grids and ladders: see the tests by the same
// names. They hold without a reference and with any.
func TestResistanceBetween(t *testing.T) {
	for reference := dc.NoNode; reference < 8; reference++ {
		r := unitGraph(t, 8, cubeEdges())
		require.NoError(t, r.SetReference(reference))
		require.InEpsilon(t, 7.0/12, r.resistance(0, 1), 1e-14, "along an edge")
		require.InEpsilon(t, 3.0/4, r.resistance(0, 3), 1e-14, "across a face")
		require.InEpsilon(t, 5.0/6, r.resistance(0, 7), 1e-14, "through the body")
		require.Zero(t, r.resistance(3, 3))
	}
	require.InEpsilon(t, 2.0/24, unitGraph(t, 24, completeEdges(24)).resistance(5, 9), 1e-14)
	require.InEpsilon(t, 251.0/132, unitGraph(t, 25, gridEdges(5)).resistance(0, 4), 1e-14)
	require.InEpsilon(t, math.Phi, ladder(t, 40).resistance(1, 0), 1e-14)
}

// Foster's theorem: over all resistors, the sum of the resistance between their ends, over their own, is one less than
// the count of nodes (R. M. Foster, "The average impedance of an electrical network", 1949).
func TestFoster(t *testing.T) {
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 60))
		s := randomSpec(rng, 2+rng.IntN(100), 1+rng.IntN(300))
		s.voltages, s.currents = nil, nil
		r := s.build(t)
		sum := 0.0
		for _, x := range s.resistors {
			sum += r.resistance(x.a, x.b) / x.value
		}
		require.InEpsilon(t, float64(s.nodes-1), sum, 1e-12, "seed %d", seed)
	}
}

// Against the voltage that 1 A makes, after changes and with sources around.
func TestResistanceAgainstSolve(t *testing.T) {
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 61))
		s := randomSpec(rng, 2+rng.IntN(100), 1+rng.IntN(200))
		r := s.build(t)
		dead := s.build(t)
		for i := range s.voltages {
			require.NoError(t, dead.SetVolt(dc.Element(len(s.resistors)+i), 0))
		}
		for i := range s.currents {
			require.NoError(t, dead.SetAmp(dc.Element(len(s.resistors)+len(s.voltages)+i), 0))
		}
		for range 10 {
			e := dc.Element(rng.IntN(len(s.resistors)))
			require.NoError(t, r.SetOhm(e, 0.5))
			require.NoError(t, dead.SetOhm(e, 0.5))
			a, b := dc.Node(rng.IntN(s.nodes)), dc.Node(rng.IntN(s.nodes))
			if a != b {
				require.InEpsilon(t, dead.effective(a, b), r.resistance(a, b), 1e-11, "seed %d", seed)
			}
		}
		r.solve()
	}
}

func TestResistanceBetweenIslands(t *testing.T) {
	r := newRig(t, 6, 0)
	r.resistor(0, 1, 2)
	link := r.resistor(1, 2, 3)
	r.current(0, 2, 7)
	r.resistor(3, 4, 5)
	require.True(t, math.IsInf(r.resistance(1, 4), 1))
	require.True(t, math.IsInf(r.resistance(5, 0), 1))
	require.InEpsilon(t, 5, r.resistance(4, 3), 1e-15)
	require.InEpsilon(t, 5, r.resistance(2, 0), 1e-15)
	require.NoError(t, r.Open(link))
	require.True(t, math.IsInf(r.resistance(2, 0), 1), "a current source is no connection")
	for _, pair := range [][2]dc.Node{{-1, 0}, {0, 6}} {
		_, err := r.ResistanceBetween(pair[0], pair[1])
		require.ErrorContains(t, err, "no node")
	}
}

// An ohmmeter sees a voltage source as its series resistance, a cold filament, and next to nothing through a diode.
func TestResistanceOfDevices(t *testing.T) {
	r := newRig(t, 4, 0)
	r.voltage(1, 0, 12, 0.05)
	r.device(1, 2, dc.Diode{ForwardVolt: 0.7, OnOhm: 0.01})
	lamp := r.device(2, 0, dc.Filament{NominalVolt: 12, NominalOhm: 3, ColdOhm: 0.3, Exponent: 0.5})
	r.device(3, 0, dc.LimitedSource{Volt: 14, Ohm: 0.01, LimitAmp: 90})
	before := r.solve().Clone()
	require.InEpsilon(t, 0.05, r.resistance(1, 0), 1e-9)
	require.InEpsilon(t, 0.3, r.resistance(2, 0), 1e-9)
	require.InEpsilon(t, 1/dc.LeakSiemens, r.resistance(3, 0), 1e-9)
	require.InEpsilon(t, 0.35, r.resistance(1, 2), 1e-9, "around the diode")
	require.Equal(t, before, r.solve(), "measuring leaves nothing behind")
	require.NoError(t, r.Open(lamp))
	require.InEpsilon(t, 1/dc.LeakSiemens, r.resistance(2, 0), 1e-8)

	require.NoError(t, r.SetDevice(lamp, law(func(v float64) (float64, float64) { return 0, math.NaN() })))
	require.NoError(t, r.Close(lamp))
	_, err := r.ResistanceBetween(0, 1)
	var broken *dc.LawError
	require.ErrorAs(t, err, &broken)
	require.Equal(t, lamp, broken.Element)
}

func TestMeasuringNeedsNoMemory(t *testing.T) {
	h := loadedHarness(t, 400)
	h.solve()
	_, err := h.ResistanceBetween(0, 1)
	require.NoError(t, err)
	require.Zero(t, testing.AllocsPerRun(20, func() { _, _ = h.ResistanceBetween(3, 250) }))
}
