package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// mixedWires selects five wires of different insulation.
func mixedWires(t *testing.T) *rig {
	r := newRig(t, lampsFile)
	var keys []schematic.Key
	for i, name := range []string{"W1", "W2", "W3", "W4", "W5"} {
		require.NoError(t, r.try("set", func(tx *edit.Tx) error {
			return edit.SetWire(tx, r.named(name).ID, func(w *schematic.Wire) { w.Insulation = []string{"FLRY", "TXL"}[i%2] })
		}))
		keys = append(keys, r.named(name))
	}
	r.choose(keys...)
	return r
}

func (r *rig) insulations() (all []string) {
	for _, w := range r.details.selectedWires() {
		all = append(all, w.Insulation)
	}
	return all
}

// TestAFieldThatDiffersIsEmptiedForAll by Delete and Enter, or by its button; a
// look at it, and Esc, change nothing.
func TestAFieldThatDiffersIsEmptiedForAll(t *testing.T) {
	empty := []string{"", "", "", "", ""}
	type_ := func(f *field, keys ...fyne.KeyName) {
		for _, k := range keys {
			f.input.TypedKey(&fyne.KeyEvent{Name: k})
		}
	}
	t.Run("by key", func(t *testing.T) {
		r := mixedWires(t)
		doc := r.doc()
		f := r.fieldNamed("Insulation")
		assert.Equal(t, mixed, f.input.PlaceHolder)
		r.win.Canvas().Focus(f.input)
		r.win.Canvas().Focus(r.sheetView)
		assert.Same(t, doc, r.doc(), "a look changes nothing")
		r.win.Canvas().Focus(f.input)
		type_(f, fyne.KeyDelete)
		assert.Equal(t, "empty? Enter", f.input.PlaceHolder)
		type_(f, fyne.KeyEscape)
		assert.Same(t, doc, r.doc(), "Esc takes it back")
		assert.Equal(t, mixed, f.input.PlaceHolder)
		r.win.Canvas().Focus(f.input)
		type_(f, fyne.KeyDelete, fyne.KeyReturn)
		assert.Equal(t, empty, r.insulations())
		r.do("edit.undo")
		assert.Same(t, doc, r.doc(), "one step")
		assert.Equal(t, mixed, f.input.PlaceHolder)
	})
	t.Run("by its button", func(t *testing.T) {
		r := mixedWires(t)
		f := r.fieldNamed("Insulation")
		b, ok := f.input.ActionItem.(*button)
		require.True(t, ok)
		assert.True(t, b.Visible())
		b.OnTapped()
		assert.Equal(t, empty, r.insulations())
		assert.False(t, b.Visible(), "what is alike is emptied as any field")
		assert.Nil(t, r.fieldNamed("Slack").input.ActionItem, "a field that does not differ needs none")
	})
	t.Run("every field", func(t *testing.T) {
		r := mixedWires(t)
		require.NoError(t, r.try("make all different", func(tx *edit.Tx) error {
			for i, w := range r.details.selectedWires() {
				if err := edit.SetWire(tx, w.ID, func(w *schematic.Wire) {
					n := schematic.Some(float64(100 + i))
					w.Color, w.TempC, w.Circuit, w.LengthMM, w.SlackMM, w.A.Terminal, w.B.Seal = schematic.Color{Base: "RD"}, n, string(rune('a'+i)), n, n, "t", string(rune('a'+i))
					if i == 0 {
						w.Color = schematic.Color{}
					}
				}); err != nil {
					return err
				}
			}
			return nil
		}))
		for _, name := range []string{"Size", "Colour", "Temperature class", "Circuit", "Measured", "Slack", "Terminals", "Seals"} {
			f := r.fieldNamed(name)
			if !f.input.mixed {
				continue
			}
			r.win.Canvas().Focus(f.input)
			type_(f, fyne.KeyBackspace, fyne.KeyReturn)
			assert.Empty(t, f.note.Text, name)
		}
		for _, w := range r.details.selectedWires() {
			bare := schematic.Wire{ID: w.ID, Name: w.Name, Sheet: w.Sheet, A: w.A, B: w.B, Via: w.Via, Insulation: w.Insulation, Size: w.Size, Loom: w.Loom, Route: w.Route, Metal: w.Metal, Tag: w.Tag, Notes: w.Notes, Links: w.Links, Build: w.Build, Twist: w.Twist, Screen: w.Screen}
			assert.Equal(t, bare, *w)
			assert.Empty(t, w.A.Terminal+w.B.Terminal+w.A.Seal+w.B.Seal)
		}
	})
}
