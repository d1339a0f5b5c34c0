package ui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
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
	assert.Contains(t, f.trouble.Text, "Give the kind a title")
	first := f.pad.image.Image
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
	items := func(k *schematic.Kind) (labels []string) {
		for _, it := range r.tray.kindItems(k) {
			labels = append(labels, it.Label)
		}
		return labels
	}
	assert.Equal(t, []string{"Place", "New part kind from a copy…", "", "Edit…", "Delete…"}, items(r.tray.rows[1].kind), "the right button on one's own")
	assert.Equal(t, []string{"Place", "New part kind from a copy…"}, items(r.lib.Kind("battery")))

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
	assert.Contains(t, f3.trouble.Text, "The part of this kind follows.")
	f3.draft.Pins().Remove(0)
	r.tap("Use it")
	require.True(t, r.boxOpen())
	assert.Contains(t, f3.note.Text, "pin 1 still has W1")
	r.tap("Go back")

	// A pin may bear another name: its wire goes with it. So may the kind.
	f4 := r.kindForm("Edit", draft.Of(r.doc().KindOf(p), false))
	typeIn(t, f4.grids[0], 0, "+")
	f4.draft.Edit(func(k *schematic.Kind) { k.Title = "Thing, small" })
	r.tap("Use it")
	require.False(t, r.boxOpen(), f4.note.Text)
	assert.Equal(t, "thing-small", r.doc().Part(p.ID).Kind)
	assert.Equal(t, "+", r.doc().Wire(r.named("W1").ID).A.Pin)

	// It goes when no part is of it, and says so until then.
	r.choose(p.Key())
	r.do("kind.delete")
	assert.Contains(t, r.boxes[0].about, "1 part is of it (A1)")
	r.tap("Close")
	require.NotNil(t, r.doc().Kind("thing-small"))
	r.do("edit.delete")
	r.askDeleteKind(r.doc().Kind("thing-small"))
	r.tap("Delete from the drawing")
	assert.Nil(t, r.doc().Kind("thing-small"))
}

func files(t *testing.T, folder string) []string {
	all, err := filepath.Glob(filepath.Join(folder, catalog.OwnFolder, "*"))
	require.NoError(t, err)
	for i := range all {
		all[i] = filepath.Base(all[i])
	}
	return all
}

func TestTheOwnLibraryFollowsAKindThatIsRenamedOrDeleted(t *testing.T) {
	settings := t.TempDir()
	r := rigIn(t, "", settings)
	make := func(title string) *kindForm {
		f := r.kindForm("New", draft.New())
		f.draft.Edit(func(k *schematic.Kind) { k.Title, k.Prefix = title, "A" })
		f.keep.SetChecked(true)
		r.tap("Use it")
		if !r.boxOpen() {
			r.key(fyne.KeyEscape)
		}
		return f
	}
	make("Thing")
	make("Other")
	require.Equal(t, []string{"other.json", "thing.json"}, files(t, settings))
	twice := make("Thing")
	require.True(t, r.boxOpen(), "one of that name is there")
	assert.Contains(t, twice.note.Text, "thing")
	r.tap("Go back")

	f := r.kindForm("Edit", draft.Of(r.doc().Kind("thing"), false))
	require.True(t, f.keep.Checked)
	f.draft.Edit(func(k *schematic.Kind) { k.Title = "Better thing" })
	r.tap("Use it")
	require.False(t, r.boxOpen(), f.note.Text)
	assert.Equal(t, []string{"better-thing.json", "other.json"}, files(t, settings), "the old file does not stay behind")
	assert.False(t, r.lib.Lent("thing"))
	assert.True(t, r.lib.Lent("better-thing"))

	// Another drawing that does not use it edits it in the library alone.
	r2 := rigIn(t, "", settings)
	f2 := r2.kindForm("Edit", draft.Of(r2.lib.Kind("other"), false))
	f2.draft.Edit(func(k *schematic.Kind) { k.Help = "mine" })
	r2.tap("Use it")
	assert.Zero(t, r2.doc().Len(schematic.TypeKind))
	assert.Equal(t, "mine", r2.lib.Kind("other").Help)
	r2.askDeleteKind(r2.lib.Kind("other"))
	r2.tap("Delete from my library")
	assert.False(t, r2.lib.Lent("other"))
	assert.Equal(t, []string{"better-thing.json"}, files(t, settings))

	// A file that holds several keeps the others.
	a, b := *r2.lib.Kind("better-thing"), *r2.lib.Kind("better-thing")
	a.Name, a.Title, b.Name, b.Title = "one", "One", "two", "Two"
	data, err := catalog.EncodeOwn(&a, &b)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(filepath.Join(settings, catalog.OwnFolder, "both.json"), data, 0o644))
	r3 := rigIn(t, "", settings)
	one := *r3.lib.Kind("one")
	one.Name = "uno"
	require.NoError(t, r3.keepKind(&one, "one"))
	require.NoError(t, r3.dropKind("two"))
	assert.Equal(t, []string{"better-thing.json", "both.json"}, files(t, settings))
	lib, err := readOwnKinds(mustLibrary(t), settings)
	require.NoError(t, err)
	assert.Equal(t, []bool{true, false, false}, []bool{lib.Lent("uno"), lib.Lent("one"), lib.Lent("two")})
	require.ErrorContains(t, r3.dropKind("two"), "no file of your own library")
}

func TestStrokesAreDrawnOnceTheBoxIsGivenUp(t *testing.T) {
	r := newRig(t, "")
	f := r.kindForm("New", draft.New())
	require.Equal(t, layouts[0].title, f.layout.Selected)
	f.layout.SetSelected(layouts[3].title)
	assert.Greater(t, f.draft.Strokes().Len(), 0)
	before := f.pad.image.Image
	f.draft.AddStroke("circle")
	f.changed()
	assert.NotEqual(t, before, f.pad.image.Image)
	require.Error(t, f.grids[1].model.enter([]int{0}, 2, "-3"))
	strokes := f.draft.Strokes()
	for _, g := range f.grids {
		if m := g.model.(*draftRows); m.list.Columns[0].Title == "Shape" {
			require.NoError(t, g.model.paste("-7.5 -7.5, 7.5 7.5\n0 -7.5, 0 7.5\n", nil, 0, 1), "points have commas: a line is a cell")
		}
	}
	assert.Equal(t, "-7.5 -7.5, 7.5 7.5", strokes.Text(0, 1))
	assert.Equal(t, "0 -7.5, 0 7.5", strokes.Text(1, 1))
}

func TestStrokesAndPinsAreDrawnInThePicture(t *testing.T) {
	r := newRig(t, "")
	f := r.kindForm("New", draft.New())
	f.layout.SetSelected(layouts[3].title)
	drag := func(x0, y0, x1, y1 int) {
		from, to := f.pad.windowPoint(geom.Pt(x0, y0)), f.pad.windowPoint(geom.Pt(x1, y1))
		f.pad.MouseDown(mouse(from, desktop.MouseButtonPrimary, 0))
		f.pad.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: to}})
		f.pad.MouseUp(mouse(to, desktop.MouseButtonPrimary, 0))
		f.pad.DragEnd()
	}
	before := f.draft.Kind()
	drag(0, 0, 50, 50)
	assert.Equal(t, before, f.draft.Kind(), "on the first page nothing is drawn")

	f.tabs.SelectIndex(2)
	r.tap("Circle")
	line := f.draft.Strokes().Len() - 1
	assert.Equal(t, line, f.strokes.row, "the new one is in hand")
	drag(25, 0, 75, 0)
	s, _ := f.draft.Stroke(line)
	assert.Equal(t, []geom.Point{geom.Pt(25, 0)}, s.Points)
	assert.Equal(t, 50, s.Radius)
	assert.Contains(t, f.pad.place.Text, "7.5  0 mm")
	drag(25, 0, 0, 25)
	s, _ = f.draft.Stroke(line)
	assert.Equal(t, []geom.Point{geom.Pt(0, 25)}, s.Points, "its middle is taken hold of")
	assert.Equal(t, 50, s.Radius)
	r.tap("Line")
	drag(0, -50, 0, 50)
	drag(50, 50, 50, 50)
	s, _ = f.draft.Stroke(line + 1)
	assert.Equal(t, []geom.Point{geom.Pt(0, -50), geom.Pt(0, 50), geom.Pt(50, 50)}, s.Points, "a press adds a point")

	f.tabs.SelectIndex(1)
	at := f.draft.Kind().Pins[1].At
	drag(at.X, at.Y, at.X+50, at.Y+25)
	assert.Equal(t, at.Add(geom.Pt(50, 25)), f.draft.Kind().Pins[1].At)
	assert.Equal(t, 1, f.pins.row)
}
