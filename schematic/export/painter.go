package export

import (
	"image"
	"math"
	"runtime"
	"sync"

	"loomwright/schematic/draw"
)

// View says which part of the sheet is painted and how large.
type View struct {
	PxPerMM  float64    // zoom, > 0
	OriginMM draw.Point // the place on the sheet at the top left of the picture
	W, H     int        // size of the picture in pixels

	// Dots paints the 2.5 mm grid on the sheet; it fades out where dense.
	Dots bool

	// Exact keeps fractions of a pixel. Without it the picture moves by less
	// than a pixel as a whole and straight lines run along pixel centres, so
	// that thin lines are crisp and look the same wherever they are panned.
	Exact bool
}

// Painter paints display lists to pixels. It keeps glyphs and buffers between
// frames: use one Painter for a window. The zero value is ready; a Painter
// belongs to one goroutine at a time, though Paint itself uses all processors.
type Painter struct {
	bands []*band
	frame *image.RGBA
	wait  sync.WaitGroup
}

// Smallest band worth a goroutine of its own, in pixel rows.
const minBandRows = 48

// Frame returns a picture of w×h pixels that the Painter owns and hands out
// again: tightly packed at the origin, as the screen needs it.
func (p *Painter) Frame(w, h int) *image.RGBA {
	w, h = max(w, 0), max(h, 0)
	n := 4 * w * h
	if p.frame == nil || cap(p.frame.Pix) < n {
		p.frame = &image.RGBA{Pix: make([]byte, n)}
	}
	p.frame.Pix = p.frame.Pix[:n]
	p.frame.Stride = 4 * w
	p.frame.Rect = image.Rect(0, 0, w, h)
	return p.frame
}

// Paint fills the v.W×v.H pixels at the top left of dst with the view. The
// result is opaque. Marks that are not finite are left out. What is painted
// again and again is better given as a plan: [Painter.PaintPlan].
func (p *Painter) Paint(dst *image.RGBA, l *draw.List, v View, pal *Palette) {
	p.PaintPlan(dst, NewPlan(l), v, pal)
}

// PaintPlan paints the list of a plan as [Painter.Paint] does.
func (p *Painter) PaintPlan(dst *image.RGBA, plan *Plan, v View, pal *Palette) {
	w, h := min(v.W, dst.Rect.Dx()), min(v.H, dst.Rect.Dy())
	if w <= 0 || h <= 0 {
		return
	}
	j := job{list: plan.list, plan: plan, at: place(v), dots: v.Dots, pal: pal}
	n := max(1, min(runtime.GOMAXPROCS(0), h/minBandRows))
	for len(p.bands) < n {
		p.bands = append(p.bands, newBand(&p.wait))
	}
	for i, b := range p.bands[:n] {
		b.canvas = canvas{pix: dst.Pix, stride: dst.Stride, w: w, y0: h * i / n, y1: h * (i + 1) / n}
		b.job = j
	}
	p.wait.Add(n)
	for _, b := range p.bands[1:n] {
		go b.run()
	}
	p.bands[0].run()
	p.wait.Wait()
	for _, b := range p.bands[:n] {
		b.job, b.canvas = job{}, canvas{} // do not keep the document alive
	}
}

// placement turns millimetres into pixels: px = mm·scale + shift.
type placement struct {
	scale, dx, dy float64
	exact, ok     bool
}

func place(v View) placement {
	at := placement{
		scale: v.PxPerMM, exact: v.Exact,
		dx: -v.OriginMM.X * v.PxPerMM, dy: -v.OriginMM.Y * v.PxPerMM,
	}
	at.ok = at.scale > 0 && finite(at.scale) && finite(at.dx) && finite(at.dy)
	if !at.exact {
		at.dx, at.dy = math.Round(at.dx), math.Round(at.dy)
	}
	return at
}

func finite(v float64) bool { return v-v == 0 }
