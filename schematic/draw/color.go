package draw

import (
	"image/color"
	"math"

	"loomwright/calc/tables"
	"loomwright/schematic"
)

// Widths of drawn wires in mm.
const (
	wireWidth    = 0.7 // a conductor of unknown size
	minWireWidth = 0.6
	maxWireWidth = 1.6
	rimWidth     = 0.16 // beyond the wire's edge, each side
)

// unknownGrey is the dashed core of a wire whose colour nobody gave; a plain
// grey wire has no gaps.
var unknownGrey = color.RGBA{0x8c, 0x8c, 0x8c, 0xff}

// Insulation returns the display colour of an IEC 60757 code.
func Insulation(code string) (color.RGBA, bool) {
	row, ok := tables.ColourByCode(code)
	return color.RGBA{row.R, row.G, row.B, 0xff}, ok
}

// WireWidth returns the width in mm that a wire is drawn with: more for bigger
// conductors, so that the battery cable stands out, but bounded.
func WireWidth(w *schematic.Wire) float64 {
	area, ok := w.Size.AreaMM2()
	if !ok {
		return wireWidth
	}
	// By diameter, as the eye compares cables; 0.01 mm keeps outputs tidy.
	v := 0.56 + 0.125*math.Sqrt(area)
	return math.Round(100*max(minWireWidth, min(maxWireWidth, v))) / 100
}

// wireStrokes draws the insulation along a path: rim, base, tracer.
func (p *pen) wireStrokes(w *schematic.Wire, path []Seg) {
	width := WireWidth(w)
	p.stroke(path, width+2*rimWidth, InkWireRim)
	base, ok := Insulation(w.Color.Base)
	if !ok {
		p.stroke(path, width, InkBare)
		p.own(path, width*0.8, unknownGrey, 1.6, 1.4)
		return
	}
	p.own(path, width, base)
	if w.Color.Base == "GNYE" {
		if yellow, ok := Insulation("YE"); ok {
			p.own(path, width, yellow, 1.5, 2.5)
		}
	}
	if tracer, ok := Insulation(w.Color.Tracer); ok {
		p.own(path, width*0.45, tracer, 2.4, 1.2+width*0.45)
	}
}
