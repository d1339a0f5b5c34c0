package ui

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

// marksSeen are the words of the marks on the drawing.
func (r *rig) marksSeen() []string {
	var words []string
	walk(r.sheetView.over.box, func(o fyne.CanvasObject) {
		if t, ok := o.(*canvas.Text); ok && t.Visible() {
			words = append(words, t.Text)
		}
	})
	return words
}

func (r *rig) differences() []string {
	var all []string
	for _, d := range r.compare.found {
		all = append(all, d.What()+" "+schematic.Describe(d.Item()))
	}
	return all
}

func TestCompareWithTheSavedVersion(t *testing.T) {
	r := newRig(t, copyLamps(t))
	r.change()
	r.choose(r.named("W5"))
	r.do("edit.delete")
	r.takePart("battery")
	r.click(30, 30)
	r.key(fyne.KeyEscape)
	r.do("compare.saved")
	added := r.part("G2")
	require.Equal(t, []string{"added part G2", "removed wire W5"}, r.differences()[:2])
	assert.Equal(t, "changed part G1", r.differences()[len(r.differences())-1], "what is only drawn elsewhere comes last")
	assert.Contains(t, r.compare.panel.head.Text, "1 added, 1 removed, 1 only drawn elsewhere")
	assert.ElementsMatch(t, []string{"G2 added", "W5 removed"}, r.marksSeen())
	assert.Equal(t, 3, r.compare.listed(), "and takes one row")

	r.do("compare.next")
	assert.Equal(t, []schematic.Key{added.Key()}, r.sess.Selection(), "the list leads to the drawing")
	r.key("F3")
	assert.Empty(t, r.sess.Selection(), "what is removed cannot be selected, but is shown")
	r.key("F3")
	assert.Equal(t, []schematic.Key{added.Key()}, r.sess.Selection(), "round what is not only drawn elsewhere")
	r.compare.panel.list.Select(2) // the row that opens
	assert.Equal(t, 4, r.compare.listed())
	assert.ElementsMatch(t, []string{"G2 added", "W5 removed", "G1 moved"}, r.marksSeen())
	r.do("compare.next")
	r.do("compare.next")
	assert.Equal(t, []schematic.Key{r.named("G1")}, r.sess.Selection())
	assert.Contains(t, r.marksSeen(), "was here")
	r.compare.panel.list.Select(2)
	assert.Equal(t, 3, r.compare.listed())

	r.do("edit.undo")
	assert.Equal(t, "removed wire W5", r.differences()[0], "it follows the work")
	r.setTheme(true, false)
	assert.ElementsMatch(t, []string{"W5 removed"}, r.marksSeen(), "another theme keeps it")
	tab := r.compare.tab
	r.do("compare.end")
	assert.Empty(t, r.marksSeen())
	assert.False(t, r.actions.Find("compare.next").IsEnabled())
	assert.NotContains(t, r.drawer.tabs.Items, tab)
}

func TestEarlierVersionsAreComparedAndBroughtBack(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, path)
	r.do("compare.versions")
	r.tap("Close") // there are none yet
	require.NoError(t, os.Chtimes(path, time.Time{}, r.clock.Add(-time.Hour)))
	r.lookAtDisk()
	first := r.doc()
	r.change()
	r.do("file.save")
	r.change()
	r.do("compare.versions")
	c := r.boxes[0].first
	c.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	r.tap("Compare with it")
	assert.Equal(t, []string{"changed part G1"}, r.differences())
	r.do("compare.versions")
	r.boxes[0].first.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	r.tap("Bring it back")
	assert.Empty(t, edit.Diff(first, r.doc()), "everything is as it was")
	assert.True(t, r.sess.Modified())
	r.do("edit.undo")
	assert.Equal(t, geom.Pt(550, 1500), r.part("G1").Views[0].At, "and Undo takes it back")
}

func TestCompareWithAnotherFile(t *testing.T) {
	r := newRig(t, copyLamps(t))
	other := copyLamps(t)
	writeOther(t, r, other)
	r.do("compare.file")
	r.win.Canvas().Focused().(*entry).SetText(other)
	r.tap("Open")
	assert.Equal(t, []string{"changed part G1"}, r.differences())
	assert.Contains(t, r.compare.panel.head.Text, "lamps.loom.json")
	r.do("file.new")
	assert.Nil(t, r.compare.before, "another drawing ends it")
	_, err := loomfile.Load(other, r.lib)
	require.NoError(t, err)
}

// What is removed is still seen, drawn as something that is gone.
func TestRemovedPartsAreShownWhereTheyWere(t *testing.T) {
	r := newRig(t, copyLamps(t))
	g1 := r.named("G1")
	require.NoError(t, r.try("delete", func(tx *edit.Tx) error {
		return edit.Delete(tx, []schematic.Key{g1})
	}))
	r.do("compare.saved")
	var seen int
	for _, m := range r.basePicture().list.Marks {
		if m.Owner == g1 {
			seen++
			if s, ok := m.Op.(*draw.Stroke); ok {
				assert.NotEmpty(t, s.Dash)
			}
		}
	}
	assert.Positive(t, seen)
	at := r.compare.before.Part(g1.ID).Views[0].At
	assert.Empty(t, r.basePicture().index.At(draw.Point{X: float64(at.X) / geom.PerMM, Y: float64(at.Y) / geom.PerMM}, 1), "but cannot be taken hold of")
	r.do("compare.end")
	for _, m := range r.basePicture().list.Marks {
		assert.NotEqual(t, g1, m.Owner)
	}
}

// A removed wire is drawn dashed along its way, also when the parts at its ends
// are gone as well.
func TestRemovedWiresAreShownWhereTheyRan(t *testing.T) {
	r := newRig(t, copyLamps(t))
	w5 := r.named("W5")
	way := r.doc().Path(r.wire("W5"))
	ends := r.doc().Wire(w5.ID)
	require.NoError(t, r.try("delete", func(tx *edit.Tx) error {
		return edit.Delete(tx, []schematic.Key{w5, {Type: schematic.TypePart, ID: ends.A.Part}})
	}))
	r.do("compare.saved")
	var strokes []*draw.Stroke
	for _, m := range r.basePicture().list.Marks {
		if s, ok := m.Op.(*draw.Stroke); ok && m.Owner == w5 {
			strokes = append(strokes, s)
		}
	}
	require.Len(t, strokes, 1)
	assert.NotEmpty(t, strokes[0].Dash)
	require.Len(t, strokes[0].Path, len(way))
	for i, at := range way {
		x, y := at.MM()
		assert.Equal(t, draw.Point{X: x, Y: y}, strokes[0].Path[i].P)
	}
	r.do("compare.end")
	for _, m := range r.basePicture().list.Marks {
		assert.NotEqual(t, w5, m.Owner)
	}
}

func TestTheListOfDifferencesIsWrittenAndCopied(t *testing.T) {
	r := newRig(t, copyLamps(t))
	r.choose(r.named("W5"))
	f := r.fieldNamed("Size")
	r.win.Canvas().Focus(f.input)
	f.input.SetText("4 mm2")
	r.do("compare.saved")
	assert.Equal(t, "W5: 2.5 mm² → 4 mm²", r.compare.found[0].String())
	r.do("compare.copy")
	assert.Contains(t, r.app.Clipboard().Content(), "changed  W5: 2.5 mm² → 4 mm²\n0 added, 0 removed, 1 changed\n")
	r.do("compare.write")
	path := filepath.Join(t.TempDir(), "changes")
	r.win.Canvas().Focused().(*entry).SetText(path)
	r.tap("Write")
	b, err := os.ReadFile(path + ".txt")
	require.NoError(t, err)
	assert.Equal(t, r.differencesText(), string(b))
	r.do("compare.write")
	r.win.Canvas().Focused().(*entry).SetText(path + ".loom.json")
	r.tap("Write")
	assert.True(t, r.boxOpen(), "a drawing is not replaced by a list")
	r.tap("Go back")
}

// TestChangedSettingsOfTheDrawingShowTheDrawing: they lie on no sheet, and no
// single thing is selected for them.
func TestChangedSettingsOfTheDrawingShowTheDrawing(t *testing.T) {
	r := newRig(t, copyLamps(t))
	r.choose(r.named("W5"))
	require.NoError(t, r.try("title", func(tx *edit.Tx) error {
		info := *r.doc().Info()
		info.Title = "another"
		tx.Put(&info)
		return nil
	}))
	r.do("compare.saved")
	require.Len(t, r.compare.found, 1)
	r.do("compare.next")
	assert.Empty(t, r.sess.Selection())
	assert.Equal(t, "another", r.details.title.Text)
}

// TestMarksInACrowdLeaveTheirWordsOut where they would lie across others.
func TestMarksInACrowdLeaveTheirWordsOut(t *testing.T) {
	r := newRig(t, "")
	o := r.sheetView.over
	o.written = nil
	for range 40 {
		o.wordIfRoom(fyne.NewPos(100, 100), "W1 added", theme.Color(theme.ColorNameSuccess))
	}
	assert.Less(t, len(o.written), 10)
	for i, a := range o.written {
		for _, b := range o.written[:i] {
			assert.False(t, a.meets(b))
		}
	}
	n := len(o.written)
	o.word(fyne.NewPos(100, 100), "the one looked at", theme.Color(theme.ColorNameSuccess))
	assert.Len(t, o.written, n+1)
}
