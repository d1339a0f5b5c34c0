package ui

import (
	"fmt"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/unit"
	"loomwright/netlist/check"
)

// findingRow is a line of the list: shape, word, items, what is wrong, figures.
type findingRow struct {
	widget.BaseWidget
	show  func() unit.Show
	icon  *widget.Icon
	word  *widget.Label
	names *widget.Label
	text  *widget.Label
	value *widget.Label
	back  *canvas.Rectangle
	head  bool                // the line is the head of a group
	menu  func(fyne.Position) // what can be done about it; may be nil
	take  func()              // selects the line
}

// Tapped selects the line: the toolkit gives either button to what has a use for
// one, so the list below does not get the left one.
func (r *findingRow) Tapped(*fyne.PointEvent) {
	if r.take != nil {
		r.take()
	}
}

// TappedSecondary opens the menu of the finding.
func (r *findingRow) TappedSecondary(e *fyne.PointEvent) {
	if r.menu != nil {
		r.menu(e.AbsolutePosition)
	}
}

func newFindingRow(show func() unit.Show) *findingRow {
	r := &findingRow{show: show, icon: widget.NewIcon(nil), back: canvas.NewRectangle(color.Transparent)}
	for _, l := range []**widget.Label{&r.word, &r.names, &r.text, &r.value} {
		*l = widget.NewLabel("")
		(*l).Truncation = fyne.TextTruncateEllipsis
	}
	r.names.TextStyle.Bold = true
	r.ExtendBaseWidget(r)
	return r
}

func (r *findingRow) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewStack(r.back, container.New(findingLayout{r}, r.icon, r.word, r.names, r.text, r.value)))
}

// findingLayout lays a row out in columns. Where room is short the figures go
// first, then the names, which the text has too, and then the word, so that the
// text can be read to its end; the panel beside the list has all of it.
type findingLayout struct{ r *findingRow }

// Widths of a row from which on it has room for these columns.
const (
	roomForFigures = 1040
	roomForNames   = 760
	roomForWord    = 480
)

func (l findingLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	r := l.r
	show(r.value, !r.head && size.Width >= roomForFigures)
	show(r.names, r.head || size.Width >= roomForNames)
	show(r.word, !r.head && size.Width >= roomForWord)
	show(r.text, !r.head)
	if r.head {
		columns{24, 0}.Layout([]fyne.CanvasObject{r.icon, r.names}, size)
		return
	}
	widths, cells := columns{24}, []fyne.CanvasObject{r.icon}
	for _, c := range []struct {
		o fyne.CanvasObject
		w float32
	}{{r.word, 92}, {r.names, 92}, {r.text, 0}, {r.value, 170}} {
		if c.o.Visible() {
			widths, cells = append(widths, c.w), append(cells, c.o)
		}
	}
	widths.Layout(cells, size)
}

func (l findingLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(240, l.r.text.MinSize().Height)
}

// mark shows that the line is one of several chosen.
func (r *findingRow) mark(on bool) {
	r.back.FillColor = color.Transparent
	if on {
		r.back.FillColor = theme.Color(theme.ColorNameSelection)
	}
	r.back.Refresh()
}

// set shows a line: a finding, or the head of a group.
func (r *findingRow) set(l findingLine) {
	if r.head = l.x == nil; r.head {
		fold := "unfolded"
		if l.folded {
			fold = "folded"
		}
		r.icon.SetResource(icon(fold))
		r.names.SetText(fmt.Sprintf("%s (%d)", l.head, l.n))
		r.Refresh()
		return
	}
	f := l.x
	look, word := f.look()
	r.icon.SetResource(iconIn(look.icon, look.color))
	r.word.SetText(word)
	r.names.SetText(f.names)
	text := f.Text
	if text == "" {
		text = f.title
	}
	r.text.SetText(r.show().Text(text))
	value := check.Figure(f.Value, f.Unit)
	if limit := check.Figure(f.Limit, f.Unit); value != "" && limit != "" {
		value += ", limit " + limit
	}
	r.value.SetText(r.show().Text(value))
	r.Refresh()
}

// Refresh lays the row out anew: heads have other columns.
func (r *findingRow) Refresh() {
	findingLayout{r}.Layout(nil, r.Size())
	r.BaseWidget.Refresh()
}
