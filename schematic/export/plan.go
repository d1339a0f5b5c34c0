package export

import (
	"math"
	"runtime"
	"sync"

	"loomwright/schematic"
	"loomwright/schematic/draw"
)

// Plan is a display list made ready to be painted again and again: of every
// mark what decides whether a frame shows it, so small that a frame of a drawing
// with a hundred thousand marks looks at all of them in a fraction of a
// millisecond. It never changes and is safe for concurrent use.
type Plan struct {
	list  *draw.List
	marks []planned
	blots []blot
	gone  map[schematic.Key]bool // whose marks are left out
	over  *Plan                  // painted last, or nil
}

// Patched returns the plan without the marks of some items, and with others over
// it: what a drawing looks like in the middle of an edit. It costs only what the
// marks over it do.
func (p *Plan) Patched(gone map[schematic.Key]bool, over *draw.List) *Plan {
	return &Plan{list: p.list, marks: p.marks, blots: p.blots, gone: gone, over: NewPlan(over)}
}

// planned is one mark of a plan.
type planned struct {
	x0, y0, x1, y1 float32 // its bound in mm, no smaller than it is
	from           float32 // px/mm: zoomed out further than this, nothing of it is seen on a screen
	share          uint8   // of its bound that a fill covers, in 255ths; 0 for other marks
	ink            draw.Ink
	sound          bool // all its coordinates are numbers
}

// NewPlan returns the plan of a list.
func NewPlan(l *draw.List) *Plan {
	p := &Plan{list: l}
	if l == nil {
		return p
	}
	p.marks = make([]planned, len(l.Marks))
	const least = 4096 // below that, starting a goroutine costs more than it saves
	workers := max(1, min(runtime.GOMAXPROCS(0), len(l.Marks)/least))
	var wait sync.WaitGroup
	for w := range workers {
		wait.Go(func() {
			var dash []float64
			for i := len(l.Marks) * w / workers; i < len(l.Marks)*(w+1)/workers; i++ {
				p.marks[i], dash = planMark(&l.Marks[i], dash)
			}
		})
	}
	wait.Wait()
	p.blots = blots(l, p.marks)
	return p
}

// planMark works out one mark; dash is room for a pattern.
func planMark(m *draw.Mark, dash []float64) (planned, []float64) {
	p := planned{x0: below(m.Bound.Min.X), y0: below(m.Bound.Min.Y), x1: -below(-m.Bound.Max.X), y1: -below(-m.Bound.Max.Y)}
	extent := max(m.Bound.Max.X-m.Bound.Min.X, m.Bound.Max.Y-m.Bound.Min.Y)
	from := 0.0
	switch op := m.Op.(type) {
	case *draw.Stroke:
		if op == nil {
			break
		}
		p.sound = bounded(op.Path, math.MaxFloat64)
		from = min(hairlinePx/op.Width, detailPx/extent)
		if op.Ink == draw.InkWireRim {
			from = max(from, 1/op.Width)
		}
		if dash = appendDash(dash[:0], op, 1); op.Ink == draw.InkOwn && len(dash) > 0 {
			from = max(from, stripePx/op.Width)
		}
	case *draw.Fill:
		if op == nil {
			break
		}
		if p.sound = bounded(op.Path, math.MaxFloat64); p.sound {
			p.ink, p.share = op.Ink, shareOf(op.Path, m.Bound)
		}
		from = specklePx / extent
	case *draw.Text:
		if op == nil {
			break
		}
		from = minTextPx / op.Size
	}
	if m.With > 0 {
		from = max(from, minTextPx/m.With)
	}
	// The band asks again and exactly; here rounding must not hide anything.
	if from = from * (1 - 1e-6); from > 0 {
		p.from = below(from)
	}
	return p, dash
}

// shareOf returns how much of a box a filled path covers, in 255ths, at least
// one of them.
func shareOf(path []draw.Seg, box draw.Box) uint8 {
	// The area between a path and its first point: trapezoids under chords, and
	// for a curve what it bulges beyond its chord.
	area, first, at := 0.0, draw.Point{}, draw.Point{}
	cross := func(p, q draw.Point) float64 { return p.X*q.Y - p.Y*q.X }
	for i := range path {
		s := &path[i]
		switch s.Verb {
		case draw.MoveTo:
			area += cross(at, first) / 2
			first, at = s.P, s.P
		case draw.LineTo:
			area += cross(at, s.P) / 2
			at = s.P
		case draw.CubeTo:
			area += (6*cross(at, s.C1) + 3*cross(at, s.C2) + cross(at, s.P) + 3*cross(s.C1, s.C2) + 3*cross(s.C1, s.P) + 6*cross(s.C2, s.P)) / 20
			at = s.P
		}
	}
	area += cross(at, first) / 2
	share := math.Abs(area) / ((box.Max.X - box.Min.X) * (box.Max.Y - box.Min.Y)) * 255
	if !(share < 255) {
		return 255
	}
	return uint8(max(1, share+0.5))
}

// below returns the largest float32 that is not above v.
func below(v float64) float32 {
	f := float32(v)
	if float64(f) > v {
		f = math.Nextafter32(f, float32(math.Inf(-1)))
	}
	return f
}

// visible adds the indices of the marks that a band of a picture may show.
func (p *Plan) visible(found []int32, at placement, w, y0, y1 int) []int32 {
	// Lines are at least a pixel wide, so they may reach out of their bound.
	const margin = 2
	left, top := below((-margin-at.dx)/at.scale), below((float64(y0)-margin-at.dy)/at.scale)
	right, bottom := -below(-(float64(w)+margin-at.dx)/at.scale), -below(-(float64(y1)+margin-at.dy)/at.scale)
	zoom := float32(math.Inf(1)) // on paper everything is shown
	if !at.exact {
		zoom = -below(-at.scale)
	}
	for i := range p.marks {
		// Bounds that are no numbers fail all of these.
		if m := &p.marks[i]; m.from <= zoom && m.x1 >= left && m.x0 <= right && m.y1 >= top && m.y0 <= bottom {
			found = append(found, int32(i))
		}
	}
	return found
}
