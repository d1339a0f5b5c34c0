package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/draft"
	"loomwright/schematic/edit"
)

// A kind with a part on the sheet gets a second piece: the part shows it too,
// and the wire goes with its pin.
func TestASymbolIsTakenApartInTheForm(t *testing.T) {
	r := newRig(t, "")
	f := r.kindForm("New", draft.New())
	f.draft.Edit(func(k *schematic.Kind) { k.Title, k.Prefix = "Relay in two", "K" })
	assert.False(t, f.picture.Visible(), "one symbol is no choice")
	assert.False(t, f.named.Visible())
	r.tap("Use it")
	r.click(100, 100)
	r.key(fyne.KeyEscape)
	p := r.part("K1")
	require.NoError(t, r.sess.Do("wire", func(tx *edit.Tx) error {
		return edit.HangWire(tx, schematic.PinRef{Part: p.ID, Pin: "2"}, nil)
	}))

	f = r.kindForm("Edit", draft.Of(r.doc().KindOf(p), false))
	f.tabs.SelectIndex(2)
	f.complain(f.draft.AddPiece())
	f.show(f.draft.Shown())
	assert.True(t, f.picture.Visible())
	assert.Equal(t, []string{"piece 1", "piece 2"}, f.picture.Options)
	assert.Equal(t, "piece 2", f.piece.Text)
	f.piece.changed("contact")
	assert.Equal(t, "contact", f.picture.Selected)
	before := f.pad.image.Image
	f.picture.SetSelected("piece 1")
	assert.Equal(t, draft.Picture{Piece: "piece 1"}, f.draft.Shown())
	assert.NotEqual(t, before, f.pad.image.Image, "the picture shows the piece chosen")
	f.piece.changed("coil")
	require.NoError(t, f.pins.model.enter([]int{1}, 5, "contact"))
	f.piece.changed("contact")
	assert.Contains(t, f.note.Text, "already")
	f.tabs.SelectIndex(1)
	assert.True(t, f.pinInSight())
	f.pins.pick(1, 0, 0)
	assert.Equal(t, "contact", f.picture.Selected, "the picture follows the pin in hand")
	assert.True(t, f.pinInSight())
	f.picture.SetSelected("coil")
	assert.False(t, f.pad.begin(), "a pin is not dragged in a piece it does not stand in")
	r.tap("Use it")
	require.False(t, r.boxOpen(), f.note.Text)
	views := r.part("K1").Views
	require.Len(t, views, 2)
	assert.Equal(t, []string{"coil", "contact"}, []string{views[0].Section, views[1].Section})
	require.Empty(t, schematic.Check(r.doc()))
	require.NoError(t, r.sess.Undo())
	assert.Len(t, r.part("K1").Views, 1, "one step")
}

func TestFamilyOtherHalfAndStrokesOfARoleInTheForm(t *testing.T) {
	r := newRig(t, "")
	f := r.kindForm("Copy", draft.Of(r.lib.Kind("fuse-block-mini"), true))
	picks := func() map[string]*pick {
		found := map[string]*pick{}
		walk(r.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
			if p, ok := o.(*pick); ok {
				found[p.Selected] = p
			}
		})
		return found
	}
	family := picks()["mini blade"]
	require.NotNil(t, family)
	family.SetSelected("maxi blade")
	assert.Equal(t, "maxi blade", f.draft.Kind().Family)
	require.True(t, f.picture.Visible())
	f.tabs.SelectIndex(2)
	f.picture.SetSelected("at pins of role output")
	assert.False(t, f.named.Visible(), "it is called like the role")
	require.Positive(t, f.draft.Strokes().Len())
	r.tap("Line")
	role, _ := f.draft.Kind().Role("output")
	assert.Equal(t, "line", role.Shapes[len(role.Shapes)-1].Type)
	r.tap("Go back")

	f = r.kindForm("Copy", draft.Of(r.lib.Kind("connector-header"), true))
	half := picks()[r.lib.Kind("connector-plug").Title]
	require.NotNil(t, half)
	half.SetSelected(r.lib.Kind("connector-receptacle").Title)
	assert.Equal(t, "connector-receptacle", f.draft.Kind().OtherHalf)
	r.tap("Use it")
	require.False(t, r.boxOpen(), f.note.Text)
	r.click(150, 100)
	r.key(fyne.KeyEscape)
	var mated []string
	for p := range r.doc().Parts() {
		if (p.Mate != schematic.ID{}) {
			mated = append(mated, p.Kind)
		}
	}
	assert.ElementsMatch(t, []string{f.draft.Kind().Name, "connector-receptacle"}, mated)

	// Half of a pair that only this drawing has cannot be lent to others.
	f = r.kindForm("Copy", draft.Of(r.doc().Kind(f.draft.Kind().Name), true))
	f.draft.Edit(func(k *schematic.Kind) { k.Title, k.OtherHalf = "Second", mated[0] })
	if r.lib.Kind(mated[0]) != nil {
		f.draft.Edit(func(k *schematic.Kind) { k.OtherHalf = mated[1] })
	}
	f.keep.SetChecked(true)
	r.tap("Use it")
	require.True(t, r.boxOpen())
	assert.Contains(t, f.note.Text, "in this drawing only")
}
