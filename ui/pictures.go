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

// picture is the display list of one sheet of one snapshot. A sheet that is
// not drawn yet has an empty list.
type picture struct {
	list  *draw.List
	index *draw.Index
	plan  *export.Plan
	tags  float64 // em size in mm of the largest framed figures, 0 if none
	want  wanted
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
	pic := picture{list: list, index: draw.NewIndex(list), plan: export.NewPlan(list), want: w}
	for i := range list.Marks {
		pic.tags = max(pic.tags, list.Marks[i].With)
	}
	return pic
}

// get brings have up to date. A slow sheet keeps what it has and is made beside
// the window; ready is called when it is there.
func (p *pictures) get(have *picture, w wanted, ready func()) {
	if have.list != nil && have.want == w {
		return
	}
	cost, known := p.cost[w.sheet]
	if !known && w.doc.Len(schematic.TypePart)+w.doc.Len(schematic.TypeWire) > largeSheet {
		cost = 2 * slowPicture
	}
	if p.cost == nil {
		p.cost = map[schematic.ID]time.Duration{}
	}
	if cost <= slowPicture {
		start := time.Now()
		*have = p.make(w)
		p.cost[w.sheet] = time.Since(start)
		return
	}
	if have.list == nil || have.want.sheet != w.sheet {
		blank := &draw.List{Size: sheetSize(w)}
		*have = picture{list: blank, plan: export.NewPlan(blank), want: wanted{sheet: w.sheet}}
	}
	if p.pending == w {
		return // already being made
	}
	p.pending = w
	start := time.Now()
	ask(&p.job, func() picture { return p.make(w) }, func(pic picture) {
		p.cost[w.sheet] = time.Since(start)
		p.pending = wanted{}
		*have = pic
		ready()
		// The router's first look at a large sheet must not wait for a drag.
		p.job.crew.spawn(func() { route.Of(w.doc, w.sheet) })
	})
}

func sheetSize(w wanted) draw.Point {
	s := w.doc.Sheet(w.sheet)
	if s == nil {
		return draw.Point{}
	}
	return mmOf(s.Area().Max)
}

// basePicture returns the picture of the committed document.
func (ed *Editor) basePicture() *picture {
	p := &ed.pictures
	p.get(&p.base, wanted{ed.doc(), ed.sheet, ed.windowOptions()}, ed.pictureReady)
	return &p.base
}

// shownPicture returns the picture as seen: with the edit in hand, if any.
func (ed *Editor) shownPicture() *picture {
	if ed.preview == nil {
		return ed.basePicture()
	}
	p := &ed.pictures
	p.get(&p.ahead, wanted{ed.preview, ed.sheet, ed.windowOptions()}, ed.pictureReady)
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
