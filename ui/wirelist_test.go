package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/netlist/table"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// bare takes the wires of the drawing out and returns the table they were in.
func (r *rig) bare() *table.Table {
	r.t.Helper()
	was := table.Wires(table.Facts{Doc: r.doc()})
	var keys []schematic.Key
	for _, row := range was.Rows {
		keys = append(keys, row.Key)
	}
	require.True(r.t, r.Editor.do("bare", func(tx *edit.Tx) error { return edit.Delete(tx, keys) }))
	return was
}

func TestAPastedListOfWiresIsDrawn(t *testing.T) {
	r := newRig(t, lampsFile)
	was := r.bare()
	before := r.doc()
	require.Zero(t, before.Len(schematic.TypeWire))
	text := was.Lines(was.Rows, was.AllColumns(), true)
	r.app.Clipboard().SetContent(text)
	r.do("draw.wirelist")
	f := r.gridInBox().model.(*wireListForm)
	require.GreaterOrEqual(t, len(f.lines), len(was.Rows), "a list on the clipboard is taken at once")
	assert.Equal(t, count(len(was.Rows), "wire")+" in order", f.tally.Text)
	assert.Contains(t, f.grid.note.Text, "Current", "what has no column is named")

	// A wrong row holds all of them up.
	require.NoError(t, f.enter([]int{1}, 3, ""))
	require.NoError(t, f.enter([]int{1}, 2, "nobody"))
	assert.Contains(t, f.face(1, 0).text, "no: from: there is no part")
	r.tap("Draw the wires")
	require.True(t, r.boxOpen())
	assert.Same(t, before, r.doc())
	assert.Contains(t, f.note.Text, "1 row is not in order")
	assert.Equal(t, [2]int{1, 2}, [2]int{f.grid.row, f.grid.col}, "the wrong cell is in hand")
	assert.Contains(t, f.word.Text, "Row 2: ")
	f.only.SetChecked(true)
	r.tap("Draw the wires")
	require.False(t, r.boxOpen())
	assert.Equal(t, len(was.Rows)-1, r.doc().Len(schematic.TypeWire))
	assert.Len(t, r.sess.Selection(), len(was.Rows)-1, "what was drawn is selected")
	require.NoError(t, r.sess.Undo())
	assert.Same(t, before, r.doc(), "one step")

	// All rows, then the drawing is what it was.
	r.do("draw.wirelist")
	r.tap("Draw the wires")
	require.False(t, r.boxOpen())
	now := table.Wires(table.Facts{Doc: r.doc()})
	assert.Equal(t, text, now.Lines(now.Rows, now.AllColumns(), true))
	r.do("draw.wirelist")
	f = r.gridInBox().model.(*wireListForm)
	assert.Contains(t, f.face(0, 0).text, "is there already")
	f.box.escape()
	assert.False(t, r.boxOpen())
}

func TestRowsOfAListAreTypedAddedAndRemoved(t *testing.T) {
	r := newRig(t, lampsFile)
	was := r.bare()
	first := r.doc().Part(r.named("F1").ID)
	r.app.Clipboard().SetContent("nothing of the kind")
	r.win.Canvas().Focus(r.sheetView)
	r.do("draw.wirelist")
	f := r.gridInBox().model.(*wireListForm)
	r.win.Canvas().Focused().TypedRune('W')
	assert.False(t, f.grid.editor.Visible(), "the letter of the command is not typed")
	require.Len(t, f.lines, emptyLines)
	assert.Equal(t, "No wires yet", f.tally.Text)
	r.tap("Draw the wires")
	assert.Contains(t, f.note.Text, "nothing to draw")
	require.Error(t, f.enter([]int{0}, 0, "yes"), "the first column is told, not typed")
	require.NoError(t, f.enter([]int{0}, 2, first.Name))
	assert.Contains(t, f.word.Text, "several pins")
	require.NoError(t, f.enter([]int{0}, 3, "1"))
	require.NoError(t, f.enter([]int{0}, 4, "loose"))
	assert.Equal(t, "Row 1 is in order.", f.word.Text)
	f.add()
	assert.Len(t, f.lines, emptyLines+1)
	assert.Equal(t, emptyLines, f.grid.row)
	f.grid.chosen = map[int]bool{1: true, 2: true}
	f.remove()
	assert.Len(t, f.lines, emptyLines-1)
	f.grid.chosen = map[int]bool{}
	for i := range f.lines {
		f.grid.chosen[i] = true
	}
	assert.Contains(t, f.copied([]int{0}), first.Name+"\t1\tloose")
	r.tap("Draw the wires")
	require.False(t, r.boxOpen())
	assert.Equal(t, 1, r.doc().Len(schematic.TypeWire))

	// An empty table of wires takes a list too.
	require.NoError(t, r.sess.Undo())
	r.do("view.wires")
	p := r.drawer.wires
	require.Empty(t, p.shown)
	r.app.Clipboard().SetContent(was.Lines(was.Rows, was.AllColumns(), false))
	r.win.Canvas().Focus(p.grid)
	r.do("edit.paste")
	f = r.gridInBox().model.(*wireListForm)
	assert.Len(t, f.lines, len(was.Rows))
	r.win.Canvas().Focus(f.grid)
	r.win.Canvas().Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.False(t, r.boxOpen())
}

func TestRowsPastedBeyondTheTableOfWiresAreNewWires(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.wires")
	p := r.drawer.wires
	last := len(p.shown) - 1
	name := p.table.NameOf(p.shown[last])
	p.grid.pick(last, p.table.At("circuit"), 0)
	r.app.Clipboard().SetContent("horn\nlamp\n")
	r.win.Canvas().Focus(p.grid)
	r.do("edit.paste")
	assert.Equal(t, "horn", r.wire(name).Circuit, "what fits is pasted")
	f := r.gridInBox().model.(*wireListForm)
	require.Len(t, f.lines, 1)
	assert.Contains(t, f.word.Text, "name a part and its pin", "the rest is a list of new wires")
	r.tap("Go back")
	before := r.doc()
	r.app.Clipboard().SetContent("From\tPin\tTo\nF1\t1\tloose\n")
	r.win.Canvas().Focus(p.grid)
	r.do("edit.paste")
	f = r.gridInBox().model.(*wireListForm)
	assert.Equal(t, "1 wire in order", f.tally.Text, "a list with titles is one of new wires")
	assert.Same(t, before, r.doc())
	r.tap("Go back")
}
