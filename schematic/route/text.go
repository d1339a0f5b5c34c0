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
	nameWide, nameHigh   = 17, 26 // a letter of a designation, a line of it
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
	if k := d.KindOf(p); k != nil {
		if sec, ok := k.Section(v.Section); ok {
			right = sec.TagSide == "right"
		}
	}
	at := geom.Pt(area.Min.X, area.Min.Y-textGap-h)
	if right && v.Turns&1 == 0 {
		at = geom.Pt(area.Max.X+textGap, (area.Min.Y+area.Max.Y-h)/2)
	}
	at = at.Add(v.Tag)
	return geom.RectOf(at, at.Add(geom.Pt(w, h)))
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
