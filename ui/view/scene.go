package view

import (
	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
	"loomwright/ui/tool"
)

// Reach is how far, in window points, a pointer takes hold of a thing; DragAt
// is how far it travels before a press is a drag. Both are felt by the hand, so
// they do not change with the zoom.
const (
	Reach  = 7.0
	DragAt = 4.0
)

// Finder answers what lies where on the sheet in sight; the display list's
// index does.
type Finder interface {
	// At returns what lies within radius mm of a place, best first.
	At(p draw.Point, radiusMM float64) []tool.Hit
	// In returns the items inside (enclosed) or touching an area in mm.
	In(area draw.Box, enclosed bool) []schematic.Key
}

// Scene is one moment of a sheet in a window: what canvas tools may look at.
// It satisfies [tool.Env].
type Scene struct {
	Snapshot *schematic.Doc
	On       schematic.ID // sheet
	Chosen   []schematic.Key
	Find     Finder // nil finds nothing
	Camera   Camera
	// Scale is device pixels per window point (1 on plain screens).
	Scale float64
}

var _ tool.Env = Scene{}

func (s Scene) Doc() *schematic.Doc        { return s.Snapshot }
func (s Scene) Sheet() schematic.ID        { return s.On }
func (s Scene) Selection() []schematic.Key { return s.Chosen }
func (s Scene) DragPixels() float64        { return DragAt }

// ReachMM is Reach in millimetres of paper at the present zoom.
func (s Scene) ReachMM() float64 {
	if s.Camera.PxPerMM <= 0 {
		return 0
	}
	return Reach * max(s.Scale, 1) / s.Camera.PxPerMM
}

// Hit returns the topmost item within reach of a place.
func (s Scene) Hit(p geom.Point) tool.Hit {
	if s.Find == nil {
		return tool.Hit{}
	}
	x, y := p.MM()
	for _, h := range s.Find.At(draw.Point{X: x, Y: y}, s.ReachMM()) {
		// The index may be a moment older than the document.
		if s.Snapshot.Get(h.Key) != nil {
			h.Ok = true
			return h
		}
	}
	return tool.Hit{}
}

// In returns the items inside or touching an area.
func (s Scene) In(area geom.Rect, enclosed bool) []schematic.Key {
	if s.Find == nil || area.Empty() {
		return nil
	}
	keys := s.Find.In(BoxMM(area), enclosed)
	live := keys[:0:0]
	for _, k := range keys {
		if s.Snapshot.Get(k) != nil {
			live = append(live, k)
		}
	}
	return live
}

// Snap returns the point a press at p means: a pin within reach, else the
// nearest grid point; with [tool.ModFree] p itself.
func (s Scene) Snap(p geom.Point, mods tool.Mods) geom.Point {
	if mods&tool.ModFree != 0 {
		return p
	}
	if at, ok := s.PinAt(p); ok {
		return at
	}
	return p.Snap(geom.Grid)
}

// PinAt returns the place of the pin within reach of p.
func (s Scene) PinAt(p geom.Point) (geom.Point, bool) {
	h := s.Hit(p)
	if !h.Ok || h.Pin == "" {
		return p, false
	}
	return PinPlace(s.Snapshot, s.On, h)
}

// PinPlace returns where the pin of a hit is drawn on a sheet.
func PinPlace(d *schematic.Doc, sheet schematic.ID, h tool.Hit) (geom.Point, bool) {
	part := d.Part(h.Key.ID)
	if part == nil {
		return geom.Point{}, false
	}
	for _, exact := range []bool{true, false} {
		for _, v := range part.Views {
			if v.Sheet != sheet || exact && v.Key != h.View {
				continue
			}
			for _, pp := range d.PlacedPins(part, v) {
				if pp.Pin.Name == h.Pin {
					return pp.At, true
				}
			}
		}
	}
	return geom.Point{}, false
}
