// Package draw turns a sheet into a display list: strokes, fills and texts in
// millimetres that the screen, PNG, SVG and PDF all show alike.
//
// Start with [Sheet], which builds a [List]; [List.Text] prints it for golden
// tests and [Index] answers what lies under the pointer.
package draw

import (
	"image/color"

	"loomwright/schematic"
)

// Point is a place on the sheet in millimetres, x right, y down.
type Point struct{ X, Y float64 }

func (p Point) add(x, y float64) Point { return Point{p.X + x, p.Y + y} }

// at returns the point at the height of p and a given x.
func (p Point) at(x float64) Point { return Point{x, p.Y} }

// Box is a closed area in millimetres.
type Box struct{ Min, Max Point }

// Ink says what a mark means; a Palette turns it into a colour for the light
// sheet, the dark sheet or paper. InkOwn uses the mark's own colour (a wire's
// insulation), which stays the same on every sheet.
type Ink uint8

const (
	InkSymbol  Ink = iota // outlines of parts
	InkText               // designations and values
	InkFaint              // pin names, notes, secondary lines
	InkFrame              // sheet frame and title block
	InkPaper              // the sheet itself (fills that hide what is below)
	InkFill               // soft fill of a part's body
	InkWireRim            // thin edge round a wire, so that white and yellow read
	InkJoint              // junction dots
	InkError              // severity marks; shape and word say the same
	InkWarn
	InkInfo
	InkTrace   // the traced circuit
	InkCurrent // live current figures
	InkBare    // a wire of unknown colour: as the paper between its edges
	InkOwn     // the mark's own Color
	InkCount   // number of inks
)

// Op is one mark of a display list. The set is closed: Stroke, Fill, Text.
type Op interface{ op() }

// Stroke is an open or closed line of constant width. Round caps and joins.
type Stroke struct {
	Path   []Seg
	Width  float64 // mm
	Ink    Ink
	Color  color.RGBA // with InkOwn
	Dash   []float64  // mm on, off, …; nil is solid
	Offset float64    // mm into the dash pattern at the start
}

// Fill is a filled area, even-odd not needed: paths do not cross themselves.
type Fill struct {
	Path  []Seg
	Ink   Ink
	Color color.RGBA
}

// Text is one line of text. Backends never align: At is the start of the
// baseline, computed with [Measure].
type Text struct {
	At    Point
	Angle float64 // degrees clockwise on the sheet, a multiple of 90
	Size  float64 // em size in mm
	Bold  bool
	Ink   Ink
	Color color.RGBA
	S     string
}

func (*Stroke) op() {}
func (*Fill) op()   {}
func (*Text) op()   {}

// Verb says how a Seg continues a path.
type Verb uint8

const (
	MoveTo Verb = iota // start a new sub-path at P
	LineTo             // straight to P
	CubeTo             // cubic Bézier over C1, C2 to P
	Close              // straight back to the start of the sub-path
)

// Seg is one step of a path.
type Seg struct {
	Verb      Verb
	C1, C2, P Point
}

// Mark is an op with what it belongs to.
type Mark struct {
	Op    Op
	Owner schematic.Key // zero for frame and grid
	Bound Box           // mm, including stroke width
	// With is the em size in mm of the text the mark frames. On a screen that
	// shows the text too small to read, the empty frame is left out as well.
	With float64
}

// List is a sheet's display list in painting order. It is immutable once built.
type List struct {
	Size  Point // sheet width and height in mm
	Marks []Mark

	things things // what the pointer can find, for [NewIndex]
}
