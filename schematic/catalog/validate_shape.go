package catalog

import (
	"fmt"
	"math"
	"strings"

	"loomwright/schematic"
)

// maxReach bounds symbols: 200 mm either way from the origin is a slip.
const maxReach = 2000

var (
	forms   = set("box", "rows", "bar")
	fills   = set("solid", "body", "paper")
	weights = set("thin", "bold")
	// pointCount is how many points a shape has: at least and at most.
	pointCount = map[string][2]int{
		"line": {2, 200}, "polygon": {3, 200}, "rect": {2, 2}, "circle": {1, 1}, "arc": {1, 1}, "text": {1, 1},
	}
	shapeTypes = set("line", "polygon", "rect", "circle", "arc", "text")
)

func (v *validator) sections() {
	seen := map[string]bool{}
	for i, s := range v.k.Sections {
		at := fmt.Sprintf("sections[%d]", i)
		if seen[s.Name] {
			v.add(at+".name", "section %q is there twice", s.Name)
		}
		seen[s.Name] = true
		v.oneOf(at+".form", s.Form, forms)
		v.oneOf(at+".tag_side", s.TagSide, set("above", "right"))
		if s.MinWidth < 0 || s.MinWidth > maxReach {
			v.add(at+".min_width", "%d is out of range: write 0 to %d", s.MinWidth, maxReach)
		}
		if v.k.OwnPins && s.Form == "" {
			v.add(at+".form", "a kind with own pins needs a form: write %s", choices(forms))
		}
		if !v.k.OwnPins && s.Form == "" && len(s.Shapes) == 0 {
			v.add(at+".shapes", "the symbol is empty")
		}
		v.shapes(at+".shapes", s.Shapes)
	}
}

func (v *validator) shapes(path string, shapes []schematic.Shape) {
	for i, s := range shapes {
		v.shape(fmt.Sprintf("%s[%d]", path, i), s)
	}
}

func (v *validator) shape(at string, s schematic.Shape) {
	want, known := pointCount[s.Type]
	if !known {
		v.add(at+".type", "%q is not a shape: write %s", s.Type, choices(shapeTypes))
		return
	}
	if n := len(s.Points); n < want[0] || n > want[1] {
		v.add(at+".points", "%s with %d points: it takes %d to %d", s.Type, n, want[0], want[1])
		return
	}
	for _, p := range s.Points {
		if max(abs(p.X), abs(p.Y)) > maxReach {
			v.add(at+".points", "%d,%d is more than %d from the origin", p.X, p.Y, maxReach)
		}
	}
	v.oneOf(at+".fill", s.Fill, fills)
	v.oneOf(at+".weight", s.Weight, weights)
	round := s.Type == "circle" || s.Type == "arc"
	if round && (s.Radius <= 0 || s.Radius > maxReach) {
		v.add(at+".radius", "%s with radius %d: write 1 to %d", s.Type, s.Radius, maxReach)
	}
	if !round && s.Radius != 0 {
		v.add(at+".radius", "a %s has no radius", s.Type)
	}
	if s.Type == "arc" && (s.Sweep == 0 || math.Abs(s.Sweep) > 360 || math.Abs(s.Start) > 360) {
		v.add(at+".sweep", "start %g, sweep %g: write degrees within ±360, and some sweep", s.Start, s.Sweep)
	}
	if s.Type == "text" {
		if strings.TrimSpace(s.Text) == "" {
			v.add(at+".text", "is empty")
		}
		if s.Size <= 0 || s.Size > maxReach {
			v.add(at+".size", "%d is not a text height: write 1 to %d", s.Size, maxReach)
		}
	}
	if (s.Type == "line" || s.Type == "arc" || s.Type == "text") && s.Fill != "" {
		v.add(at+".fill", "a %s cannot be filled", s.Type)
	}
	if s.Type == "rect" && (s.Points[0].X == s.Points[1].X || s.Points[0].Y == s.Points[1].Y) {
		v.add(at+".points", "the rectangle has no area")
	}
}
