package ui

import (
	"image/color"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"loomwright/schematic"
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
	if o.near.Ok && !slices.Contains(chosen, o.near.Key) {
		o.outline(p, o.near.Key, nil, near, 1.5)
	}
	if o.near.Ok && o.near.Pin != "" {
		if at, ok := view.PinPlace(p.doc, p.sheet, o.near.Key.ID, o.near.View, o.near.Pin); ok {
			o.ring(p.at(at), 6, near, 2)
		}
	}
	if here := drawnHere(p, chosen); len(here) <= mostOutlined {
		stay := staying(p, here)
		if len(chosen) <= mostOutlined { // what lies elsewhere makes a group of a part that is alone here
			stay = staying(p, chosen)
		}
		for _, k := range here {
			o.outline(p, k, stay, pick, 2)
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
			stay := staying(p, o.bandTakes)
			for _, k := range o.bandTakes {
				o.outline(p, k, stay, near, 1.5)
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

// staying returns the symbols that stay when what the keys name is moved: what
// is locked takes none along.
func staying(p pane, keys []schematic.Key) map[edit.Symbol]bool {
	free := slices.DeleteFunc(slices.Clone(keys), func(k schematic.Key) bool { return edit.Locked(p.doc, k) })
	return edit.Staying(p.doc, p.sheet, free)
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
// Symbols that would stay where they are if it were moved have a dashed frame.
func (o *overlay) outline(p pane, k schematic.Key, stay map[edit.Symbol]bool, c color.Color, width float32) {
	switch it := p.doc.Get(k).(type) {
	case *schematic.Part:
		for _, v := range it.Views {
			area := p.doc.Reach(it, v).Grow(geom.Grid / 2)
			switch {
			case v.Sheet != p.sheet:
			case stay[edit.Symbol{Part: it.ID, View: v.Key}]:
				o.dashedFrame(p, area, c, min(width, 1))
			default:
				o.frame(p, area, c, color.Transparent, width)
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
	o.dashedFrame(p, o.band, c, 1.5)
}

func (o *overlay) dashedFrame(p pane, area geom.Rect, c color.Color, width float32) {
	a, b := p.at(area.Min), p.at(area.Max)
	for _, side := range [4][2]fyne.Position{{a, {X: b.X, Y: a.Y}}, {{X: a.X, Y: b.Y}, b}, {a, {X: a.X, Y: b.Y}}, {{X: b.X, Y: a.Y}, b}} {
		o.dashes(side[0], side[1], c, width)
	}
}
