package ui

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"loomwright/calc/unit"
)

// words is a line of a caption. Keep says which lines stay when room is short.
type words struct {
	text string
	bold bool
	ink  fyne.ThemeColorName
	keep int
}

// caption names a tread and its drop: in its block, else below, else above.
func (s *stairs) caption(t tread, y0, y1 float32) {
	st := s.plan.sum(t)
	worst := t.n == 1 && t.first == s.plan.worst
	lines := []words{
		{st.name, true, theme.ColorNameForeground, 0},
		{s.ed.shows().Text(st.what), false, colorFaint, 2},
		{dropText(st), false, theme.ColorNameForeground, 1},
	}
	if t.n > 1 {
		lines[0] = words{fmt.Sprintf("%d pieces", t.n), false, colorFaint, 0}
		lines[1] = words{s.namesOf(t), false, colorFaint, 2}
	}
	inside := theme.ColorNameForeground
	switch {
	case st.open:
		inside = theme.ColorNameForegroundOnWarning
	case st.load:
		inside = theme.ColorNameForegroundOnPrimary
		lines[2].text = s.share(st)
		lines[2].bold = true
	case worst:
		inside = theme.ColorNameForegroundOnError
		lines[2].ink, lines[2].bold = theme.ColorNameError, true
	}
	const air = 2
	block := y1 - y0 - 2*air
	if st.load && st.drop() > s.plan.loadCut {
		block -= 14 // the marks of the cut lie there
	}
	rooms := [3]float32{block, s.bottom() - y1 - 2*air, y0 - s.top() - 2*air}
	where := 0
	if !(st.load || worst || st.open) || rooms[0] < 2*captionLine {
		where = 1
		if rooms[2] > rooms[1] {
			where = 2
		}
	}
	n := min(len(lines), int(rooms[where]/captionLine))
	var shown []words
	for _, l := range lines {
		if l.keep < n && l.text != "" {
			shown = append(shown, l)
		}
	}
	high := float32(len(shown)) * captionLine
	y := [3]float32{y0 + air + (block-high)/2, y1 + air, y0 - air - high}[where]
	for _, l := range shown {
		ink := l.ink
		if where == 0 {
			ink = inside
		}
		text := canvas.NewText("", theme.Color(ink))
		text.TextStyle.Bold = l.bold
		text.TextSize = theme.CaptionTextSize()
		text.Text = cut(l.text, t.w-4, text.TextSize, text.TextStyle)
		text.Move(fyne.NewPos(t.x+(t.w-text.MinSize().Width)/2, y))
		s.box.Add(text)
		y += captionLine
	}
}

// namesOf lists the pieces of a joined tread.
func (s *stairs) namesOf(t tread) string {
	var names []string
	for _, st := range s.plan.steps[t.first : t.first+t.n] {
		names = append(names, st.name)
	}
	return strings.Join(names, ", ")
}

// share says how much of the source's voltage a load gets.
func (s *stairs) share(st step) string {
	first, last := s.plan.steps[0], s.plan.steps[len(s.plan.steps)-1]
	all := first.from - last.to
	if !first.known || !last.known || all <= 0 || st.open || !st.known {
		return dropText(st)
	}
	return fmt.Sprintf("%s, %.0f %%", volts(st.drop()), 100*st.drop()/all)
}

// span draws a dimension line with the longest of its texts that fits.
func (s *stairs) span(l stretch, y float32, ink color.Color) {
	mid := y + spanHeight/2
	rule := theme.Color(theme.ColorNameInputBorder)
	from, to := l.from+1, l.to-1
	for _, x := range []float32{from, to} {
		s.line(x, mid-3, x, mid+3, 1, rule)
	}
	var fits *canvas.Text
	for _, text := range l.text {
		t := canvas.NewText(text, ink)
		t.TextSize = theme.CaptionTextSize()
		if t.MinSize().Width <= to-from-10 {
			fits = t
			break
		}
	}
	if fits == nil {
		s.line(from, mid, to, mid, 1, rule)
		return
	}
	size := fits.MinSize()
	x := (from + to - size.Width) / 2
	s.line(from, mid, x-3, mid, 1, rule)
	s.line(x+size.Width+3, mid, to, mid, 1, rule)
	fits.Move(fyne.NewPos(x, mid-size.Height/2))
	s.box.Add(fits)
}

func (s *stairs) axisLabel(v float64, known bool, y float32, c color.Color, bold bool) {
	text := "?"
	if known {
		text = volts(v)
	}
	t := canvas.NewText(text, c)
	t.TextSize = theme.CaptionTextSize()
	t.TextStyle.Bold = bold
	t.Move(fyne.NewPos(axisWidth-6-t.MinSize().Width, y-t.MinSize().Height/2))
	s.box.Add(t)
}

// tip says all about a tread.
func (s *stairs) tip(t tread) string {
	var lines []string
	steps := s.plan.steps[t.first : t.first+t.n]
	for i, st := range steps {
		if i == 12 && len(steps) > 14 {
			lines = append(lines, fmt.Sprintf("and %d more", len(steps)-i))
			break
		}
		text := st.name + ": " + s.ed.shows().Text(st.what)
		if t.n == 1 {
			text += "\n"
		} else {
			text += "; "
		}
		if st.known {
			text += fmt.Sprintf("from %s to %s: %s, %s", volts(st.from), volts(st.to), dropText(st), ampText(st))
		} else {
			text += dropText(st)
		}
		lines = append(lines, text)
	}
	if t.n > 1 {
		lines = append(lines, "Press to see them one by one.")
	}
	return strings.Join(lines, "\n")
}

func dropText(st step) string {
	switch {
	case st.open && !st.known:
		return "open"
	case !st.known:
		return "not known"
	case st.open:
		return "open, " + volts(st.drop())
	}
	return volts(st.drop())
}

func ampText(st step) string {
	if math.IsNaN(st.amp) || st.amp < leastShown {
		return "no current"
	}
	return unit.Format(unit.Amp, st.amp, unit.SI)
}

// volts prints a voltage; what no meter on a vehicle shows is zero.
func volts(v float64) string {
	if math.Abs(v) < 5e-5 {
		return "0 V"
	}
	return unit.Format(unit.Volt, v, unit.SI)
}
