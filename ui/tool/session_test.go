package tool

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// hand does at random what a builder does in an afternoon: gestures with every
// tool, most of them sensible, some broken off, and commands in between.
type hand struct {
	*rand.Rand
	*window
	seen map[string]bool // states come through
}

// place is somewhere on the sheet, often where something is.
func (h *hand) place() geom.Point {
	d := h.Doc()
	if h.IntN(3) > 0 {
		switch it := d.Get(pickKey(h.Rand, h.window)).(type) {
		case *schematic.Part:
			v := it.Views[h.IntN(len(it.Views))]
			if pins := d.PlacedPins(it, v); len(pins) > 0 && h.IntN(2) == 0 {
				return pins[h.IntN(len(pins))].At
			}
			return v.At
		case *schematic.Wire:
			if h.IntN(4) == 0 {
				return labelAt(d, it)
			}
			path := d.Path(it)
			return path[h.IntN(len(path))]
		case *schematic.Note:
			return it.At
		}
	}
	return geom.Pt(h.IntN(40)*geom.Grid, h.IntN(40)*geom.Grid).Add(geom.Pt(h.IntN(9), h.IntN(9)))
}

func (h *hand) mods() Mods {
	if h.IntN(4) > 0 {
		return 0
	}
	return Mods(h.IntN(8))
}

// gesture presses, moves and lets go, or is broken off on the way. Escape must
// leave the very document there was, and an idle tool.
func (h *hand) gesture() {
	h.t.Helper()
	from, mods := h.place(), h.mods()
	at := func(p geom.Point) draw.Point { return draw.Point{X: float64(p.X), Y: float64(p.Y)} }
	h.send("", Move{from, at(from), mods})
	h.send("", Press{from, at(from), mods, 1 + h.IntN(8)/7})
	for range h.IntN(5) {
		to := h.place()
		if h.IntN(30) == 0 {
			h.turn()
		}
		if h.IntN(6) == 0 {
			h.send("", KeyPress{[]string{"R", "M", "Space", "Enter", "BackSpace", "Tab"}[h.IntN(6)]})
		}
		h.send("", Move{to, at(to), h.mods()})
		h.seen[h.m.State().Name()] = true
	}
	if h.IntN(5) == 0 {
		h.escape()
		return
	}
	to := h.place()
	h.send("", Release{to, at(to), mods})
	if h.IntN(3) == 0 {
		h.escape()
	}
}

// turn brings a sheet in sight, with whatever is in hand.
func (h *hand) turn() {
	sheets := h.Doc().Sheets()
	h.show("", sheets[h.IntN(len(sheets))].ID)
	h.seen[h.m.State().Name()] = true
}

func (h *hand) escape() {
	h.t.Helper()
	was, doc := h.m.State().Name(), h.Doc()
	h.send("", Cancel{})
	if h.Doc() != doc {
		h.t.Fatalf("Esc in %s changed the document", was)
	}
	if h.m.Busy() {
		h.t.Fatalf("Esc in %s leads to %s", was, h.m.State().Name())
	}
	for what, there := range h.left {
		if there {
			h.t.Fatalf("Esc in %s leaves a %s on the screen", was, what)
		}
	}
}

// command does something between gestures, or in the middle of one.
func (h *hand) command() {
	sel := h.Selection()
	do := func(label string, f func(*edit.Tx) error) { _ = h.sess.Do(label, f) } // refusals are fine; broken documents fail in Verify
	switch h.IntN(20) {
	case 0, 1, 2:
		names := Names()
		s, _ := New(names[h.IntN(len(names))].ID)
		h.use("", s)
	case 3:
		h.use("", Place([]string{"fuse", "lamp", edit.SpliceKind}[h.IntN(3)]))
	case 4:
		if err := h.sess.Undo(); err != nil {
			h.t.Fatal(err)
		}
	case 5:
		if err := h.sess.Redo(); err != nil {
			h.t.Fatal(err)
		}
	case 6:
		h.sess.Select(h.In(geom.RectOf(h.place()).Grow(150), h.IntN(2) == 0)...)
	case 7:
		do("turn", func(tx *edit.Tx) error { return edit.Rotate(tx, h.sheet, sel, 1+h.IntN(3)) })
	case 8:
		do("align", func(tx *edit.Tx) error { return edit.Align(tx, h.sheet, sel, edit.Line(h.IntN(6))) })
	case 9:
		do("lock", func(tx *edit.Tx) error { return edit.SetLocked(tx, sel, h.IntN(3) == 0) })
	case 10:
		do("duplicate", func(tx *edit.Tx) error {
			return edit.Duplicate(tx, h.sheet, sel[:min(3, len(sel))], geom.Pt(50, 50))
		})
	case 11:
		do("delete", func(tx *edit.Tx) error { return edit.TakeOff(tx, sel, h.sheet) })
	case 12:
		do("mirror", func(tx *edit.Tx) error { return edit.MirrorUpright(tx, h.sheet, sel) })
	case 13:
		do("space", func(tx *edit.Tx) error { return edit.Distribute(tx, h.sheet, sel, h.IntN(2) == 0) })
	case 14:
		do("nudge", func(tx *edit.Tx) error { return edit.Move(tx, h.sheet, sel, geom.Pt(h.IntN(9)-4, h.IntN(3)*geom.Grid)) })
	case 15:
		if eff, which, of := Beneath(h, h.place()); of > 0 {
			if which < 1 || which > of {
				h.t.Fatalf("number %d of %d", which, of)
			}
			h.sess.Select(eff.(Select).Keys...)
		}
	case 16:
		if eff, ok := BendAt(h, h.place()); ok {
			c := eff.(Commit)
			do(c.Label, c.Edit)
		}
	case 17:
		if len(sel) >= 2 {
			a, b := schematic.NameOf(h.Doc().Get(sel[0])), schematic.NameOf(h.Doc().Get(sel[1]))
			do("swap names", func(tx *edit.Tx) error { return edit.Rename(tx, map[schematic.Key]string{sel[0]: b, sel[1]: a}) })
		}
	case 19:
		h.turn()
	case 18:
		items := edit.Clip(h.Doc(), sel[:min(3, len(sel))], h.sheet)
		do("paste", func(tx *edit.Tx) error { return edit.Paste(tx, items, h.sheet, geom.Pt(h.IntN(20)*geom.Grid, 100)) })
	}
}

// TestRandomSessions works for thousands of events in each of many sessions:
// nothing panics, every step leaves a sound document, Escape always restores,
// and undoing all leads to the very document of the start.
func TestRandomSessions(t *testing.T) {
	seen := map[string]bool{}
	for seed := range uint64(12) {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			h := &hand{rand.New(rand.NewPCG(seed, 9)), busyWindow(t), seen}
			h.unguided = seed%4 == 3
			for h.sess.UndoLabel() != "" { // what was drawn is where it starts
				if err := h.sess.Undo(); err != nil {
					t.Fatal(err)
				}
			}
			first := h.Doc()
			for h.sess.RedoLabel() != "" {
				if err := h.sess.Redo(); err != nil {
					t.Fatal(err)
				}
			}
			for range 300 {
				if h.IntN(4) == 0 {
					h.command()
				} else {
					h.gesture()
				}
				if n := h.Doc().Len(schematic.TypePart) + h.Doc().Len(schematic.TypeWire); n > 120 { // keep it a sheet one works on
					h.escape()
					for h.sess.UndoLabel() != "draw" && h.sess.UndoLabel() != "" {
						if err := h.sess.Undo(); err != nil {
							t.Fatal(err)
						}
					}
				}
				h.out.Reset()
			}
			h.escape()
			for h.sess.UndoLabel() != "" {
				if err := h.sess.Undo(); err != nil {
					t.Fatal(err)
				}
			}
			if h.Doc() != first {
				t.Fatal("undoing all does not lead to the first document")
			}
		})
	}
	for _, want := range []string{
		"select.dragging", "select.band", "select.reconnecting", "select.bending", "select.pushing", "select.labelling",
		"wire.drawing", "wire.afar", "place.holding", "note.sizing", "trace.idle", "pan.dragging",
	} {
		if !seen[want] {
			t.Errorf("never came through %s: the test says little of it", want)
		}
	}
}
