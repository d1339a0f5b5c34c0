package ui

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
)

// word writes a word on a ground of its own, below another that is in its way.
func (o *overlay) word(at fyne.Position, text string, c color.Color) {
	box, _ := o.room(at, text)
	o.write(box, text, c)
}

// wordIfRoom is word for one of many, which is left out where it would lie
// across another.
func (o *overlay) wordIfRoom(at fyne.Position, text string, c color.Color) {
	if box, free := o.room(at, text); free {
		o.write(box, text, c)
	}
}

// room looks for a place for a word, and says whether it is free.
func (o *overlay) room(at fyne.Position, text string) (b wordBox, free bool) {
	b = wordBox{at, fyne.MeasureText(text, theme.Size(theme.SizeNameCaptionText), fyne.TextStyle{}).AddWidthHeight(8, 2)}
	for range mostShifted {
		i := slices.IndexFunc(o.written, b.meets)
		if i < 0 {
			return b, true
		}
		b.at.Y = o.written[i].at.Y + o.written[i].size.Height + 1
	}
	return b, !slices.ContainsFunc(o.written, b.meets)
}

func (o *overlay) write(b wordBox, text string, c color.Color) {
	t := o.words.next(o)
	t.Text, t.Color, t.TextSize = text, c, theme.Size(theme.SizeNameCaptionText)
	back := o.rects.next(o)
	back.FillColor, back.StrokeColor, back.StrokeWidth = theme.Color(theme.ColorNameInputBackground), c, 1
	o.written = append(o.written, b)
	place(back, b.at, b.size)
	place(t, b.at.AddXY(4, 1), b.size.SubtractWidthHeight(8, 2))
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
