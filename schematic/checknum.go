package schematic

import (
	"fmt"
	"math"

	"loomwright/schematic/geom"
)

// Numbers and places beyond their bounds are slips that no file can hold.

func (c *checker) number(path string, v float64) {
	if !(math.Abs(v) <= MaxNum) { // also NaN
		c.add(path, "%g is out of range: numbers lie within ±%g", v, MaxNum)
	}
}

func (c *checker) num(path string, n Num) {
	if v, ok := n.Get(); ok {
		c.number(path, v)
	}
}

// notNegative is num for what cannot be below zero.
func (c *checker) notNegative(path string, n Num) {
	if v, ok := n.Get(); ok && v < 0 {
		c.add(path, "%g is negative", v)
		return
	}
	c.num(path, n)
}

func (c *checker) values(path string, m map[string]float64) {
	for name, v := range m {
		c.number(path+"."+name, v)
	}
}

func (c *checker) point(path string, p geom.Point) {
	if !p.InRange() {
		c.add(path, "%d, %d lies off any sheet", p.X, p.Y)
	}
}

func (c *checker) points(path string, list []geom.Point) {
	for i, p := range list {
		if !p.InRange() {
			c.point(fmt.Sprintf("%s[%d]", path, i), p)
		}
	}
}

// pinData checks numbers and directions of the pin at index i.
func (c *checker) pinData(i int, p Pin) {
	if p.At.InRange() && len(p.Values) == 0 && p.Dir == "" && p.Side == "" {
		return
	}
	at := fmt.Sprintf("pins[%d].", i)
	c.point(at+"at", p.At)
	c.values(at+"values", p.Values)
	c.dir(at+"dir", p.Dir)
	c.dir(at+"side", p.Side)
}

func (c *checker) dir(path string, d Dir) {
	if d != "" && d.Geom() == geom.NoDir {
		c.add(path, "%q is not a direction: write right, down, left or up", d)
	}
}

// extent checks a width, height or letter size in 0.1 mm.
func (c *checker) extent(path string, v int) {
	if v < 0 || v > geom.MaxCoord {
		c.add(path, "%d is not a size: write 0 to %d tenths of a millimetre", v, geom.MaxCoord)
	}
}

// kind checks that a kind of the document can be drawn and counted with.
// Whether it makes sense electrically is not a matter of integrity.
func (c *checker) kind(k *Kind) {
	c.out = append(c.out, CheckKind(k)...)
	if k.Name == "" {
		c.add("name", "a part kind needs a name")
	}
	c.params("params", k.Params)
	c.elements("elements", k.Elements)
	for i, p := range k.Pins {
		c.pinData(i, p)
	}
	for i, r := range k.Roles {
		at := fmt.Sprintf("roles[%d].", i)
		c.params(at+"params", r.Params)
		c.elements(at+"elements", r.Elements)
		c.shapes(at+"shapes", r.Shapes)
	}
	for i, s := range k.Sections {
		at := fmt.Sprintf("sections[%d].", i)
		c.extent(at+"min_width", s.MinWidth)
		c.point(at+"tag", s.Tag)
		c.shapes(at+"shapes", s.Shapes)
	}
}

func (c *checker) params(path string, params []Param) {
	for i, p := range params {
		c.num(fmt.Sprintf("%s[%d].default", path, i), p.Default)
	}
}

func (c *checker) elements(path string, elements []Element) {
	for i, e := range elements {
		for name, a := range e.Args {
			c.number(fmt.Sprintf("%s[%d].args.%s", path, i, name), a.Value)
		}
	}
}

func (c *checker) shapes(path string, shapes []Shape) {
	for i, s := range shapes {
		at := fmt.Sprintf("%s[%d].", path, i)
		c.points(at+"points", s.Points)
		c.extent(at+"radius", s.Radius)
		c.extent(at+"size", s.Size)
		c.number(at+"start", s.Start)
		c.number(at+"sweep", s.Sweep)
	}
}
