package tool

import "loomwright/schematic/draw"

// panIdle waits for a press to take hold of the sheet.
type panIdle struct{}

func (panIdle) Name() string { return "pan.idle" }
func (panIdle) Hint() string { return "Drag to push the sheet about. Esc goes back to selecting." }

func (s panIdle) Handle(e Event, _ Env) (State, []Effect) {
	switch e := e.(type) {
	case Press:
		return panDragging{e.Pixels}, nil
	case Cancel:
		return s, []Effect{Done{}}
	}
	return s, nil
}

// panDragging works in window pixels: sheet points move with the sheet.
type panDragging struct{ last draw.Point }

func (panDragging) Name() string { return "pan.dragging" }
func (panDragging) Hint() string { return "Let go to leave the sheet here." }

func (s panDragging) Handle(e Event, _ Env) (State, []Effect) {
	switch e := e.(type) {
	case Press: // the release was lost
		return panDragging{e.Pixels}, nil
	case Move:
		by := draw.Point{X: e.Pixels.X - s.last.X, Y: e.Pixels.Y - s.last.Y}
		return panDragging{e.Pixels}, []Effect{Pan{by}}
	case Release, Cancel:
		return panIdle{}, nil
	}
	return s, nil
}
