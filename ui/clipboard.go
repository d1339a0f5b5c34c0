package ui

import (
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
	"loomwright/ui/view"
)

// copySelection puts the selection on the system clipboard as text, from all
// the sheets it lies on.
func (ed *Editor) copySelection() bool {
	keys := ed.sess.Selection()
	on := edit.SheetsOf(ed.doc(), keys, ed.sheet)
	text, err := loomfile.EncodeClip(ed.doc(), keys, on...)
	if err != nil {
		ed.reportAs("Not copied", err)
		return false
	}
	ed.app.Clipboard().SetContent(text)
	said := ed.copied(edit.Clip(ed.doc(), keys, on...))
	if len(on) > 1 {
		said += "; from " + count(len(on), "sheet")
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
	keys := ed.sess.Selection()
	on := edit.SheetsOf(ed.doc(), keys, ed.sheet)
	if !ed.copySelection() {
		return
	}
	// Only what was copied goes.
	keys = slices.DeleteFunc(slices.Clone(keys), func(k schematic.Key) bool {
		return !slices.ContainsFunc(on, func(s schematic.ID) bool { return view.DrawnOn(ed.doc(), k, s) })
	})
	said := "cut " + schematic.Tally(keys)
	if n := ed.elsewhere(keys); n > 0 {
		said += "; of this on other sheets: " + count(n, "item")
	}
	if ed.do("cut "+ed.what(keys), func(tx *edit.Tx) error { return edit.TakeOff(tx, keys, on...) }) {
		ed.status.tell(said)
		ed.tellLocked(keys)
	}
}

// duplicate puts a copy beside the selection, on every sheet it lies on.
func (ed *Editor) duplicate() {
	keys := ed.sess.Selection()
	by := geom.Pt(2*geom.Grid, 2*geom.Grid)
	ed.do("duplicate "+ed.what(keys), func(tx *edit.Tx) error {
		if on := edit.SheetsOf(ed.doc(), keys, ed.sheet); len(on) > 1 && slices.Contains(on, ed.sheet) {
			return edit.Paste(tx, edit.Clip(ed.doc(), keys, on...), ed.sheet, by)
		}
		return edit.Duplicate(tx, ed.sheet, keys, by)
	})
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
// sight, in the middle of the window. Pasted again, it moves on. What comes
// from several sheets goes on several, see [edit.Paste].
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
	by := ed.pasteOffset(edit.Leading(ed.doc(), items, ed.sheet), now).Add(geom.Pt(2*geom.Grid*now.times, 2*geom.Grid*now.times))
	if ed.putClip(items, by) {
		ed.pasted = now
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
	ed.putClip(items, edit.Aside(ed.doc(), edit.Leading(ed.doc(), items, ed.sheet), ed.sheet))
}

// putClip pastes and says what has come in; it is selected.
func (ed *Editor) putClip(items []schematic.Item, by geom.Point) bool {
	before := ed.doc().Sheets()
	if !ed.do("paste "+count(drawnItems(items), "item"), func(tx *edit.Tx) error { return edit.Paste(tx, items, ed.sheet, by) }) {
		return false
	}
	said := "pasted " + schematic.Tally(ed.sess.Selection())
	if n := ed.elsewhere(ed.sess.Selection()); n > 0 {
		said += "; on other sheets: " + strconv.Itoa(n)
	}
	var added []string
	for _, s := range ed.doc().Sheets()[len(before):] {
		added = append(added, s.Name)
	}
	if len(added) > 0 {
		said += "; added for it: sheet " + strings.Join(added, ", ")
	}
	ed.status.tell(said)
	return true
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
