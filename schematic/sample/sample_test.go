package sample_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
	"loomwright/schematic/sample"
)

func harness(t testing.TB, wires int, seed uint64) *schematic.Doc {
	t.Helper()
	lib, err := catalog.Default()
	require.NoError(t, err)
	return sample.Harness(lib, wires, seed)
}

func TestHarnessOfAnySize(t *testing.T) {
	for _, wires := range []int{0, 25, 26, 33, 100, 257, 1000} {
		d := harness(t, wires, uint64(wires))
		assert.Equal(t, max(wires, sample.LeastWires), d.Len(schematic.TypeWire))
		assert.Empty(t, schematic.Check(d))
		n := netlist.Build(d)
		assert.Empty(t, n.Unknown)
		sols := n.SolveAll()
		require.Len(t, sols, 4)
		for _, s := range sols {
			assert.NoError(t, s.Err)
			assert.Empty(t, s.Chattering)
			assert.Empty(t, s.Notes)
		}
		worst := 0
		for _, f := range check.Run(n, sols) {
			if f.Severity == check.Error {
				worst++
				t.Log(f.Text)
			}
		}
		assert.Zero(t, worst, "a sample is wired with care")
		assert.Greater(t, sols[3].DissipatedWatt, sols[0].DissipatedWatt+5)
	}
}

func TestSameSeedSameFile(t *testing.T) {
	write := func(seed uint64) string {
		var b bytes.Buffer
		require.NoError(t, loomfile.Write(&b, harness(t, 300, seed)))
		return b.String()
	}
	first := write(1)
	assert.Equal(t, first, write(1))
	assert.NotEqual(t, first, write(2))
	lib, err := catalog.Default()
	require.NoError(t, err)
	d, err := loomfile.Read(bytes.NewBufferString(first), lib)
	require.NoError(t, err)
	assert.Equal(t, 300, d.Len(schematic.TypeWire))
}

func TestOnOneSheet(t *testing.T) {
	d := harness(t, 1000, 3)
	one, err := sample.OnOneSheet(d)
	require.NoError(t, err)
	require.Empty(t, schematic.Check(one))
	require.Len(t, one.Sheets(), 1)
	area := one.Sheets()[0].Area()
	assert.InDelta(t, 1, float64(area.Width())/float64(area.Height()), 0.5)
	place := map[geom.Point]string{}
	for p := range one.Parts() {
		require.Len(t, p.Views, len(d.Part(p.ID).Views))
		for _, v := range p.Views {
			assert.True(t, area.Contains(v.At), "%s lies on the sheet", p.Name)
			assert.Empty(t, place[v.At], "nothing else is where %s is", p.Name)
			place[v.At] = p.Name
		}
	}
	for w := range d.Wires() {
		assert.Equal(t, d.Path(w).Length(), one.Path(one.Wire(w.ID)).Length(), "%s is drawn between the same symbols", w.Name)
	}
	assert.Equal(t, netlist.Build(d).SolveAll()[3].DissipatedWatt, netlist.Build(one).SolveAll()[3].DissipatedWatt)

	_, err = sample.OnOneSheet(harness(t, 40_000, 1))
	assert.ErrorContains(t, err, "fewer wires")
}
