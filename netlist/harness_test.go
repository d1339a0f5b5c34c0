package netlist_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	edits "loomwright/schematic/edit"
	"loomwright/schematic/loomfile"
)

// A circuit that is inserted into another drawing, once or twice, carries the
// currents it carries alone: its own battery feeds it, and the body metal that
// all circuits share is one potential.
func TestInsertedCircuitsCarryTheirOwnCurrents(t *testing.T) {
	lib, err := catalog.Default()
	require.NoError(t, err)
	src, err := loomfile.Load("../testdata/fan.loom.json", lib)
	require.NoError(t, err)
	host, err := loomfile.Load("../testdata/lamp-faulty.loom.json", lib)
	require.NoError(t, err)
	host = host.With(schematic.Put{Key: host.Info().Key(), Item: &schematic.Info{AmbientC: src.Info().AmbientC}})

	// Each wire is told again by a note that comes along.
	tx := edits.Begin(src, nil)
	for w := range src.Wires() {
		tx.EditWire(w.ID, func(c *schematic.Wire) { c.Notes = w.Name })
	}
	src = tx.Doc()
	amps := func(d *schematic.Doc, since map[schematic.ID]bool) map[string]map[string]float64 {
		out := map[string]map[string]float64{}
		for _, s := range netlist.Build(d).SolveAll() {
			require.NoError(t, s.Err)
			m := map[string]float64{}
			for w := range d.Wires() {
				if amp, ok := s.WireAmp(w.ID); ok && w.Notes != "" && !since[w.ID] {
					m[w.Notes] = amp
				}
			}
			out[s.State.Name] = m
		}
		return out
	}
	want := amps(src, nil)
	for round := 1; round <= 2; round++ {
		had := map[schematic.ID]bool{}
		for w := range host.Wires() {
			had[w.ID] = true
		}
		tx := edits.Begin(host, nil)
		_, err := edits.InsertHarness(tx, src, edits.HarnessPlace{States: true})
		require.NoError(t, err)
		host = tx.Doc()
		require.Empty(t, schematic.Check(host))
		got := amps(host, had)
		for state, m := range want {
			for wire, amp := range m {
				have, ok := got[state][wire]
				require.True(t, ok, "%s in %s", wire, state)
				require.InDelta(t, amp, have, 1e-6+1e-6*math.Abs(amp), "%s in %s, inserted %d times", wire, state, round)
			}
		}
	}
	// And a file of the whole reads as what was saved.
	data, err := loomfile.Encode(host)
	require.NoError(t, err)
	again, err := loomfile.Decode(data, lib)
	require.NoError(t, err)
	require.Empty(t, edits.Diff(host, again))
}
