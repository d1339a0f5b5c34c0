package ui

import (
	"time"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/export"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
	"loomwright/ui/tool"
)

// slowPicture is how long making a display list may take in the window's own
// goroutine; sheets that took longer are made beside it. largeSheet guesses
// the same for a sheet seen for the first time.
const (
	slowPicture = 12 * time.Millisecond
	largeSheet  = 1500 // parts and wires in the document
)

// picture is the display list of one sheet of one snapshot, made ready to be
// painted and asked. A sheet that is not drawn yet has an empty list. What is
// painted may be ahead of the list: see [picture.patched].
type picture struct {
	list  *draw.List
	index *draw.Index
	whole *export.Plan // of the list
	made  wanted       // what the list shows
	tags  float64      // em size in mm of the largest framed figures, 0 if none

	plan *export.Plan // what is painted, and
	want wanted       // what that shows
}

type wanted struct {
	doc   *schematic.Doc
	sheet schematic.ID
	opts  draw.Options
}

// pictures makes the display lists of a window and keeps the newest of the
// document and of the edit in hand.
type pictures struct {
	builder draw.Builder
	job     latest
	base    picture
	ahead   picture // with the edit in hand
	cost    map[schematic.ID]time.Duration
	pending wanted
}

func (p *pictures) make(w wanted) picture {
	list := p.builder.Sheet(w.doc, w.sheet, w.opts)
	pic := pictureOf(list, w)
	pic.index = draw.NewIndex(list)
	for i := range list.Marks {
		pic.tags = max(pic.tags, list.Marks[i].With)
	}
	return pic
}

func pictureOf(list *draw.List, w wanted) picture {
	plan := export.NewPlan(list)
	return picture{list: list, whole: plan, made: w, plan: plan, want: w}
}

// get brings have up to date. A slow sheet is made beside the window; until it
// is there, what is known of it, from, is shown with the changes drawn over it.
// Ready is called when it is there.
func (p *pictures) get(have, from *picture, w wanted, ready func()) {
	if have.list != nil && have.want == w {
		return
	}
	if !p.slow(w) {
		start := time.Now()
		*have = p.make(w)
		p.took(w, start)
		return
	}
	if from.list == nil || from.made.sheet != w.sheet {
		*from = pictureOf(&draw.List{Size: sheetSize(w)}, wanted{sheet: w.sheet})
	}
	quick, ok := from.patched(w)
	switch {
	case ok && have != from:
		*have = quick
		return // an edit in hand is soon another
	case ok:
		*have = quick
	case have.list == nil || have.made.sheet != w.sheet:
		*have = *from
	}
	if p.pending == w {
		return // already being made
	}
	p.pending = w
	start := time.Now()
	askEach(&p.job, func() picture { return p.make(w) }, func(pic picture) {
		p.took(w, start)
		if p.pending == w {
			p.pending = wanted{}
		}
		if have.made.sheet != w.sheet {
			return // another one is in sight by now
		}
		*have = pic
		ready()
		// The router's look at a large sheet must not wait for a drag.
		p.job.crew.spawn(func() { route.Prepare(w.doc, w.sheet) })
	})
}

// slow reports whether a picture is likely to take too long for the window.
func (p *pictures) slow(w wanted) bool {
	if cost, known := p.cost[w.sheet]; known {
		return cost > slowPicture
	}
	return w.doc.Len(schematic.TypePart)+w.doc.Len(schematic.TypeWire) > largeSheet
}

func (p *pictures) took(w wanted, start time.Time) {
	if p.cost == nil {
		p.cost = map[schematic.ID]time.Duration{}
	}
	p.cost[w.sheet] = time.Since(start)
}

func sheetSize(w wanted) draw.Point {
	s := w.doc.Sheet(w.sheet)
	if s == nil {
		return draw.Point{}
	}
	x, y := s.Area().Max.MM()
	return draw.Point{X: x, Y: y}
}

// basePicture returns the picture of the committed document.
func (ed *Editor) basePicture() *picture {
	p := &ed.pictures
	p.get(&p.base, &p.base, wanted{ed.doc(), ed.sheet, ed.windowOptions()}, ed.pictureReady)
	return &p.base
}

// shownPicture returns the picture as seen: with the edit in hand, if any.
func (ed *Editor) shownPicture() *picture {
	p := &ed.pictures
	if ed.preview == nil {
		p.ahead = picture{} // it would only hold memory
		return ed.basePicture()
	}
	p.get(&p.ahead, ed.basePicture(), wanted{ed.preview, ed.sheet, ed.windowOptions()}, ed.pictureReady)
	return &p.ahead
}

func (ed *Editor) pictureReady() {
	ed.sheetView.repaint()
	ed.sheetView.refreshOverlay()
}

// finder asks a picture's index for the canvas tools.
type finder struct{ index *draw.Index }

func (f finder) At(at draw.Point, radiusMM float64) []tool.Hit {
	found := f.index.At(at, radiusMM)
	hits := make([]tool.Hit, len(found))
	for i, h := range found {
		hits[i] = tool.Hit{Key: h.Key, Pin: h.Pin, View: h.View, Ok: true}
		if h.Text {
			hits[i].Text, hits[i].Middle = true, geom.FromMM(h.Middle.X, h.Middle.Y)
		}
	}
	return hits
}

func (f finder) In(area draw.Box, enclosed bool) []schematic.Key { return f.index.In(area, enclosed) }

// windowOptions add to what is printed what only the window shows: what a
// comparison misses.
func (ed *Editor) windowOptions() draw.Options {
	o := ed.drawOptions()
	o.Under = ed.compare.ghosts(ed.doc(), ed.sheet)
	return o
}

// drawOptions say how the window draws its sheets.
func (ed *Editor) drawOptions() draw.Options {
	o := ed.study.options()
	o.Show = ed.shows()
	return o
}
