package route

import (
	"strings"
	"unicode/utf8"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// The room allowed for texts. Ways must not depend on font metrics, so these
// are generous constants, in units.
const (
	nameWide, nameHigh   = 20, 26 // a letter of a designation, a line of it
	labelWide, labelHigh = 12, 28
	labelMost            = 340 // then it is wrapped
	textGap              = 12
)

// tagText is about where the designation of a view stands: above or beside the
// symbol. It looks for other room where wires leave none, so that crossing
// this area is only a little worse than not.
func tagText(d *schematic.Doc, p *schematic.Part, v schematic.View, area geom.Rect) geom.Rect {
	w, h := nameWide*utf8.RuneCountInString(p.Name), nameHigh
	if n := utf8.RuneCountInString(p.Label); n > 0 {
		w = max(w, min(labelMost, labelWide*n))
		h += labelHigh * min(2, 1+labelWide*n/labelMost)
	}
	if w == 0 {
		return geom.EmptyRect()
	}
	right := false
	var named geom.Point // where the kind puts it
	if k := d.KindOf(p); k != nil {
		if sec, ok := k.Section(v.Section); ok {
			right, named = sec.TagSide == "right", sec.Tag
		}
	}
	at := geom.Pt(area.Min.X, area.Min.Y-textGap-h)
	switch {
	case named != (geom.Point{}) && right && v.Turns == 0 && !v.Mirror:
		at = v.At.Add(named).Sub(geom.Pt(0, nameHigh))
	case named != (geom.Point{}) && v.Turns == 0 && !v.Mirror:
		at = v.At.Add(named).Sub(geom.Pt(0, h))
	case right && area.Height() < h: // a splice, say: beside it run its wires
		at = geom.Pt(area.Max.X+textGap, area.Min.Y-h)
	case right && v.Turns&1 == 0:
		at = geom.Pt(area.Max.X+textGap, (area.Min.Y+area.Max.Y-h)/2)
	}
	at = at.Add(v.Tag)
	return geom.RectOf(at, at.Add(geom.Pt(w, h)))
}

const (
	frameMargin          = 50 // from the sheet's edge to its frame
	titleWide, titleHigh = 1800, 260
	leastFramed          = 200 // smaller sheets are labels, which have none
	offSheet             = 8 * geom.Grid
)

// frame returns the areas of a sheet where wires have no business: the title
// block, and what lies beyond the frame.
func frame(sheet geom.Rect) (title geom.Rect, beyond []geom.Rect) {
	in, out := sheet.Grow(-frameMargin), sheet.Grow(offSheet)
	if in.Empty() || in.Width() < leastFramed || in.Height() < leastFramed {
		return geom.EmptyRect(), nil
	}
	return geom.Rect{Min: geom.Pt(max(in.Min.X, in.Max.X-titleWide), in.Max.Y-titleHigh), Max: in.Max}, []geom.Rect{
		{Min: out.Min, Max: geom.Pt(out.Max.X, in.Min.Y)},
		{Min: geom.Pt(out.Min.X, in.Max.Y), Max: out.Max},
		{Min: geom.Pt(out.Min.X, in.Min.Y+1), Max: geom.Pt(in.Min.X, in.Max.Y-1)},
		{Min: geom.Pt(in.Max.X, in.Min.Y+1), Max: geom.Pt(out.Max.X, in.Max.Y-1)},
	}
}

// noteText is about the area of a note's text.
func noteText(n *schematic.Note) geom.Rect {
	size, wide, lines := n.TextSize(), 0, 0
	for line := range strings.SplitSeq(n.Text, "\n") {
		wide, lines = max(wide, utf8.RuneCountInString(line)), lines+1
	}
	if n.Width > 0 && n.Height > 0 {
		lines = 1
	}
	if wide == 0 {
		return geom.EmptyRect()
	}
	return geom.RectOf(n.At, n.At.Add(geom.Pt(wide*size*11/20, lines*size*7/5)))
}
