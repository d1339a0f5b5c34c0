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
	"loomwright/ui/tool"
)

// pressDetail presses the button of the details panel with that text.
func (r *rig) pressDetail(text string) {
	r.t.Helper()
	var find func(fyne.CanvasObject) *button
	find = func(o fyne.CanvasObject) *button {
		switch o := o.(type) {
		case *button:
			if o.Text == text {
				return o
			}
		case *fyne.Container:
			for _, c := range o.Objects {
				if b := find(c); b != nil {
					return b
				}
			}
		}
		return nil
	}
	for _, c := range r.details.controls {
		if b := find(c.object()); b != nil {
			b.OnTapped()
			return
		}
	}
	require.Fail(r.t, "no button", text)
}

func TestPartShownOnSeveralSheetsLeadsToTheOthers(t *testing.T) {
	r := newRig(t, lampsFile)
	first := r.sheet
	p := r.doc().Part(r.named("G1").ID)
	require.NotNil(t, p)
	assert.Empty(t, r.otherPlaces(p), "one place is no news")

	require.NoError(t, r.sess.Do("add a sheet", func(tx *edit.Tx) error { return edit.AddSheet(tx, "Dash") }))
	i := slices.IndexFunc(r.doc().Sheets(), func(s *schematic.Sheet) bool { return s.Name == "Dash" })
	dash := r.doc().Sheets()[i].ID
	require.NoError(t, r.sess.Do("show", func(tx *edit.Tx) error {
		return edit.ShowPartNear(tx, p.ID, dash, p.Views[0].Section, geom.Pt(1000, 1000), geom.Orient{})
	}))

	r.choose(p.Key())
	r.status.showNear(tool.Hit{Key: p.Key(), Ok: true})
	assert.Contains(t, r.status.near.full, "also on Dash")
	r.pressDetail("Dash")
	assert.Equal(t, dash, r.sheet)
	assert.Equal(t, []string{"G1"}, r.selected())
	r.pressDetail(r.doc().Sheet(first).Name)
	assert.Equal(t, first, r.sheet)
}

func TestNextWireTakesTheSizeOfTheLastOneDrawn(t *testing.T) {
	r := newRig(t, lampsFile)
	draw := func(y int) *schematic.Wire {
		r.do("tool.wire")
		r.choose()
		before := r.doc()
		r.sendTool(tool.Press{At: geom.Pt(100, y), Clicks: 1})
		r.sendTool(tool.Move{At: geom.Pt(400, y)})
		r.sendTool(tool.Press{At: geom.Pt(400, y), Clicks: 1})
		r.sendTool(tool.KeyPress{Name: "Enter"})
		for w := range r.doc().Wires() {
			if before.Wire(w.ID) == nil {
				return w
			}
		}
		require.Fail(t, "no wire was drawn")
		return nil
	}
	w := draw(100)
	assert.False(t, w.Size.Known(), "nothing to go by")
	r.choose(w.Key())
	r.write("Size", "1.5 mm²")
	r.write("Insulation", "FLRY")
	r.write("Colour", "RD")
	next := draw(200)
	assert.Equal(t, "1.5 mm²", next.Size.String())
	assert.Equal(t, "FLRY", next.Insulation)
	assert.True(t, next.Color.IsZero())
	r.choose(next.Key())
	r.do("edit.delete")
	assert.Equal(t, "1.5 mm²", draw(300).Size.String(), "a wire taken away again is still remembered")
}
