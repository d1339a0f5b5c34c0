package ui

import (
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
	"loomwright/ui/view"
)

// copySelection puts the selection on the system clipboard as text.
func (ed *Editor) copySelection() bool {
	text, err := loomfile.EncodeClip(ed.doc(), ed.sess.Selection())
	if err != nil {
		ed.reportAs("Not copied", err)
		return false
	}
	ed.app.Clipboard().SetContent(text)
	ed.status.tell("copied " + ed.what(ed.sess.Selection()))
	return true
}

func (ed *Editor) cut() {
	if ed.copySelection() {
		ed.rearrange("cut", func(tx *edit.Tx, keys []schematic.Key) error { return edit.TakeOff(tx, ed.sheet, keys) })
	}
}

// pasted remembers the last paste, so that the next one does not cover it.
type pasted struct {
	text  string
	sheet schematic.ID
	at    geom.Point // of the pointer, on the grid
	over  bool       // the pointer was on the sheet
	times int        // how often in a row
}

// paste puts what was copied on the sheet in sight: at the pointer when it is
// on the sheet, else two grid steps off where it was, or, when that is out of
// sight, in the middle of the window. Pasted again, it moves on.
func (ed *Editor) paste() {
	text := ed.app.Clipboard().Content()
	items, err := loomfile.DecodeClip(text, ed.lib)
	if err != nil {
		ed.reportAs("Nothing to paste", err)
		return
	}
	now := pasted{text: text, sheet: ed.sheet}
	switch v := ed.sheetView; {
	case ed.menuAt != nil:
		now.at, now.over = ed.menuAt.Snap(geom.Grid), true
	case v.hand.over:
		now.at, now.over = v.sheetPoint(v.hand.at).Snap(geom.Grid), true
	}
	last := ed.pasted
	last.times = 0
	if last == now {
		now.times = ed.pasted.times + 1
	}
	by := ed.pasteOffset(items, now).Add(geom.Pt(2*geom.Grid*now.times, 2*geom.Grid*now.times))
	if ed.do("paste "+count(drawnItems(items), "item"), func(tx *edit.Tx) error {
		return edit.Paste(tx, items, ed.sheet, by)
	}) {
		ed.pasted = now
	}
}

// pasteOffset is how far from where they came from copied items go the first
// time.
func (ed *Editor) pasteOffset(items []schematic.Item, p pasted) geom.Point {
	by := geom.Pt(2*geom.Grid, 2*geom.Grid)
	area := clipArea(ed.doc(), items)
	switch {
	case area.Empty():
		return by
	case p.over:
		return p.at.Sub(area.Center()).Snap(geom.Grid)
	case ed.sheetView.cam.Shows(view.BoxMM(area.Add(by))):
		return by
	}
	return ed.aimPoint().Sub(area.Center()).Snap(geom.Grid)
}

// clipArea returns the area copied items take where they came from.
func clipArea(d *schematic.Doc, items []schematic.Item) geom.Rect {
	r := geom.EmptyRect()
	for _, it := range items {
		switch it := it.(type) {
		case *schematic.Part:
			for _, v := range it.Views {
				r = r.Union(d.Reach(it, v))
			}
		case *schematic.Wire:
			for _, q := range it.Via {
				r = r.Extend(q)
			}
			for _, e := range []schematic.End{it.A, it.B} {
				if e.Loose() {
					r = r.Extend(e.At)
				}
			}
		case *schematic.Note:
			r = r.Union(view.NoteArea(it))
		}
	}
	return r
}

// drawnItems counts what the user will see of a clip.
func drawnItems(items []schematic.Item) int {
	n := 0
	for _, it := range items {
		switch it.(type) {
		case *schematic.Part, *schematic.Wire, *schematic.Note:
			n++
		}
	}
	return n
}
