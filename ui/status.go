package ui

import (
	"fmt"
	"math"
	"strconv"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/ui/tool"
	"loomwright/ui/view"
)

// statusLine says what the tool expects next and where things stand. It is
// drawn with bare texts: it changes with every move of the pointer, and must
// never lay the window out anew.
type statusLine struct {
	ed    *Editor
	hint  cell
	near  cell
	place cell
	zoom  cell
	pick  cell
	found cell
	saved cell
	box   fyne.CanvasObject

	hinted string    // the hint shown last
	until  time.Time // how long a notice stands in its place
}

// noticeTime is how long a notice stays when nothing else is to be said.
const noticeTime = 8 * time.Second

func newStatusLine(ed *Editor) *statusLine {
	s := &statusLine{ed: ed}
	s.hint.width, s.near.width, s.pick.width, s.place.width = 0, 210, 170, 120
	s.zoom.width, s.found.width, s.saved.width = 90, 220, 74
	row := statusLayout{&s.hint, &s.near, &s.pick, &s.place, &s.zoom, &s.found, &s.saved}
	var texts []fyne.CanvasObject
	for _, c := range row {
		c.text = canvas.NewText("", theme.Color(theme.ColorNameForeground))
		c.text.TextSize = theme.Size(theme.SizeNameCaptionText) + 1
		texts = append(texts, c.text)
	}
	cells := container.New(row, texts...)
	for _, c := range []*cell{&s.near, &s.place, &s.zoom} {
		c.text.Color = theme.Color(colorFaint)
	}
	s.box = container.NewStack(newGround(colorChrome), container.New(padded{8, 4}, cells))
	s.refresh()
	return s
}

func (s *statusLine) object() fyne.CanvasObject { return s.box }

// cell is one text of the line; what does not fit is cut with an ellipsis.
type cell struct {
	text  *canvas.Text
	width float32 // 0 takes what the others leave
	full  string
}

func (c *cell) say(text string) { c.sayIn(text, "") }

// sayIn shows a text in a colour of the theme; "" keeps the colour.
func (c *cell) sayIn(text string, name fyne.ThemeColorName) {
	if name != "" {
		c.text.Color = theme.Color(name)
	} else if c.full == text {
		return
	}
	c.full = text
	c.fit()
}

func (c *cell) fit() {
	c.text.Text = cut(c.full, c.text.Size().Width-8, c.text.TextSize, c.text.TextStyle)
	c.text.Refresh()
}

// cut shortens a text to a width.
func cut(s string, width, size float32, style fyne.TextStyle) string {
	if width <= 0 || fyne.MeasureText(s, size, style).Width <= width {
		return s
	}
	runes := []rune(s)
	lo, hi := 0, len(runes)
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if fyne.MeasureText(string(runes[:mid])+"…", size, style).Width <= width {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return string(runes[:lo]) + "…"
}

// refresh shows everything anew.
func (s *statusLine) refresh() {
	s.showHint()
	s.showZoom()
	s.showFindings()
	s.showPick()
	if s.ed.sess.Modified() {
		s.saved.say("not saved")
	} else {
		s.saved.say("saved")
	}
}

// showPick says what is selected, and when it lies where no paper is.
func (s *statusLine) showPick() {
	sel := s.ed.sess.Selection()
	text, c := "", theme.ColorNameForeground
	switch len(sel) {
	case 0:
		text = "nothing selected"
	case 1:
		text = schematic.Describe(s.ed.doc().Get(sel[0]))
	default:
		text = schematic.Tally(sel)
	}
	switch n := s.ed.elsewhere(sel); {
	case n == 0:
	case n == len(sel):
		text += ", on another sheet"
	default:
		text += ", " + strconv.Itoa(n) + " on other sheets"
	}
	if s.ed.offSheet() {
		text, c = text+", off the sheet", theme.ColorNameWarning
	}
	s.pick.sayIn(text, c)
}

// offSheet reports whether something selected lies beyond the edge of the sheet
// in sight.
func (ed *Editor) offSheet() bool {
	sheet := ed.doc().Sheet(ed.sheet)
	area := view.Bounds(ed.doc(), ed.sess.Selection(), ed.sheet)
	return sheet != nil && !area.Empty() && area.Union(sheet.Area()) != sheet.Area()
}

// showHint says what the tool expects next, or what else should be known while
// it expects nothing. A notice is left standing for a while.
func (s *statusLine) showHint() {
	text, c := s.ed.tools.State().Hint(), theme.ColorNameForeground
	if keys := s.ed.keyHint(); s.ed.sheetView.byKey.on && keys != "" {
		text = keys
	} else if idle := s.ed.tools.Tool() == selectTool && !s.ed.tools.Busy(); idle {
		switch {
		case s.ed.offSheet():
			text, c = "This lies off the sheet and will not be on paper: move it back. Shift+F shows all that is drawn.", theme.ColorNameWarning
		case s.ed.study.live && s.ed.sheetView.tagsTooSmall():
			text = "Come closer to read the currents: turn the wheel, or press Plus."
		}
	}
	if text == s.hinted && s.ed.now().Before(s.until) {
		return
	}
	s.hinted, s.until = text, time.Time{}
	s.hint.sayIn(text, c)
}

// warn shows what stands in the way, in place of the hint.
func (s *statusLine) warn(text string) { s.notice(text, theme.ColorNameError) }

// tell shows what has just been done, in place of the hint.
func (s *statusLine) tell(text string) { s.notice(text, theme.ColorNameSuccess) }

// forget takes a notice away before its time.
func (s *statusLine) forget() {
	s.until = time.Time{}
	s.showHint()
}

func (s *statusLine) notice(text string, c fyne.ThemeColorName) {
	s.until = s.ed.now().Add(noticeTime)
	s.hint.sayIn(text, c)
}

// showPointer shows where on the sheet the pointer is; nil for nowhere.
func (s *statusLine) showPointer(p *geom.Point) {
	if p == nil {
		s.place.say("")
		s.near.say("")
		return
	}
	x, y := p.MM()
	s.place.say(fmt.Sprintf("%.1f, %.1f mm", x, y))
}

// showNear names the thing under the pointer.
func (s *statusLine) showNear(h tool.Hit) {
	if !h.Ok {
		s.near.say("")
		return
	}
	text := schematic.Describe(s.ed.doc().Get(h.Key))
	if p := s.ed.doc().Part(h.Key.ID); p != nil && h.Pin != "" {
		text = p.Name + " pin " + h.Pin
		if pin, ok := s.ed.doc().PinOf(p, h.Pin); ok && pin.Title != "" {
			text += " (" + pin.Title + ")"
		}
	}
	if p := s.ed.doc().Part(h.Key.ID); p != nil {
		if on := s.ed.otherSheets(p); on != "" {
			text += ", also on " + on
		}
	}
	if w := s.ed.doc().Wire(h.Key.ID); w != nil {
		if amps := s.ed.wireAmps(w.ID); amps != "" {
			text += ", " + amps
		}
	}
	s.near.say(text)
}

// showZoom shows the scale: 100 % is paper at its own size.
func (s *statusLine) showZoom() {
	v := s.ed.sheetView
	if s.ed.prog.frames {
		s.zoom.say(fmt.Sprintf("%.1f ms", float64(v.took.Microseconds())/1000))
		return
	}
	s.zoom.say(fmt.Sprintf("zoom %.0f %%", math.Round(100*v.cam.PxPerMM/v.lifeSize())))
}

// showFindings counts what the checks found.
func (s *statusLine) showFindings() {
	text, trouble := s.ed.findingCounts()
	c := theme.ColorNameForeground
	if trouble {
		c = theme.ColorNameError
	}
	s.found.sayIn(text, c)
}

// hintWide is the room that most hints take, and mostNear what the name of what
// lies under the pointer gets of more than that.
const (
	hintWide = 640
	mostNear = 170
)

// leastHint is the room the hint gets before other cells are left out.
const leastHint = 420

// statusLayout lays the cells out in a row.
type statusLayout []*cell

func (l statusLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	rest := size.Width
	for _, c := range l {
		rest -= c.width
	}
	// In a narrow window the hint goes before what can also be seen elsewhere.
	left := map[*cell]bool{}
	for i := 1; i < len(l)-2 && rest < leastHint; i++ {
		left[l[i]] = true
		rest += l[i].width
	}
	// Where there is room to spare, what lies under the pointer gets of it.
	more := min(mostNear, max(0, rest-hintWide))
	rest -= more
	x := float32(0)
	for i, c := range l {
		show(c.text, !left[c])
		w := c.width
		if i == 1 {
			w += more
		}
		if left[c] {
			continue
		}
		if w == 0 {
			w = max(0, rest)
		}
		c.text.Move(fyne.NewPos(x, 0))
		c.text.Resize(fyne.NewSize(w, size.Height))
		c.fit()
		x += w
	}
}

func (l statusLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	h := float32(0)
	for _, c := range l {
		h = max(h, fyne.MeasureText("Ag", c.text.TextSize, c.text.TextStyle).Height)
	}
	return fyne.NewSize(320, h)
}
