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

// The examples were drawn with care, sheet by sheet. Led anew all at once, their
// wires are about as good: what a named share more of crossings, bends and length
// says is how far.
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
				t.Logf("%s: stored %v", sheet.Name, stored)
				t.Logf("%s: anew   %v", sheet.Name, anew)
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
