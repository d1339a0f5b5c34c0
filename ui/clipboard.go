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
	keys := ed.sess.Selection()
	if ed.copySelection() {
		ed.do("cut "+ed.what(keys), func(tx *edit.Tx) error { return edit.TakeOff(tx, ed.sheet, keys) })
	}
}

// paste puts what was copied on the sheet in sight: two grid steps off where it
// was, or, when that is out of sight, in the middle of the window.
func (ed *Editor) paste() {
	items, err := loomfile.DecodeClip(ed.app.Clipboard().Content(), ed.lib)
	if err != nil {
		ed.reportAs("Nothing to paste", err)
		return
	}
	ed.do("paste "+count(drawnItems(items), "item"), func(tx *edit.Tx) error {
		return edit.Paste(tx, items, ed.sheet, ed.pasteOffset(items))
	})
}

func (ed *Editor) pasteOffset(items []schematic.Item) geom.Point {
	by := geom.Pt(2*geom.Grid, 2*geom.Grid)
	area := clipArea(ed.doc(), items)
	if area.Empty() || ed.sheetView.cam.Shows(view.BoxMM(area.Add(by))) {
		return by
	}
	box := ed.sheetView.cam.Visible()
	to := geom.FromMM((box.Min.X+box.Max.X)/2, (box.Min.Y+box.Max.Y)/2)
	return to.Sub(area.Center()).Snap(geom.Grid)
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
