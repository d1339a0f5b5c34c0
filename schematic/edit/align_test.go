package edit

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// places prints where parts and notes lie: "F1 100,100; note 0,0".
func (b *bench) places() string {
	var all []string
	for p := range b.Doc().Parts() {
		for _, v := range p.Views {
			all = append(all, fmt.Sprintf("%s %d,%d", p.Name, v.At.X, v.At.Y))
		}
	}
	for n := range b.Doc().Notes() {
		all = append(all, fmt.Sprintf("note %d,%d", n.At.X, n.At.Y))
	}
	slices.SortFunc(all, schematic.CompareNames)
	return strings.Join(all, "; ")
}

func TestAlign(t *testing.T) {
	for _, c := range []struct {
		why  string
		draw func(*bench)
		line Line
		want string
	}{
		// Bodies of test parts reach 25 from their middle, all round.
		{"left edges", func(b *bench) { b.place("fuse", 100, 100); b.place("fuse", 200, 300) }, LeftEdges, "F1 100,100; F2 100,300"},
		{"right edges", func(b *bench) { b.place("fuse", 100, 100); b.place("fuse", 200, 300) }, RightEdges, "F1 200,100; F2 200,300"},
		{"top edges", func(b *bench) { b.place("fuse", 100, 100); b.place("fuse", 200, 300) }, TopEdges, "F1 100,100; F2 200,100"},
		{"bottom edges", func(b *bench) { b.place("fuse", 100, 100); b.place("fuse", 200, 300) }, BottomEdges, "F1 100,300; F2 200,300"},
		{"a middle between two grid lines goes to one of them", func(b *bench) { b.place("fuse", 100, 100); b.place("fuse", 125, 300) }, UprightMiddle, "F1 100,100; F2 100,300"},
		{"middles side by side", func(b *bench) { b.place("fuse", 100, 100); b.place("fuse", 200, 300) }, LevelMiddle, "F1 100,200; F2 200,200"},
		{"a part off the grid comes onto it", func(b *bench) { b.place("fuse", 103, 100); b.place("fuse", 200, 300) }, LeftEdges, "F1 100,100; F2 100,300"},
		{"what is locked is the line", func(b *bench) {
			b.place("fuse", 100, 100)
			p := b.place("fuse", 200, 300)
			b.must(func(tx *Tx) error { return SetLocked(tx, keysOf(p), true) })
		}, LeftEdges, "F1 200,100; F2 200,300"},
		{"connector halves plugged together stay together", func(b *bench) {
			b.place("plug", 100, 100)
			b.place("fuse", 500, 500)
		}, RightEdges, "F1 500,500; X1 375,100; X2 450,100"},
		{"a note needs no grid", func(b *bench) {
			b.place("fuse", 100, 100)
			b.must(func(tx *Tx) error { return AddNote(tx, b.sheet, geom.Pt(333, 333), 50, 50, "n") })
		}, LeftEdges, "F1 100,100; note 75,333"},
	} {
		t.Run(c.why, func(t *testing.T) {
			b := newBench(t)
			c.draw(b)
			var all []schematic.Item
			for p := range b.Doc().Parts() {
				all = append(all, p)
			}
			for n := range b.Doc().Notes() {
				all = append(all, n)
			}
			keys := keysOf(all...)
			b.must(func(tx *Tx) error { return Align(tx, b.sheet, keys, c.line) })
			equalText(t, "after", b.places(), c.want)
			before := b.Doc()
			b.must(func(tx *Tx) error { return Align(tx, b.sheet, keys, c.line) })
			if b.Doc() != before {
				t.Errorf("aligned again it moves on to %s", b.places())
			}
		})
	}
}

func TestAlignedPartsKeepTheirWires(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 300, 400)
	w := b.wire(at(f, "2"), at(e, "1"), geom.Pt(100, 250), geom.Pt(300, 250))
	b.must(func(tx *Tx) error { return Align(tx, b.sheet, keysOf(f, e), LeftEdges) })
	equalText(t, "the wire", b.drawn(w), "100,150 100,350")
	b.refused("two or more", func(tx *Tx) error { return Align(tx, b.sheet, keysOf(f, w), LeftEdges) })
}

func TestDistribute(t *testing.T) {
	b := newBench(t)
	var all []schematic.Item
	for _, x := range []int{600, 100, 150, 500} {
		all = append(all, b.place("fuse", x, 100))
	}
	keys := keysOf(all...)
	b.must(func(tx *Tx) error { return Distribute(tx, b.sheet, keys, false) })
	equalText(t, "outermost stay, the others go to the nearest grid place", b.places(), "F1 600,100; F2 100,100; F3 275,100; F4 425,100")
	before := b.Doc()
	b.must(func(tx *Tx) error { return Distribute(tx, b.sheet, keys, false) })
	if b.Doc() != before {
		t.Errorf("spaced again they move on to %s", b.places())
	}
	b.refused("three or more", func(tx *Tx) error { return Distribute(tx, b.sheet, keys[:2], false) })
	b.must(func(tx *Tx) error { return SetLocked(tx, keys[2:3], true) })
	b.refused("F3 is locked", func(tx *Tx) error { return Distribute(tx, b.sheet, keys, false) })
	b.must(func(tx *Tx) error {
		if err := SetLocked(tx, keys, false); err != nil {
			return err
		}
		return SetLocked(tx, keys[:2], true) // the outermost need not move
	})
	b.must(func(tx *Tx) error { return Distribute(tx, b.sheet, keys, false) })
}

func TestDistributeUpright(t *testing.T) {
	b := newBench(t)
	var all []schematic.Item
	for _, y := range []int{100, 125, 900} {
		all = append(all, b.place("fuse", 100, y))
	}
	b.must(func(tx *Tx) error { return Distribute(tx, b.sheet, keysOf(all...), true) })
	equalText(t, "places", b.places(), "F1 100,100; F2 100,500; F3 100,900")
}

func TestLockedThingsStay(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 300, 400)
	w := b.wire(at(f, "2"), at(e, "1"))
	b.must(func(tx *Tx) error { return AddNote(tx, b.sheet, geom.Pt(500, 500), 100, 100, "frame") })
	note := b.Selection()[0]
	b.must(func(tx *Tx) error { return SetLocked(tx, append(keysOf(f, w), note), true) })
	if !Locked(b.Doc(), f.Key()) || !Locked(b.Doc(), note) || !Locked(b.Doc(), w.Key()) || Locked(b.Doc(), e.Key()) {
		t.Fatal("parts, notes and wires can be locked")
	}
	b.must(func(tx *Tx) error { return SetLocked(tx, keysOf(w), false) }) // it would hold the lamp
	both := append(keysOf(f), note)
	for name, fn := range map[string]func(*Tx, []schematic.Key) error{
		"move":   func(tx *Tx, k []schematic.Key) error { return Move(tx, b.sheet, k, geom.Pt(25, 0)) },
		"turn":   func(tx *Tx, k []schematic.Key) error { return Rotate(tx, b.sheet, k, 1) },
		"mirror": func(tx *Tx, k []schematic.Key) error { return Mirror(tx, b.sheet, k) },
		"delete": Delete,
		"cut":    func(tx *Tx, k []schematic.Key) error { return TakeOff(tx, k, b.sheet) },
	} {
		t.Run(name, func(t *testing.T) {
			b.refused("locked in place: unlock it first", func(tx *Tx) error { return fn(tx, both) })
			b.must(func(tx *Tx) error { return fn(tx, append(keysOf(e), both...)) })
			if b.Doc().Part(f.ID) != b.Doc().Get(f.Key()) || b.Doc().Get(note) == nil || b.Doc().Part(f.ID).Views[0].At != geom.Pt(100, 100) {
				t.Error("the locked ones have not stayed")
			}
			if err := b.Undo(); err != nil {
				t.Fatal(err)
			}
		})
	}
	b.must(func(tx *Tx) error { return Duplicate(tx, b.sheet, both, geom.Pt(50, 50)) })
	for _, k := range b.Selection() {
		if Locked(b.Doc(), k) {
			t.Error("a copy is locked")
		}
	}
}

func TestMirrorUpright(t *testing.T) {
	b := newBench(t)
	v, e := b.place("diode", 100, 100), b.place("lamp", 300, 400)
	w := b.wire(at(v, "K"), at(e, "1"), geom.Pt(300, 100))
	start := b.Doc()
	keys := keysOf(v, e)
	b.must(func(tx *Tx) error { return MirrorUpright(tx, b.sheet, keys) })
	equalText(t, "places", b.places(), "E1 300,150; V1 100,450")
	equalText(t, "wire", b.drawn(w), "150,450 300,450 300,200")
	b.must(func(tx *Tx) error { return MirrorUpright(tx, b.sheet, keys) })
	if d := Diff(start, b.Doc()); len(d) > 0 {
		t.Errorf("mirrored twice differs in %v", d.Keys())
	}
}
