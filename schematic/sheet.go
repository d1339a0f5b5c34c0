package schematic

import "loomwright/schematic/geom"

// Sheet is one page of the drawing.
type Sheet struct {
	ID     ID     `json:"id"`
	Name   string `json:"name"`
	Order  int    `json:"order"`            // position among the tabs, ascending
	Width  int    `json:"width,omitempty"`  // 0.1 mm; zero is A3 landscape
	Height int    `json:"height,omitempty"` // 0.1 mm
	Notes  string `json:"notes,omitempty"`
	Extra  Extra  `json:"-"`
}

func (s *Sheet) Key() Key { return Key{TypeSheet, s.ID} }
func (*Sheet) item()      {}

// Area returns the sheet from 0,0 in units. ISO 216 A3 (420 × 297 mm) stands
// in for a missing size.
func (s *Sheet) Area() geom.Rect {
	w, h := s.Width, s.Height
	if w <= 0 || h <= 0 {
		w, h = 4200, 2970
	}
	return geom.Rect{Max: geom.Pt(w, h)}
}

// Note is free text on a sheet, or a named frame round a group of parts.
type Note struct {
	ID     ID         `json:"id"`
	Sheet  ID         `json:"sheet"`
	At     geom.Point `json:"at"`               // top left
	Width  int        `json:"width,omitempty"`  // 0.1 mm; with Height draws a frame
	Height int        `json:"height,omitempty"` // 0.1 mm
	Text   string     `json:"text"`
	Size   int        `json:"size,omitempty"`   // text height in 0.1 mm; zero is 25
	Locked bool       `json:"locked,omitempty"` // held in place until it is unlocked
	Extra  Extra      `json:"-"`
}

func (n *Note) Key() Key { return Key{TypeNote, n.ID} }
func (*Note) item()      {}

// TextSize returns the em size in 0.1 mm.
func (n *Note) TextSize() int {
	if n.Size <= 0 {
		return 25
	}
	return n.Size
}
