package ui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/draft"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// typeIn puts texts into the cells of a row, from the first on.
func typeIn(t *testing.T, g *grid, row int, texts ...string) {
	t.Helper()
	for col, s := range texts {
		if s != "" {
			require.NoError(t, g.model.enter([]int{row}, col, s), s)
		}
	}
}

func TestAPartKindIsMadeKeptAndPlaced(t *testing.T) {
	settings := t.TempDir()
	r := rigIn(t, "", settings)
	f := r.kindForm("New part kind", draft.New())
	assert.Contains(t, f.trouble.Text, "Better: title: is missing")
	first := f.face.Image
	require.NotNil(t, first, "the symbol is shown as it is drawn")
	pins := f.grids[0]
	require.Equal(t, f.draft.Pins().Columns[0].Title, pins.model.columns()[0].title)
	f.draft.Elements().Add()
	byTitle := func(title string) *grid {
		for _, g := range f.grids {
			if g.model.columns()[0].title == title || g.model.columns()[1].title == title {
				return g
			}
		}
		require.Fail(t, title)
		return nil
	}
	elements := byTitle("Type")
	typeIn(t, elements, 0, "buzzer", "constant-current", "1", "2", "amp = 0.08, min_volt = 6", "indicator")
	r.tap("Use it")
	require.True(t, r.boxOpen())
	assert.Contains(t, f.note.Text, "title")
	f.draft.Edit(func(k *schematic.Kind) { k.Title, k.Prefix, k.Group = "Buzzer, small", "H", "Loads" })
	typeIn(t, pins, 0, "+", "supply")
	f.keep.SetChecked(true)
	r.tap("Use it")
	require.False(t, r.boxOpen(), f.note.Text)
	k := r.doc().Kind("buzzer-small")
	require.NotNil(t, k)
	assert.Equal(t, "+", k.Elements[0].A)
	assert.Equal(t, placeTool, r.tools.Tool(), "the new part is in hand")
	r.click(100, 100)
	r.key(fyne.KeyEscape)
	_, ok := r.doc().Named("H1")
	require.True(t, ok)
	assert.Equal(t, ownGroup, r.tray.rows[0].group)
	assert.Equal(t, "Buzzer, small", r.tray.rows[1].kind.Title)

	// The next run knows it, in every drawing, and says which files it cannot use.
	require.NoError(t, os.WriteFile(filepath.Join(settings, catalog.OwnFolder, "bad.json"), []byte("{"), 0o644))
	lib, err := readOwnKinds(mustLibrary(t), settings)
	require.ErrorContains(t, err, "bad.json")
	require.True(t, lib.Lent("buzzer-small"))
	require.NoError(t, os.Remove(filepath.Join(settings, catalog.OwnFolder, "bad.json")))
	r2 := rigIn(t, "", settings)
	require.True(t, r2.lib.Lent("buzzer-small"))
	require.NoError(t, r2.sess.Do("place", func(tx *edit.Tx) error {
		return edit.PlacePart(tx, "buzzer-small", r2.sheet, geom.Pt(500, 500), geom.Orient{})
	}))
	assert.Equal(t, 1, r2.doc().Len(schematic.TypeKind), "the drawing carries it")
}

func mustLibrary(t *testing.T) *schematic.Library {
	lib, err := catalog.Default()
	require.NoError(t, err)
	return lib
}

func TestAKindInUseIsChangedOrRefused(t *testing.T) {
	r := newRig(t, "")
	f := r.kindForm("New", draft.New())
	f.draft.Edit(func(k *schematic.Kind) { k.Title, k.Prefix = "Thing", "A" })
	r.tap("Use it")
	r.click(100, 100)
	r.key(fyne.KeyEscape)
	p := r.doc().Part(r.named("A1").ID)
	require.NoError(t, r.sess.Do("wire", func(tx *edit.Tx) error {
		return edit.HangWire(tx, schematic.PinRef{Part: p.ID, Pin: "1"}, nil)
	}))
	r.choose(p.Key())
	r.do("kind.edit")
	require.True(t, r.boxOpen(), "the kind of the selected part is opened at once")
	r.tap("Go back")
	f2 := r.kindForm("Edit", draft.Of(r.doc().KindOf(p), false))
	require.NoError(t, f2.grids[0].model.paste("1\tleft one\tdown\n2\tright one\tdown\n3\tthird", nil, 0, 0))
	r.tap("Use it")
	require.False(t, r.boxOpen(), f2.note.Text)
	assert.Len(t, r.doc().PinsOf(r.doc().Part(p.ID)), 3)
	assert.Equal(t, "set part kind Thing", r.sess.UndoLabel())

	f3 := r.kindForm("Edit", draft.Of(r.doc().KindOf(p), false))
	f3.draft.Pins().Remove(0)
	r.tap("Use it")
	require.True(t, r.boxOpen())
	assert.Contains(t, f3.note.Text, "pin 1 still has W1")
}

func TestStrokesAreDrawnOnceTheBoxIsGivenUp(t *testing.T) {
	r := newRig(t, "")
	f := r.kindForm("New", draft.New())
	require.True(t, f.boxed.Checked)
	f.boxed.SetChecked(false)
	assert.Greater(t, f.draft.Strokes().Len(), 0)
	before := f.face.Image
	f.draft.AddStroke("circle")
	f.changed()
	assert.NotEqual(t, before, f.face.Image)
	require.Error(t, f.grids[1].model.enter([]int{0}, 2, "-3"))
}
