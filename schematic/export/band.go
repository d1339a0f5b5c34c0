package export

import (
	"image"
	"image/color"
	"math"
	"sync"

	"golang.org/x/image/vector"

	"loomwright/schematic/draw"
)

// job is what all bands of a frame share; nobody writes it while they run.
type job struct {
	list *draw.List
	plan *Plan // of the list
	at   placement
	dots bool
	pal  *Palette
}

// band paints some rows of a frame. Nothing but the pixels is shared between
// bands, and each writes only its own rows.
type band struct {
	canvas
	job
	run    func()
	found  []int32
	sound  bool // the mark in hand is known to have numbers for coordinates
	glyphs glyphCache
	raster vector.Rasterizer
	mask   []byte
	alpha  image.Alpha
	knots  []knot
	pts    []pt
	clip   []pt
	dash   []float64
}

// pt is a place in pixels.
type pt struct{ x, y float64 }

func newBand(wait *sync.WaitGroup) *band {
	b := &band{}
	b.run = func() {
		defer wait.Done()
		b.paint()
	}
	return b
}

// Level of detail, in pixels.
const (
	minTextPx  = 4.0 // smaller text cannot be read
	specklePx  = 0.5 // smaller fills are left out
	dabPx      = 2.0 // smaller ones are painted as a box of their area on screen: their shape cannot be told
	hairlinePx = 0.2 // thinner lines of small marks are left out
	detailPx   = 8.0 // what counts as small for that
	stripePx   = 0.3 // thinner stripes along wires are left out on screen: they would fade to nothing
)

func (b *band) paint() {
	b.glyphs.trim()
	b.paintSheet()
	if !b.at.ok || b.list == nil {
		return
	}
	for p := b.plan; p != nil; p = p.over {
		b.paintPlan(p)
	}
}

func (b *band) paintPlan(plan *Plan) {
	b.found = plan.visible(b.found[:0], b.at, b.w, b.y0, b.y1)
	for _, i := range b.found {
		m := &plan.list.Marks[i]
		if i == 0 && b.isGround(m) || len(plan.gone) > 0 && plan.gone[m.Owner] {
			continue
		}
		if p := &plan.marks[i]; p.share > 0 && !b.at.exact && float64(max(p.x1-p.x0, p.y1-p.y0))*b.at.scale < dabPx {
			b.fillSmall(p, m)
			continue
		}
		b.sound = plan.marks[i].sound
		b.paintMark(m)
	}
	b.paintBlots(plan)
}

// numbers reports whether all coordinates of a path are numbers.
func (b *band) numbers(path []draw.Seg) bool { return b.sound || bounded(path, math.MaxFloat64) }

// isGround reports whether a list's first mark is the bare sheet: paintSheet
// has painted that already, and the dots of the grid upon it.
func (b *band) isGround(first *draw.Mark) bool {
	f, ok := first.Op.(*draw.Fill)
	return ok && f != nil && f.Ink == draw.InkPaper && first.Bound == draw.Box{Max: b.list.Size}
}

func (b *band) paintSheet() {
	b.fill(ink(b.pal.Desk))
	if !b.at.ok || b.list == nil {
		return
	}
	tl := b.px(draw.Point{})
	br := b.px(b.list.Size)
	if !b.at.exact {
		tl, br = pt{math.Round(tl.x), math.Round(tl.y)}, pt{math.Round(br.x), math.Round(br.y)}
	}
	b.rect(tl.x, tl.y, br.x, br.y, ink(b.pal.Paper()))
	if b.dots {
		b.paintDots(tl, br)
	}
}

func (b *band) paintMark(m *draw.Mark) {
	lo, hi := b.px(m.Bound.Min), b.px(m.Bound.Max)
	// Written so that a bound that is not a number is out of view, too.
	if !(hi.y >= float64(b.y0)-1 && lo.y <= float64(b.y1)+1 && hi.x >= -1 && lo.x <= float64(b.w)+1) {
		return
	}
	if m.With > 0 && !(m.With*b.at.scale >= minTextPx) {
		return
	}
	extent := max(hi.x-lo.x, hi.y-lo.y)
	switch op := m.Op.(type) {
	case *draw.Stroke:
		if op != nil {
			b.stroke(op, extent)
		}
	case *draw.Fill:
		if op != nil && extent >= specklePx {
			b.fillPath(op.Path, b.ink(op.Ink, op.Color))
		}
	case *draw.Text:
		if op != nil {
			b.text(op)
		}
	}
}

func (b *band) ink(k draw.Ink, own color.RGBA) pixel { return ink(b.pal.Color(k, own)) }

// farPx bounds pixel coordinates, so that sums and squares of them stay exact
// enough and loops over them end.
const farPx = 1e7

// px turns a place in millimetres into pixels. A coordinate that is not a
// number stays one; callers drop such marks.
func (b *band) px(p draw.Point) pt {
	return pt{far(p.X*b.at.scale + b.at.dx), far(p.Y*b.at.scale + b.at.dy)}
}

func far(v float64) float64 {
	if v > farPx {
		return farPx
	}
	if v < -farPx {
		return -farPx
	}
	return v
}

// bounded reports whether every coordinate that the path uses is a number
// between -limit and limit.
func bounded(path []draw.Seg, limit float64) bool {
	in := func(p draw.Point) bool { return math.Abs(p.X) <= limit && math.Abs(p.Y) <= limit }
	for i := range path {
		s := &path[i]
		switch s.Verb {
		case draw.CubeTo:
			if !in(s.C1) || !in(s.C2) || !in(s.P) {
				return false
			}
		case draw.MoveTo, draw.LineTo:
			if !in(s.P) {
				return false
			}
		}
	}
	return true
}
