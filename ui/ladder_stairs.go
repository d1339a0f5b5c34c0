package ui

import (
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

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

func (s *stairs) line(x0, y0, x1, y1, width float32, c color.Color) {
	l := canvas.NewLine(c)
	l.StrokeWidth = width
	l.Position1, l.Position2 = fyne.NewPos(x0, y0), fyne.NewPos(x1, y1)
	s.box.Add(l)
}
