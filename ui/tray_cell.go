package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/draft"
)

// trayCell shows a row of the tray: a folded heading, or symbol and title. A
// long title takes two lines; a tip says all of it and what the part is.
type trayCell struct {
	widget.BaseWidget
	tips  *tips
	tip   string
	back  *canvas.Rectangle // under the pointer
	face  *canvas.Image
	fold  *widget.Icon
	lines [2]*canvas.Text
	count *canvas.Text
	title string
	pick  func()
	menu  func(at fyne.Position) // of the right button; nil for none
	row   trayRow
}

const faceSize = 36

var _ desktop.Hoverable = (*trayCell)(nil)

func newTrayCell(t *tips) *trayCell {
	c := &trayCell{tips: t, fold: widget.NewIcon(nil), back: canvas.NewRectangle(theme.Color(theme.ColorNameHover))}
	c.face = &canvas.Image{FillMode: canvas.ImageFillContain, ScaleMode: canvas.ImageScaleSmooth}
	for i := range c.lines {
		c.lines[i] = canvas.NewText("", theme.Color(theme.ColorNameForeground))
	}
	c.count = canvas.NewText("", theme.Color(colorFaint))
	c.back.Hide()
	c.ExtendBaseWidget(c)
	return c
}

func (c *trayCell) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(trayLayout{c}, c.back, c.face, c.fold, c.lines[0], c.lines[1], c.count))
}

func (c *trayCell) MouseIn(e *desktop.MouseEvent) {
	c.back.Show()
	c.tips.plan(c.tip, e.AbsolutePosition)
}

// Tapped takes the row: the list does not hear of presses on a cell that has a
// menu.
func (c *trayCell) Tapped(*fyne.PointEvent) {
	c.tips.hide()
	if c.pick != nil {
		c.pick()
	}
}

// TappedSecondary offers what can be done with the kind.
func (c *trayCell) TappedSecondary(e *fyne.PointEvent) {
	c.tips.hide()
	if c.menu != nil {
		c.menu(e.AbsolutePosition)
	}
}

func (c *trayCell) MouseMoved(*desktop.MouseEvent) {}

func (c *trayCell) MouseOut() {
	c.back.Hide()
	c.tips.hide()
}

// trayLayout puts symbol or fold mark at the left and the count at the right.
type trayLayout struct{ c *trayCell }

func (l trayLayout) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	c := l.c
	c.back.Resize(s)
	c.face.Move(fyne.NewPos(6, (s.Height-faceSize)/2))
	c.face.Resize(fyne.NewSize(faceSize+8, faceSize))
	c.fold.Move(fyne.NewPos(4, (s.Height-18)/2))
	c.fold.Resize(fyne.NewSquareSize(18))
	left, right := float32(faceSize+22), float32(6)
	if c.fold.Visible() {
		left = 28
	}
	if c.count.Visible() {
		size := c.count.MinSize()
		c.count.Move(fyne.NewPos(s.Width-size.Width-8, (s.Height-size.Height)/2))
		right += size.Width + 8
	}
	c.lines[0].Text, c.lines[1].Text = inTwo(c.title, s.Width-left-right, c.lines[0].TextSize, c.lines[0].TextStyle)
	h := c.lines[0].MinSize().Height
	y := (s.Height - h) / 2
	if c.lines[1].Text != "" {
		y -= h / 2
	}
	for i, t := range c.lines {
		t.Move(fyne.NewPos(left, y+float32(i)*h))
		t.Refresh()
	}
}

func (l trayLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(120, faceSize+2) }

// inTwo breaks a text between words so that it fits a width in two lines; what
// is still too long is cut.
func inTwo(s string, width, size float32, style fyne.TextStyle) (first, second string) {
	if fyne.MeasureText(s, size, style).Width <= width {
		return s, ""
	}
	words := strings.Fields(s)
	n := len(words) - 1
	for n > 1 && fyne.MeasureText(strings.Join(words[:n], " "), size, style).Width > width {
		n--
	}
	if n < 1 {
		return cut(s, width, size, style), ""
	}
	return cut(strings.Join(words[:n], " "), width, size, style), cut(strings.Join(words[n:], " "), width, size, style)
}

// folded breaks a text into lines of about so many letters.
func folded(s string, letters int) string {
	var b strings.Builder
	n := 0
	for _, w := range strings.Fields(s) {
		switch {
		case n > 0 && n+len(w) > letters:
			b.WriteByte('\n')
			n = 0
		case n > 0:
			b.WriteByte(' ')
		}
		b.WriteString(w)
		n += len(w) + 1
	}
	return b.String()
}

func (t *tray) show(c *trayCell, r trayRow) {
	heading := r.kind == nil
	c.pick = func() {
		if i := slices.Index(t.rows, r); i >= 0 {
			t.list.Select(i)
		}
	}
	if c.row != r && c.back.Visible() { // the list was scrolled under the pointer
		c.MouseOut()
	}
	c.row = r
	show(c.face, !heading)
	show(c.fold, heading)
	show(c.count, heading)
	if heading {
		c.fold.SetResource(theme.MenuDropDownIcon())
		if t.closed[r.group] {
			c.fold.SetResource(theme.NavigateNextIcon())
		}
		c.title, c.tip, c.menu = r.group, "", nil
		c.count.Text = fmt.Sprint(r.n)
	} else {
		c.face.Image = t.face(r.kind)
		c.face.Refresh()
		c.menu = func(at fyne.Position) {
			widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", t.kindItems(r.kind)...), t.ed.win.Canvas(), at)
		}
		c.title, c.tip = r.kind.Title, r.kind.Title
		if r.kind.Help != "" {
			c.tip += "\n" + folded(r.kind.Help, 64)
		}
	}
	for _, l := range c.lines {
		l.TextStyle.Bold = heading
	}
	trayLayout{c}.Layout(nil, c.Size())
	c.Refresh()
}

// kindItems are what the menu of a kind in the tray offers.
func (t *tray) kindItems(k *schematic.Kind) []*fyne.MenuItem {
	items := []*fyne.MenuItem{
		fyne.NewMenuItem("Place", func() { t.pick(trayRow{kind: k}) }),
		fyne.NewMenuItem("New part kind from a copy…", func() { t.ed.kindForm("New part kind", draft.Of(k, true)) }),
	}
	if slices.Contains(t.ed.ownKinds(), k) {
		items = append(items, fyne.NewMenuItemSeparator(),
			fyne.NewMenuItem("Edit…", func() { t.ed.kindForm("Part kind "+kindTitle(k), draft.Of(k, false)) }),
			fyne.NewMenuItem("Delete…", func() { t.ed.askDeleteKind(k) }))
	}
	return items
}
