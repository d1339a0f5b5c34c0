package ui

import (
	"slices"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
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

// gridCell is a cell in sight, or the title of a column.
type gridCell struct {
	widget.BaseWidget
	back   *canvas.Rectangle
	swatch *canvas.Rectangle
	tracer *canvas.Rectangle
	text   *canvas.Text
	full   string
	right  bool
	id     widget.TableCellID
}

func newGridCell() *gridCell {
	c := &gridCell{}
	c.init()
	c.ExtendBaseWidget(c)
	return c
}

// init makes what the cell is drawn of.
func (c *gridCell) init() {
	c.id = widget.TableCellID{Row: -2, Col: -2}
	c.back, c.swatch, c.tracer = canvas.NewRectangle(nil), canvas.NewRectangle(nil), canvas.NewRectangle(nil)
	c.text = canvas.NewText("", theme.Color(theme.ColorNameForeground))
	c.swatch.StrokeWidth = 1
	c.swatch.Hide()
	c.tracer.Hide()
}

func (c *gridCell) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(gridCellLayout{c}, c.back, c.swatch, c.tracer, c.text))
}

type gridCellLayout struct{ c *gridCell }

func (l gridCellLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	c := l.c
	c.back.Resize(size)
	left := float32(5)
	if c.swatch.Visible() {
		c.swatch.Move(fyne.NewPos(5, 5))
		c.swatch.Resize(fyne.NewSize(18, size.Height-10))
		c.tracer.Move(fyne.NewPos(6, size.Height/2-1.5))
		c.tracer.Resize(fyne.NewSize(16, 3))
		left = 28
	}
	room := size.Width - left - 5
	c.text.Text = cut(c.full, max(1, room), c.text.TextSize, c.text.TextStyle)
	want := c.text.MinSize()
	x := left
	if c.right {
		x = max(left, size.Width-5-want.Width)
	}
	c.text.Move(fyne.NewPos(x, (size.Height-want.Height)/2))
	c.text.Resize(want)
}

func (l gridCellLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(28, fyne.MeasureText("Mg", theme.TextSize(), fyne.TextStyle{}).Height+6)
}

// say shows a face and the ground below it.
func (c *gridCell) say(f gridFace, right bool, ground fyne.ThemeColorName, inHand bool) {
	c.full, c.right = f.text, right
	c.text.TextSize = theme.TextSize()
	name := f.color
	if name == "" {
		name = theme.ColorNameForeground
	}
	c.text.Color = theme.Color(name)
	c.back.FillColor, c.back.StrokeWidth = nil, 0
	if ground != "" {
		c.back.FillColor = theme.Color(ground)
	}
	if inHand {
		c.back.StrokeWidth, c.back.StrokeColor = 2, theme.Color(theme.ColorNamePrimary)
	}
	show(c.swatch, !f.wire.IsZero())
	show(c.tracer, f.wire.Tracer != "")
	if !f.wire.IsZero() {
		c.swatch.FillColor, c.swatch.StrokeColor = wireColor(f.wire.Base), theme.Color(theme.ColorNameInputBorder)
		c.tracer.FillColor = wireColor(f.wire.Tracer)
	}
	gridCellLayout{c}.Layout(nil, c.Size())
	c.Refresh()
}

// gridHead is the title of a column; a tip explains it.
type gridHead struct {
	gridCell
	grid *grid
}

func (h *gridHead) MouseIn(e *desktop.MouseEvent) {
	if cols := h.grid.model.columns(); h.id.Col >= 0 && h.id.Col < len(cols) {
		h.grid.ed.tips.plan(folded(cols[h.id.Col].help, 64), e.AbsolutePosition)
	}
	h.MouseMoved(e)
}

// MouseMoved hands the pointer on to the table, which looks for the edges of
// columns.
func (h *gridHead) MouseMoved(e *desktop.MouseEvent) {
	in := *e
	in.Position = e.AbsolutePosition.Subtract(fyne.CurrentApp().Driver().AbsolutePositionForObject(h.grid))
	h.grid.Table.MouseMoved(&in)
}

func (h *gridHead) MouseOut() {
	h.grid.Table.MouseOut()
	h.grid.ed.tips.hide()
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

// cellAt returns the cell at a place in the table, or the column whose title is
// there, with row -1.
func (g *grid) cellAt(at fyne.Position) (id widget.TableCellID, ok bool) {
	if g.model.rows() == 0 {
		return id, false
	}
	head := gridCellLayout{}.MinSize(nil).Height
	title := at.Y < head
	// The toolkit knows what lies where but tells it only by selecting.
	g.OnSelected = func(got widget.TableCellID) { id, ok = got, true }
	g.UnselectAll()
	tries := []float32{at.Y}
	if title {
		tries = []float32{head + 6, head + 10}
	}
	for _, y := range tries {
		if !ok {
			g.Table.Tapped(&fyne.PointEvent{Position: fyne.NewPos(at.X, y)})
		}
	}
	g.OnSelected = nil
	g.UnselectAll()
	if title {
		id.Row = -1
	}
	return id, ok
}

// bring scrolls a cell into sight. The toolkit forgets that titles stand above
// the rows, which are as high: asked for the row before, it shows this one whole.
func (g *grid) bring(row, col int) {
	g.ScrollTo(widget.TableCellID{Row: max(0, row-1), Col: col})
	if row == 0 {
		g.ScrollToTop()
	}
	if col <= g.StickyColumnCount {
		g.ScrollToLeading()
	}
}

// doublePress is how close two presses of a double press are.
const doublePress = 400 * time.Millisecond

// MouseDown selects: with Shift up to there, with Ctrl one more. Pressed twice,
// a cell is edited. A press on a title sorts.
func (g *grid) MouseDown(e *desktop.MouseEvent) {
	g.ed.tips.hide()
	if g.Cursor() == desktop.HResizeCursor {
		g.Table.MouseDown(e)
		return
	}
	g.closeEditor()
	id, ok := g.cellAt(e.Position)
	g.ed.win.Canvas().Focus(g)
	switch {
	case !ok:
		return
	case id.Row < 0:
		if e.Button == desktop.MouseButtonPrimary {
			g.model.sort(id.Col)
		}
		return
	}
	if e.Button == desktop.MouseButtonSecondary {
		if !g.chosen[id.Row] {
			g.pick(id.Row, id.Col, 0)
		} else {
			g.row, g.col = id.Row, id.Col
			g.Refresh()
		}
		g.menu(e.AbsolutePosition)
		return
	}
	now := g.ed.now()
	twice := id.Row == g.last.row && id.Col == g.last.col && now.Sub(g.last.at) < doublePress && e.Modifier == 0
	g.last.at, g.last.row, g.last.col = now, id.Row, id.Col
	g.pick(id.Row, id.Col, e.Modifier)
	if twice {
		g.last.at = time.Time{}
		g.edit("")
	}
}

// Tapped comes after MouseDown, which did everything.
func (g *grid) Tapped(*fyne.PointEvent) {}

// pick takes a cell in hand and chooses its row.
func (g *grid) pick(row, col int, mods fyne.KeyModifier) {
	g.row, g.col = row, col
	switch {
	case mods&fyne.KeyModifierShift != 0:
		g.chosen = map[int]bool{}
		for i := min(g.anchor, row); i <= max(g.anchor, row); i++ {
			g.chosen[i] = true
		}
	case mods&fyne.KeyModifierShortcutDefault != 0:
		if g.chosen[row] {
			delete(g.chosen, row)
		} else {
			g.chosen[row] = true
		}
		g.anchor = row
	default:
		g.chosen, g.anchor = map[int]bool{row: true}, row
	}
	g.say(nil)
	g.Refresh()
	if g.picked != nil {
		g.picked()
	}
}

// rowsChosen returns the rows selected, from the top.
func (g *grid) rowsChosen() []int {
	rows := make([]int, 0, len(g.chosen))
	for r := range g.chosen {
		if r < g.model.rows() {
			rows = append(rows, r)
		}
	}
	slices.Sort(rows)
	return rows
}

// mark selects rows that were chosen elsewhere and brings the first in sight.
func (g *grid) mark(rows []int) {
	g.chosen = make(map[int]bool, len(rows))
	for _, r := range rows {
		g.chosen[r] = true
	}
	if len(rows) > 0 && !g.chosen[g.row] {
		g.row, g.anchor = rows[0], rows[0]
		g.bring(g.row, g.col)
	}
	g.Refresh()
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
