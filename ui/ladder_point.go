package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"

	"loomwright/schematic"
)

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
