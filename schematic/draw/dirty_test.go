package draw_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
)

// A builder that draws anew only what changed gives what a fresh one gives.
func TestBuildingOnIsBuildingAnew(t *testing.T) {
	for seed := range uint64(3) {
		c := crowd(250, seed+1)
		rng := rand.New(rand.NewPCG(seed, 9))
		var kept draw.Builder
		kept.Sheet(c.doc, c.sheet.ID, draw.Options{})
		var parts []*schematic.Part
		for p := range c.doc.Parts() {
			parts = append(parts, p)
		}
		step := func() geom.Point { return geom.Pt(25*(rng.IntN(9)-4), 25*(rng.IntN(9)-4)) }
		past := []*schematic.Doc{c.doc}
		for n := range 60 {
			d := past[len(past)-1]
			var wires []*schematic.Wire
			for w := range d.Wires() {
				wires = append(wires, w)
			}
			w := *wires[rng.IntN(len(wires))]
			opts := draw.Options{NoHops: n%20 == 19}
			switch rng.IntN(6) {
			case 0, 1: // a part with its wires
				p := *d.Part(parts[rng.IntN(len(parts))].ID)
				p.Views = slices.Clone(p.Views)
				p.Views[0].At = p.Views[0].At.Add(step())
				d = d.With(schematic.Put{Key: p.Key(), Item: &p})
			case 2:
				w.Tag = step()
				d = d.With(schematic.Put{Key: w.Key(), Item: &w})
			case 3:
				w.Via = []geom.Point{d.Path(&w)[0].Add(step())}
				d = d.With(schematic.Put{Key: w.Key(), Item: &w})
			case 4:
				d = d.With(schematic.Put{Key: w.Key()})
			case 5: // undo
				d = past[rng.IntN(len(past))]
			}
			past = append(past, d)
			want := draw.Sheet(d, c.sheet.ID, opts).Text()
			require.Equal(t, want, kept.Sheet(d, c.sheet.ID, opts).Text(), "seed %d step %d", seed, n)
		}
	}
}
