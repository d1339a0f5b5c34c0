package ui

import (
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

const fanFile = "../testdata/fan.loom.json"

func TestAHarnessIsInserted(t *testing.T) {
	r := newRig(t, lampsFile)
	before := r.doc()
	r.readHarness(fanFile, geom.Pt(2000, 2000))
	require.True(t, r.boxOpen())
	var where *pick
	r.everything(func(o fyne.CanvasObject) {
		if p, ok := o.(*pick); ok && len(p.Options) == 2 && p.Options[1] == "As a new sheet" {
			where = p
		}
	})
	require.NotNil(t, where)
	require.Equal(t, where.Options[1], where.Selected, "not over what is drawn there, unless asked for")
	where.SetSelected(where.Options[0])
	r.tap("Insert")
	require.True(t, r.boxOpen(), "what was renumbered is said")
	r.tap("Close")
	assert.Equal(t, before.Len(schematic.TypeWire)+12, r.doc().Len(schematic.TypeWire))
	assert.Equal(t, len(before.Sheets()), len(r.doc().Sheets()))
	assert.Equal(t, "insert fan", r.sess.UndoLabel())
	assert.NotEmpty(t, r.sess.Selection())
	require.NoError(t, r.sess.Undo())
	require.Same(t, before, r.doc())

	// A harness of several sheets comes as sheets.
	path := filepath.Join(t.TempDir(), "two.loom.json")
	two, err := loomfile.Load(fanFile, r.lib)
	require.NoError(t, err)
	s := &schematic.Sheet{ID: schematic.ID{5}, Name: "more", Order: 9}
	n := &schematic.Note{ID: schematic.ID{6}, Sheet: s.ID, Text: "x"}
	two = two.With(schematic.Put{Key: s.Key(), Item: s}, schematic.Put{Key: n.Key(), Item: n})
	require.NoError(t, loomfile.Save(path, two))
	r.readHarness(path, geom.Pt(2000, 2000))
	r.tap("Insert")
	assert.Len(t, r.doc().Sheets(), len(before.Sheets())+2)
	assert.NotEqual(t, before.Sheets()[0].ID, r.sheet, "the first new sheet is in sight")
	r.readHarness(filepath.Join(t.TempDir(), "none.loom.json"), geom.Point{})
	require.True(t, r.boxOpen(), "a file that is not there is said")
}

func TestASelectionIsSavedAsAHarness(t *testing.T) {
	r := newRig(t, lampsFile)
	assert.False(t, r.actions.Find("file.savepiece").IsEnabled())
	r.choose(r.named("F1"), r.named("W2"))
	path := filepath.Join(t.TempDir(), "piece.loom.json")
	r.writeSelection(path, r.sess.Selection())
	piece, err := loomfile.Load(path, r.lib)
	require.NoError(t, err)
	assert.Equal(t, 1, piece.Len(schematic.TypePart))
	_, ok := piece.Named("W2")
	assert.True(t, ok)
}
