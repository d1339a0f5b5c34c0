package tool

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// busyWindow has a sheet with a bit of everything.
func busyWindow(t testing.TB) *window {
	t.Helper()
	w := newWindow(t)
	for _, line := range []string{
		"fuse 100,100", "lamp 300,400", "fuse 300,100", "wire F1.2 E1.1 100,250 300,250", "wire F2.2 E1.1",
		"wire @0,300 @200,300", "note 350,250", "sheet Dash", "select W1",
	} {
		if err := w.draw(strings.Fields(line)); err != nil {
			t.Fatal(err)
		}
	}
	return w
}

// events returns one event of every sort at a place.
func events(at geom.Point, mods Mods, clicks int) []Event {
	px := draw.Point{X: float64(at.X), Y: float64(at.Y)}
	return []Event{
		Press{at, px, mods, clicks}, Move{at, px, mods}, Release{at, px, mods},
		KeyPress{"Enter"}, KeyPress{"BackSpace"}, KeyPress{"Space"}, KeyPress{"R"}, KeyPress{"M"}, KeyPress{""},
		DocChanged{}, Cancel{},
	}
}

// run plays bytes as events, and takes the document apart while gestures are
// under way. Each step asks every event of the state before one is chosen:
// none may panic, none may touch the document.
func run(t testing.TB, script []byte) {
	w := busyWindow(t)
	empty := &window{t: t, sess: edit.NewSession(schematic.New(testLibrary()), nil, nil)}
	for len(script) >= 4 {
		what, x, y, how := script[0], script[1], script[2], script[3]
		script = script[4:]
		at := geom.Pt(int(x)*2-50, int(y)*2-50)
		all := events(at, Mods(how&7), 1+int(how>>3&1))
		doc := w.Doc()
		for _, e := range all {
			w.m.State().Handle(e, w)
			w.m.State().Handle(e, empty)
		}
		if w.Doc() != doc {
			t.Fatal("a state wrote to the document")
		}
		if w.m.State().Hint() == "" {
			t.Fatalf("%s tells nothing", w.m.State().Name())
		}
		switch {
		case what < 200:
			w.send("", all[int(what)%len(all)])
		case what < 210:
			names := Names()
			s, _ := New(names[int(x)%len(names)].ID)
			w.use("", s)
		case what < 220:
			w.use("", Place([]string{"fuse", edit.SpliceKind, "nothing of the sort"}[int(x)%3]))
		case what < 230:
			if err := w.sess.Undo(); err != nil {
				t.Fatal(err)
			}
		case what < 240:
			if keys := w.In(geom.RectOf(at).Grow(60), false); len(keys) > 0 {
				if err := w.sess.Do("delete", func(tx *edit.Tx) error { return edit.Delete(tx, keys[:1]) }); err != nil {
					t.Fatal(err)
				}
			}
		default:
			w.send("", all[1]) // mostly moves
		}
	}
	doc := w.Doc()
	w.send("", Cancel{})
	if w.m.Busy() {
		w.send("", Cancel{})
		t.Fatalf("after Esc the tool is still in %s", w.m.State().Name())
	}
	if w.Doc() != doc {
		t.Fatal("Esc changed the document")
	}
	for what, there := range w.left {
		if there {
			t.Fatalf("after Esc a %s is still on the screen", what)
		}
	}
}

func TestRandomEvents(t *testing.T) {
	for seed := range uint64(150) {
		t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) {
			r := rand.New(rand.NewPCG(seed, 2))
			script := make([]byte, 4*120)
			for i := range script {
				script[i] = byte(r.IntN(256))
			}
			// Hands come back to the same few places: pins, wires, parts.
			spots := [][2]byte{{75, 75}, {75, 100}, {75, 50}, {175, 225}, {175, 200}, {125, 150}, {175, 150}, {25, 175}, {125, 175}, {200, 150}}
			for i := 0; i+3 < len(script); i += 4 {
				if r.IntN(4) > 0 {
					s := spots[r.IntN(len(spots))]
					script[i+1], script[i+2] = s[0], s[1]
				}
				if r.IntN(3) > 0 {
					script[i+3] = 0
				}
				if r.IntN(3) > 0 {
					script[i] = byte(r.IntN(3)) // press, move, release
				}
			}
			run(t, script)
		})
	}
}

func FuzzEvents(f *testing.F) {
	f.Add([]byte{0, 75, 75, 0, 1, 100, 75, 0, 2, 100, 75, 0})
	f.Add([]byte{200, 1, 0, 0, 0, 75, 100, 0, 1, 175, 225, 0, 0, 175, 225, 0})
	f.Add([]byte{210, 1, 0, 0, 1, 75, 150, 0, 0, 75, 150, 0, 225, 0, 0, 0})
	f.Fuzz(func(t *testing.T, script []byte) {
		if len(script) > 400 {
			script = script[:400]
		}
		run(t, script)
	})
}

// TestEveryStateIsReached keeps the random test honest: it must come through
// every state there is.
func TestEveryStateIsReached(t *testing.T) {
	want := map[string]bool{}
	for _, s := range []string{
		"select.idle", "select.pressing", "select.dragging", "select.band", "select.reconnecting", "select.bending", "select.pushing",
		"wire.idle", "wire.drawing", "place.holding", "note.idle", "note.sizing", "trace.idle", "pan.idle", "pan.dragging",
	} {
		want[s] = true
	}
	w := busyWindow(t)
	r := rand.New(rand.NewPCG(7, 7))
	for range 20000 {
		at := geom.Pt(r.IntN(40)*10, r.IntN(45)*10)
		all := events(at, 0, 1)
		switch n := r.IntN(12); {
		case n == 0:
			names := Names()
			s, ok := New(names[r.IntN(len(names))].ID)
			if !ok {
				t.Fatal("a tool that is named cannot be taken in hand")
			}
			w.use("", s)
		case n == 1 && r.IntN(6) == 0:
			w.use("", Place("fuse"))
		case n < 4:
			w.sess.Select(pickKey(r, w))
		default:
			w.send("", all[r.IntN(3)])
		}
		if r.IntN(40) == 0 {
			for w.sess.UndoLabel() != "draw" { // keep the sheet small
				if err := w.sess.Undo(); err != nil {
					t.Fatal(err)
				}
			}
		}
		w.out.Reset()
		delete(want, w.m.State().Name())
	}
	if len(want) > 0 {
		t.Errorf("never reached: %v", want)
	}
}

func pickKey(r *rand.Rand, w *window) schematic.Key {
	var keys []schematic.Key
	for it := range w.Doc().All() {
		keys = append(keys, it.Key())
	}
	return keys[r.IntN(len(keys))]
}

func TestNames(t *testing.T) {
	ids, keys := map[string]bool{}, map[string]bool{"R": true, "M": true}
	for _, n := range Names() {
		if ids[n.ID] || keys[n.Key] || n.Title == "" || n.Help == "" {
			t.Errorf("%+v clashes with another tool or says nothing", n)
		}
		ids[n.ID], keys[n.Key] = true, true
		s, ok := New(n.ID)
		if !ok || s.Name() != n.ID+".idle" {
			t.Errorf("%s starts in %v", n.ID, s)
		}
		m := Machine{state: s}
		if m.Tool() != n.ID || m.Busy() {
			t.Errorf("a fresh %s is tool %s, busy %v", n.ID, m.Tool(), m.Busy())
		}
	}
	if _, ok := New("warp"); ok {
		t.Error("a tool nobody has heard of")
	}
	if m := (Machine{state: Place("fuse")}); m.Tool() != "place" || !m.Busy() {
		t.Error("a held part must get its keys")
	}
}

// TestADragOverWhatIsLockedSaysSo, since nothing moves.
func TestADragOverWhatIsLockedSaysSo(t *testing.T) {
	w := newWindow(t)
	for _, line := range []string{"fuse 100,100", "lock F1"} {
		if err := w.draw(strings.Fields(line)); err != nil {
			t.Fatal(err)
		}
	}
	for _, line := range []string{"press 100,100", "move 140,140"} {
		if err := w.play(line); err != nil {
			t.Fatal(err)
		}
	}
	if got := w.m.State().Hint(); !strings.HasPrefix(got, "F1 is locked in place. Solid frame: ") {
		t.Errorf("the hint is %q", got)
	}
}
