package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
)

// gridColumn is one column of a grid.
type gridColumn struct {
	title, help string
	letters     int // usual width
	right       bool
	editable    bool
}

// gridFace is how a cell looks.
type gridFace struct {
	text  string
	color fyne.ThemeColorName // "" is that of text
	wire  schematic.Color     // shown before the text
}

// gridModel is what a grid shows and edits. Rows and columns are counted as
// they stand.
type gridModel interface {
	columns() []gridColumn
	rows() int
	face(row, col int) gridFace
	// input is the text that editing a cell begins with.
	input(row, col int) string
	// enter takes a text for the column of several rows, or says what is wrong.
	enter(rows []int, col int, text string) error
	// paste takes a block of text at a cell; chosen are the rows selected.
	paste(text string, chosen []int, row, col int) error
	// copied returns the text of some rows for the clipboard.
	copied(rows []int) string
	// sort is told of a press on a column's title.
	sort(col int)
	// sorted returns the column sorted by, -1 for none.
	sorted() (col int, down bool)
}

// grid is a table that is worked in with mouse and keys as in a spreadsheet:
// rows are selected, cells edited in place. Only the cells in sight exist.
type grid struct {
	widget.Table
	ed     *Editor
	model  gridModel
	editor *entry
	layer  *fyne.Container // over the table, holds the editor
	note   *widget.Label   // what is wrong with what was typed
	box    fyne.CanvasObject

	row, col int // the cell in hand
	anchor   int // where a selection of rows with Shift begins
	chosen   map[int]bool
	picked   func()                           // the user chose other rows
	escape   func()                           // Esc; may be nil
	done     func()                           // Ctrl+Enter; may be nil
	shown    map[widget.TableCellID]*gridCell // the cell that showed a place last
	made     int                              // how many cells there are
	focused  bool
	stray    bool // a letter may still come that was meant for a command
	last     struct {
		at       time.Time
		row, col int
	}
	at      widget.TableCellID // the cell being edited
	leaving bool               // the keyboard is going elsewhere
}

func newGrid(ed *Editor, m gridModel) *grid {
	g := &grid{ed: ed, model: m, chosen: map[int]bool{}, shown: map[widget.TableCellID]*gridCell{}}
	g.Length = func() (int, int) { return m.rows(), len(m.columns()) }
	g.CreateCell = func() fyne.CanvasObject {
		g.made++
		return newGridCell()
	}
	g.UpdateCell = func(id widget.TableCellID, o fyne.CanvasObject) { g.fill(id, o.(*gridCell)) }
	g.ShowHeaderRow = true
	g.CreateHeader = func() fyne.CanvasObject {
		h := &gridHead{grid: g}
		h.init()
		h.text.TextStyle.Bold = true
		h.ExtendBaseWidget(h)
		return h
	}
	g.UpdateHeader = func(id widget.TableCellID, o fyne.CanvasObject) { g.fillHead(id, o.(*gridHead)) }
	g.ExtendBaseWidget(g)
	for i, c := range m.columns() {
		g.SetColumnWidth(i, float32(c.letters)*7.4+12)
	}
	g.editor = newEntry(nil)
	g.editor.tabs = true
	g.editor.key = g.editorKey
	g.editor.OnSubmitted = func(string) {
		if g.commit() {
			g.move(1, 0, false)
		}
	}
	g.editor.left = func() {
		if g.editor.Visible() {
			g.leaving = true
			g.commit()
			g.closeEditor()
			g.leaving = false
		}
	}
	g.editor.Hide()
	g.layer = container.NewWithoutLayout(g.editor)
	g.note = widget.NewLabel("")
	g.note.Importance, g.note.Truncation = widget.DangerImportance, fyne.TextTruncateEllipsis
	g.note.Hide()
	g.box = container.NewBorder(nil, g.note, nil, nil, container.NewStack(g, g.layer))
	return g
}

func (g *grid) fill(id widget.TableCellID, c *gridCell) {
	if g.shown[c.id] == c {
		delete(g.shown, c.id)
	}
	c.id = id
	g.shown[id] = c
	cols := g.model.columns()
	if id.Row >= g.model.rows() || id.Col >= len(cols) || id.Row < 0 || id.Col < 0 {
		return
	}
	ground := fyne.ThemeColorName("")
	if g.chosen[id.Row] {
		ground = theme.ColorNameSelection
	}
	c.say(g.model.face(id.Row, id.Col), cols[id.Col].right, ground, g.focused && id.Row == g.row && id.Col == g.col)
}

func (g *grid) fillHead(id widget.TableCellID, c *gridHead) {
	c.id = id
	cols := g.model.columns()
	if id.Col < 0 || id.Col >= len(cols) {
		return
	}
	title := cols[id.Col].title
	if by, down := g.model.sorted(); by == id.Col {
		title = map[bool]string{false: "↑ ", true: "↓ "}[down] + title // stays when the title is cut
	}
	c.say(gridFace{text: title}, cols[id.Col].right, theme.ColorNameHeaderBackground, false)
}

// bring scrolls a cell into sight. The toolkit forgets that titles stand above
// the rows, which are as high: asked for the row before, it shows this one whole.
func (g *grid) bring(row, col int) {
	// A row more on either side, for the bar lies over the lowest one in sight.
	g.ScrollTo(widget.TableCellID{Row: row + 1, Col: col})
	g.ScrollTo(widget.TableCellID{Row: max(0, row-1), Col: col})
	if row == 0 {
		g.ScrollToTop()
	}
	if col <= g.StickyColumnCount {
		g.ScrollToLeading()
	}
}

// say shows what is wrong below the table; nil takes it away.
func (g *grid) say(err error) {
	text := ""
	if err != nil {
		text = sentence(err.Error())
	}
	if text == g.note.Text && g.note.Visible() == (text != "") {
		return
	}
	g.note.SetText(text)
	show(g.note, text != "")
	g.box.Refresh()
}
