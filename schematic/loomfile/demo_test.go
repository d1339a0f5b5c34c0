package loomfile_test

import (
	"fmt"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

const demoFile = "../../testdata/pickup.loom.json"

// openDemo reads the demo harness, the first thing anybody sees.
func openDemo(t *testing.T) *schematic.Doc {
	t.Helper()
	lib, err := catalog.Default()
	require.NoError(t, err)
	d, err := loomfile.Load(demoFile, lib)
	require.NoError(t, err)
	return d
}

func TestDemoIsWholeAndCanonical(t *testing.T) {
	d := openDemo(t)
	assert.Empty(t, schematic.Check(d))
	for p := range d.Parts() {
		assert.NotNil(t, d.KindOf(p), "%s is of a kind the catalog has", p.Name)
	}
	want, err := os.ReadFile(demoFile)
	require.NoError(t, err)
	got, err := loomfile.Encode(d)
	require.NoError(t, err)
	assert.Equal(t, string(want), string(got), "the file is as this version writes it")
}

func TestDemoShowsEverySortOfItem(t *testing.T) {
	d := openDemo(t)
	for _, c := range []struct {
		what  schematic.ItemType
		least int
	}{
		{schematic.TypePart, 60}, {schematic.TypeWire, 110}, {schematic.TypeNote, 10}, {schematic.TypeGroup, 3}, {schematic.TypeReading, 2},
	} {
		assert.GreaterOrEqual(t, d.Len(c.what), c.least, "%s", c.what)
	}
	assert.Equal(t, 3, d.Len(schematic.TypeSheet))
	assert.Equal(t, 4, d.Len(schematic.TypeState))
	assert.Equal(t, 3, d.Len(schematic.TypeLoom))

	builds := map[schematic.Build]int{}
	for w := range d.Wires() {
		builds[w.Build]++
	}
	assert.GreaterOrEqual(t, len(builds), 5, "the harness stands half way through its building: %v", builds)
	for g := range d.Groups() {
		if g.Type == schematic.ScreenGroup {
			assert.NotNil(t, d.Wire(g.Drain), "screen %s has a drain wire", g.Name)
		}
	}
	holes := 0
	for l := range d.Looms() {
		for _, s := range l.Segments {
			assert.True(t, s.LengthMM.Known() && s.AmbientC.Known() && s.Sleeve != "", "%s, %s", l.Name, s.Name)
			holes += len(s.Holes)
		}
	}
	assert.Positive(t, holes, "a loom passes through a panel")
}

// One wire is left without a length on purpose: the notes of the file say so.
func TestDemoWiresAreSpecified(t *testing.T) {
	d := openDemo(t)
	var without []string
	used := map[string]map[string]bool{}
	for w := range d.Wires() {
		assert.True(t, w.Size.Known(), "%s has a size", w.Name)
		assert.NotEmpty(t, w.Insulation, "%s has an insulation", w.Name)
		assert.False(t, w.Color.IsZero(), "%s has a colour", w.Name)
		if !w.LengthMM.Known() && len(w.Route) == 0 {
			without = append(without, w.Name)
		}
		for _, e := range []schematic.End{w.A, w.B} {
			require.False(t, e.Loose(), "%s has a loose end", w.Name)
			p := d.Part(e.Part)
			assert.NotEmpty(t, e.Terminal, "%s at %s has a terminal", w.Name, p.Name)
			if used[p.Kind] == nil {
				used[p.Kind] = map[string]bool{}
			}
			used[p.Kind][fmt.Sprint(p.Name, ".", e.Pin)] = true
		}
	}
	require.Len(t, without, 1)
	assert.Contains(t, d.Info().Notes, without[0], "the notes name the wire without a length")
	assert.GreaterOrEqual(t, len(used["control-unit"]), 30, "pins used at the control unit")
}

// The drawing keeps to the grid and to its sheets, wires are drawn level and
// upright, and none runs along another that ends at other pins.
func TestDemoIsDrawnCleanly(t *testing.T) {
	d := openDemo(t)
	for p := range d.Parts() {
		require.NotEmpty(t, p.Views, "%s is shown", p.Name)
		for _, v := range p.Views {
			assert.True(t, d.Sheet(v.Sheet).Area().Encloses(d.Reach(p, v)), "%s lies on its sheet", p.Name)
			for _, pp := range d.PlacedPins(p, v) {
				assert.Equal(t, pp.At, pp.At.Snap(geom.Grid), "%s pin %s is on the grid", p.Name, pp.Pin.Name)
			}
		}
	}
	type edge struct {
		sheet schematic.ID
		at    geom.Point
		level bool
	}
	taken := map[edge][]*schematic.Wire{}
	for w := range d.Wires() {
		path := d.Path(w)
		require.True(t, path.Orthogonal(), "%s", w.Name)
		for _, q := range path {
			require.Equal(t, q, q.Snap(geom.Grid), "%s bends on the grid", w.Name)
		}
		for i := 1; i < len(path); i++ {
			step := geom.DirOf(path[i].Sub(path[i-1])).Vec()
			for q := path[i-1]; q != path[i]; {
				next := q.Add(geom.Pt(step.X*geom.Grid, step.Y*geom.Grid))
				e := edge{w.Sheet, geom.Pt(min(q.X, next.X), min(q.Y, next.Y)), step.Y == 0}
				for _, other := range taken[e] {
					assert.True(t, shareAnEnd(w, other), "%s lies on %s at %v", w.Name, other.Name, e.at)
				}
				taken[e] = append(taken[e], w)
				q = next
			}
		}
	}
}

func shareAnEnd(a, b *schematic.Wire) bool {
	return a.A.Ref() == b.A.Ref() || a.A.Ref() == b.B.Ref() || a.B.Ref() == b.A.Ref() || a.B.Ref() == b.B.Ref()
}
