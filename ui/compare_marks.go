package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"

	"loomwright/schematic"
	"loomwright/schematic/draw"
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
	was  geom.Rect // where it was, of one looked at that has moved
	what string
	says string // the word beside it, with the designation
	held bool   // it is the one looked at
}

// changeMarks are the marks on the sheet in sight. What is only drawn elsewhere
// is marked while it is listed.
func (ed *Editor) changeMarks(sight geom.Rect) []changeMark {
	c := &ed.compare
	if c.before == nil || c.with == nil {
		return nil
	}
	var marks []changeMark
	for i, d := range c.found {
		if i >= c.real && !c.open {
			break
		}
		doc := ed.shownDoc()
		if d.After == nil {
			doc = c.before
		}
		m, ok := ed.markOf(doc, d)
		if !ok || !m.area.Touches(sight) {
			continue
		}
		m.held = i == c.at
		if m.held && d.Before != nil && d.After != nil && len(m.path) == 0 {
			if p, ok := view.PlaceOf(c.before, d.Before.Key(), c.sheetBefore(ed.doc(), ed.sheet)); ok && p.Sheet == c.sheetBefore(ed.doc(), ed.sheet) && p.Area != m.area {
				m.was = p.Area
			}
		}
		marks = append(marks, m)
		if len(marks) == mostMarked {
			break
		}
	}
	return marks
}

// sheetBefore returns the sheet of the other version that is the one in sight:
// of the same ID, or else of the same name.
func (c *comparison) sheetBefore(now *schematic.Doc, sheet schematic.ID) schematic.ID {
	s := now.Sheet(sheet)
	if s == nil || c.before.Sheet(sheet) != nil {
		return sheet
	}
	for _, was := range c.before.Sheets() {
		if was.Name == s.Name && now.Sheet(was.ID) == nil {
			return was.ID
		}
	}
	return sheet
}

// ghosts are the removed parts and notes of a sheet, to be shown under it.
func (c *comparison) ghosts(now *schematic.Doc, sheet schematic.ID) *draw.List {
	if c.before == nil || c.with == nil {
		return nil
	}
	if l, ok := c.gone[sheet]; ok {
		return l
	}
	gone := map[schematic.Key]bool{}
	for _, d := range c.found {
		if d.After == nil {
			gone[d.Before.Key()] = true
		}
	}
	if c.gone == nil {
		c.gone = map[schematic.ID]*draw.List{}
	}
	c.gone[sheet] = draw.Ghost(c.before, c.sheetBefore(now, sheet), gone)
	return c.gone[sheet]
}

func (ed *Editor) markOf(doc *schematic.Doc, d edit.Difference) (changeMark, bool) {
	k := d.Item().Key()
	m := changeMark{what: markWord(d), says: markWord(d)}
	if name := schematic.NameOf(d.Item()); name != "" {
		m.says = name + " " + m.what
	}
	switch it := doc.Get(k).(type) {
	case *schematic.Part, *schematic.Note:
	case *schematic.Wire:
		m.path = doc.Path(it)
	default:
		return m, false // sheets, states and settings are in the list only
	}
	sheet := ed.sheet
	if d.After == nil {
		sheet = ed.compare.sheetBefore(ed.doc(), sheet)
	}
	p, ok := view.PlaceOf(doc, k, sheet)
	m.area = p.Area
	return m, ok && p.Sheet == sheet
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
		alpha := uint8(0x70)
		if m.what == "removed" { // the dashes below stay in sight
			alpha = 0x30
		}
		o.path(p, m.path, faded(c, alpha), width+5)
	}
	r := m.area.Grow(geom.Grid)
	a, b := p.at(r.Min), p.at(r.Max)
	if m.was != (geom.Rect{}) {
		o.frame(p, m.was.Grow(geom.Grid), c, color.Transparent, 1)
		o.line(p.at(m.was.Center()), p.at(m.area.Center()), c, 1)
		o.word(p.at(m.was.Grow(geom.Grid).Min).SubtractXY(0, 17), "was here", c)
	}
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
		o.line(a, b, c, width)
		o.line(fyne.NewPos(a.X, b.Y), fyne.NewPos(b.X, a.Y), c, width)
	}
	if !m.held && len(m.path) == 0 && b.Y-a.Y < smallestWord {
		return
	}
	at := fyne.NewPos(a.X, a.Y-17)
	if len(m.path) > 0 {
		_, _, mid := m.path.Dist(m.area.Center())
		at = p.at(mid).AddXY(9, 3)
	}
	if m.held {
		o.word(at, m.says, c)
		return
	}
	o.wordIfRoom(at, m.says, c)
}

// markWord is what a mark on the drawing says.
func markWord(d edit.Difference) string {
	if _, wire := d.Item().(*schematic.Wire); wire && d.OnlyDrawn() {
		return "redrawn"
	}
	if d.OnlyDrawn() {
		return "moved"
	}
	return d.What()
}

// changeLook is how kinds of change look: a shape and a colour; the word says
// the same again.
func changeLook(what string) shade {
	switch what {
	case "added":
		return shade{"plus", theme.ColorNameSuccess}
	case "removed":
		return shade{"minus", theme.ColorNameError}
	}
	return shade{"edit", theme.ColorNameWarning}
}
