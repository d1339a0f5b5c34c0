package draw

import (
	"math"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Hit is an item at or near a place.
type Hit struct {
	Key  schematic.Key
	Pin  string  // the pin of a part, when the place is on one
	View string  // the view of a part
	Dist float64 // mm
	// Text tells that the place is on the item's designation or label, whose
	// middle is Middle.
	Text   bool
	Middle Point
}

// sort of hit, in the order they are offered: a pin within reach comes before
// the part the pointer is on, that before the wire and the text it is on, those
// before a wire within reach, a part close by, other texts, notes.
type rank uint8

const (
	onPin rank = iota
	onPart
	onWire
	overText
	nearWire
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

// things is what an index is made of, kept with the list that shows it.
type things struct {
	symbols []*symbol
	lines   []*line
	notes   []*schematic.Note
	texts   []textHit // designations, labels and notes
}

// textHit is a text with the view of the part it names.
type textHit struct {
	mark *Mark
	view string
}

// hits returns everything the pointer can find.
func (t *things) hits() []hit {
	n := len(t.texts) + 4*len(t.notes)
	for _, s := range t.symbols {
		n += 1 + len(s.pins)
	}
	for _, l := range t.lines {
		n += len(l.path)
	}
	out := make([]hit, 0, n)
	for _, s := range t.symbols {
		key := s.part.Key()
		for i := range s.pins {
			at := mm(s.pins[i].At)
			out = append(out, hit{rank: onPin, key: key, view: s.shown, pin: s.pins[i].Pin.Name, box: Box{at, at}})
		}
		out = append(out, hit{rank: onPart, key: key, view: s.shown, box: boxMM(s.body)})
	}
	for _, l := range t.lines {
		key := l.wire.Key()
		for i := 1; i < len(l.path); i++ {
			out = append(out, hit{rank: onWire, key: key, box: boxMM(segRect(l, i))})
		}
	}
	for _, n := range t.notes {
		if n.Width <= 0 || n.Height <= 0 {
			continue
		}
		r := boxMM(geom.Rect{Min: n.At, Max: n.At.Add(geom.Pt(n.Width, n.Height))})
		for _, e := range [4]Box{
			{r.Min, Point{r.Max.X, r.Min.Y}}, {Point{r.Max.X, r.Min.Y}, r.Max},
			{Point{r.Min.X, r.Max.Y}, r.Max}, {r.Min, Point{r.Min.X, r.Max.Y}},
		} {
			out = append(out, hit{rank: onNote, key: n.Key(), box: e})
		}
	}
	for _, x := range t.texts {
		h := hit{rank: onText, key: x.mark.Owner, view: x.view, box: x.mark.Bound, loose: true}
		if h.key.Type == schematic.TypeNote {
			h.rank, h.loose = onNote, false
		}
		out = append(out, h)
	}
	return out
}

// onLine is how near in mm to its middle line a wire counts as pointed at.
const onLine = 0.4

// rankAt is the hit's rank for a pointer so far away in mm.
func (h *hit) rankAt(d float64) rank {
	switch {
	case h.rank == onPart && d > 0:
		return nearPart
	case h.rank == onWire && d > onLine:
		return nearWire
	case h.rank == onText && d == 0:
		return overText
	}
	return h.rank
}

// dist returns the distance from p to the box, 0 inside.
func (b Box) dist(p Point) float64 {
	dx := math.Max(0, math.Max(b.Min.X-p.X, p.X-b.Max.X))
	dy := math.Max(0, math.Max(b.Min.Y-p.Y, p.Y-b.Max.Y))
	return math.Hypot(dx, dy)
}

// at is the hit as told for a pointer so far away.
func (h *hit) at(d float64) Hit {
	out := Hit{Key: h.key, Pin: h.pin, View: h.view, Dist: d}
	if h.rank == onText {
		out.Text, out.Middle = true, middle(h.box)
	}
	return out
}
