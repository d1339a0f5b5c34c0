package draw

import (
	"math"
	"slices"
)

// space remembers which areas of a sheet are taken, so that texts find room.
// It is a grid of cells with the boxes that reach into each; boxes beyond the
// edge count to the outermost cells.
type space struct {
	cell   float64
	nx, ny int
	heads  []int32 // per cell: index into links, or -1
	links  []link
	taken  []taken
}

type link struct{ taken, next int32 }

// taken is one area. Owner tells whose it is: a wire's label may lie at any
// distance from its own wire.
type taken struct {
	box   Box
	owner int32
	hard  bool // texts and bodies; wires are soft: crossing one is bad, not wrong
	seg   int32
}

const (
	noOwner  int32 = -1
	maxCells       = 1 << 18
)

// reset empties the space for a sheet of w × h mm, keeping its memory.
func (s *space) reset(w, h float64) {
	s.cell = 8
	for {
		s.nx, s.ny = int(w/s.cell)+1, int(h/s.cell)+1
		if s.nx*s.ny <= maxCells {
			break
		}
		s.cell *= 2
	}
	n := s.nx * s.ny
	if cap(s.heads) < n {
		s.heads = make([]int32, n)
	}
	s.heads = s.heads[:n]
	for i := range s.heads {
		s.heads[i] = -1
	}
	s.links, s.taken = s.links[:0], s.taken[:0]
}

// expect makes room for what so many wires usually take.
func (s *space) expect(wires int) {
	s.links = slices.Grow(s.links, 32*wires)
	s.taken = slices.Grow(s.taken, 8*wires)
}

func (s *space) cells(b Box) (x0, y0, x1, y1 int) {
	at := func(v float64, n int) int {
		if !(v > 0) {
			return 0
		}
		return int(math.Min(v/s.cell, float64(n-1)))
	}
	return at(b.Min.X, s.nx), at(b.Min.Y, s.ny), at(b.Max.X, s.nx), at(b.Max.Y, s.ny)
}

func (s *space) take(t taken) {
	if t.box.Empty() {
		return
	}
	i := int32(len(s.taken))
	s.taken = append(s.taken, t)
	x0, y0, x1, y1 := s.cells(t.box)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			c := y*s.nx + x
			s.links = append(s.links, link{i, s.heads[c]})
			s.heads[c] = int32(len(s.links) - 1)
		}
	}
}

// block takes an area that nothing may be written on.
func (s *space) block(b Box) { s.take(taken{box: b, owner: noOwner, hard: true, seg: -1}) }

// each calls f for every taken area that touches b until f returns false. An
// area that reaches over several cells may come more than once.
func (s *space) each(b Box, f func(*taken) bool) {
	x0, y0, x1, y1 := s.cells(b)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			for l := s.heads[y*s.nx+x]; l >= 0; l = s.links[l].next {
				if t := &s.taken[s.links[l].taken]; t.box.Touches(b) && !f(t) {
					return
				}
			}
		}
	}
}

// crowd prices an area: 0 is free, wires cost little and texts much.
func (s *space) crowd(b Box) int {
	n := 0
	s.each(b, func(t *taken) bool {
		if t.hard {
			n += 16
		} else {
			n++
		}
		return true
	})
	return n
}

// span is a stretch of an axis in mm.
type span struct{ from, to float64 }

// gaps appends the free stretches of a strip along its longer way (level or
// upright), leaving out what belongs to owner.
func (s *space) gaps(out []span, strip Box, level bool, owner int32, pad float64) []span {
	along := span{strip.Min.X, strip.Max.X}
	if !level {
		along = span{strip.Min.Y, strip.Max.Y}
	}
	out = append(out[:0], along)
	s.each(strip, func(t *taken) bool {
		if t.owner == owner && owner != noOwner {
			return true
		}
		cut := span{t.box.Min.X - pad, t.box.Max.X + pad}
		if !level {
			cut = span{t.box.Min.Y - pad, t.box.Max.Y + pad}
		}
		for i := 0; i < len(out); i++ {
			g := out[i]
			if cut.to <= g.from || g.to <= cut.from {
				continue
			}
			switch {
			case cut.from > g.from && cut.to < g.to:
				out[i].to = cut.from
				out = append(out, span{cut.to, g.to})
			case cut.from > g.from:
				out[i].to = cut.from
			case cut.to < g.to:
				out[i].from = cut.to
			default:
				out[i] = out[len(out)-1]
				out = out[:len(out)-1]
				i--
			}
		}
		return len(out) > 0
	})
	return out
}

// fit returns the middle, nearest to want, of a piece of length w within the gaps.
func fit(gaps []span, w, want float64) (float64, bool) {
	best, found := 0.0, false
	for _, g := range gaps {
		if g.to-g.from < w {
			continue
		}
		c := max(g.from+w/2, min(g.to-w/2, want))
		d, e := math.Abs(c-want), math.Abs(best-want)
		if !found || d < e-1e-9 || d < e+1e-9 && c < best {
			best, found = c, true
		}
	}
	return best, found
}

// track is a line that pieces of wires lie on.
type track struct {
	level bool
	at    int
}

// crowdedTrack is from how many pieces on one track those that lie within
// another are passed over: the sheaf of wires at a pin with very many. Each
// would be looked at again for every text and crossing near.
const crowdedTrack = 16

// sheaf is how many wires at one pin make a sheaf.
const sheaf = 100

// sheaves reports whether there is a pin with very many wires.
func (b *build) sheaves() bool {
	base := make([]int, len(b.symbols)+1)
	for i, s := range b.symbols {
		base[i+1] = base[i] + len(s.pins)
	}
	count := make([]int32, base[len(b.symbols)])
	for _, at := range b.ends {
		for _, e := range at {
			if e.symbol < 0 {
				continue
			}
			if count[base[e.symbol]+e.pin]++; count[base[e.symbol]+e.pin] > sheaf {
				return true
			}
		}
	}
	return false
}

// covered reports whether a piece need not be entered, and counts it if so.
func (b *build) covered(tracks map[track]*[]int32, t track, box Box) bool {
	on := tracks[t]
	if on == nil {
		on = new([]int32)
		tracks[t] = on
	}
	if len(*on) >= crowdedTrack {
		for _, i := range *on {
			if b.room.taken[i].box.Encloses(box) {
				return true
			}
		}
	}
	*on = append(*on, int32(len(b.room.taken)))
	return false
}
