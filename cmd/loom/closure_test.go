package main

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestExamplesClose runs every example of the repository, and one file with
// regulator, plugged connector, alternator and outputs, through the tool and
// closes what  currents -json  prints by Kirchhoff's laws, from the printed
// numbers alone.
func TestExamplesClose(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(harnesses, "*.loom.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	files = append(files, "testdata/mixed.loom.json")
	for _, path := range files {
		t.Run(filepath.Base(path), func(t *testing.T) {
			code, out, errs := invoke(t, "validate", path)
			require.Equal(t, exitClean, code, errs)
			assert.NotContains(t, out, "note:")
			if filepath.Dir(path) == harnesses {
				data, err := os.ReadFile(path)
				require.NoError(t, err)
				_, out, _ = invoke(t, "format", path)
				require.Equal(t, string(data), out, "not in canonical form")
			}
			code, _, errs = invoke(t, "check", path)
			require.NotEqual(t, exitUnusable, code, errs)
			c := currentsOf(t, path)
			require.NotEmpty(t, c.States)
			for _, st := range c.States {
				t.Run(st.Name, func(t *testing.T) {
					assert.Empty(t, st.Error)
					assert.Empty(t, st.Notes)
					assert.LessOrEqual(t, st.KCL, 1e-9)
					assert.LessOrEqual(t, math.Abs(st.Power.Imbalance), 1e-6*(1+st.Power.Generated))
					checkParts(t, st)
					checkPoints(t, st)
				})
			}
		})
	}
}

// checkParts tests that what flows into a part flows out of it again.
func checkParts(t *testing.T, st stateJSON) {
	t.Helper()
	for _, p := range st.Parts {
		sum, size := 0.0, 0.0
		for _, x := range p.Terminals {
			require.NotNil(t, x.Amps, "%s.%s", p.Name, x.Pin)
			sum, size = sum+*x.Amps, size+math.Abs(*x.Amps)
		}
		assert.InDelta(t, 0, sum, 1e-9*(1+size), "terminals of %s: %v", p.Name, p.Terminals)
	}
}

// checkPoints tests that currents add up to nothing at each named point, and
// that the powers add up to those of the state.
func checkPoints(t *testing.T, st stateJSON) {
	t.Helper()
	volts := map[string]float64{}
	for _, n := range st.Nets {
		for _, p := range n.Pins {
			if p.Volts != nil {
				volts[p.Pin] = *p.Volts
				assert.True(t, *n.Min <= *p.Volts && *p.Volts <= *n.Max, "%s within net %s", p.Pin, n.Name)
			}
		}
	}
	into, size := map[string]float64{}, map[string]float64{}
	watt := 0.0
	flows := func(name, a, b string, amps *float64) {
		require.NotNil(t, amps, name)
		into[a], into[b] = into[a]-*amps, into[b]+*amps
		size[a], size[b] = size[a]+math.Abs(*amps), size[b]+math.Abs(*amps)
		va, okA := volts[a]
		vb, okB := volts[b]
		if okA != okB {
			assert.Zero(t, *amps, "%s has volts at one end only", name)
			return
		}
		watt += (va - vb) * *amps
	}
	for _, w := range st.Wires {
		flows(w.Name, w.A, w.B, w.Amps)
		if w.Ohm != nil && w.VoltsA != nil {
			assert.InDelta(t, *w.Amps**w.Ohm, *w.VoltsA-*w.VoltsB, 1e-7, "Ohm's law in %s", w.Name)
			assert.InDelta(t, *w.WireOhm+w.JointA+w.JointB, *w.Ohm, 1e-12, "resistance of %s", w.Name)
		}
	}
	for _, c := range st.Contacts {
		flows(c.A+" in "+c.B, c.A, c.B, c.Amps)
	}
	for _, p := range st.Parts {
		for _, e := range p.Elements {
			flows(p.Name+" "+e.Name, e.A, e.B, e.Amps)
			if e.FeedAmp != nil {
				flows(p.Name+" "+e.Name+" feed", e.Feed, e.B, e.FeedAmp)
			}
		}
	}
	for point, sum := range into {
		assert.InDelta(t, 0, sum, 1e-9*(1+size[point]), "currents into %s", point)
	}
	assert.InDelta(t, 0, watt, 1e-6*(1+st.Power.Generated), "powers given out and taken up")
}
