package edit

import (
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestMoveLeadsWires(t *testing.T) {
	for _, c := range []struct {
		why  string
		via  []geom.Point
		by   geom.Point
		want string
	}{
		{"the last bend slides along", []geom.Point{{X: 100, Y: 300}, {X: 500, Y: 300}}, geom.Pt(75, 0), "100,150 100,300 575,300 575,450"},
		{"the last stretch grows", []geom.Point{{X: 100, Y: 250}, {X: 500, Y: 250}}, geom.Pt(0, 100), "100,150 100,250 500,250 500,550"},
		{"led as the program leads it: so again", []geom.Point{{X: 100, Y: 300}, {X: 500, Y: 300}}, geom.Pt(0, 100), "100,150 100,350 500,350 500,550"},
		{"three bends: only the last one moves", []geom.Point{{X: 100, Y: 200}, {X: 300, Y: 200}, {X: 300, Y: 300}, {X: 500, Y: 300}}, geom.Pt(50, 50), "100,150 100,200 300,200 300,300 550,300 550,500"},
		{"lined up, it becomes straight", []geom.Point{{X: 100, Y: 300}, {X: 500, Y: 300}}, geom.Pt(-400, 0), "100,150 100,450"},
		{"no bends of its own: chosen anew", nil, geom.Pt(100, 0), "100,150 100,300 600,300 600,450"},
		{"through the pin: a stretch is chosen anew, out of the pin", []geom.Point{{X: 100, Y: 200}, {X: 300, Y: 200}, {X: 300, Y: 400}, {X: 500, Y: 400}}, geom.Pt(0, -100), "100,150 100,200 300,200 300,300 500,300 500,350"},
	} {
		t.Run(c.why, func(t *testing.T) {
			b := newBench(t)
			f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 500)
			w := b.wire(at(f, "2"), at(e, "1"), c.via...)
			b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(e), c.by) })
			equalText(t, "path", b.drawn(w), c.want)
		})
	}
}

func TestMoveTakesInnerWiresAlong(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 500)
	w := b.wire(at(f, "2"), at(e, "1"), geom.Pt(100, 300), geom.Pt(500, 300))
	tail := b.wire(at(e, "2"), loose(700, 700), geom.Pt(500, 700))
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(f, e), geom.Pt(25, 50)) })
	equalText(t, "inner wire", b.drawn(w), "125,200 125,350 525,350 525,500")
	equalText(t, "loose end stays", b.drawn(tail), "525,600 525,700 700,700")
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(e, tail), geom.Pt(25, 25)) })
	equalText(t, "selected, it goes along", b.drawn(tail), "550,625 550,725 725,725")
}

func TestMoveOnlyOnItsSheet(t *testing.T) {
	b := newBench(t)
	g := b.place("stud", 100, 100)
	b.must(func(tx *Tx) error { return AddSheet(tx, "") })
	other := b.Doc().Sheets()[1].ID
	b.must(func(tx *Tx) error { return ShowPart(tx, g.ID, other, "", geom.Pt(300, 300), geom.Orient{}) })
	w := b.wire(at(g, "1"), loose(100, 0))
	b.must(func(tx *Tx) error { return Move(tx, other, keysOf(g, w), geom.Pt(50, 50)) })
	g = b.Doc().Part(g.ID)
	if g.Views[0].At != geom.Pt(100, 100) || g.Views[1].At != geom.Pt(350, 350) {
		t.Errorf("views at %v and %v", g.Views[0].At, g.Views[1].At)
	}
	equalText(t, "the wire of the other sheet", b.drawn(w), "100,75 100,0")
}

func TestMoveStopsAtTheEdgeOfSpace(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	w := b.wire(loose(0, 0), loose(100, 0))
	for _, k := range []schematic.Item{f, w} {
		b.refused("off the sheet", func(tx *Tx) error { return Move(tx, b.sheet, keysOf(k), geom.Pt(2*geom.MaxCoord, 0)) })
	}
}

func TestMoveSegment(t *testing.T) {
	for _, c := range []struct {
		why  string
		seg  int
		by   geom.Point
		want string
	}{
		{"middle: the bends slide", 1, geom.Pt(0, 50), "100,150 100,350 500,350 500,450"},
		{"only sideways counts", 1, geom.Pt(75, 50), "100,150 100,350 500,350 500,450"},
		{"along itself: nothing", 1, geom.Pt(75, 0), "100,150 100,300 500,300 500,450"},
		{"at a pin: a stub stays", 0, geom.Pt(50, 0), "100,150 100,200 150,200 150,300 500,300 500,450"},
		{"at the other pin", 2, geom.Pt(-50, 0), "100,150 100,300 450,300 450,400 500,400 500,450"},
	} {
		t.Run(c.why, func(t *testing.T) {
			b := newBench(t)
			f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 500)
			w := b.wire(at(f, "2"), at(e, "1"), geom.Pt(100, 300), geom.Pt(500, 300))
			b.must(func(tx *Tx) error { return MoveSegment(tx, w.ID, c.seg, c.by) })
			equalText(t, "path", b.drawn(w), c.want)
		})
	}
	b := newBench(t)
	w := b.wire(loose(0, 0), loose(300, 0))
	b.must(func(tx *Tx) error { return MoveSegment(tx, w.ID, 0, geom.Pt(10, 75)) })
	equalText(t, "loose ends go along", b.drawn(w), "0,75 300,75")
	b.refused("has no stretch 2", func(tx *Tx) error { return MoveSegment(tx, w.ID, 1, geom.Pt(0, 25)) })
	one, two := b.place("diode", 100, 500), b.place("diode", 700, 500)
	s := b.wire(at(one, "K"), at(two, "A"))
	b.must(func(tx *Tx) error { return MoveSegment(tx, s.ID, 0, geom.Pt(0, 100)) })
	equalText(t, "straight between two pins", b.drawn(s), "150,500 200,500 200,600 600,600 600,500 650,500")
}

func TestMoveBend(t *testing.T) {
	for _, c := range []struct {
		why  string
		bend int
		by   geom.Point
		want string
	}{
		{"first bend: the pin keeps a stub", 0, geom.Pt(50, 50), "100,150 100,200 150,200 150,350 500,350 500,450"},
		{"last bend", 1, geom.Pt(-100, -50), "100,150 100,250 400,250 400,400 500,400 500,450"},
		{"onto the other bend: the step is gone", 0, geom.Pt(400, 0), "100,150 100,200 500,200 500,450"},
	} {
		t.Run(c.why, func(t *testing.T) {
			b := newBench(t)
			f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 500)
			w := b.wire(at(f, "2"), at(e, "1"), geom.Pt(100, 300), geom.Pt(500, 300))
			b.must(func(tx *Tx) error { return MoveBend(tx, w.ID, c.bend, c.by) })
			equalText(t, "path", b.drawn(w), c.want)
			b.refused("has no stretch", func(tx *Tx) error { return MoveBend(tx, w.ID, 5, c.by) })
		})
	}
}

func TestBends(t *testing.T) {
	b := newBench(t)
	one, two := b.place("diode", 100, 500), b.place("diode", 700, 500)
	w := b.wire(at(one, "K"), at(two, "A"))
	b.must(func(tx *Tx) error { return AddBend(tx, w.ID, geom.Pt(300, 600)) })
	equalText(t, "added", b.drawn(w), "150,500 300,500 300,600 600,600 600,500 650,500")
	b.refused("already passes there", func(tx *Tx) error { return AddBend(tx, w.ID, geom.Pt(300, 550)) })
	b.must(func(tx *Tx) error { return AddBend(tx, w.ID, geom.Pt(450, 700)) })
	equalText(t, "added again", b.drawn(w), "150,500 300,500 300,600 450,600 450,700 600,700 600,500 650,500")
	b.refused("has no bend 7", func(tx *Tx) error { return RemoveBend(tx, w.ID, 6) })
	b.must(func(tx *Tx) error { return RemoveBend(tx, w.ID, 2) })
	equalText(t, "one step gone", b.drawn(w), "150,500 300,500 300,600 600,600 600,500 650,500")
	b.must(func(tx *Tx) error { return RemoveBend(tx, w.ID, 0) })
	equalText(t, "straight again", b.drawn(w), "150,500 650,500")
	b.must(func(tx *Tx) error { return AddBend(tx, w.ID, geom.Pt(300, 600)) })
	b.must(func(tx *Tx) error { return Straighten(tx, w.ID) })
	if via := b.Doc().Wire(w.ID).Via; via != nil {
		t.Errorf("bends %v are left", via)
	}
}

func TestFourTurnsAndTwoMirrorsLeadBack(t *testing.T) {
	for _, x := range []int{100, 125, -300, 475, -25} {
		b := newBench(t)
		f, e, u := b.place("fuse", x, 100), b.place("lamp", x+425, 500), b.place("unit", x+75, 700)
		w := b.wire(at(f, "2"), at(e, "1"), geom.Pt(x, 300), geom.Pt(x+425, 300))
		b.must(func(tx *Tx) error { return AddNote(tx, b.sheet, geom.Pt(x, 900), 200, 100, "plate") })
		note := b.Doc().Get(b.Selection()[0])
		start := b.Doc()
		for _, keys := range [][]schematic.Key{keysOf(f), keysOf(u), keysOf(f, e), keysOf(f, e, u, w, note)} {
			// A wire to something that stays may be led another way back.
			wanted := func(c Change) Change {
				if len(keys) == 1 {
					delete(c, w.Key())
				}
				return c
			}
			for range 4 {
				b.must(func(tx *Tx) error { return Rotate(tx, b.sheet, keys, 1) })
			}
			if d := wanted(Diff(start, b.Doc())); len(d) > 0 {
				t.Errorf("x=%d: four turns of %d items change %v", x, len(keys), d.Keys())
			}
			for range 4 {
				if err := b.Undo(); err != nil {
					t.Fatal(err)
				}
			}
			if b.Doc() != start {
				t.Fatal("undo does not lead back")
			}
			b.must(func(tx *Tx) error { return Mirror(tx, b.sheet, keys) })
			b.must(func(tx *Tx) error { return Mirror(tx, b.sheet, keys) })
			if d := wanted(Diff(start, b.Doc())); len(d) > 0 {
				t.Errorf("x=%d: two mirrors of %d items change %v", x, len(keys), d.Keys())
			}
			for b.Doc() != start {
				if err := b.Undo(); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
}

func TestRotateTurnsInnerWires(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 300, 500)
	w := b.wire(at(f, "2"), at(e, "1"), geom.Pt(100, 300), geom.Pt(300, 300))
	b.must(func(tx *Tx) error { return Rotate(tx, b.sheet, keysOf(f, e), 1) })
	// About 200,300: the group reaches from 75,50 to 325,550.
	equalText(t, "path", b.drawn(w), "350,200 200,200 200,400 50,400")
}

func TestRotateLeadsTheWireOutOfThePin(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 300, 300), b.place("lamp", 700, 1100)
	w := b.wire(at(f, "2"), at(e, "1"), geom.Pt(300, 500), geom.Pt(500, 500), geom.Pt(500, 800), geom.Pt(700, 800))
	b.must(func(tx *Tx) error { return Rotate(tx, b.sheet, keysOf(f), 1) })
	p := b.Doc().Path(b.Doc().Wire(w.ID))
	_, dir, _ := b.Doc().EndAt(w, w.A)
	if got := geom.DirOf(p[1].Sub(p[0])); got != dir {
		t.Errorf("the wire leaves a pin that faces %v towards %v: %v", dir, got, p)
	}
	equalText(t, "far bends stay", pathText(p[len(p)-3:]), "500,800 700,800 700,1050")
}

func TestMovePastEachOther(t *testing.T) {
	b := newBench(t)
	one, two := b.place("diode", 100, 100), b.place("diode", 700, 300)
	w := b.wire(at(one, "K"), at(two, "A"), geom.Pt(400, 100), geom.Pt(400, 300))
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(one), geom.Pt(375, 0)) })
	equalText(t, "pushed past the stretch", b.drawn(w), "525,100 575,100 575,300 650,300")
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(one), geom.Pt(225, 0)) })
	if via := b.Doc().Wire(w.ID).Via; via != nil {
		t.Errorf("no place for one stretch between the two, yet bends %v", via)
	}
	p := b.Doc().Path(b.Doc().Wire(w.ID))
	if out, in := geom.DirOf(p[1].Sub(p[0])), geom.DirOf(p[len(p)-2].Sub(p[len(p)-1])); out == geom.Left || in == geom.Right {
		t.Errorf("the wire leaves through a part: %v", p)
	}
}
