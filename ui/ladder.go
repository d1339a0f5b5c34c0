package ui

import (
	"fmt"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/unit"
	"loomwright/schematic"
)

// ladderPanel shows the drop ladder: for the traced circuit, a staircase from
// the source voltage through every fuse, contact, wire and load back to zero,
// each step as high as its volts.
type ladderPanel struct {
	ed     *Editor
	title  *widget.Label
	notes  *widget.Label
	losses *ticked
	stop   *button
	stairs *stairs
	box    fyne.CanvasObject
}

func newLadderPanel(ed *Editor) *ladderPanel {
	l := &ladderPanel{ed: ed, title: widget.NewLabel(""), notes: widget.NewLabel(""), stairs: newStairs(ed)}
	l.title.TextStyle.Bold = true
	l.notes.Importance = widget.WarningImportance
	l.losses = newTicked(ed.typedKey, "Enlarge the losses", func(on bool) {
		l.stairs.losses = on
		l.stairs.lay()
	})
	l.stop = newButton(ed.tips, "End trace", "clear", "Take the light off the traced circuit", func() { ed.run(ed.actions.Find("check.untrace")) })
	l.title.Truncation, l.notes.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	head := container.New(columns{260, 0}, l.title, l.notes)
	l.box = container.NewBorder(container.NewBorder(nil, nil, nil, container.NewHBox(l.losses, l.stop), head), nil, nil, nil,
		container.NewHScroll(l.stairs))
	l.refresh()
	return l
}

func (l *ladderPanel) refresh() {
	c := l.ed.study.chain
	notes := ""
	switch {
	case c == nil && l.ed.study.mark.Ok:
		l.title.SetText("Nothing to show")
		notes = "Computing…"
		if sol := l.ed.study.solution(); sol != nil && sol.Err != nil {
			notes = "This state could not be computed: " + sol.Err.Error()
		}
	case c == nil:
		l.title.SetText("No circuit traced")
		notes = "Take the tool Trace circuit and press a wire, pin or part; or select one and press Shift+T."
	default:
		title := c.title
		if st := l.ed.doc().State(l.ed.study.state); st != nil {
			title += ", state " + st.Name
		}
		l.title.SetText(title)
		for _, n := range c.notes {
			notes += n + " "
		}
	}
	l.notes.Importance = widget.WarningImportance
	if c == nil && !l.ed.study.mark.Ok {
		l.notes.Importance = widget.LowImportance
	}
	l.notes.SetText(notes)
	l.stop.enable(l.ed.study.mark.Ok)
	l.stairs.chain = c
	l.stairs.lay()
}

// Sizes of the staircase in window points.
const (
	stepWidth  = 100
	axisWidth  = 58
	stairTop   = 10
	captionTop = 4
	captionH   = 60 // name, what it is, drop, current
	scrollRoom = 8  // the scroll bar lies over it
	leastStep  = 1.5
)

// stairs is the drawing of the ladder.
type stairs struct {
	widget.BaseWidget
	ed     *Editor
	chain  *chain
	losses bool // loads are cut short so that the losses fill the height
	box    *fyne.Container
	at     int // step under the pointer, -1 for none
	high   *canvas.Rectangle
}

var (
	_ desktop.Hoverable  = (*stairs)(nil)
	_ desktop.Cursorable = (*stairs)(nil)
	_ fyne.Tappable      = (*stairs)(nil)
)

func newStairs(ed *Editor) *stairs {
	s := &stairs{ed: ed, box: container.NewWithoutLayout(), at: -1}
	s.high = canvas.NewRectangle(color.Transparent)
	s.ExtendBaseWidget(s)
	return s
}

func (s *stairs) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(s.box) }

func (s *stairs) MinSize() fyne.Size {
	n := 0
	if s.chain != nil {
		n = len(s.chain.steps)
	}
	return fyne.NewSize(axisWidth+stepWidth*float32(n)+20, 120)
}

func (s *stairs) Resize(size fyne.Size) {
	if size != s.Size() {
		s.BaseWidget.Resize(size)
		s.lay()
	}
}

// scale returns the height of the stairs for a voltage range, and how many
// volts of each load are shown.
func (s *stairs) heights() (perVolt, loadCut float64) {
	var total, lost, load float64
	for _, st := range s.chain.steps {
		d := math.Abs(st.drop())
		if !st.known {
			continue
		}
		total += d
		if st.load {
			load = max(load, d)
		} else {
			lost += d
		}
	}
	h := float64(s.Size().Height) - stairTop - captionTop - captionH - scrollRoom
	if total <= 0 || h <= 0 {
		return 0, math.Inf(1)
	}
	if !s.losses || lost <= 0 {
		return h / total, math.Inf(1)
	}
	// A load takes a third of the height however much it uses.
	loads := 0
	for _, st := range s.chain.steps {
		if st.load && st.known {
			loads++
		}
	}
	cut := math.Inf(1)
	if loads > 0 && load > 0 {
		cut = min(load, lost/2/float64(loads))
		if total = lost + cut*float64(loads); total <= 0 {
			return 0, math.Inf(1)
		}
	}
	return h / total, cut
}

// lay draws the staircase anew.
func (s *stairs) lay() {
	s.box.Objects = nil
	s.at = -1
	if s.chain == nil || len(s.chain.steps) == 0 || s.Size().Height < 60 {
		s.box.Refresh()
		return
	}
	ink, faint := theme.Color(theme.ColorNameForeground), theme.Color(colorFaint)
	perVolt, loadCut := s.heights()
	bottom := s.Size().Height - captionH - captionTop - scrollRoom
	s.high = canvas.NewRectangle(color.Transparent)
	s.high.Resize(fyne.NewSize(stepWidth, s.Size().Height-4))
	s.high.CornerRadius = 3
	s.box.Add(s.high)
	worst := worstLoss(s.chain.steps)
	y := float32(stairTop)
	s.axisLabel(s.chain.steps[0].from, s.chain.steps[0].known, y, ink)
	for i, st := range s.chain.steps {
		x := axisWidth + float32(i)*stepWidth
		fall := float32(0)
		cutShort := false
		if st.known {
			d := math.Abs(st.drop())
			if st.load && d > loadCut {
				d, cutShort = loadCut, true
			}
			fall = float32(d * perVolt)
		}
		s.bar(x, y, fall, bottom, st, i == worst, cutShort)
		y += fall
		s.caption(x, bottom+captionTop, st, i == worst, ink, faint)
	}
	base := canvas.NewLine(faint)
	base.StrokeWidth = 1
	base.Position1, base.Position2 = fyne.NewPos(axisWidth, bottom), fyne.NewPos(axisWidth+float32(len(s.chain.steps))*stepWidth, bottom)
	s.box.Add(base)
	last := s.chain.steps[len(s.chain.steps)-1]
	if y > stairTop+16 {
		s.axisLabel(last.to, last.known, bottom, ink)
	}
	s.box.Refresh()
	s.Refresh()
}

// bar is one step: what is left of the voltage as a pale block, what is lost
// in this piece as a strong one on top of it.
func (s *stairs) bar(x, y, fall, bottom float32, st step, worst, cutShort bool) {
	fill := theme.Color(colorStep)
	switch {
	case st.open:
		fill = theme.Color(theme.ColorNameWarning)
	case st.load:
		fill = theme.Color(theme.ColorNamePrimary)
	case worst:
		fill = theme.Color(colorStepBig)
	}
	left := canvas.NewRectangle(faded(theme.Color(colorStep), 0x38))
	place(left, fyne.NewPos(x, y+fall), fyne.NewSize(stepWidth, max(0, bottom-y-fall)))
	lost := canvas.NewRectangle(fill)
	place(lost, fyne.NewPos(x, y), fyne.NewSize(stepWidth, max(fall, leastStep)))
	s.box.Add(left)
	s.box.Add(lost)
	if cutShort {
		for _, dy := range []float32{-3, 3} {
			gap := canvas.NewLine(theme.Color(colorChrome))
			gap.StrokeWidth = 2
			gap.Position1 = fyne.NewPos(x, y+fall/2+dy+4)
			gap.Position2 = fyne.NewPos(x+stepWidth, y+fall/2+dy-4)
			s.box.Add(gap)
		}
	}
	if !st.known {
		return
	}
	t := canvas.NewText(volts(st.to), theme.Color(colorFaint))
	t.TextSize = theme.CaptionTextSize()
	if room := bottom - y - fall; room > t.MinSize().Height+2 {
		t.Move(fyne.NewPos(x+stepWidth-4-t.MinSize().Width, y+fall+1))
		s.box.Add(t)
	}
}

// caption names a step and its drop.
func (s *stairs) caption(x, y float32, st step, worst bool, ink, faint color.Color) {
	lines := []struct {
		text string
		bold bool
		c    color.Color
	}{
		{st.name, true, ink},
		{st.what, false, faint},
		{s.dropText(st), false, ink},
		{s.ampText(st), false, faint},
	}
	if worst {
		lines[2].c = theme.Color(theme.ColorNameError)
		lines[2].bold = true
	}
	for _, l := range lines {
		t := canvas.NewText("", l.c)
		t.TextStyle.Bold = l.bold
		t.TextSize = theme.CaptionTextSize()
		t.Text = cut(l.text, stepWidth-8, t.TextSize, t.TextStyle)
		t.Move(fyne.NewPos(x+stepWidth/2-t.MinSize().Width/2, y))
		s.box.Add(t)
		y += captionH / 4
	}
}

func (s *stairs) dropText(st step) string {
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

func (s *stairs) ampText(st step) string {
	if math.IsNaN(st.amp) || st.amp < leastShown {
		return "no current"
	}
	return unit.Format(unit.Amp, st.amp, unit.SI)
}

func (s *stairs) axisLabel(v float64, known bool, y float32, c color.Color) {
	text := "?"
	if known {
		text = volts(v)
	}
	t := canvas.NewText(text, c)
	t.TextSize = theme.CaptionTextSize()
	t.TextStyle.Bold = true
	t.Move(fyne.NewPos(axisWidth-6-t.MinSize().Width, y-t.MinSize().Height/2))
	s.box.Add(t)
}

// worstLoss returns the step that loses most without being a load, or -1.
func worstLoss(steps []step) int {
	at, most := -1, 0.0
	for i, st := range steps {
		if st.known && !st.load && !st.open && st.drop() > most {
			at, most = i, st.drop()
		}
	}
	return at
}

func (s *stairs) stepAt(x float32) int {
	if s.chain == nil {
		return -1
	}
	i := int(math.Floor(float64(x-axisWidth) / stepWidth))
	if i < 0 || i >= len(s.chain.steps) {
		return -1
	}
	return i
}

func (s *stairs) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }
func (s *stairs) MouseMoved(e *desktop.MouseEvent) {
	s.point(s.stepAt(e.Position.X), e.AbsolutePosition)
}
func (s *stairs) MouseOut() { s.point(-1, fyne.Position{}) }

// point lights up a step here and its item on the drawing.
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
		st := s.chain.steps[i]
		s.high.FillColor = theme.Color(theme.ColorNameHover)
		s.high.Move(fyne.NewPos(axisWidth+float32(i)*stepWidth, 2))
		s.ed.pointAt(st.key)
		text := st.name + ": " + st.what
		if st.known {
			text += fmt.Sprintf("\nfrom %s to %s: %s, %s", volts(st.from), volts(st.to), s.dropText(st), s.ampText(st))
		}
		s.ed.tips.plan(text, abs)
	}
	s.high.Refresh()
}

func (s *stairs) Cursor() desktop.Cursor {
	if s.at >= 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// Tapped jumps to the item of a step.
func (s *stairs) Tapped(e *fyne.PointEvent) {
	if i := s.stepAt(e.Position.X); i >= 0 {
		s.ed.jump(s.chain.steps[i].key)
	}
}

// volts prints a voltage; what no meter on a vehicle shows is zero.
func volts(v float64) string {
	if math.Abs(v) < 5e-5 {
		return "0 V"
	}
	return unit.Format(unit.Volt, v, unit.SI)
}
