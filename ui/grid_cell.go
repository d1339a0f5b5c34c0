package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

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
