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
	var base schematic.Shape
	line := 0
	f.pad.begin = func() bool {
		switch f.inFront() {
		case f.strokes:
			_, ok := f.draft.Stroke(f.strokes.row)
			return ok
		case f.pins:
			return f.draft.Form() == "" && f.pins.row < f.draft.Pins().Len()
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
	shown := f.draft.Shown()
	all := f.draft.Kind()
	inHand := f.pins.row < len(all.Pins) && f.inFront() == f.pins
	if inHand && len(all.Sections) > 1 && shown.Role == "" {
		shown = draft.Picture{Piece: all.Pins[f.pins.row].Section}
	}
	var points []geom.Point
	switch {
	case f.inFront() == f.strokes:
		if s, ok := f.draft.Stroke(f.strokes.row); ok {
			points = s.Points
		}
	case inHand && f.draft.Form() == "":
		points = []geom.Point{all.Pins[f.pins.row].At}
	}
	if f.inFront() == f.pins && shown.Role != "" {
		shown = f.draft.Pictures()[0] // pins stand in the symbol
	}
	k := f.draft.Preview(shown)
	k.Name, k.ID, k.OtherHalf = previewKind, schematic.ID{}, ""
	f.pad.show(f.ed.doc().Library(), k, points)
}

// previewKind is a name no kind of a user can have.
const previewKind = "\x00preview"
