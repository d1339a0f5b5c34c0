package ui

import (
	"fmt"
	"image/color"
	"strings"

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
	full  string              // the text, not yet broken into lines
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
// first, then the names, which the text has too, and then the word, which the
// icon stands for; then the text takes more lines, so that it can be read to its
// end. The panel beside the list has all of it.
type findingLayout struct{ r *findingRow }

// Widths of a row from which on it has room for these columns.
const (
	roomForFigures = 1040
	roomForNames   = 760
	roomForWord    = 620
)

// Widths of these columns.
const (
	iconColumn   = 24
	wordColumn   = 92
	namesColumn  = 92
	figureColumn = 170
)

// mostLines is how many lines a finding takes at most.
const mostLines = 3

// textRoom is the width that the words of a text have in a row.
func textRoom(row float32) float32 {
	w := row - iconColumn - 2*theme.InnerPadding()
	for _, c := range []struct{ from, width float32 }{{roomForFigures, figureColumn}, {roomForNames, namesColumn}, {roomForWord, wordColumn}} {
		if row >= c.from {
			w -= c.width
		}
	}
	return w
}

// findingLines is how many lines the text of a finding takes in a row.
func findingLines(text string, row float32) int {
	width := textRoom(row)
	if width <= 0 || fyne.MeasureText(text, theme.TextSize(), fyne.TextStyle{}).Width <= width {
		return 1
	}
	return min(linesIn(text, width, theme.TextSize()), mostLines)
}

// broken returns a text in at most so many lines, of which the last may be too
// long: it is cut where it is shown.
func broken(text string, width float32, most int) string {
	var lines []string
	for len(lines) < most-1 {
		line, rest := "", text
		for {
			w, more, found := strings.Cut(rest, " ")
			longer := strings.TrimSpace(line + " " + w)
			if line != "" && fyne.MeasureText(longer, theme.TextSize(), fyne.TextStyle{}).Width > width {
				break
			}
			line, rest = longer, more
			if !found {
				return strings.Join(append(lines, line), "\n")
			}
		}
		lines, text = append(lines, line), rest
	}
	return strings.Join(append(lines, text), "\n")
}

func (l findingLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	r := l.r
	show(r.value, !r.head && size.Width >= roomForFigures)
	show(r.names, r.head || size.Width >= roomForNames)
	show(r.word, !r.head && size.Width >= roomForWord)
	show(r.text, !r.head)
	if r.head {
		columns{iconColumn, 0}.Layout([]fyne.CanvasObject{r.icon, r.names}, size)
		return
	}
	widths, cells := columns{iconColumn}, []fyne.CanvasObject{r.icon}
	for _, c := range []struct {
		o fyne.CanvasObject
		w float32
	}{{r.word, wordColumn}, {r.names, namesColumn}, {r.text, 0}, {r.value, figureColumn}} {
		if c.o.Visible() {
			widths, cells = append(widths, c.w), append(cells, c.o)
		}
	}
	widths.Layout(cells, size)
	r.icon.Resize(fyne.NewSize(iconColumn, min(size.Height, l.MinSize(nil).Height))) // beside the first line
	if text := broken(r.full, textRoom(size.Width), findingLines(r.full, size.Width)); size.Width > 0 && text != r.text.Text {
		r.text.SetText(text)
	}
}

func (l findingLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(240, l.r.names.MinSize().Height)
}

// line is what the list says of a finding.
func (f *finding) line(show unit.Show) string {
	if f.Text == "" {
		return show.Text(f.title)
	}
	return show.Text(f.Text)
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
	r.full = f.line(r.show())
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
