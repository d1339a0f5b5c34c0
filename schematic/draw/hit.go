package draw

import (
	"math"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Hit is an item at or near a place.
type Hit struct {
	Key  schematic.Key
	Pin  string  // the pin of a part, when the place is on one
	View string  // the view of a part
	Dist float64 // mm
}

// sort of hit, in the order they are offered: a pin within reach comes before
// the part the pointer is on, that before a wire within reach, that before a
// part close by, then texts, then notes.
type rank uint8

const (
	onPin rank = iota
	onPart
	onWire
	nearPart
	onText
	onNote
)

// hit is one thing the pointer can find: a pin (a point), a body, a piece of a
// wire, a text or the edge of a note.
type hit struct {
	rank rank
	key  schematic.Key
	pin  string
	view string
	box  Box
	// loose marks hits that do not count to an item's extent when an area is
	// selected: texts of parts and wires.
	loose bool
}

func (b *build) collectHits(texts ...[]Mark) {
	n := 2 * len(b.lines)
	for _, s := range b.symbols {
		n += 2 + len(s.pins)
	}
	b.hits = slices.Grow(b.hits, n+len(b.lines))
	for _, s := range b.symbols {
		key, view := s.part.Key(), s.of().Key
		for _, pp := range s.pins {
			at := mm(pp.At)
			b.hits = append(b.hits, hit{rank: onPin, key: key, view: view, pin: pp.Pin.Name, box: Box{at, at}})
		}
		b.hits = append(b.hits, hit{rank: onPart, key: key, view: view, box: boxMM(s.body)})
	}
	for _, l := range b.lines {
		for i := 1; i < len(l.path); i++ {
			b.hits = append(b.hits, hit{rank: onWire, key: l.wire.Key(), box: boxMM(segRect(l, i))})
		}
	}
	for _, n := range b.notesHere {
		if n.Width <= 0 || n.Height <= 0 {
			continue
		}
		r := boxMM(geom.Rect{Min: n.At, Max: n.At.Add(geom.Pt(n.Width, n.Height))})
		for _, e := range [4]Box{
			{r.Min, Point{r.Max.X, r.Min.Y}}, {Point{r.Max.X, r.Min.Y}, r.Max},
			{Point{r.Min.X, r.Max.Y}, r.Max}, {r.Min, Point{r.Min.X, r.Max.Y}},
		} {
			b.hits = append(b.hits, hit{rank: onNote, key: n.Key(), box: e})
		}
	}
	for _, layer := range texts {
		for _, m := range layer {
			if _, ok := m.Op.(*Text); !ok {
				continue
			}
			r, loose := onText, true
			if m.Owner.Type == schematic.TypeNote {
				r, loose = onNote, false
			}
			b.hits = append(b.hits, hit{rank: r, key: m.Owner, box: m.Bound, loose: loose})
		}
	}
}

// dist returns the distance from p to the box, 0 inside.
func (b Box) dist(p Point) float64 {
	dx := math.Max(0, math.Max(b.Min.X-p.X, p.X-b.Max.X))
	dy := math.Max(0, math.Max(b.Min.Y-p.Y, p.Y-b.Max.Y))
	return math.Hypot(dx, dy)
}
