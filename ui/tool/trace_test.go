package tool

import (
	"flag"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/draw"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/sample/cases"
)

var update = flag.Bool("update", false, "write the traces the tools give now")

// TestTraces plays the events of every file in testdata to the tools and
// compares states, effects and the sheet afterwards.
//
// Section sheet draws the start: "fuse 100,100" places a part, "wire F1.2
// E1.1 100,300" a wire over bends, with "@0,0" for a loose end; "note 0,0";
// "select F1"; "lock F1"; "show F1 300,100" for one more symbol; "sheet Dash"
// adds a sheet. Section events is one event a line. Sections want and after are
// written by -update and read by people.
func TestTraces(t *testing.T) {
	files, err := filepath.Glob("testdata/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("no traces: %v", err)
	}
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".txtar"), func(t *testing.T) { playFile(t, file) })
	}
}

func playFile(t *testing.T, file string) {
	c, err := cases.Read(file)
	if err != nil {
		t.Fatal(err)
	}
	w := newWindow(t)
	for _, line := range lines(c.Section("sheet")) {
		if err := w.draw(strings.Fields(line)); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
	}
	w.out.Reset()
	for _, line := range lines(c.Section("events")) {
		if err := w.play(line); err != nil {
			t.Fatalf("%s: %v", line, err)
		}
	}
	got := map[string]string{"want": trimLines(w.out.String()), "after": w.sheetText()}
	if *update {
		for _, name := range []string{"want", "after"} {
			c.Set(name, got[name])
		}
		if err := c.Write(); err != nil {
			t.Fatal(err)
		}
		return
	}
	for name, g := range got {
		if want := c.Section(name); g != want {
			t.Errorf("%s of %s is:\n%s\nwanted:\n%s", name, file, g, want)
		}
	}
}

func lines(s string) []string {
	return slices.DeleteFunc(strings.Split(s, "\n"), func(l string) bool { return strings.TrimSpace(l) == "" })
}

func trimLines(s string) string {
	all := strings.Split(s, "\n")
	for i := range all {
		all[i] = strings.TrimRight(all[i], " ")
	}
	return strings.Join(all, "\n")
}

// draw does one line of a start sheet.
func (w *window) draw(words []string) error {
	do := func(fn func(*edit.Tx) error) error { return w.sess.Do("draw", fn) }
	switch words[0] {
	case "wire":
		var ends [2]edit.Anchor
		for i, word := range words[1:3] {
			a, err := w.anchor(word)
			if err != nil {
				return err
			}
			ends[i] = a
		}
		var via []geom.Point
		for _, word := range words[3:] {
			q, err := point(word)
			if err != nil {
				return err
			}
			via = append(via, q)
		}
		return do(func(tx *edit.Tx) error { return edit.AddWire(tx, w.sheet, ends[0], ends[1], via, nil) })
	case "select":
		var keys []schematic.Key
		for _, name := range words[1:] {
			k, ok := w.Doc().Named(name)
			if !ok {
				return fmt.Errorf("nothing is called %s", name)
			}
			keys = append(keys, k)
		}
		w.sess.Select(keys...)
		return nil
	case "sheet":
		return do(func(tx *edit.Tx) error { return edit.AddSheet(tx, words[1]) })
	case "lock":
		k, _ := w.Doc().Named(words[1])
		return do(func(tx *edit.Tx) error { return edit.SetLocked(tx, []schematic.Key{k}, true) })
	}
	if words[0] == "show" {
		k, _ := w.Doc().Named(words[1])
		at, err := point(words[2])
		if err != nil {
			return err
		}
		return do(func(tx *edit.Tx) error { return edit.ShowPart(tx, k.ID, w.sheet, "", at, geom.Orient{}) })
	}
	at, err := point(words[1])
	if err != nil {
		return err
	}
	if words[0] == "note" {
		return do(func(tx *edit.Tx) error { return edit.AddNote(tx, w.sheet, at, 100, 50, "hello") })
	}
	return do(func(tx *edit.Tx) error { return edit.PlacePart(tx, words[0], w.sheet, at, geom.Orient{}) })
}

func (w *window) anchor(word string) (edit.Anchor, error) {
	if place, loose := strings.CutPrefix(word, "@"); loose {
		q, err := point(place)
		return edit.Anchor{At: q}, err
	}
	name, pin, _ := strings.Cut(word, ".")
	k, ok := w.Doc().Named(name)
	if !ok {
		return edit.Anchor{}, fmt.Errorf("nothing is called %s", name)
	}
	return edit.Anchor{Part: k.ID, Pin: pin}, nil
}

func point(word string) (geom.Point, error) {
	x, y, _ := strings.Cut(word, ",")
	px, err := strconv.Atoi(x)
	if err != nil {
		return geom.Point{}, err
	}
	py, err := strconv.Atoi(y)
	return geom.Pt(px, py), err
}

// play sends one line of events. A pixel is a unit here.
func (w *window) play(line string) error {
	words := strings.Fields(line)
	var at geom.Point
	var mods Mods
	clicks := 1
	for _, word := range words[1:] {
		switch word {
		case "shift":
			mods |= ModAdd
		case "alt":
			mods |= ModFree
		case "ctrl":
			mods |= ModCopy
		case "double":
			clicks = 2
		default:
			if q, err := point(word); err == nil {
				at = q
			}
		}
	}
	px := draw.Point{X: float64(at.X), Y: float64(at.Y)}
	switch words[0] {
	case "press":
		w.send(line, Press{at, px, mods, clicks})
	case "move":
		w.send(line, Move{at, px, mods})
	case "release":
		w.send(line, Release{at, px, mods})
	case "key":
		w.send(line, KeyPress{words[1]})
	case "cancel":
		w.send(line, Cancel{})
	case "tool":
		s, ok := New(words[1])
		if !ok {
			return fmt.Errorf("no tool %s", words[1])
		}
		w.use(line, s)
	case "sheet":
		for _, s := range w.Doc().Sheets() {
			if s.Name == words[1] {
				w.show(line, s.ID)
				return nil
			}
		}
		return fmt.Errorf("no sheet %s", words[1])
	case "hold":
		w.use(line, Place(words[1]))
	case "delete":
		k, _ := w.Doc().Named(words[1])
		if err := w.sess.Do("delete", func(tx *edit.Tx) error { return edit.Delete(tx, []schematic.Key{k}) }); err != nil {
			fmt.Fprintf(&w.out, "  refused: %v\n", err)
		}
	case "undo":
		return w.sess.Undo()
	default:
		return fmt.Errorf("no such event")
	}
	return nil
}
