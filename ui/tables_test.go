package ui

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/sample"
)

// cellOf presses the cell of a row, by designation, in a column.
func (r *rig) cellOf(p *tablePanel, name, col string) widget.TableCellID {
	r.t.Helper()
	for i, row := range p.shown {
		if p.table.NameOf(row) == name {
			return widget.TableCellID{Row: i, Col: p.table.At(col)}
		}
	}
	require.Fail(r.t, "no row", name)
	return widget.TableCellID{}
}

func (r *rig) pressCell(p *tablePanel, name, col string, m fyne.KeyModifier) {
	r.t.Helper()
	id := r.cellOf(p, name, col)
	p.grid.bring(id.Row, id.Col)
	c := p.grid.shown[id]
	require.NotNil(r.t, c, "%s %s", name, col)
	driver := fyne.CurrentApp().Driver()
	at := driver.AbsolutePositionForObject(c).Subtract(driver.AbsolutePositionForObject(p.grid)).AddXY(3, 3)
	p.grid.MouseDown(mouse(at, desktop.MouseButtonPrimary, m))
	require.Equal(r.t, [2]int{id.Row, id.Col}, [2]int{p.grid.row, p.grid.col}, "the cell pressed is in hand")
}

func (r *rig) selectedNames() []string {
	var names []string
	for _, k := range r.sess.Selection() {
		names = append(names, schematic.NameOf(r.doc().Get(k)))
	}
	return names
}

func TestTableAndDrawingSelectEachOther(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.wires")
	p := r.drawer.wires
	require.Equal(t, r.doc().Len(schematic.TypeWire), len(p.shown))
	r.pressCell(p, "W5", "wire", 0)
	assert.Equal(t, []string{"W5"}, r.selectedNames())
	r.pressCell(p, "W3", "wire", fyne.KeyModifierShortcutDefault)
	assert.ElementsMatch(t, []string{"W3", "W5"}, r.selectedNames())
	r.pressCell(p, "W5", "wire", 0)
	r.pressCell(p, "W7", "wire", fyne.KeyModifierShift)
	assert.ElementsMatch(t, []string{"W5", "W6", "W7"}, r.selectedNames())

	r.choose(r.named("W2"))
	assert.Equal(t, []int{r.cellOf(p, "W2", "wire").Row}, p.grid.rowsChosen(), "the row of what is selected on the drawing")
	p.only.SetChecked(true)
	require.Len(t, p.shown, 1)
	r.choose(r.named("W4"))
	require.Len(t, p.shown, 1)
	assert.Equal(t, "W4", p.table.NameOf(p.shown[0]))
	p.only.SetChecked(false)

	r.do("view.pins")
	pins := r.drawer.pins
	r.choose(r.named("F1"))
	assert.Len(t, pins.grid.rowsChosen(), 2, "both pins of a fuse")
	r.pressCell(pins, "F1 pin 2", "pin", 0)
	assert.Equal(t, []string{"F1"}, r.selectedNames())
	assert.Len(t, pins.grid.rowsChosen(), 1, "but only the row that was pressed")
}

func TestEndsOfATableByKey(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.wires")
	p, g := r.drawer.wires, r.drawer.wires.grid
	r.pressCell(p, "W5", "size", 0)
	g.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyEnd, Modifier: fyne.KeyModifierControl})
	assert.Equal(t, len(p.shown)-1, g.row)
	g.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyHome, Modifier: fyne.KeyModifierControl})
	assert.Zero(t, g.row)
	g.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyEnd, Modifier: fyne.KeyModifierControl | fyne.KeyModifierShift})
	assert.Len(t, g.rowsChosen(), len(p.shown))
}

func TestCellsAreEditedInPlace(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.wires")
	p, g := r.drawer.wires, r.drawer.wires.grid
	size := func(name string) string { return r.doc().Wire(r.named(name).ID).Size.String() }
	r.pressCell(p, "W5", "size", 0)
	g.TypedRune('3')
	require.True(t, g.editor.Visible())
	assert.Equal(t, "3", g.editor.Text, "a letter replaces what was there")
	g.editor.TypedRune(',')
	g.editor.TypedRune('3')
	g.editor.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.Equal(t, "3.3 mm²", size("W5"))
	assert.False(t, g.editor.Visible())
	assert.Equal(t, r.cellOf(p, "W6", "size").Row, g.row, "Enter goes down")
	assert.Equal(t, "set size of W5", r.sess.UndoLabel())
	r.do("edit.undo")
	assert.NotEqual(t, "3.3 mm²", size("W5"), "one step")

	// What cannot be read stays in the editor and is said.
	was := size("W6")
	g.edit("18")
	before := r.doc()
	r.do("edit.duplicate")
	assert.Same(t, before, r.doc(), "while a cell is edited the drawing waits")
	g.editor.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.True(t, g.editor.Visible())
	assert.Contains(t, g.note.Text, "AWG 18")
	g.editor.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.False(t, g.editor.Visible())
	assert.Equal(t, was, size("W6"))

	// Two presses edit; leaving takes what was typed.
	r.clock = r.clock.Add(time.Second)
	r.pressCell(p, "W3", "circuit", 0)
	r.clock = r.clock.Add(100 * time.Millisecond)
	r.pressCell(p, "W3", "circuit", 0)
	require.True(t, g.editor.Visible())
	g.editor.SetText("horn feed")
	r.win.Canvas().Focus(r.sheetView)
	assert.False(t, g.editor.Visible())
	assert.Equal(t, "horn feed", r.doc().Wire(r.named("W3").ID).Circuit)
	assert.False(t, g.focused)

	// What follows from the drawing is not typed.
	r.pressCell(p, "W3", "wire", 0)
	g.col = p.table.At("current")
	g.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF2})
	assert.False(t, g.editor.Visible())
	assert.Contains(t, g.note.Text, "follows from the drawing")
}

func TestFillDownCopyAndPaste(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.wires")
	p, g := r.drawer.wires, r.drawer.wires.grid
	color := func(name string) string { return r.doc().Wire(r.named(name).ID).Color.String() }
	r.pressCell(p, "W2", "colour", 0)
	require.NoError(t, p.enter([]int{g.row}, g.col, "VT/WH"))
	r.pressCell(p, "W5", "colour", fyne.KeyModifierShift)
	before := r.sess.Doc()
	r.do("edit.duplicate") // Ctrl+D in a table fills down
	for _, n := range []string{"W2", "W3", "W4", "W5"} {
		assert.Equal(t, "VT/WH", color(n))
	}
	assert.Equal(t, before.Len(schematic.TypeWire), r.doc().Len(schematic.TypeWire), "nothing was duplicated")
	require.NoError(t, r.sess.Undo())
	require.Same(t, before, r.sess.Doc(), "one step")

	r.do("edit.copy")
	text := r.app.Clipboard().Content()
	assert.Len(t, strings.Split(strings.TrimSuffix(text, "\n"), "\n"), 4)
	assert.True(t, strings.HasPrefix(text, "W2\t"), text)

	r.app.Clipboard().SetContent("BK\t1.5 mm²\nBN\t2.5 mm²\n")
	r.pressCell(p, "W3", "colour", 0)
	r.do("edit.paste")
	require.Empty(t, g.note.Text)
	assert.Equal(t, "BK", color("W3"))
	assert.Equal(t, "BN", color("W4"))
	assert.Equal(t, "2.5 mm²", r.doc().Wire(r.named("W4").ID).Size.String())
	r.app.Clipboard().SetContent("BK\nmauve\n")
	before = r.doc()
	r.do("edit.paste")
	assert.Contains(t, g.note.Text, "MAUVE")
	assert.Same(t, before, r.doc(), "all or nothing")
}

func TestTitlesSortAndTheFilterNarrows(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.wires")
	p := r.drawer.wires
	by := p.table.At("size")
	p.sort(by)
	first := p.table.Text(p.shown[0], by)
	p.sort(by)
	assert.NotEqual(t, first, p.table.Text(p.shown[0], by), "pressed again: the other way round")
	col, down := p.sorted()
	assert.True(t, down)
	assert.Equal(t, by, col)
	p.sort(by)
	col, _ = p.sorted()
	assert.Equal(t, -1, col)
	var head *gridHead
	r.everything(func(o fyne.CanvasObject) {
		if h, ok := o.(*gridHead); ok && h.grid == p.grid && h.full == "Length" {
			head = h
		}
	})
	require.NotNil(t, head)
	head.MouseIn(&desktop.MouseEvent{})
	assert.True(t, r.tips.box.Visible(), "a tip explains the column")
	assert.Contains(t, r.tips.text.Text, "as measured")
	head.MouseOut()
	assert.False(t, r.tips.box.Visible())
	assert.Equal(t, "W1", p.table.NameOf(p.shown[0]))
	p.search.SetText("W5")
	require.NotEmpty(t, p.shown)
	assert.Less(t, len(p.shown), len(p.table.Rows))
	assert.Contains(t, p.count.Text, " of ")
	file := filepath.Join(t.TempDir(), "w.csv")
	require.NoError(t, p.writeCSV(file))
	f, err := os.Open(file)
	require.NoError(t, err)
	defer f.Close()
	recs, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err)
	assert.Len(t, recs, len(p.shown)+1, "titles and the rows in sight")
}

func TestKeysMoveInTheTable(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.pins")
	g := r.drawer.pins.grid
	require.Equal(t, fyne.Focusable(g), r.win.Canvas().Focused(), "the command gives the table the keyboard")
	press := func(k fyne.KeyName) { g.TypedKey(&fyne.KeyEvent{Name: k}) }
	press(fyne.KeyHome)
	press(fyne.KeyDown)
	press(fyne.KeyRight)
	assert.Equal(t, [2]int{1, 1}, [2]int{g.row, g.col})
	press(fyne.KeyEnd)
	assert.Equal(t, len(r.drawer.pins.shown)-1, g.row)
	press(fyne.KeyPageUp)
	press(fyne.KeyUp)
	press(fyne.KeyLeft)
	assert.Equal(t, [2]int{len(r.drawer.pins.shown) - 12, 0}, [2]int{g.row, g.col})
	press(fyne.KeyTab)
	assert.Equal(t, [2]int{len(r.drawer.pins.shown) - 12, 1}, [2]int{g.row, g.col}, "Tab goes from cell to cell")
	g.move(0, 99, false)
	press(fyne.KeyTab)
	assert.Equal(t, [2]int{len(r.drawer.pins.shown) - 11, 0}, [2]int{g.row, g.col}, "and on to the next row")
	press(fyne.KeyEscape)
	assert.Equal(t, fyne.Focusable(r.sheetView), r.win.Canvas().Focused())
}

// Only cells in sight are made, whatever the size of the document.
func TestATableOfTenThousandWiresHasFewCells(t *testing.T) {
	r := newRig(t, "")
	r.begin(sample.Harness(r.lib, 10_000, 1), openFile{})
	r.drawer.open(wiresTab)
	r.drawer.tablesChanged()
	p := r.drawer.wires
	require.Len(t, p.shown, 10_000)
	p.grid.move(9_999, 0, false)
	assert.Equal(t, "W10000", p.table.NameOf(p.shown[p.grid.row]))
	assert.Less(t, p.grid.made, 1500)
}

// TestARenamedRowStaysUnderTheHand: the table counts by designation, but not
// while a designation is typed; a change on the drawing puts it in order again.
func TestARenamedRowStaysUnderTheHand(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("view.wires")
	p := r.drawer.wires
	first := p.table.NameOf(p.shown[0])
	require.NoError(t, p.enter([]int{0}, p.table.At("wire"), "X9"))
	assert.Equal(t, "X9", p.table.NameOf(p.shown[0]))
	p.refresh() // new results change nothing
	assert.Equal(t, "X9", p.table.NameOf(p.shown[0]))
	r.win.Canvas().Focus(r.sheetView) // in the table the command fills down
	r.choose(r.named("G1"))
	r.do("edit.duplicate")
	assert.Equal(t, "X9", p.table.NameOf(p.shown[len(p.shown)-1]))
	r.do("edit.undo")
	r.do("edit.undo")
	assert.Equal(t, first, p.table.NameOf(p.shown[0]))
}
