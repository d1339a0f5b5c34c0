package ui

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
	"loomwright/ui/action"
	"loomwright/ui/view"
)

func TestSelectingWithoutThePointer(t *testing.T) {
	r := newRig(t, lampsFile)
	assert.False(t, r.actions.Find("select.net").IsEnabled(), "nothing selected, nothing to start from")
	r.choose(r.named("M1"))
	r.key("C")
	assert.Greater(t, len(r.selected()), 1, "the wires at the motor")
	wires := len(r.details.selectedWires())
	assert.Equal(t, wires, len(r.selected())-1)
	r.key("C")
	assert.Greater(t, len(r.selectedParts()), 1, "then the parts at the wires")

	r.choose(r.named("M1"))
	r.do("select.circuit")
	assert.Contains(t, r.selected(), "G1")
	r.do("select.none")
	assert.Empty(t, r.selected())
	r.do("edit.all")
	all := len(r.selected())
	assert.Equal(t, len(view.All(r.doc(), r.sheet)), all)
	r.choose(r.named("M1"))
	r.do("select.others")
	assert.Len(t, r.selected(), all-1)

	r.choose(r.wire("W1").Key())
	r.key("A")
	assert.Contains(t, r.selected(), "W1")
	r.do("select.color")
	for _, w := range r.details.selectedWires() {
		assert.Equal(t, r.wire("W1").Color, w.Color)
	}
	r.choose(r.named("G1"))
	r.key(fyne.KeyA)
	assert.Equal(t, "nothing more in this drawing", r.status.hint.full, "a key that finds nothing says so")
}

func TestWalkingFromPartToPart(t *testing.T) {
	r := newRig(t, lampsFile)
	first := ""
	for range 3 {
		r.combo(0, "Period")
		require.Len(t, r.selected(), 1)
		assert.NotEqual(t, first, r.selected()[0])
		first = r.selected()[0]
	}
	r.combo(0, "Comma")
	r.combo(0, "Comma")
	was := r.selected()[0]
	r.combo(action.Shift, "Period")
	assert.Len(t, r.selected(), 2, "with Shift it is added")
	assert.Contains(t, r.selected(), was)
	r.choose()
	r.combo(0, "Comma")
	assert.Len(t, r.selected(), 1, "from nothing it begins at the end")
}

func TestTheStatusLineCountsTheSelection(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("K1"), r.named("M1"), r.named("W1"))
	assert.Equal(t, "2 parts, 1 wire", r.status.pick.full)
	r.choose()
	assert.Equal(t, "nothing selected", r.status.pick.full)
}

// twoSheets draws a fuse on the second sheet, wired to the ground stud of the
// first that is shown there too.
func (r *rig) twoSheets() (other schematic.ID) {
	r.t.Helper()
	other = r.doc().Sheets()[1].ID
	gnd := r.named("GND1").ID
	require.NoError(r.t, r.try("draw", func(tx *edit.Tx) error {
		if err := edit.PlacePart(tx, "fuse-mini", other, geom.Pt(3000, 300), geom.Orient{}); err != nil {
			return err
		}
		p := tx.Doc().Part(tx.Selected()[0].ID)
		if !view.DrawnOn(tx.Doc(), r.named("GND1"), other) {
			if err := edit.ShowPart(tx, gnd, other, "", geom.Pt(3300, 600), geom.Orient{}); err != nil {
				return err
			}
		}
		return edit.AddWire(tx, other, edit.Anchor{Part: p.ID, Pin: "1"}, edit.Anchor{Part: gnd, Pin: "1"}, nil, nil)
	}))
	return other
}

// TestANetIsSelectedOverAllSheets and edited, copied and deleted so.
func TestANetIsSelectedOverAllSheets(t *testing.T) {
	r := newRig(t, lampsFile)
	other := r.twoSheets()
	var there *schematic.Wire
	for w := range r.doc().Wires() {
		if w.Sheet == other && w.B.Part == r.named("GND1").ID && r.doc().Part(w.A.Part).Kind == "fuse-mini" {
			there = w
		}
	}
	require.NotNil(t, there)
	r.choose(r.named("GND1"))
	r.do("select.net")
	assert.Contains(t, r.selected(), there.Name)
	n := r.elsewhere(r.sess.Selection())
	require.Positive(t, n)
	assert.Contains(t, r.status.hint.full, "on other sheets: ")
	assert.Contains(t, r.status.pick.full, " on other sheets")

	r.do("edit.copy")
	assert.Contains(t, r.status.hint.full, "; from 2 sheets")
	items, err := loomfile.DecodeClip(r.app.Clipboard().Content(), r.lib)
	require.NoError(t, err)
	assert.True(t, slices.ContainsFunc(items, func(it schematic.Item) bool { return it.Key() == there.Key() }), "the wire of the other sheet goes along")

	r.do("edit.mirror")
	assert.Contains(t, r.status.hint.full, "left alone on other sheets")
	r.do("edit.undo")
	doc := r.doc()
	r.do("edit.delete")
	assert.Nil(t, r.doc().Wire(there.ID))
	assert.Nil(t, r.doc().Get(r.keyOf(doc, "GND1")), "the stud goes from every sheet")
	assert.Contains(t, r.status.hint.full, "deleted; of this on other sheets: ")
	r.do("edit.undo")
	assert.Same(t, doc, r.doc())

	// Of this sheet alone only this sheet's symbol goes.
	r.choose(r.named("GND1"))
	r.do("edit.delete")
	assert.NotNil(t, r.doc().Get(r.keyOf(doc, "GND1")))
	assert.NotNil(t, r.doc().Wire(there.ID))
}

func (r *rig) keyOf(d *schematic.Doc, name string) schematic.Key {
	k, ok := d.Named(name)
	require.True(r.t, ok, name)
	return k
}

func TestAlikeAgainGoesOverAllSheets(t *testing.T) {
	r := newRig(t, lampsFile)
	other := r.twoSheets()
	for x := range 2 {
		require.NoError(t, r.try("two here", func(tx *edit.Tx) error {
			return edit.PlacePart(tx, "fuse-mini", r.sheet, geom.Pt(3000+200*x, 2000), geom.Orient{})
		}))
	}
	r.key("A")
	require.Zero(t, r.elsewhere(r.sess.Selection()))
	r.key("A")
	require.Positive(t, r.elsewhere(r.sess.Selection()))
	r.show(other)
	assert.Contains(t, r.status.pick.full, "on other sheets")
}
