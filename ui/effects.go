package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/ui/tool"
)

// sendTool gives an event to the tool in hand and does what it asks for.
func (ed *Editor) sendTool(e tool.Event) {
	before := ed.tools.State().Hint()
	ed.perform(ed.tools.Handle(e, ed.sheetView.scene()))
	if ed.tools.State().Hint() != before {
		ed.status.showHint()
	}
}

// perform does the effects of a tool in order.
func (ed *Editor) perform(effects []tool.Effect) {
	v := ed.sheetView
	laidOut := true
	for _, e := range effects {
		switch e := e.(type) {
		case tool.Select:
			ed.sess.Select(e.Keys...)
			ed.chosen()
		case tool.Preview:
			ed.showPreview(e.Edit)
			laidOut = false
		case tool.Commit:
			ed.preview = nil
			before := ed.doc()
			ed.do(e.Label, e.Edit)
			switch ed.tools.Tool() {
			case wireTool:
				ed.noteDrawn(before)
			case selectTool:
				ed.tellOldLengths(before)
			}
			v.repaint()
			laidOut = false
		case tool.Band:
			v.over.band, v.over.bandTouch, v.over.bandTakes = e.Area, e.Touch, e.Takes
			v.over.bandOn = !e.Area.Empty() && (e.Area.Width() > 0 || e.Area.Height() > 0)
			laidOut = false
		case tool.Ghost:
			v.over.ghost = e.Path
			laidOut = false
		case tool.Guides:
			v.over.guides = e.Lines
			laidOut = false
		case tool.Mark:
			v.over.marks = e.At
			laidOut = false
		case tool.Cursor:
			v.cursor = cursorFor(e.Shape)
		case tool.Trace:
			ed.trace(e.At)
		case tool.Inspect:
			if e.Key != (schematic.Key{}) {
				ed.choose(e.Key)
			}
			if ed.anySelected() {
				ed.showDetails()
				ed.details.takeKeyboard()
			}
		case tool.Pan:
			v.look(v.cam.Pan(e.By.X*v.scale, e.By.Y*v.scale))
		case tool.Done:
			ed.toolChanged()
		}
	}
	if !laidOut {
		v.refreshOverlay()
	}
}

// noteDrawn keeps the wire that an edit has drawn: the next one is made like it.
func (ed *Editor) noteDrawn(before *schematic.Doc) {
	for _, k := range ed.sess.Selection() {
		if w := ed.doc().Wire(k.ID); w != nil && before.Wire(k.ID) == nil {
			ed.drawn = w
		}
	}
}

// tellOldLengths says when a wire that was led to another part keeps the length
// or the way through a loom that it had: nobody but the user knows the new ones.
func (ed *Editor) tellOldLengths(before *schematic.Doc) {
	for _, k := range ed.sess.Selection() {
		was, w := before.Wire(k.ID), ed.doc().Wire(k.ID)
		if was == nil || w == nil || was.A.Part == w.A.Part && was.B.Part == w.B.Part {
			continue
		}
		var kept []string
		if w.LengthMM.Known() {
			kept = append(kept, "measured length")
		}
		if len(w.Route) > 0 {
			kept = append(kept, "way through the loom")
		}
		if len(kept) > 0 {
			ed.status.tell(w.Name + " keeps the " + strings.Join(kept, " and the ") + " it had: see whether that still holds, in its details")
			return
		}
	}
}

// showPreview shows what an edit would make, without making it.
func (ed *Editor) showPreview(f func(*edit.Tx) error) {
	was := ed.preview
	ed.preview = nil
	if f != nil {
		tx := edit.Begin(ed.doc(), nil)
		if err := f(tx); err != nil {
			ed.status.warn(err.Error())
		} else if len(tx.Change()) > 0 {
			ed.preview = tx.Doc()
		}
	}
	if was != ed.preview {
		ed.sheetView.repaint()
	}
}

func cursorFor(s tool.CursorShape) desktop.Cursor {
	switch s {
	case tool.Cross:
		return desktop.CrosshairCursor
	case tool.Hand:
		return desktop.PointerCursor
	case tool.UpDown:
		return desktop.VResizeCursor
	case tool.Sideways:
		return desktop.HResizeCursor
	}
	return desktop.DefaultCursor
}

// typedKey runs the command on a key, or gives the key to the tool in hand. A
// tool in the middle of a gesture is asked first.
func (ed *Editor) typedKey(name fyne.KeyName, m fyne.KeyModifier) {
	k := ourKey(name, m)
	if top := ed.win.Canvas().Overlays().Top(); top != nil {
		// Keys must not work below what lies over the window.
		if b := ed.boxOnTop(); b != nil {
			b.key(name)
		} else if k.Name == "Escape" {
			ed.win.Canvas().Overlays().Remove(top)
			ed.win.Canvas().Focus(ed.sheetView)
		}
		return
	}
	if k.Name == "Escape" && k.Mods == 0 {
		ed.escape()
		return
	}
	if ed.pointerKey(k) {
		return
	}
	if k.Name == "Enter" && k.Mods == 0 && ed.tools.Tool() == placeTool {
		ed.placeByKey()
		return
	}
	if toolKey(k) && ed.tools.Busy() {
		ed.sendTool(tool.KeyPress{Name: k.Name})
		return
	}
	if a := ed.actions.ForKey(k); a != nil {
		ed.carryOut(a)
	}
}

// placeByKey places the part in hand at the pointer, or in the middle of the
// drawing as seen when the pointer is elsewhere.
func (ed *Editor) placeByKey() {
	at := ed.aimPoint()
	ed.sendTool(tool.Move{At: at})
	ed.sendTool(tool.Press{At: at, Clicks: 1})
	if sel := ed.sess.Selection(); ed.sheetView.byKey.on && len(sel) == 1 {
		// It may have stepped aside.
		if p := ed.doc().Part(sel[0].ID); p != nil && len(p.Views) > 0 {
			ed.sheetView.byKey.at = p.Views[0].At
			ed.showKeyPointer()
		}
	}
}

// aimPoint is where on the sheet a key means: the pointer's place, or else the
// middle of what is seen.
func (ed *Editor) aimPoint() geom.Point {
	v := ed.sheetView
	if v.byKey.on {
		return v.byKey.at
	}
	if v.hand.over {
		return v.sheetPoint(v.hand.at)
	}
	m := middle(v.cam.Visible())
	return geom.FromMM(m.X, m.Y)
}
