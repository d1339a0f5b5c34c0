package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/ui/tool"
	"loomwright/ui/view"
)

// mostOutlined is how many selected items get an outline of their own; a
// larger selection gets one frame round all of it.
const mostOutlined = 80

// overlay is what lies over the painted sheet and changes with every move of
// the pointer: outlines of selected things, the thing pointed at, the rubber
// band, the wire being drawn. Its objects are used again and again, so that a
// pointer move never paints the sheet.
type overlay struct {
	box    *fyne.Container
	shapes *fyne.Container // in box
	rects  pool[*canvas.Rectangle]
	lines  pool[*canvas.Line]
	rings  pool[*canvas.Circle]
	words  pool[*canvas.Text]

	changes []changeMark // of a comparison
	written []wordBox    // their words, so far

	band      geom.Rect
	bandOn    bool
	bandTouch bool
	bandTakes []schematic.Key
	ghost     geom.Path
	marks     []geom.Point
	guides    []tool.Guide
	pointer   *geom.Point // of the keys
	// pointerHeld tells that the pointer of the keys has something in hold.
	pointerHeld bool
	near        tool.Hit
	fresh       bool // has objects the window has not seen yet
}

// pool hands out objects and hides those not handed out this time.
type pool[T fyne.CanvasObject] struct {
	all  []T
	used int
	make func() T
	in   *fyne.Container
}

func (p *pool[T]) next(o *overlay) T {
	if p.used == len(p.all) {
		obj := p.make()
		p.all = append(p.all, obj)
		p.in.Objects = append(p.in.Objects, obj)
		o.fresh = true
	}
	obj := p.all[p.used]
	p.used++
	if !obj.Visible() {
		obj.Show()
	}
	return obj
}

func (p *pool[T]) rest() {
	for _, obj := range p.all[p.used:] {
		if obj.Visible() {
			obj.Hide()
		}
	}
	p.used = 0
}

func newOverlay() *overlay {
	shapes, words := &fyne.Container{}, &fyne.Container{} // words lie over all shapes
	o := &overlay{box: &fyne.Container{Objects: []fyne.CanvasObject{shapes, words}}, shapes: shapes}
	o.rects.in, o.lines.in, o.rings.in, o.words.in = shapes, shapes, shapes, words
	o.words.make = func() *canvas.Text { return canvas.NewText("", color.Transparent) }
	o.rects.make = func() *canvas.Rectangle { return canvas.NewRectangle(color.Transparent) }
	o.lines.make = func() *canvas.Line { return canvas.NewLine(color.Transparent) }
	o.rings.make = func() *canvas.Circle { return canvas.NewCircle(color.Transparent) }
	return o
}

// pane is where the overlay lies: a camera and the screen's density.
type pane struct {
	cam   view.Camera
	scale float64
	doc   *schematic.Doc
	sheet schematic.ID
}

// at returns the window place of a sheet point.
func (p pane) at(q geom.Point) fyne.Position {
	px := p.cam.PointPx(q)
	return fyne.NewPos(float32(px.X/p.scale), float32(px.Y/p.scale))
}

// refresh lays all objects out anew.
func (o *overlay) refresh(p pane, chosen []schematic.Key) {
	if p.scale <= 0 || p.doc == nil {
		return
	}
	pick, near := theme.Color(colorPick), theme.Color(colorNear)
	o.written = o.written[:0]
	for _, m := range o.changes {
		o.change(p, m)
	}
	if o.near.Ok && !contains(chosen, o.near.Key) {
		o.outline(p, o.near.Key, near, 1.5)
	}
	if o.near.Ok && o.near.Pin != "" {
		if at, ok := view.PinPlace(p.doc, p.sheet, o.near.Key.ID, o.near.View, o.near.Pin); ok {
			o.ring(p.at(at), 6, near, 2)
		}
	}
	if here := drawnHere(p, chosen); len(here) <= mostOutlined {
		for _, k := range here {
			o.outline(p, k, pick, 2)
		}
		if len(chosen) == 1 {
			o.handles(p, chosen[0], pick)
		}
		for _, k := range here {
			if edit.Locked(p.doc, k) {
				o.padlock(p, k, pick)
			}
		}
	} else if r := view.Bounds(p.doc, chosen, p.sheet); !r.Empty() {
		o.frame(p, r.Grow(geom.Grid), pick, color.Transparent, 2)
	}
	o.path(p, o.ghost, theme.Color(colorGhost), 2.5)
	for _, m := range o.marks {
		o.ring(p.at(m), 7, theme.Color(colorGhost), 2.5)
	}
	for _, g := range o.guides {
		o.guide(p, g)
	}
	if o.bandOn {
		if len(o.bandTakes) <= mostOutlined {
			for _, k := range o.bandTakes {
				o.outline(p, k, near, 1.5)
			}
		}
		o.marquee(p, pick)
	}
	o.cross(p)
	o.rects.rest()
	o.lines.rest()
	o.rings.rest()
	o.words.rest()
	if o.fresh {
		o.fresh = false
		o.box.Refresh()
	}
}

// drawnHere returns those of the keys that the sheet shows, no more than tell
// that they are many.
func drawnHere(p pane, keys []schematic.Key) (here []schematic.Key) {
	for _, k := range keys {
		if view.DrawnOn(p.doc, k, p.sheet) {
			if here = append(here, k); len(here) > mostOutlined {
				break
			}
		}
	}
	return here
}

// cross draws the pointer that the arrow keys move; with something in hold it
// has a ring.
func (o *overlay) cross(p pane) {
	if o.pointer == nil {
		return
	}
	const near, long = 5, 18
	at, c, under := p.at(*o.pointer), theme.Color(colorGhost), theme.Color(theme.ColorNameInputBackground)
	for _, stroke := range []struct {
		c     color.Color
		width float32
	}{{under, 4.5}, {c, 2}} {
		for _, d := range []fyne.Delta{{DX: 1}, {DX: -1}, {DY: 1}, {DY: -1}} {
			o.line(at.AddXY(d.DX*near, d.DY*near), at.AddXY(d.DX*long, d.DY*long), stroke.c, stroke.width)
		}
	}
	if o.pointerHeld {
		o.ring(at, near+4, c, 2.5)
	}
}

// outline traces one item: parts and notes by a frame, wires along their path.
func (o *overlay) outline(p pane, k schematic.Key, c color.Color, width float32) {
	switch it := p.doc.Get(k).(type) {
	case *schematic.Part:
		for _, v := range it.Views {
			if v.Sheet == p.sheet {
				o.frame(p, p.doc.Reach(it, v).Grow(geom.Grid/2), c, color.Transparent, width)
			}
		}
	case *schematic.Wire:
		if it.Sheet == p.sheet {
			o.rails(p, p.doc.Path(it), c, width)
		}
	case *schematic.Note:
		if it.Sheet == p.sheet {
			o.frame(p, view.NoteArea(it).Grow(geom.Grid/2), c, color.Transparent, width)
		}
	}
}

// padlock stands at the top right corner of what is locked in place, or at the
// middle of a wire.
func (o *overlay) padlock(p pane, k schematic.Key, c color.Color) {
	area := view.Bounds(p.doc, []schematic.Key{k}, p.sheet)
	if area.Empty() {
		return
	}
	area = area.Grow(geom.Grid / 2)
	at := p.at(geom.Pt(area.Max.X, area.Min.Y))
	if w := p.doc.Wire(k.ID); w != nil && k.Type == schematic.TypeWire {
		at = p.at(p.doc.Path(w).Middle()).AddXY(-10, 10)
	}
	paper := theme.Color(theme.ColorNameInputBackground)
	plate := o.rects.next(o)
	plate.FillColor, plate.StrokeColor, plate.StrokeWidth = paper, c, 1
	place(plate, at.AddXY(0, -20), fyne.NewSquareSize(20))
	bow := o.rings.next(o)
	bow.FillColor, bow.StrokeColor, bow.StrokeWidth = color.Transparent, c, 2
	place(bow, at.AddXY(6, -17), fyne.NewSquareSize(8))
	body := o.rects.next(o)
	body.FillColor, body.StrokeColor, body.StrokeWidth = c, c, 0
	place(body, at.AddXY(4.5, -11), fyne.NewSize(11, 8))
}

// handles marks the ends and bends of a wire that can be taken hold of.
func (o *overlay) handles(p pane, k schematic.Key, c color.Color) {
	w := p.doc.Wire(k.ID)
	if w == nil || k.Type != schematic.TypeWire || w.Sheet != p.sheet || w.Locked {
		return
	}
	path := p.doc.Path(w)
	for i := 1; i < len(path); i++ {
		o.pushHandle(p.at(path[i-1]), p.at(path[i]), c)
	}
	for i, q := range path {
		at := p.at(q)
		half := float32(3)
		if i == 0 || i == len(path)-1 {
			half = 4.5
		}
		r := o.rects.next(o)
		r.FillColor, r.StrokeColor, r.StrokeWidth = theme.Color(theme.ColorNameInputBackground), c, 2
		place(r, at.SubtractXY(half, half), fyne.NewSquareSize(2*half))
	}
}

// pushHandle marks the middle of a stretch that is long enough to be pushed
// sideways there.
func (o *overlay) pushHandle(a, b fyne.Position, c color.Color) {
	const long, half, thin = 48, 6, 1.5
	wide, high := float32(half), float32(thin)
	if a.X == b.X {
		wide, high = thin, half
	}
	if max(a.X-b.X, b.X-a.X)+max(a.Y-b.Y, b.Y-a.Y) < long {
		return
	}
	r := o.rects.next(o)
	r.FillColor, r.StrokeColor, r.StrokeWidth = theme.Color(theme.ColorNameInputBackground), c, 1.5
	place(r, fyne.NewPos((a.X+b.X)/2-wide, (a.Y+b.Y)/2-high), fyne.NewSize(2*wide, 2*high))
}

func (o *overlay) frame(p pane, area geom.Rect, stroke, fill color.Color, width float32) {
	a, b := p.at(area.Min), p.at(area.Max)
	r := o.rects.next(o)
	r.FillColor, r.StrokeColor, r.StrokeWidth = fill, stroke, width
	place(r, a, fyne.NewSize(b.X-a.X, b.Y-a.Y))
}

// guide draws what a thing on the move is in line with: from pin to pin with
// both ringed, from edge to edge dashed.
func (o *overlay) guide(p pane, g tool.Guide) {
	c, a, b := theme.Color(colorGhost), p.at(g.From), p.at(g.To)
	if !g.Pins {
		if a.X > b.X || a.Y > b.Y {
			a, b = b, a
		}
		o.dashes(a, b, c, 1)
		return
	}
	o.line(a, b, c, 1)
	o.ring(a, 4, c, 1.5)
	o.ring(b, 4, c, 1.5)
}

// marquee draws the frame that selects: solid where it takes what it encloses,
// dashed where it takes what it touches.
func (o *overlay) marquee(p pane, c color.Color) {
	if !o.bandTouch {
		o.frame(p, o.band, c, faded(c, 0x18), 1.5)
		return
	}
	o.frame(p, o.band, color.Transparent, faded(c, 0x18), 0)
	a, b := p.at(o.band.Min), p.at(o.band.Max)
	for _, side := range [4][2]fyne.Position{{a, {X: b.X, Y: a.Y}}, {{X: a.X, Y: b.Y}, b}, {a, {X: a.X, Y: b.Y}}, {{X: b.X, Y: a.Y}, b}} {
		o.dashes(side[0], side[1], c, 1.5)
	}
}

// mostDashes keeps a dashed line cheap to draw however long it is.
const mostDashes = 40

func (o *overlay) dashes(a, b fyne.Position, c color.Color, width float32) {
	length := max(b.X-a.X, b.Y-a.Y)
	n := max(1, min(mostDashes, int(length/12)))
	step := fyne.NewDelta((b.X-a.X)/float32(n), (b.Y-a.Y)/float32(n))
	for i := range n {
		from := a.AddXY(step.DX*float32(i), step.DY*float32(i))
		o.line(from, from.AddXY(step.DX*0.6, step.DY*0.6), c, width)
	}
}

func (o *overlay) line(a, b fyne.Position, c color.Color, width float32) {
	l := o.lines.next(o)
	l.StrokeColor, l.StrokeWidth = c, width
	l.Position1, l.Position2 = a, b
	l.Refresh()
}

func (o *overlay) path(p pane, path geom.Path, c color.Color, width float32) {
	for i := 1; i < len(path); i++ {
		o.line(p.at(path[i-1]), p.at(path[i]), c, width)
	}
}

// railGap is how far the outline of a wire stands off its middle: clear of the
// widest wire at usual zooms, near enough to be one thing with it.
const railGap = 4.5

// rails outlines a wire by a line on either side, so that its own colour, and
// what is written beside it, stay in sight.
func (o *overlay) rails(p pane, path geom.Path, c color.Color, width float32) {
	pts := make([]fyne.Position, len(path))
	for i, q := range path {
		pts[i] = p.at(q)
	}
	for _, side := range [2]float32{railGap, -railGap} {
		for i := 1; i < len(pts); i++ {
			o.line(aside(pts, i-1, i, side), aside(pts, i, i, side), c, width)
		}
	}
	for _, end := range [2][2]int{{0, 1}, {len(pts) - 1, len(pts) - 1}} {
		if len(pts) > 1 {
			o.line(aside(pts, end[0], end[1], railGap), aside(pts, end[0], end[1], -railGap), c, width)
		}
	}
}

// aside returns where the outline at a distance beside a path of level and
// upright stretches turns at point i; seg is the stretch that is drawn, named by
// its end.
func aside(pts []fyne.Position, i, seg int, by float32) fyne.Position {
	at := pts[i]
	for _, s := range [2]int{i, i + 1} { // the stretches that meet there
		if s < 1 || s >= len(pts) {
			continue
		}
		a, b := pts[s-1], pts[s]
		if s != seg && (a.X == b.X) == (pts[seg-1].X == pts[seg].X) {
			continue // straight on: one stretch tells it all
		}
		switch {
		case a.X != b.X:
			at.Y += by * sign(b.X-a.X)
		case a.Y != b.Y:
			at.X -= by * sign(b.Y-a.Y)
		}
	}
	return at
}

func sign(v float32) float32 {
	if v < 0 {
		return -1
	}
	return 1
}

func (o *overlay) ring(at fyne.Position, radius float32, c color.Color, width float32) {
	r := o.rings.next(o)
	r.FillColor, r.StrokeColor, r.StrokeWidth = color.Transparent, c, width
	place(r, at.SubtractXY(radius, radius), fyne.NewSquareSize(2*radius))
}

func place(obj fyne.CanvasObject, at fyne.Position, size fyne.Size) {
	obj.Move(at)
	obj.Resize(size)
	obj.Refresh()
}

func faded(c color.Color, alpha uint8) color.Color {
	r, g, b, _ := c.RGBA()
	return color.NRGBA{uint8(r >> 8), uint8(g >> 8), uint8(b >> 8), alpha}
}

func contains(keys []schematic.Key, k schematic.Key) bool {
	for _, have := range keys {
		if have == k {
			return true
		}
	}
	return false
}

// mmOf is the sheet place of a sheet point in millimetres.
func mmOf(p geom.Point) draw.Point {
	x, y := p.MM()
	return draw.Point{X: x, Y: y}
}
