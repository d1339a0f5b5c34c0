package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/ui/view"
)

// mostMarked is how many differences in sight get a mark; more would hide the
// drawing. The list has all of them.
const mostMarked = 120

// smallestWord is how high, in window points, a marked thing must be for the
// word beside it not to be in the way.
const smallestWord = 14

// changeMark is a difference to be marked: where, and what happened.
type changeMark struct {
	area geom.Rect
	path geom.Path // of a wire
	what string
	held bool // it is the one looked at
}

// changeMarks are the marks on the sheet in sight.
func (ed *Editor) changeMarks(sight geom.Rect) []changeMark {
	c := &ed.compare
	if c.before == nil || c.with == nil {
		return nil
	}
	var marks []changeMark
	for i, d := range c.found {
		doc := ed.shownDoc()
		if d.After == nil {
			doc = c.before
		}
		m, ok := ed.markOf(doc, d)
		if !ok || !m.area.Touches(sight) {
			continue
		}
		m.held = i == c.at
		marks = append(marks, m)
		if len(marks) == mostMarked {
			break
		}
	}
	return marks
}

func (ed *Editor) markOf(doc *schematic.Doc, d edit.Difference) (changeMark, bool) {
	k := d.Item().Key()
	m := changeMark{what: d.What()}
	switch it := doc.Get(k).(type) {
	case *schematic.Part, *schematic.Note:
	case *schematic.Wire:
		m.path = doc.Path(it)
	default:
		return m, false // sheets, states and settings are in the list only
	}
	// A removed thing may have been on a sheet with another ID but this name.
	p, ok := view.PlaceOf(doc, k, ed.sheet)
	if ok && p.Sheet != ed.sheet {
		was, now := doc.Sheet(p.Sheet), ed.doc().Sheet(ed.sheet)
		ok = d.After == nil && was != nil && now != nil && ed.doc().Sheet(p.Sheet) == nil && was.Name == now.Name
	}
	m.area = p.Area
	return m, ok
}

// change marks one difference: a frame and its word; a removed thing is crossed
// out, an added one has a double frame.
func (o *overlay) change(p pane, m changeMark) {
	c := theme.Color(changeLook(m.what).color)
	width := float32(1.5)
	if m.held {
		width = 3
	}
	if len(m.path) > 0 {
		o.path(p, m.path, faded(c, 0x70), width+5)
	}
	r := m.area.Grow(geom.Grid)
	a, b := p.at(r.Min), p.at(r.Max)
	if len(m.path) == 0 {
		o.frame(p, r, c, color.Transparent, width)
		if m.what == "added" {
			o.frame(p, r.Grow(geom.Grid/2), c, color.Transparent, width)
		}
	}
	if m.what == "removed" {
		if len(m.path) > 0 {
			_, _, mid := m.path.Dist(m.area.Center())
			at := p.at(mid)
			a, b = at.SubtractXY(8, 8), at.AddXY(8, 8)
		}
		o.stroke(a, b, c, width)
		o.stroke(fyne.NewPos(a.X, b.Y), fyne.NewPos(b.X, a.Y), c, width)
	}
	if !m.held && len(m.path) == 0 && b.Y-a.Y < smallestWord {
		return
	}
	at := fyne.NewPos(a.X, a.Y-17)
	if len(m.path) > 0 {
		_, _, mid := m.path.Dist(m.area.Center())
		at = p.at(mid).AddXY(9, 3)
	}
	o.word(at, m.what, c)
}

func (o *overlay) stroke(a, b fyne.Position, c color.Color, width float32) {
	l := o.lines.next(o)
	l.StrokeColor, l.StrokeWidth = c, width
	l.Position1, l.Position2 = a, b
	l.Refresh()
}

// word writes a word on a ground of its own.
func (o *overlay) word(at fyne.Position, text string, c color.Color) {
	t := o.words.next(o)
	t.Text, t.Color, t.TextSize = text, c, theme.Size(theme.SizeNameCaptionText)
	size := fyne.MeasureText(text, t.TextSize, t.TextStyle)
	back := o.rects.next(o)
	back.FillColor, back.StrokeColor, back.StrokeWidth = theme.Color(theme.ColorNameInputBackground), c, 1
	place(back, at, size.AddWidthHeight(8, 2))
	place(t, at.AddXY(4, 1), size)
}
