package ui

import (
	"slices"
	"strings"
	"unicode/utf8"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
	"loomwright/ui/view"
)

// copySelection puts the selection on the system clipboard as text.
func (ed *Editor) copySelection() bool {
	keys := ed.sess.Selection()
	var on []schematic.ID // the sheet in sight, if anything of it lies there
	if ed.elsewhere(keys) < len(keys) {
		on = append(on, ed.sheet)
	}
	text, err := loomfile.EncodeClip(ed.doc(), keys, on...)
	if err != nil {
		ed.reportAs("Not copied", err)
		return false
	}
	ed.app.Clipboard().SetContent(text)
	said := ed.copied(edit.Clip(ed.doc(), keys, on...))
	if n := ed.elsewhere(keys); n > 0 && len(on) > 0 {
		said += "; not copied, on other sheets: " + count(n, "item")
	}
	ed.status.tell(said)
	return true
}

// copied says what a clip took along and what it left behind: the ends of
// copied wires at parts that were not copied hang loose, wires that were not
// selected and lead to such parts stay.
func (ed *Editor) copied(items []schematic.Item) string {
	doc, in := ed.doc(), map[schematic.Key]bool{}
	var keys []schematic.Key
	for _, it := range items {
		switch it.(type) {
		case *schematic.Part, *schematic.Wire, *schematic.Note:
			in[it.Key()] = true
			keys = append(keys, it.Key())
		}
	}
	has := func(e schematic.End) bool { return in[schematic.Key{Type: schematic.TypePart, ID: e.Part}] }
	loose, left := 0, 0
	for w := range doc.Wires() {
		for _, e := range []schematic.End{w.A, w.B} {
			switch {
			case in[w.Key()] && !e.Loose() && !has(e):
				loose++
			case !in[w.Key()] && has(e):
				left++
			}
		}
	}
	text := "copied " + schematic.Tally(keys)
	if loose > 0 {
		text += "; loose at parts not copied: " + count(loose, "wire end")
	}
	if left > 0 {
		text += "; left behind: " + count(left, "wire") + " to other parts"
	}
	return text
}

func (ed *Editor) cut() {
	if ed.copySelection() {
		// Only what was copied goes.
		here := slices.DeleteFunc(slices.Clone(ed.sess.Selection()), func(k schematic.Key) bool { return !view.DrawnOn(ed.doc(), k, ed.sheet) })
		if len(here) == 0 {
			ed.status.warn("copied, but not deleted: it lies on another sheet")
			return
		}
		said := schematic.Tally(here)
		if ed.do("cut "+ed.what(here), func(tx *edit.Tx) error { return edit.TakeOff(tx, ed.sheet, here) }) {
			ed.status.tell("cut " + said)
			ed.tellLocked(here)
		}
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
	items, ok := ed.clip(text)
	if !ok {
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
		ed.tellPasted()
	}
}

// clip reads what was copied from a drawing. Anything else is told in words;
// plain text is offered as a note.
func (ed *Editor) clip(text string) ([]schematic.Item, bool) {
	items, err := loomfile.DecodeClip(text, ed.lib)
	plain := strings.TrimSpace(text)
	switch {
	case err == nil:
		return items, true
	case plain == "":
		ed.question("Nothing to paste", "The clipboard is empty: select something on a sheet and copy it first.", answer{text: "Close", main: true})
	// A clip that is damaged wraps that error, and is no text for a note.
	case err == loomfile.ErrNoClip && utf8.RuneCountInString(plain) <= longestNote:
		at := ed.pastePoint()
		ed.question("Nothing to paste", "The clipboard holds no parts or wires, but this text:\n\n"+cutLines(plain, 4)+"\n\nTo copy from a drawing, select something there and copy it.",
			answer{text: "Write it on the sheet", main: true, deed: func() {
				ed.do("write a note", func(tx *edit.Tx) error { return edit.AddNote(tx, ed.sheet, at, 0, 0, plain) })
			}}, answer{text: "Go back"})
	default:
		ed.reportAs("Nothing to paste", err)
	}
	return nil, false
}

// longestNote is the length of a text, in letters, up to which it may have been
// meant as a note.
const longestNote = 1000

// cutLines shortens a text to a number of lines of moderate length.
func cutLines(s string, most int) string {
	lines := strings.Split(s, "\n")
	if len(lines) > most {
		lines = append(lines[:most], "…")
	}
	for i, l := range lines {
		if r := []rune(l); len(r) > 80 {
			lines[i] = string(r[:80]) + "…"
		}
	}
	return strings.Join(lines, "\n")
}

// pastePoint is where a paste is meant to go: the place of the menu, the
// pointer, or the middle of what is seen.
func (ed *Editor) pastePoint() geom.Point {
	if ed.menuAt != nil {
		return ed.menuAt.Snap(geom.Grid)
	}
	return ed.aimPoint().Snap(geom.Grid)
}

// pasteInPlace puts what was copied where it was, on the sheet in sight, which
// may be another one. Where it still lies, the copy moves aside.
func (ed *Editor) pasteInPlace() {
	items, ok := ed.clip(ed.app.Clipboard().Content())
	if !ok {
		return
	}
	by := geom.Point{}
	for ed.covers(items, by) {
		by = by.Add(geom.Pt(2*geom.Grid, 2*geom.Grid))
	}
	if ed.do("paste "+count(drawnItems(items), "item"), func(tx *edit.Tx) error { return edit.Paste(tx, items, ed.sheet, by) }) {
		ed.tellPasted()
	}
}

// tellPasted says what has come in; it is selected.
func (ed *Editor) tellPasted() { ed.status.tell("pasted " + schematic.Tally(ed.sess.Selection())) }

// covers reports whether something pasted would lie exactly on what is there.
func (ed *Editor) covers(items []schematic.Item, by geom.Point) bool {
	there := map[geom.Point]bool{}
	for p := range ed.doc().Parts() {
		for _, v := range p.Views {
			there[v.At] = there[v.At] || v.Sheet == ed.sheet
		}
	}
	for n := range ed.doc().Notes() {
		there[n.At] = there[n.At] || n.Sheet == ed.sheet
	}
	ends := map[[2]geom.Point]bool{}
	for w := range ed.doc().Wires() {
		a, _, _ := ed.doc().EndAt(w, w.A)
		b, _, _ := ed.doc().EndAt(w, w.B)
		ends[[2]geom.Point{a, b}] = ends[[2]geom.Point{a, b}] || w.Sheet == ed.sheet
	}
	for _, it := range items {
		switch it := it.(type) {
		case *schematic.Wire:
			if it.A.Loose() && it.B.Loose() && ends[[2]geom.Point{it.A.At.Add(by), it.B.At.Add(by)}] {
				return true
			}
		case *schematic.Part:
			for _, v := range it.Views {
				if there[v.At.Add(by)] {
					return true
				}
			}
		case *schematic.Note:
			if there[it.At.Add(by)] {
				return true
			}
		}
	}
	return false
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
