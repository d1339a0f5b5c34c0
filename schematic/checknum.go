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
