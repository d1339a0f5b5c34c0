package draw

import "slices"

// dirty is where a sheet differs from the one built before. What was placed by
// the room around it, and has no difference near, stays where it is: building
// anew would give the same.
type dirty struct {
	all   bool // everything does
	boxes []Box
	union Box
}

// mostDirty bounds the areas told apart: with more of them, asking costs as
// much as building anew.
const mostDirty = 400

func (d *dirty) reset(all bool) {
	d.all, d.boxes, d.union = all, d.boxes[:0], emptyBox()
}

func (d *dirty) add(b Box) {
	if d.all || b.Empty() {
		return
	}
	if len(d.boxes) == mostDirty {
		d.all = true
		return
	}
	d.boxes = append(d.boxes, b)
	d.union = d.union.extend(b.Min).extend(b.Max)
}

// near reports whether something differs within an area.
func (d *dirty) near(b Box) bool {
	if d.all {
		return true
	}
	return d.union.Touches(b) && slices.ContainsFunc(d.boxes, b.Touches)
}

// line marks the pieces of a line.
func (d *dirty) line(l *line) {
	for n := 1; n < len(l.path) && !d.all; n++ {
		d.add(l.seg(n))
	}
}

// gone marks what a line leaves behind.
func (d *dirty) gone(l *line) {
	d.line(l)
	d.hops(l, l.hops)
	if l.label != nil && l.labelled {
		d.add(l.label.Bound)
	}
}

func (d *dirty) hops(l *line, hops []hop) {
	for _, h := range hops {
		d.add(l.hopBox(h))
	}
}

// symbol marks a symbol that has come or gone, with its designation.
func (d *dirty) symbol(s *symbol) {
	d.add(s.solid)
	for _, b := range s.texts {
		d.add(b)
	}
	for _, b := range s.strokes {
		d.add(b)
	}
	for i := range s.tag.last {
		d.add(s.tag.last[i].Bound)
	}
}

// areas marks where two lists of taken areas differ.
func (d *dirty) areas(before, now []taken) {
	same := func(a, b taken) bool { return a.box == b.box && a.hard == b.hard }
	if d.all || slices.EqualFunc(before, now, same) {
		return
	}
	count := make(map[Box]int, len(now))
	for _, t := range before {
		count[t.box]--
	}
	for _, t := range now {
		count[t.box]++
	}
	for _, list := range [2][]taken{before, now} {
		for _, t := range list {
			if count[t.box] != 0 {
				d.add(t.box)
			}
		}
	}
}

// around is the area in which room counts for the designation.
func (t *tag) around() Box {
	b := t.body.Grow(max(t.w, t.h) + 5)
	if t.fixed != nil {
		f := t.box(*t.fixed).Grow(1)
		b = b.extend(f.Min).extend(f.Max)
	}
	return b
}

// tagOf writes a symbol's designation, or leaves it where it is.
func (b *build) tagOf(s *symbol) []Mark {
	before := s.tag.last
	if before != nil && !b.dirty.near(s.tag.around()) {
		for i := range before {
			b.room.block(before[i].Bound)
		}
		return before
	}
	marks := s.tag.write(s.part.Key(), b.room)
	if before == nil || &before[0] != &marks[0] {
		for i := range before {
			b.dirty.add(before[i].Bound)
		}
		for i := range marks {
			b.dirty.add(marks[i].Bound)
		}
	}
	return marks
}

// settled reports whether the room beside a line is as it was when its label
// was placed.
func (b *build) settled(l *line) bool {
	if !l.known || len(l.texts) == 0 {
		return l.known
	}
	reach := l.wide[len(l.wide)-1] + 4
	for n := 1; n < len(l.path); n++ {
		if b.dirty.near(l.seg(n).Grow(reach)) {
			return false
		}
	}
	return true
}
