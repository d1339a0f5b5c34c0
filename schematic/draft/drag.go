package draft

import (
	"fmt"
	"math"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Stroke returns a line of the list of strokes as it is drawn.
func (d *Draft) Stroke(line int) (schematic.Shape, bool) {
	s := d.strokeAt(line)
	if s == nil {
		return schematic.Shape{}, false
	}
	c := *s
	c.Points = slices.Clone(s.Points)
	return c, true
}

// SetStroke draws a line of the list of strokes anew: points, radius and sweep.
func (d *Draft) SetStroke(line int, to schematic.Shape) error {
	s := d.strokeAt(line)
	if s == nil || s.Type != to.Type {
		return fmt.Errorf("there is no such stroke")
	}
	for _, p := range to.Points {
		if max(p.X, -p.X, p.Y, -p.Y, to.Radius) > maxMM*geom.PerMM {
			return fmt.Errorf("a symbol reaches %d mm at most", maxMM)
		}
	}
	s.Points, s.Radius = slices.Clone(to.Points), to.Radius
	return nil
}

func (d *Draft) strokeAt(line int) *schematic.Shape {
	if s := *d.shapes(); line >= 0 && line < len(s) {
		return &s[line]
	}
	return nil
}

// grip is how near a press must be to a point to take hold of it, units.
const grip = 12

// Dragged returns a stroke as a drag from one place to another changes it. A
// point it is taken by moves. Elsewhere a line or polygon gets one more point, a
// rectangle spans anew, a circle or arc gets its radius, a text moves. A fresh
// stroke is drawn as a whole.
func Dragged(s schematic.Shape, from, to geom.Point, fresh bool) schematic.Shape {
	s.Points = slices.Clone(s.Points)
	round := s.Type == "circle" || s.Type == "arc"
	if fresh && len(s.Points) > 0 && from != to {
		switch {
		case s.Type == "line" || s.Type == "rect":
			s.Points = []geom.Point{from, to}
			return s
		case round:
			s.Points[0], s.Radius = from, radius(from, to)
			return s
		}
	}
	if i := slices.IndexFunc(s.Points, func(p geom.Point) bool { return p.Dist(from) <= grip }); i >= 0 {
		s.Points[i] = to
		return s
	}
	switch {
	case s.Type == "line" || s.Type == "polygon":
		if len(s.Points) < mostPoints {
			s.Points = append(s.Points, to)
		}
	case s.Type == "rect":
		s.Points = []geom.Point{from, to}
	case round && len(s.Points) > 0:
		s.Radius = radius(s.Points[0], to)
	case len(s.Points) > 0:
		s.Points[0] = to
	}
	return s
}

// mostPoints is what a line or polygon has at most.
const mostPoints = 200

func radius(a, b geom.Point) int { return max(1, int(math.Round(a.Dist(b)))) }

// DragPin moves a pin of a symbol drawn stroke by stroke. The pin taken hold of
// is the one in the line given, or the one that stands where the drag begins.
func (d *Draft) DragPin(line int, from, to geom.Point) (moved int, err error) {
	piece := ""
	if line >= 0 && line < len(d.k.Pins) {
		piece = d.k.Pins[line].Section // others may stand at the same place of theirs
	}
	for i, p := range d.k.Pins {
		if !d.laidOut(&p) && p.Section == piece && p.At.Dist(from) <= grip {
			line = i
		}
	}
	if line < 0 || line >= len(d.k.Pins) {
		return line, fmt.Errorf("choose the line of a pin first")
	}
	p := &d.k.Pins[line]
	if d.laidOut(p) {
		return line, fmt.Errorf("the symbol places its pins by itself: see Symbol")
	}
	p.At = to.Snap(geom.Grid)
	return line, nil
}
