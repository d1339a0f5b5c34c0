package draw

import (
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// partGlow is how far the light round a traced part stands off, mm: closer than
// its designation.
const partGlow = 0.5

// rim keeps tags and marks off the edges of a box where they find other room.
func (b *build) rim(box Box) {
	for _, e := range [4]Box{
		{box.Min, Point{box.Max.X, box.Min.Y}}, {Point{box.Min.X, box.Max.Y}, box.Max},
		{box.Min, Point{box.Min.X, box.Max.Y}}, {Point{box.Max.X, box.Min.Y}, box.Max},
	} {
		b.room.take(taken{box: e.Grow(0.4), owner: noOwner, seg: -1})
	}
}

// glow lights up traced items, below everything else.
func (b *build) glow() []Mark {
	if len(b.live.Trace) == 0 {
		return nil
	}
	var p pen
	by := b.reached()
	for i, s := range b.symbols {
		if p.owner = s.part.Key(); b.live.Trace[p.owner] && (len(by[i]) > 0 || !b.anyReached(s.part.ID, by)) {
			body := boxMM(s.body)
			for _, n := range by[i] {
				at := mm(s.pins[n].At)
				near := Point{min(max(at.X, body.Min.X), body.Max.X), min(max(at.Y, body.Min.Y), body.Max.Y)}
				if near != at {
					p.stroke(polyline(at, near), 2*glowMargin, InkTrace)
				}
			}
			box := body.Grow(partGlow)
			p.stroke(roundRect(box, 0.8), 0.8, InkTrace)
			b.rim(box)
		}
	}
	for _, l := range b.lines {
		if p.owner = l.wire.Key(); b.live.Trace[p.owner] {
			p.stroke(l.drawn, l.width+2*glowMargin, InkTrace)
		}
	}
	return p.marks
}

// reached tells for every symbol at which of its pins a traced wire ends. Of a
// part that is drawn in several places only those are lit which the circuit
// passes.
func (b *build) reached() [][]int {
	by := make([][]int, len(b.symbols))
	for i, l := range b.lines {
		if !b.live.Trace[l.wire.Key()] {
			continue
		}
		for _, e := range b.ends[i] {
			if e.symbol >= 0 {
				by[e.symbol] = append(by[e.symbol], e.pin)
			}
		}
	}
	return by
}

func (b *build) anyReached(part schematic.ID, by [][]int) bool {
	r := b.byPart[part]
	for i := r[0]; i < r[1]; i++ {
		if len(by[i]) > 0 {
			return true
		}
	}
	return false
}

// overlay draws what computation adds on top: currents, volts, marks. It comes
// after all labels, so that none of them moves when it is switched on.
func (b *build) overlay() []Mark {
	if b.opts.Live == nil {
		return nil
	}
	p := pen{with: sizeLive}
	b.stateName(&p)
	for i, l := range b.lines {
		if c, ok := b.live.Currents[l.wire.ID]; ok {
			p.owner = l.wire.Key()
			b.current(&p, i, l, c)
		}
	}
	for _, s := range b.live.Spots {
		b.spot(&p, s)
	}
	p.with = 0 // the shape of a finding tells enough without its word
	if len(b.live.Severity) > 0 {
		b.severities(&p)
	}
	return p.marks
}

// stateName says in the upper left corner of the sheet to which operating state
// the figures belong.
func (b *build) stateName(p *pen) {
	if b.live.State == "" || len(b.live.Currents)+len(b.live.Spots) == 0 {
		return
	}
	const gap = 1.5
	area := mm(b.sheet.Area().Max)
	words := trim("Figures of the operating state: "+b.live.State, area.X-2*frameMargin-2*gap, sizeName, true)
	at := Point{frameMargin + gap, frameMargin + gap + CapHeight(sizeName)}
	text := textAt(words, at, atStart, 0, sizeName, true, InkCurrent)
	p.fill(rectPath(text.Box().Grow(0.3)), InkPaper)
	p.text(text)
}

const (
	sizeLive = 1.9
	tagHigh  = 2.6                            // height of a tag on a wire
	tagReach = tagHigh/2 + plainLine/2 + 0.15 // from its middle to where texts may lie: half of it, its edge, air
	arrow    = 1.5                            // its length
)

// current puts a tag onto the wire with an arrow the way the current runs. On
// a crowded wire it stands where it crosses least.
func (b *build) current(p *pen, i int, l *line, c Current) {
	text := Measure(c.Text, sizeLive, true)
	w := text + 1.6
	if c.Flow != NoFlow {
		w += arrow + 0.6
	}
	if l.width > tagHigh/2 {
		w += 1
	}
	at, seg, found := b.tagPlace(i, l, w)
	if !found {
		return // a wire without length
	}
	level, _, _ := l.axis(seg)
	r := run{level: level}
	box := Box{at.add(-w/2, -tagHigh/2), at.add(w/2, tagHigh/2)}
	if !level {
		box = Box{at.add(-tagHigh/2, -w/2), at.add(tagHigh/2, w/2)}
	}
	p.fill(roundRect(box, tagHigh/2), InkPaper)
	p.stroke(roundRect(box, tagHigh/2), plainLine, InkCurrent)
	b.room.block(box)

	// The text reads to the right or upwards; the arrow stands at the end the
	// current runs to.
	forward := flowsForward(l.path[seg-1], l.path[seg], c.Flow)
	angle := 0.0
	along, across := at.X, at.Y
	if !level {
		angle = up
		along, across = at.Y, at.X
	}
	if c.Flow == NoFlow {
		p.text(middleText(c.Text, at, angle, sizeLive, true, InkCurrent))
		return
	}
	dir := 1.0
	if !forward {
		dir = -1
	}
	tip := along + dir*(w/2-0.5)
	p.fill(polygon(r.pt(tip, across), r.pt(tip-dir*arrow, across-0.75), r.pt(tip-dir*arrow, across+0.75)), InkCurrent)
	p.text(middleText(c.Text, r.pt(along-dir*(arrow+0.3)/2, across), angle, sizeLive, true, InkCurrent))
}

// tagPlace returns the middle of a tag of length w on a wire and the piece it
// stands on: in a free gap, else on or beside the wire where it covers least.
func (b *build) tagPlace(i int, l *line, w float64) (at Point, seg int, ok bool) {
	least := -1
	order, segs := l.longest()
	for _, n := range order[:segs] {
		level, s, across := l.axis(n)
		r := run{level: level}
		mid := (s.from + s.to) / 2
		b.gaps[0] = b.room.gaps(b.gaps[0], r.box(s, across-tagReach, across+tagReach), level, int32(i), 0.3)
		if m, free := fit(b.gaps[0], w, mid); free {
			return r.pt(m, across), n, true
		}
		slack := max(0, s.to-s.from-w) / 2
		beside := tagReach + l.width/2 + rimWidth + 0.15
		for _, off := range [3]float64{0, beside, -beside} {
			for _, t := range [5]float64{0, -0.5, 0.5, -1, 1} {
				m, a := mid+t*slack, across+off
				c := b.room.crowd(r.box(span{m - w/2, m + w/2}, a-tagReach, a+tagReach))
				if least < 0 || c < least {
					at, seg, least = r.pt(m, a), n, c
				}
			}
		}
	}
	return at, seg, least >= 0
}

// flowsForward reports whether the current runs right or down on the sheet.
func flowsForward(from, to geom.Point, f Flow) bool {
	d := to.Sub(from)
	return (d.X > 0 || d.Y > 0) == (f == AToB)
}

// spot writes a short text at a pin wherever the pin is shown.
func (b *build) spot(p *pen, s Spot) {
	p.owner = schematic.Key{Type: schematic.TypePart, ID: s.Pin.Part}
	for _, sym := range b.shown(s.Pin.Part) {
		n := sym.pin(s.Pin.Pin)
		if n < 0 || s.Text == "" {
			continue
		}
		at := mm(sym.pins[n].At)
		w, h := Measure(s.Text, sizeLive, true)+1.2, CapHeight(sizeLive)+1.2
		var places []Box
		for _, far := range [3]float64{0.9, 2.2, 4} {
			for _, q := range [8]Point{{1, -1}, {-1, -1}, {1, 1}, {-1, 1}, {1, 0}, {-1, 0}, {0, -1}, {0, 1}} {
				c := at.add(q.X*(far+w/2), q.Y*(far+h/2))
				places = append(places, Box{c.add(-w/2, -h/2), c.add(w/2, h/2)})
			}
		}
		box := b.least(places)
		p.stroke(polyline(at, middle(box)), thinLine, InkTrace)
		p.fill(roundRect(box, 0.6), InkPaper)
		p.stroke(roundRect(box, 0.6), plainLine, InkTrace)
		p.text(middleText(s.Text, middle(box), 0, sizeLive, true, InkText))
		b.room.block(box)
	}
}

// least returns the first of the boxes that is free, else the least crowded.
func (b *build) least(places []Box) Box {
	best, price := places[0], -1
	for _, q := range places {
		n := b.room.crowd(q.Grow(0.25))
		if price < 0 || n < price {
			best, price = q, n
		}
		if n == 0 {
			break
		}
	}
	return best
}
