// Package geom is the integer geometry of the drawing: points, rectangles,
// quarter-turn transforms and orthogonal paths.
//
// One unit is a tenth of a millimetre on the sheet, x to the right and y
// down. Integers keep pins and wire ends exactly equal or exactly apart, and
// keep files free of rounding noise. Start with [Point] and [Transform].
package geom

import (
	"encoding/json"
	"fmt"
	"math"
	"strconv"
)

// PerMM is the number of units in one millimetre of paper.
const PerMM = 10

// Grid is the drawing grid in units: 2.5 mm, the module M of IEC 60617 sheets.
// Pins and wire bends lie on it.
const Grid = 25

// MaxCoord bounds every coordinate (±10 m of paper), so that sums and products
// of coordinates never overflow, also where int has 32 bits.
const MaxCoord = 100_000

// Point is a place on a sheet, or a displacement, in units of 0.1 mm.
type Point struct{ X, Y int }

// Pt is short for Point{x, y}.
func Pt(x, y int) Point { return Point{x, y} }

func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }
func (p Point) Neg() Point        { return Point{-p.X, -p.Y} }

// MM returns the point in millimetres.
func (p Point) MM() (x, y float64) { return float64(p.X) / PerMM, float64(p.Y) / PerMM }

// FromMM returns the point nearest to x, y millimetres.
func FromMM(x, y float64) Point {
	return Point{int(math.Round(x * PerMM)), int(math.Round(y * PerMM))}
}

// Snap returns the nearest point whose coordinates are multiples of grid;
// a grid below 2 returns p.
func (p Point) Snap(grid int) Point {
	if grid < 2 {
		return p
	}
	return Point{snap(p.X, grid), snap(p.Y, grid)}
}

func snap(v, grid int) int {
	if v < 0 {
		return -snap(-v, grid)
	}
	return (v + grid/2) / grid * grid
}

// Dist returns the distance to q in units.
func (p Point) Dist(q Point) float64 {
	return math.Hypot(float64(p.X-q.X), float64(p.Y-q.Y))
}

// InRange reports whether both coordinates are within ±MaxCoord.
func (p Point) InRange() bool {
	return p.X >= -MaxCoord && p.X <= MaxCoord && p.Y >= -MaxCoord && p.Y <= MaxCoord
}

// MarshalJSON writes the point as [x,y].
func (p Point) MarshalJSON() ([]byte, error) {
	b := append([]byte{'['}, strconv.Itoa(p.X)...)
	b = append(append(b, ','), strconv.Itoa(p.Y)...)
	return append(b, ']'), nil
}

// UnmarshalJSON reads [x,y]; both must be whole numbers within ±MaxCoord.
func (p *Point) UnmarshalJSON(b []byte) error {
	var xy []json.RawMessage // not json.Number, which takes "1" in quotes
	if err := json.Unmarshal(b, &xy); err != nil || len(xy) != 2 {
		return fmt.Errorf("%.40q is not a point: write [x,y] in tenths of a millimetre", b)
	}
	x, errX := strconv.Atoi(string(xy[0]))
	y, errY := strconv.Atoi(string(xy[1]))
	q := Point{x, y}
	if errX != nil || errY != nil || !q.InRange() {
		return fmt.Errorf("%.40q is not a point on the sheet: write whole tenths of a millimetre within ±%d", b, MaxCoord)
	}
	*p = q
	return nil
}
