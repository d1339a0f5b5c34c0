package ui

import (
	"image/color"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/ui/tool"
)

// outlined counts the frames and the dashes in a colour over the sheet.
func (r *rig) outlined(name fyne.ThemeColorName) (frames, dashes int) {
	c := theme.Color(name)
	in := func(have color.Color) bool { return have == c }
	walk(r.sheetView.over.box, func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *canvas.Rectangle:
			if o.Visible() && in(o.StrokeColor) && o.FillColor == color.Transparent {
				frames++
			}
		case *canvas.Line:
			if o.Visible() && in(o.StrokeColor) {
				dashes++
			}
		}
	})
	return frames, dashes
}

// A ground stud is drawn wherever it is used; of a selection only the symbol that
// is wired to it goes along, and only that has a solid frame.
func TestTheOutlineTellsWhatWouldMove(t *testing.T) {
	r := newRig(t, lampsFile)
	stud := r.part("GND1")
	require.NoError(t, r.try("show", func(tx *edit.Tx) error {
		return edit.ShowPart(tx, stud.ID, r.sheet, "", geom.Pt(3000, 2000), geom.Orient{})
	}))
	views := r.part("GND1").Views
	loose := views[len(views)-1]
	battery := r.part("G1")
	require.NoError(t, r.try("wire", func(tx *edit.Tx) error {
		return edit.AddWire(tx, r.sheet, edit.Anchor{Part: stud.ID, Pin: "1", View: loose.Key}, edit.Anchor{At: geom.Pt(3000, 1500)}, nil, nil)
	}))

	r.choose(stud.Key())
	frames, dashes := r.outlined(colorPick)
	assert.Equal(t, len(views), frames, "alone it is all of them")
	assert.Zero(t, dashes)

	r.choose(stud.Key(), battery.Key())
	frames, dashes = r.outlined(colorPick)
	stay := edit.Staying(r.doc(), r.sheet, r.sess.Selection())
	require.Equal(t, map[edit.Symbol]bool{{Part: stud.ID, View: loose.Key}: true}, stay, "the battery is wired to the other")
	assert.Equal(t, 2, frames)
	assert.Positive(t, dashes)

	keys := r.sess.Selection()
	r.choose()
	r.perform([]tool.Effect{tool.Band{Area: geom.RectOf(geom.Pt(0, 0), geom.Pt(4000, 3000)), Takes: keys}})
	_, dashes = r.outlined(colorNear)
	assert.Positive(t, dashes, "the marquee says the same")
}
