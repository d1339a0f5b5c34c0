package tool

import (
	"encoding/binary"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

func testLibrary() *schematic.Library {
	body := []schematic.Section{{Shapes: []schematic.Shape{{Type: "rect", Points: []geom.Point{{X: -25, Y: -25}, {X: 25, Y: 25}}}}}}
	upright := []schematic.Pin{{Name: "1", At: geom.Pt(0, -50), Dir: "up"}, {Name: "2", At: geom.Pt(0, 50), Dir: "down"}}
	return schematic.NewLibrary(
		&schematic.Kind{Name: "fuse", Title: "Fuse", Prefix: "F", Sections: body, Pins: upright},
		&schematic.Kind{Name: "lamp", Title: "Lamp", Prefix: "E", Sections: body, Pins: upright},
		&schematic.Kind{Name: "plug", Title: "Connector", Prefix: "X", Sections: []schematic.Section{{Form: "rows"}}, OwnPins: true, Passes: true, OtherHalf: "socket",
			Roles: []schematic.Role{{Name: "cavity"}}, Pins: []schematic.Pin{{Name: "1", Role: "cavity", Side: "left"}, {Name: "2", Role: "cavity", Side: "left"}}},
		&schematic.Kind{Name: "socket", Prefix: "X", Sections: []schematic.Section{{Form: "rows"}}, OwnPins: true, Passes: true, OtherHalf: "plug",
			Roles: []schematic.Role{{Name: "cavity"}}, Pins: []schematic.Pin{{Name: "1", Role: "cavity", Side: "right"}, {Name: "2", Role: "cavity", Side: "right"}}},
		&schematic.Kind{Name: edit.SpliceKind, Prefix: "SP", Sections: []schematic.Section{{}}, Pins: []schematic.Pin{{Name: "1"}}},
	)
}

// window does for a machine what the real one does, on paper.
type window struct {
	t     testing.TB
	sess  *edit.Session
	sheet schematic.ID
	m     Machine
	out   strings.Builder
	left  map[string]bool // what a tool has put on the screen and not taken off

	unguided bool
	last     *schematic.Wire
}

func newWindow(t testing.TB) *window {
	t.Helper()
	n := uint32(0)
	ids := func() (id schematic.ID) {
		n++
		binary.BigEndian.PutUint32(id[12:], n)
		return id
	}
	tx := edit.Begin(schematic.New(testLibrary()), ids)
	if err := edit.AddSheet(tx, "Engine"); err != nil {
		t.Fatal(err)
	}
	w := &window{t: t, sess: edit.NewSession(tx.Doc(), nil, ids), sheet: tx.Doc().Sheets()[0].ID, left: map[string]bool{}}
	w.sess.Verify = func(d *schematic.Doc) error {
		if ps := schematic.Check(d); len(ps) > 0 {
			return fmt.Errorf("broken: %v", ps)
		}
		return nil
	}
	w.sess.Watch(func(_, _ *schematic.Doc, _ edit.Change) {
		was := w.m.State().Name()
		effects := w.m.Handle(DocChanged{}, w)
		if is := w.m.State().Name(); len(effects) > 0 || is != was {
			w.note("  document changed", effects)
		}
		w.perform(effects)
	})
	return w
}

// The Env of a window: everything is looked up the slow way.

func (w *window) Doc() *schematic.Doc        { return w.sess.Doc() }
func (w *window) Sheet() schematic.ID        { return w.sheet }
func (w *window) Selection() []schematic.Key { return w.sess.Selection() }
func (w *window) DragPixels() float64        { return 4 }
func (w *window) Guided() bool               { return !w.unguided }
func (w *window) LastWire() *schematic.Wire  { return w.last }

// reach is how near a hit must be, in units.
const reach = 15

// Hits returns the topmost and then, in no order of depth, the other parts and
// wires there.
func (w *window) Hits(q geom.Point) []Hit {
	top := w.Hit(q)
	if !top.Ok {
		return nil
	}
	all, d := []Hit{top}, w.Doc()
	for p := range d.Parts() {
		for _, v := range p.Views {
			if v.Sheet == w.sheet && p.Key() != top.Key && d.Reach(p, v).Contains(q) {
				all = append(all, Hit{Key: p.Key(), View: v.Key, Ok: true})
			}
		}
	}
	for x := range d.Wires() {
		if dist, _, _ := d.Path(x).Dist(q); x.Sheet == w.sheet && x.Key() != top.Key && dist <= reach {
			all = append(all, Hit{Key: x.Key(), Ok: true})
		}
	}
	slices.SortFunc(all[1:], func(a, b Hit) int { return a.Key.Compare(b.Key) })
	return all
}

func (w *window) Hit(q geom.Point) (best Hit) {
	d := w.Doc()
	near := float64(reach)
	for p := range d.Parts() {
		for _, v := range p.Views {
			for _, pin := range d.PlacedPins(p, v) {
				if dist := pin.At.Dist(q); v.Sheet == w.sheet && dist <= near {
					best, near = Hit{Key: p.Key(), Pin: pin.Pin.Name, View: v.Key, Ok: true}, dist
				}
			}
		}
	}
	if best.Ok {
		return best
	}
	for p := range d.Parts() {
		for _, v := range p.Views {
			if v.Sheet == w.sheet && d.Body(p, v).Contains(q) {
				return Hit{Key: p.Key(), View: v.Key, Ok: true}
			}
		}
	}
	for x := range d.Wires() {
		if dist, _, _ := d.Path(x).Dist(q); x.Sheet == w.sheet && dist <= near {
			best, near = Hit{Key: x.Key(), Ok: true}, dist
		}
	}
	if best.Ok {
		return best
	}
	for x := range d.Wires() {
		if at := labelAt(d, x); x.Sheet == w.sheet && at.Dist(q) <= 10 {
			return Hit{Key: x.Key(), Text: true, Middle: at, Ok: true}
		}
	}
	for n := range d.Notes() {
		if n.Sheet == w.sheet && noteArea(n).Contains(q) {
			return Hit{Key: n.Key(), Ok: true}
		}
	}
	return best
}

// labelAt is where the label of a wire stands here: above its middle, if the
// user has not moved it.
func labelAt(d *schematic.Doc, w *schematic.Wire) geom.Point {
	tag := w.Tag
	if tag == (geom.Point{}) {
		tag.Y = -30
	}
	return d.Path(w).Middle().Add(tag)
}

func noteArea(n *schematic.Note) geom.Rect {
	return geom.RectOf(n.At, n.At.Add(geom.Pt(max(n.Width, 50), max(n.Height, 25))))
}

func (w *window) In(area geom.Rect, enclosed bool) (keys []schematic.Key) {
	d := w.Doc()
	add := func(k schematic.Key, r geom.Rect) {
		if enclosed && area.Encloses(r) || !enclosed && area.Touches(r) {
			keys = append(keys, k)
		}
	}
	for p := range d.Parts() {
		for _, v := range p.Views {
			if v.Sheet == w.sheet {
				add(p.Key(), d.Reach(p, v))
			}
		}
	}
	for x := range d.Wires() {
		if x.Sheet == w.sheet {
			add(x.Key(), d.Path(x).Bounds())
		}
	}
	for n := range d.Notes() {
		add(n.Key(), noteArea(n))
	}
	return keys
}

func (w *window) Snap(p geom.Point, mods Mods) geom.Point {
	if mods&ModFree != 0 {
		return p
	}
	if h := w.Hit(p); h.Pin != "" {
		at, _, _ := w.Doc().EndAt(&schematic.Wire{Sheet: w.sheet}, schematic.End{Part: h.Key.ID, Pin: h.Pin, View: h.View})
		return at
	}
	return p.Snap(geom.Grid)
}

// send hands an event to the tool and does what it asks for.
func (w *window) send(what string, e Event) {
	effects := w.m.Handle(e, w)
	w.note(what, effects)
	w.perform(effects)
}

func (w *window) use(what string, s State) {
	effects := w.m.Use(s, w)
	w.note(what, effects)
	w.perform(effects)
}

// show brings another sheet in sight.
func (w *window) show(what string, sheet schematic.ID) {
	effects := w.m.Leave(w)
	w.note(what, effects)
	w.perform(effects)
	w.sheet = sheet
}

func (w *window) perform(effects []Effect) {
	for _, e := range effects {
		switch e := e.(type) {
		case Select:
			w.sess.Select(e.Keys...)
		case Inspect:
			if e.Key != (schematic.Key{}) {
				w.sess.Select(e.Key)
			}
		case Preview:
			w.left["preview"] = e.Edit != nil
		case Band:
			w.left["band"] = !e.Area.Empty()
		case Ghost:
			w.left["ghost"] = len(e.Path) > 0
		case Guides:
			w.left["guide"] = len(e.Lines) > 0
		case Mark:
			w.left["mark"] = len(e.At) > 0
		case Commit:
			if err := w.sess.Do(e.Label, e.Edit); err != nil {
				if strings.Contains(err.Error(), "broken") {
					w.t.Error(err)
				}
				fmt.Fprintf(&w.out, "  refused: %v\n", err)
			}
		}
	}
}

// note writes one line of the trace.
func (w *window) note(what string, effects []Effect) {
	words := make([]string, len(effects))
	for i, e := range effects {
		words[i] = w.say(e)
	}
	fmt.Fprintf(&w.out, "%-28s %-20s %s\n", what, w.m.State().Name(), strings.Join(words, " "))
}

// say prints an effect. The switch names every effect there is.
func (w *window) say(e Effect) string {
	switch e := e.(type) {
	case Select:
		return "Select[" + w.names(e.Keys) + "]"
	case Preview:
		if e.Edit == nil {
			return "Preview[]"
		}
		tx := edit.Begin(w.Doc(), nil)
		if err := e.Edit(tx); err != nil {
			return fmt.Sprintf("Preview[!%v]", err)
		}
		return "Preview[" + changes(tx) + "]"
	case Commit:
		return "Commit " + strconv.Quote(e.Label)
	case Band:
		if e.Area.Empty() {
			return "Band[]"
		}
		way := "encloses"
		if e.Touch {
			way = "touches"
		}
		return fmt.Sprintf("Band[%v %v %s]", text(e.Area.Min), text(e.Area.Max), strings.TrimSpace(way+" "+w.names(e.Takes)))
	case Ghost:
		return "Ghost[" + text(e.Path...) + "]"
	case Guides:
		lines := make([]string, len(e.Lines))
		for i, l := range e.Lines {
			lines[i] = text(l.From, l.To)
			if !l.Pins {
				lines[i] += " edge"
			}
		}
		return "Guides[" + strings.Join(lines, "; ") + "]"
	case Mark:
		return "Mark[" + text(e.At...) + "]"
	case Cursor:
		return [...]string{"Arrow", "Cross", "Hand", "UpDown", "Sideways"}[e.Shape]
	case Pan:
		return fmt.Sprintf("Pan[%g,%g]", e.By.X, e.By.Y)
	case Trace:
		if !e.At.Ok {
			return "Trace[]"
		}
		return strings.TrimSuffix("Trace["+w.names([]schematic.Key{e.At.Key})+"."+e.At.Pin, ".") + "]"
	case Inspect:
		if e.Key == (schematic.Key{}) {
			return "Inspect"
		}
		return "Inspect[" + w.names([]schematic.Key{e.Key}) + "]"
	case Done:
		return "Done"
	}
	return fmt.Sprintf("unknown effect %T", e)
}

func (w *window) names(keys []schematic.Key) string {
	names := make([]string, len(keys))
	for i, k := range keys {
		names[i] = called(w.Doc(), []schematic.Key{k})
	}
	slices.SortFunc(names, schematic.CompareNames)
	return strings.Join(names, " ")
}

// changes prints what a transaction would do.
func changes(tx *edit.Tx) string {
	var lines []string
	for k, p := range tx.Change() {
		if p.After == nil {
			lines = append(lines, "-"+schematic.NameOf(p.Before))
			continue
		}
		lines = append(lines, describe(tx.Doc(), tx.Doc().Get(k)))
	}
	slices.SortFunc(lines, schematic.CompareNames)
	return strings.Join(lines, "; ")
}

func describe(d *schematic.Doc, it schematic.Item) string {
	switch it := it.(type) {
	case *schematic.Part:
		s := it.Name
		for _, v := range it.Views {
			s += " " + text(v.At)
			if v.Turns != 0 || v.Mirror {
				s += fmt.Sprintf(" turned %d mirrored %v", v.Turns, v.Mirror)
			}
		}
		return s
	case *schematic.Wire:
		s := fmt.Sprintf("%s %s-%s %s", it.Name, endText(d, it.A), endText(d, it.B), text(d.Path(it)...))
		if (it.Tag != geom.Point{}) {
			s += " label " + text(it.Tag)
		}
		return s
	case *schematic.Note:
		return fmt.Sprintf("%q %s %dx%d", it.Text, text(it.At), it.Width, it.Height)
	}
	return schematic.Describe(it)
}

func endText(d *schematic.Doc, e schematic.End) string {
	if e.Loose() {
		return "loose"
	}
	return d.Part(e.Part).Name + "." + e.Pin
}

// text prints points: "0,0 50,0".
func text(pts ...geom.Point) string {
	parts := make([]string, len(pts))
	for i, q := range pts {
		parts[i] = fmt.Sprintf("%d,%d", q.X, q.Y)
	}
	return strings.Join(parts, " ")
}

// sheetText prints everything on the sheet.
func (w *window) sheetText() string {
	var lines []string
	for it := range w.Doc().All() {
		switch it.(type) {
		case *schematic.Part, *schematic.Wire, *schematic.Note:
			lines = append(lines, describe(w.Doc(), it))
		}
	}
	slices.SortFunc(lines, schematic.CompareNames)
	return trimLines(strings.Join(append(lines, "selected: "+w.names(w.Selection())), "\n") + "\n")
}
