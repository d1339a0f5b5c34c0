package ui

import (
	"bytes"
	"image"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/export"
	"loomwright/schematic/geom"
)

// paintedAs is what a plan looks like.
func paintedAs(p *export.Plan) []byte {
	img, pal := image.NewRGBA(image.Rect(0, 0, 900, 640)), export.Light()
	new(export.Painter).PaintPlan(img, p, export.View{PxPerMM: 3, W: 900, H: 640}, &pal)
	return img.Pix
}

// Where nothing lies around, a patched picture is the picture.
func TestAPatchedPictureShowsTheChange(t *testing.T) {
	for why, change := range map[string]func(r *rig, tx *edit.Tx) error{
		"a part moved, its wires after it": func(r *rig, tx *edit.Tx) error {
			return edit.Move(tx, r.sheet, []schematic.Key{r.named("G1")}, geom.Pt(-50, 50))
		},
		"a part deleted, its wires with it": func(r *rig, tx *edit.Tx) error {
			return edit.Delete(tx, []schematic.Key{r.named("G1")})
		},
		"a part placed": func(r *rig, tx *edit.Tx) error {
			return edit.PlacePart(tx, "lamp", r.sheet, geom.Pt(2000, 1500), geom.Orient{})
		},
		"nothing": func(*rig, *edit.Tx) error { return nil },
	} {
		r := newRig(t, lampsFile)
		w := wanted{r.doc(), r.sheet, r.windowOptions()}
		before := r.pictures.make(w)
		tx := edit.Begin(r.doc(), nil)
		require.NoError(t, change(r, tx), why)
		w.doc = tx.Doc()
		after := r.pictures.make(w)
		quick, ok := before.patched(w)
		require.True(t, ok, why)
		assert.True(t, bytes.Equal(paintedAs(after.plan), paintedAs(quick.plan)), why)
		assert.Equal(t, why == "nothing", bytes.Equal(paintedAs(before.plan), paintedAs(quick.plan)), why)
	}
}

func TestWhatMayChangeEverythingIsNotPatched(t *testing.T) {
	r := newRig(t, lampsFile)
	w := wanted{r.doc(), r.sheet, r.windowOptions()}
	before := r.pictures.make(w)
	tx := edit.Begin(r.doc(), nil)
	require.NoError(t, edit.SetSheet(tx, r.sheet, func(s *schematic.Sheet) { s.Width += 100 }))
	w.doc = tx.Doc()
	_, ok := before.patched(w)
	assert.False(t, ok, "the sheet itself")
	w = wanted{r.doc(), schematic.ID{1}, r.windowOptions()}
	_, ok = before.patched(w)
	assert.False(t, ok, "another sheet")
}

// On a sheet that is slow to draw, what is dragged follows the pointer at once.
func TestADragOnASlowSheetIsSeen(t *testing.T) {
	r := newRig(t, lampsFile)
	var b byHand
	r.basePicture()
	r.pictures.job.crew = b.crew()
	r.pictures.cost[r.sheet] = 10 * slowPicture
	k := r.named("G1")
	at := r.sheetView.windowPoint(r.doc().Body(r.doc().Part(k.ID), r.doc().Part(k.ID).Views[0]).Center())
	r.sheetView.MouseDown(mouse(at, desktop.MouseButtonPrimary, 0))
	still := paintedAs(r.shownPicture().plan)
	r.sheetView.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: at.AddXY(60, 20)}})
	require.NotNil(t, r.preview)
	moved := paintedAs(r.shownPicture().plan)
	assert.False(t, bytes.Equal(still, moved))
	assert.Empty(t, b.side, "without work beside the window")
	r.sheetView.MouseUp(mouse(at.AddXY(60, 20), desktop.MouseButtonPrimary, 0))
	assert.True(t, bytes.Equal(moved, paintedAs(r.shownPicture().plan)), "and stays where it is let go")
	assert.Len(t, b.side, 1, "until the whole sheet is drawn anew")
}
