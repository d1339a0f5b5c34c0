package ui

import (
	"os"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
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
	assert.ElementsMatch(t, []string{"changed part G1", "added part G2", "removed wire W5"}, r.differences())
	assert.Contains(t, r.compare.panel.head.Text, "1 added, 1 removed, 1 changed")
	assert.ElementsMatch(t, []string{"changed", "added", "removed"}, r.marksSeen())

	r.do("compare.next")
	assert.Equal(t, []schematic.Key{r.named("G1")}, r.sess.Selection(), "the list leads to the drawing")
	r.do("compare.prev")
	assert.Empty(t, r.sess.Selection(), "what is removed cannot be selected, but is shown")
	r.key("F3")
	r.key("F3")
	assert.Equal(t, []schematic.Key{added.Key()}, r.sess.Selection())

	r.do("edit.undo")
	assert.ElementsMatch(t, []string{"changed part G1", "removed wire W5"}, r.differences(), "it follows the work")
	r.setTheme(true, false)
	assert.ElementsMatch(t, []string{"changed", "removed"}, r.marksSeen(), "another theme keeps it")
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
