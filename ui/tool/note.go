package tool

import (
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// noteIdle waits for the corner of a note.
type noteIdle struct{}

func (noteIdle) Name() string { return "note.idle" }
func (noteIdle) Hint() string { return "Click to write here, or drag to draw a frame. Esc ends." }

func (s noteIdle) Handle(e Event, env Env) (State, []Effect) {
	switch e := e.(type) {
	case Press:
		return noteSizing{from: snapped(e.At, e.Mods), press: e.Pixels}, nil
	case Cancel:
		return s, []Effect{Done{}}
	}
	return s, nil
}

// noteSizing draws the frame.
type noteSizing struct {
	from  geom.Point
	press draw.Point
}

func (noteSizing) Name() string { return "note.sizing" }
func (noteSizing) Hint() string { return "Let go for the other corner of the frame. Esc cancels." }

func (s noteSizing) Handle(e Event, env Env) (State, []Effect) {
	hide := Band{Area: geom.EmptyRect()}
	switch e := e.(type) {
	case Move:
		if !far(s.press, e.Pixels, env) {
			return s, []Effect{hide}
		}
		return s, []Effect{Band{Area: geom.RectOf(s.from, snapped(e.At, e.Mods))}}
	case Release:
		at, w, h, text, label := s.from, 0, 0, "Note", "write a note"
		if area := geom.RectOf(s.from, snapped(e.At, e.Mods)); far(s.press, e.Pixels, env) && area.Width() > 0 && area.Height() > 0 {
			at, w, h, text, label = area.Min, area.Width(), area.Height(), "Frame", "draw a frame"
		}
		sheet := env.Sheet()
		return noteIdle{}, []Effect{hide, Commit{label, func(tx *edit.Tx) error {
			return edit.AddNote(tx, sheet, at, w, h, text)
		}}, Inspect{}, Done{}}
	case Cancel:
		return noteIdle{}, []Effect{hide}
	}
	return s, nil
}

func snapped(p geom.Point, mods Mods) geom.Point {
	if mods&ModFree != 0 {
		return p
	}
	return p.Snap(geom.Grid)
}
