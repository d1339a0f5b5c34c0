package draw

const (
	sizeMark = 3.4 // mm, the severity shape
	sizeWord = 1.9
)

// ink returns the ink of a level.
func (l Level) ink() Ink {
	switch l {
	case Error:
		return InkError
	case Warn:
		return InkWarn
	}
	return InkInfo
}

// String returns the word shown when a severity brings none.
func (l Level) String() string {
	switch l {
	case Error:
		return "error"
	case Warn:
		return "warning"
	}
	return "note"
}

// severities draws the marks of findings beside the items they concern.
func (b *build) severities(p *pen) {
	for _, s := range b.symbols {
		p.owner = s.part.Key()
		if v, ok := b.live.Severity[p.owner]; ok {
			b.severity(p, v, aroundBox(boxMM(s.body), v))
		}
	}
	for _, l := range b.lines {
		p.owner = l.wire.Key()
		if v, ok := b.live.Severity[p.owner]; ok {
			if places := alongLine(l, v); len(places) > 0 {
				b.severity(p, v, places)
			}
		}
	}
	for _, n := range b.notesHere {
		p.owner = n.Key()
		if v, ok := b.live.Severity[p.owner]; ok {
			b.severity(p, v, aroundBox(emptyBox().extend(mm(n.At)), v))
		}
	}
}

func (v Severity) word() string {
	if v.Word != "" {
		return short(v.Word)
	}
	return v.Level.String()
}

func (v Severity) width() float64 { return sizeMark + 0.5 + Measure(v.word(), sizeWord, true) }

// aroundBox returns the places of a mark about a symbol: corners first.
func aroundBox(b Box, v Severity) []Box {
	w, h, c := v.width(), sizeMark, middle(b)
	var out []Box
	for _, far := range [3]float64{0.6, 3, 6} {
		for _, at := range [8]Point{
			{b.Max.X + far, b.Min.Y - far - h}, {b.Min.X - far - w, b.Min.Y - far - h},
			{b.Max.X + far, b.Max.Y + far}, {b.Min.X - far - w, b.Max.Y + far},
			{b.Max.X + far, c.Y - h/2}, {b.Min.X - far - w, c.Y - h/2},
			{c.X - w/2, b.Min.Y - far - h}, {c.X - w/2, b.Max.Y + far},
		} {
			out = append(out, Box{at, at.add(w, h)})
		}
	}
	return out
}

// alongLine returns the places of a mark beside a wire's longest pieces.
func alongLine(l *line, v Severity) []Box {
	w, h := v.width(), sizeMark
	var out []Box
	order, n := l.longest()
	for _, seg := range order[:min(n, 2)] {
		level, s, across := l.axis(seg)
		off := l.width/2 + rimWidth + 0.5
		for _, t := range [5]float64{0.5, 0.3, 0.7, 0.15, 0.85} {
			along := s.from + (s.to-s.from)*t
			if level {
				out = append(out, boxAt(along-w/2, across-off-h, w, h), boxAt(along-w/2, across+off, w, h))
			} else {
				out = append(out, boxAt(across+off, along-h/2, w, h), boxAt(across-off-w, along-h/2, w, h))
			}
		}
	}
	return out
}

func boxAt(x, y, w, h float64) Box { return Box{Point{x, y}, Point{x + w, y + h}} }

// severity draws the shape and its word in the first free place; a mark is
// never left out.
func (b *build) severity(p *pen, v Severity, places []Box) {
	box := b.least(places)
	b.room.block(box)
	p.fill(roundRect(box.Grow(0.3), 0.6), InkPaper)
	r := sizeMark / 2
	c := box.Min.add(r, r)
	p.level(c, v.Level)
	at := Point{box.Min.X + sizeMark + 0.5, c.Y + CapHeight(sizeWord)/2}
	p.text(textAt(v.word(), at, atStart, 0, sizeWord, true, v.Level.ink()))
}

// level draws the shape of a severity round a point.
func (p *pen) level(c Point, l Level) {
	const r = sizeMark / 2
	ink := l.ink()
	switch l {
	case Error:
		p.fill(polygon(c.add(0, -r), c.add(r, 0), c.add(0, r), c.add(-r, 0)), ink)
		const k = 0.55
		p.stroke(polyline(c.add(-k, -k), c.add(k, k)), 0.45, InkPaper)
		p.stroke(polyline(c.add(-k, k), c.add(k, -k)), 0.45, InkPaper)
	case Warn:
		p.fill(polygon(c.add(0, -r), c.add(r, r*0.85), c.add(-r, r*0.85)), ink)
		p.stroke(polyline(c.add(0, -0.55), c.add(0, 0.35)), 0.45, InkPaper)
		p.fill(circlePath(c.add(0, 0.95), 0.25), InkPaper)
	default:
		p.stroke(circlePath(c, r-0.3), 0.45, ink)
		p.fill(circlePath(c, 0.5), ink)
	}
}
