package ui

import (
	"math"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/geom"
	"loomwright/ui/tool"
	"loomwright/ui/view"
)

// reach is how far, in window points, a pointer takes hold of a thing; dragAt
// is how far it travels before a press is a drag. Both are felt by the hand, so
// they do not change with the zoom.
const (
	reach  = 7.0
	dragAt = 4.0
)

// lookup answers what lies where on the sheet in sight; the display list's
// index does.
type lookup interface {
	// At returns what lies within radius mm of a place, best first.
	At(p draw.Point, radiusMM float64) []tool.Hit
	// In returns the items inside (enclosed) or touching an area in mm.
	In(area draw.Box, enclosed bool) []schematic.Key
}

// scene is one moment of a sheet in a window: what canvas tools may look at.
// It satisfies [tool.Env].
type scene struct {
	Snapshot *schematic.Doc
	On       schematic.ID // sheet
	Chosen   []schematic.Key
	Find     lookup // nil finds nothing
	Camera   view.Camera
	// Unguided leaves things on the move alone: see [tool.Env].
	Unguided bool
	// Drawn is the wire drawn last, nil for none.
	Drawn *schematic.Wire
	// Exactly, when not 0, is how near a pointer must be to a thing, in mm, at
	// any zoom.
	Exactly float64
	// Scale is device pixels per window point (1 on plain screens).
	Scale float64
}

var _ tool.Env = scene{}

func (s scene) Doc() *schematic.Doc        { return s.Snapshot }
func (s scene) Sheet() schematic.ID        { return s.On }
func (s scene) Selection() []schematic.Key { return s.Chosen }
func (s scene) DragPixels() float64        { return dragAt }
func (s scene) Guided() bool               { return !s.Unguided }
func (s scene) LastWire() *schematic.Wire  { return s.Drawn }

// reachMM is reach in millimetres of paper at the present zoom.
func (s scene) reachMM() float64 {
	switch {
	case s.Camera.PxPerMM <= 0:
		return 0
	case s.Exactly > 0:
		return s.Exactly
	}
	return reach * max(s.Scale, 1) / s.Camera.PxPerMM
}

// Hit returns the topmost item within reach of a place.
func (s scene) Hit(p geom.Point) tool.Hit {
	if all := s.hits(p, 1); len(all) > 0 {
		return all[0]
	}
	return tool.Hit{}
}

// Hits returns all items within reach of a place, topmost first, each once.
func (s scene) Hits(p geom.Point) []tool.Hit { return s.hits(p, math.MaxInt) }

// hits returns at most so many of them.
func (s scene) hits(p geom.Point, most int) (all []tool.Hit) {
	if s.Find == nil {
		return nil
	}
	x, y := p.MM()
	for _, h := range s.Find.At(draw.Point{X: x, Y: y}, s.reachMM()) {
		// The index may be a moment older than the document.
		if s.Snapshot.Get(h.Key) == nil || slices.ContainsFunc(all, func(o tool.Hit) bool { return o.Key == h.Key }) {
			continue
		}
		h.Ok = true
		if all = append(all, h); len(all) == most {
			break
		}
	}
	return all
}

// In returns the items inside or touching an area.
func (s scene) In(area geom.Rect, enclosed bool) []schematic.Key {
	if s.Find == nil || area.Empty() {
		return nil
	}
	keys := s.Find.In(view.BoxMM(area), enclosed)
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
func (s scene) Snap(p geom.Point, mods tool.Mods) geom.Point {
	if mods&tool.ModFree != 0 {
		return p
	}
	if at, ok := s.pinAt(p); ok {
		return at
	}
	return p.Snap(geom.Grid)
}

// pinAt returns the place of the pin within reach of p.
func (s scene) pinAt(p geom.Point) (geom.Point, bool) {
	h := s.Hit(p)
	if !h.Ok || h.Pin == "" {
		return p, false
	}
	return view.PinPlace(s.Snapshot, s.On, h.Key.ID, h.View, h.Pin)
}
