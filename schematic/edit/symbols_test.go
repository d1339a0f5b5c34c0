package edit

import (
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// A stud drawn twice, a lamp on each, and what goes when some of it is moved.
func TestOneOfSeveralSymbolsIsMoved(t *testing.T) {
	setUp := func(t *testing.T) (b *bench, stud, left, right *schematic.Part) {
		b = newBench(t)
		stud, left, right = b.place("stud", 300, 600), b.place("lamp", 300, 300), b.place("lamp", 800, 300)
		b.must(func(tx *Tx) error { return ShowPart(tx, stud.ID, b.sheet, "", geom.Pt(800, 600), geom.Orient{}) })
		b.wire(at(left, "2"), at(stud, "1"))
		b.wire(at(right, "2"), Anchor{Part: stud.ID, Pin: "1", View: "2"})
		return b, stud, left, right
	}
	places := func(b *bench, p *schematic.Part) string {
		var pts []geom.Point
		for _, v := range b.Doc().Part(p.ID).Views {
			pts = append(pts, v.At)
		}
		return pathText(pts)
	}
	down := geom.Pt(0, 100)
	for _, c := range []struct {
		name, why string
		do        func(b *bench, stud, left *schematic.Part) func(*Tx) error
		want      string
	}{
		{"alone by key", "nothing says which is meant", func(b *bench, stud, _ *schematic.Part) func(*Tx) error {
			return func(tx *Tx) error { return Move(tx, b.sheet, keysOf(stud), down) }
		}, "300,700 800,700"},
		{"held", "the one in hand goes", func(b *bench, stud, _ *schematic.Part) func(*Tx) error {
			return func(tx *Tx) error { return Move(tx, b.sheet, keysOf(stud), down, Symbol{stud.ID, "2"}) }
		}, "300,600 800,700"},
		{"another held", "the pointer is on something else", func(b *bench, stud, left *schematic.Part) func(*Tx) error {
			return func(tx *Tx) error { return Move(tx, b.sheet, keysOf(stud), down, Symbol{left.ID, ""}) }
		}, "300,700 800,700"},
		{"in a group", "the one that is wired to the group goes", func(b *bench, stud, left *schematic.Part) func(*Tx) error {
			return func(tx *Tx) error { return Move(tx, b.sheet, keysOf(stud, left), down) }
		}, "300,700 800,600"},
		{"held in a group", "and the one in hand", func(b *bench, stud, left *schematic.Part) func(*Tx) error {
			return func(tx *Tx) error { return Move(tx, b.sheet, keysOf(stud, left), down, Symbol{stud.ID, "2"}) }
		}, "300,700 800,700"},
		{"turned", "about its own middle", func(b *bench, stud, _ *schematic.Part) func(*Tx) error {
			return func(tx *Tx) error { return Rotate(tx, b.sheet, keysOf(stud), 2, Symbol{stud.ID, "2"}) }
		}, "300,600 800,600"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, stud, left, _ := setUp(t)
			b.must(c.do(b, stud, left))
			equalText(t, c.why, places(b, stud), c.want)
		})
	}
	b, stud, left, right := setUp(t)
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(stud, left, right), down) })
	equalText(t, "all of them", places(b, stud), "300,700 800,700")
}
