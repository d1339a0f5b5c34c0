package ui

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// word writes a word on a ground of its own, below another that is in its way.
func (o *overlay) word(at fyne.Position, text string, c color.Color) {
	t := o.words.next(o)
	t.Text, t.Color, t.TextSize = text, c, theme.Size(theme.SizeNameCaptionText)
	size := fyne.MeasureText(text, t.TextSize, t.TextStyle)
	back := o.rects.next(o)
	back.FillColor, back.StrokeColor, back.StrokeWidth = theme.Color(theme.ColorNameInputBackground), c, 1
	ground := size.AddWidthHeight(8, 2)
	for range mostShifted {
		i := slices.IndexFunc(o.written, func(b wordBox) bool { return b.meets(wordBox{at, ground}) })
		if i < 0 {
			break
		}
		at.Y = o.written[i].at.Y + o.written[i].size.Height + 1
	}
	o.written = append(o.written, wordBox{at, ground})
	place(back, at, ground)
	place(t, at.AddXY(4, 1), size)
}

// mostShifted is how often a word is moved out of the way of another: in a
// crowd, one far from its mark would say nothing.
const mostShifted = 4

// wordBox is where a word stands.
type wordBox struct {
	at   fyne.Position
	size fyne.Size
}

func (a wordBox) meets(b wordBox) bool {
	return a.at.X < b.at.X+b.size.Width && b.at.X < a.at.X+a.size.Width && a.at.Y < b.at.Y+b.size.Height && b.at.Y < a.at.Y+a.size.Height
}
