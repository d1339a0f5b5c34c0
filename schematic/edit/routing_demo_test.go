package edit_test

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/edit"
	"loomwright/schematic/loomfile"
	"loomwright/schematic/route"
)

// How much worse than the drawing of a person the sheets may come out that are
// led anew all at once, as shares of the whole. What was drawn by hand crosses
// less, for more bends.
const (
	mostBends, mostLength = 1.15, 1.02
	mostCrossings         = 4
)

func TestExamplesLedAnew(t *testing.T) {
	for _, name := range []string{"pickup", "fan", "lamp-faulty"} {
		t.Run(name, func(t *testing.T) {
			lib, err := catalog.Default()
			require.NoError(t, err)
			d, err := loomfile.Load("../../testdata/"+name+".loom.json", lib)
			require.NoError(t, err)
			for _, sheet := range d.Sheets() {
				wires := on(d, sheet.ID)
				ids := make([]schematic.ID, len(wires))
				for i, w := range wires {
					ids[i] = w.ID
				}
				vias, err := route.Anew(context.Background(), d, sheet.ID, ids, nil)
				require.NoError(t, err)
				tx := edit.Begin(d, nil)
				require.NoError(t, edit.SetBends(tx, vias))
				stored, anew := tallyOf(d, wires), tallyOf(tx.Doc(), on(tx.Doc(), sheet.ID))
				t.Logf("%s: drawn %v", sheet.Name, stored)
				t.Logf("%s: anew  %v", sheet.Name, anew)
				require.LessOrEqual(t, anew.crossings, mostCrossings*stored.crossings, sheet.Name)
				require.LessOrEqual(t, float64(anew.bends), mostBends*float64(stored.bends), sheet.Name)
				require.LessOrEqual(t, float64(anew.length), mostLength*float64(stored.length), sheet.Name)
			}
		})
	}
}

func on(d *schematic.Doc, sheet schematic.ID) (all []*schematic.Wire) {
	for w := range d.Wires() {
		if w.Sheet == sheet {
			all = append(all, w)
		}
	}
	return all
}
