package ui

import (
	"fmt"
	"image/color"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/unit"
	"loomwright/schematic"
)

// stairs is the drawing of the ladder. What is left of the voltage is pale,
// what a piece loses or uses is a strong block on top of it.
type stairs struct {
	widget.BaseWidget
	ed      *Editor
	chain   *chain
	plan    stairPlan
	losses  bool                   // loads are cut short so that the losses fill the height
	apart   bool                   // small drops are steps of their own
	opened  map[schematic.Key]bool // joined steps that were opened, by their first
	resized func()                 // called when the least size has changed
	box     *fyne.Container
	at      int // tread under the pointer, -1 for none
	high    *canvas.Rectangle
}

var (
	_ desktop.Hoverable  = (*stairs)(nil)
	_ desktop.Cursorable = (*stairs)(nil)
	_ fyne.Tappable      = (*stairs)(nil)
)

func newStairs(ed *Editor) *stairs {
	s := &stairs{ed: ed, box: container.NewWithoutLayout(), at: -1, opened: map[schematic.Key]bool{}, resized: func() {}}
	s.high = canvas.NewRectangle(color.Transparent)
	s.ExtendBaseWidget(s)
	return s
}

func (s *stairs) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.box) }

// MinSize leaves the width open as long as small drops are joined: they are
// joined until the whole staircase fits.
func (s *stairs) MinSize() fyne.Size {
	least := fyne.NewSize(320, 2*spanHeight+4*captionLine)
	if s.chain != nil && (s.apart || len(s.opened) > 0) {
		least.Width = max(least.Width, s.plan.width())
	}
	return least
}

func (s *stairs) Resize(size fyne.Size) {
	if size != s.Size() {
		s.BaseWidget.Resize(size)
		s.lay()
	}
}

// show draws another circuit, or the same one computed anew.
func (s *stairs) show(c *chain) {
	if c == nil || s.chain == nil || c.title != s.chain.title {
		s.opened = map[schematic.Key]bool{}
	}
	s.chain = c
	s.relay()
}

// relay lays the staircase out for other choices, which may need other room.
func (s *stairs) relay() {
	s.lay()
	s.resized()
}

// top and bottom are where the first and the last volt lie.
func (s *stairs) top() float32    { return spanHeight + 5 }
func (s *stairs) bottom() float32 { return s.Size().Height - spanHeight - 5 }

// lay draws the staircase anew.
func (s *stairs) lay() {
	s.box.Objects = nil
	s.at = -1
	s.plan = stairPlan{}
	if s.chain == nil || len(s.chain.steps) == 0 || s.bottom() <= s.top() {
		s.box.Refresh()
		return
	}
	s.plan = planStairs(s.chain.steps, s.Size().Width, s.bottom()-s.top(), !s.apart, s.opened, s.losses)
	s.high = canvas.NewRectangle(color.Transparent)
	s.high.CornerRadius = 3
	s.box.Add(s.high)
	first, last := s.chain.steps[0], s.chain.steps[len(s.chain.steps)-1]
	s.grid(first, last)
	y := s.top()
	var captions []func()
	for _, t := range s.plan.treads {
		y0 := y
		for i, st := range s.chain.steps[t.first : t.first+t.n] {
			w := t.w / float32(t.n)
			y = s.block(t.x+float32(i)*w, y, w, st, t.first+i == s.plan.worst)
		}
		y1 := y
		captions = append(captions, func() { s.caption(t, y0, y1) })
	}
	for _, c := range captions { // above every block
		c()
	}
	for _, l := range s.plan.lossStretches() {
		s.span(l, 1, theme.Color(theme.ColorNameForeground))
	}
	for _, l := range s.plan.ampStretches() {
		s.span(l, s.Size().Height-spanHeight, theme.Color(colorFaint))
	}
	s.box.Refresh()
	s.Refresh()
}

// grid draws the scale: the source's volts, the ground line and round volts
// between them.
func (s *stairs) grid(first, last step) {
	end := s.plan.treads[len(s.plan.treads)-1]
	right := end.x + end.w
	top, bottom := s.top(), s.bottom()
	ink, faint := theme.Color(theme.ColorNameForeground), theme.Color(colorFaint)
	s.axisLabel(first.from, first.known, top, ink, true)
	if math.IsInf(s.plan.loadCut, 1) && first.known && last.known && first.from > last.to && s.falls() {
		by := roundStep(26 / s.plan.perVolt)
		for v := math.Floor(last.to/by) * by; by > 0; v += by {
			y := bottom - float32((v-last.to)*s.plan.perVolt)
			if y < top+12 {
				break
			}
			if y > bottom-12 {
				continue
			}
			s.line(axisWidth, y, right, y, 1, theme.Color(theme.ColorNameSeparator))
			s.axisLabel(v, true, y, faint, false)
		}
	}
	s.line(axisWidth, bottom, right, bottom, 1, faint)
	if first.from != last.to || !last.known {
		s.axisLabel(last.to, last.known, bottom, ink, true)
	}
}

// falls reports whether every step leads down, so that one scale holds.
func (s *stairs) falls() bool {
	for _, st := range s.chain.steps {
		if !st.known || st.drop() < -1e-6 {
			return false
		}
	}
	return true
}

// roundStep returns the first of 1, 2, 5, 10 … that is not less than v.
func roundStep(v float64) float64 {
	if !(v > 0) || math.IsInf(v, 1) {
		return 0
	}
	ten := math.Pow(10, math.Floor(math.Log10(v)))
	for _, k := range []float64{1, 2, 5} {
		if k*ten >= v*(1-1e-9) {
			return k * ten
		}
	}
	return 10 * ten
}

// block draws one step and returns where the next one begins.
func (s *stairs) block(x, y, w float32, st step, worst bool) float32 {
	fall, cutShort := s.plan.fall(st)
	bottom := s.bottom()
	tone := theme.Color(colorStep)
	if rest := bottom - y - fall; rest > 0 {
		left := canvas.NewVerticalGradient(faded(tone, 0x50), faded(tone, 0x1c))
		place(left, fyne.NewPos(x, y+fall), fyne.NewSize(w, rest))
		s.box.Add(left)
	}
	lost := canvas.NewRectangle(s.fill(st, worst))
	place(lost, fyne.NewPos(x, y), fyne.NewSize(w, max(fall, leastStep)))
	s.box.Add(lost)
	if cutShort {
		for _, dy := range []float32{-3, 3} {
			at := y + fall - 9 + dy
			s.line(x, at+3, x+w, at-3, 2, theme.Color(colorChrome))
		}
	}
	return y + fall
}

func (s *stairs) fill(st step, worst bool) color.Color {
	switch {
	case st.open:
		return theme.Color(theme.ColorNameWarning)
	case st.load:
		return theme.Color(theme.ColorNamePrimary)
	case worst:
		return theme.Color(colorStepBig)
	}
	return theme.Color(colorStep)
}

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

func (s *stairs) line(x0, y0, x1, y1, width float32, c color.Color) {
	l := canvas.NewLine(c)
	l.StrokeWidth = width
	l.Position1, l.Position2 = fyne.NewPos(x0, y0), fyne.NewPos(x1, y1)
	s.box.Add(l)
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

func (s *stairs) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }
func (s *stairs) MouseMoved(e *desktop.MouseEvent) {
	s.point(s.plan.at(e.Position.X), e.AbsolutePosition)
}
func (s *stairs) MouseOut() { s.point(-1, fyne.Position{}) }

// point lights up a tread here and its item on the drawing.
func (s *stairs) point(i int, abs fyne.Position) {
	if i == s.at {
		return
	}
	s.at = i
	s.ed.tips.hide()
	if i < 0 {
		s.high.FillColor = color.Transparent
		s.ed.pointAt(schematic.Key{})
	} else {
		t := s.plan.treads[i]
		s.high.FillColor = theme.Color(theme.ColorNameHover)
		place(s.high, fyne.NewPos(t.x, 0), fyne.NewSize(t.w, s.Size().Height))
		s.ed.pointAt(s.plan.steps[t.first].key)
		s.ed.tips.plan(s.tip(t), abs)
	}
	s.high.Refresh()
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

func (s *stairs) Cursor() desktop.Cursor {
	if s.at >= 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// Tapped jumps to the item of a step, or opens joined ones.
func (s *stairs) Tapped(e *fyne.PointEvent) {
	i := s.plan.at(e.Position.X)
	if i < 0 {
		return
	}
	t := s.plan.treads[i]
	if t.n > 1 {
		s.ed.tips.hide()
		s.opened[s.plan.steps[t.first].key] = true
		s.relay()
		return
	}
	s.ed.jump(s.plan.steps[t.first].key)
}

// volts prints a voltage; what no meter on a vehicle shows is zero.
func volts(v float64) string {
	if math.Abs(v) < 5e-5 {
		return "0 V"
	}
	return unit.Format(unit.Volt, v, unit.SI)
}
