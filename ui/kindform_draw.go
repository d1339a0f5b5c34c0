package ui

import (
	"loomwright/schematic"
	"loomwright/schematic/draft"
	"loomwright/schematic/geom"
)

// drawing lets strokes and pins be drawn in the picture.
func (f *kindForm) drawing() {
	for _, g := range f.grids {
		g.picked = f.showHand
	}
	f.pins.picked = f.pinPicked
	var base schematic.Shape
	line := 0
	f.pad.begin = func() bool {
		switch f.inFront() {
		case f.strokes:
			_, ok := f.draft.Stroke(f.strokes.row)
			return ok
		case f.pins:
			return f.pinInSight()
		}
		return false
	}
	f.pad.drag = func(from, to geom.Point) {
		if f.inFront() == f.pins {
			moved, err := f.draft.DragPin(f.pins.row, from, to)
			f.complain(err)
			f.pad.from = to // the pin is there now
			if err == nil {
				f.pad.from = to.Snap(geom.Grid)
				f.pins.move(moved-f.pins.row, 0, false)
			}
			f.changed()
			return
		}
		if base.Type == "" {
			line = f.strokes.row
			base, _ = f.draft.Stroke(line)
		}
		f.complain(f.draft.SetStroke(line, draft.Dragged(base, from, to, line == f.fresh)))
		f.changed()
	}
	f.pad.end = func() {
		base, f.fresh = schematic.Shape{}, -1
		f.changed()
	}
}

// pinInSight reports whether the pin in hand stands in the picture, where its
// place is its own.
func (f *kindForm) pinInSight() bool {
	pins, at := f.draft.Kind().Pins, f.draft.Shown()
	return f.draft.Form() == "" && at.Role == "" && f.pins.row < len(pins) && pins[f.pins.row].Section == at.Piece
}

// pinPicked shows the piece in which the pin taken in hand stands.
func (f *kindForm) pinPicked() {
	k := f.draft.Kind()
	if len(k.Sections) > 1 && f.pins.row < len(k.Pins) {
		f.show(draft.Picture{Piece: k.Pins[f.pins.row].Section})
		return
	}
	f.showHand()
}

// inFront is the list in sight, nil for a page without one.
func (f *kindForm) inFront() *grid {
	switch f.tabs.SelectedIndex() {
	case 1:
		return f.pins
	case 2:
		return f.strokes
	}
	return nil
}

// showHand shows the picture in hand with the points of what is in hand.
func (f *kindForm) showHand() {
	if !f.draft.Drawable() {
		return
	}
	var points []geom.Point
	switch {
	case f.inFront() == f.strokes:
		if s, ok := f.draft.Stroke(f.strokes.row); ok {
			points = s.Points
		}
	case f.inFront() == f.pins && f.pinInSight():
		points = []geom.Point{f.draft.Kind().Pins[f.pins.row].At}
	}
	k := f.draft.Preview(f.draft.Shown())
	k.Name, k.ID, k.OtherHalf = previewKind, schematic.ID{}, ""
	f.pad.show(f.ed.doc().Library(), k, points)
}

// previewKind is a name no kind of a user can have.
const previewKind = "\x00preview"
