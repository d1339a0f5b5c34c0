package edit

import (
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestNewWiresGoRoundWhatIsInTheWay(t *testing.T) {
	b := newBench(t)
	one, two := b.place("diode", 100, 100), b.place("diode", 600, 100)
	b.place("fuse", 350, 100)
	w := b.wire(at(one, "K"), at(two, "A"))
	equalText(t, "path", b.drawn(w), "150,100 275,100 275,200 425,200 425,100 550,100")
}

func TestMovedPartsTakeTheirWiresAlong(t *testing.T) {
	cases := []struct {
		name, why string
		via       []geom.Point
		by        geom.Point
		want      string
	}{
		{"plain", "a wire without bends stays the plain one", nil, geom.Pt(0, 200), "150,100 350,100 350,300 550,300"},
		{"plain, blocked", "and goes round what it would run through", nil, geom.Pt(100, 600), "150,100 325,100 325,700 650,700"},
		{"bends kept", "bends slide along as little as need be", []geom.Point{geom.Pt(250, 100), geom.Pt(250, 0), geom.Pt(450, 0), geom.Pt(450, 100)},
			geom.Pt(0, -50), "150,100 250,100 250,0 450,0 450,50 550,50"},
		{"long way round kept", "what the hand led far round stays there", []geom.Point{geom.Pt(200, 100), geom.Pt(200, -1000), geom.Pt(500, -1000), geom.Pt(500, 100)},
			geom.Pt(0, 50), "150,100 200,100 200,-1000 500,-1000 500,150 550,150"},
		{"bends given up", "bends that would lead through a part go", []geom.Point{geom.Pt(300, 100), geom.Pt(300, 300), geom.Pt(450, 300), geom.Pt(450, 100)},
			geom.Pt(-100, 500), "150,100 300,100 300,600 450,600"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			one, two := b.place("diode", 100, 100), b.place("diode", 600, 100)
			b.place("fuse", 400, 500)
			b.place("fuse", 400, 400)
			w := b.wire(at(one, "K"), at(two, "A"), c.via...)
			b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(two), c.by) })
			equalText(t, c.why, b.drawn(w), c.want)
			if err := b.Undo(); err != nil {
				t.Fatal(err)
			}
		})
	}
}

func TestWiresThatStayAreNotTouched(t *testing.T) {
	b := newBench(t)
	one, two := b.place("diode", 100, 100), b.place("diode", 600, 100)
	still := b.wire(at(one, "K"), at(two, "A"))
	f := b.place("fuse", 400, 500)
	tail := b.wire(at(f, "1"), loose(400, 350))
	before := b.Doc().Wire(still.ID)
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(f), geom.Pt(0, -200)) })
	if b.Doc().Wire(still.ID) != before {
		t.Error("a wire that is not at the part moved, nor below it, must stay")
	}
	if p := b.Doc().Path(b.Doc().Wire(tail.ID)); p[0] != geom.Pt(400, 250) {
		t.Errorf("the part's own wire follows: %v", p)
	}
}

func TestWiresBelowAPartAreLedRoundIt(t *testing.T) {
	cases := []struct {
		name, why string
		via       []geom.Point
		want      string
	}{
		{"plain", "round the part that lies on it", nil, "150,400 300,400 300,500 525,500 525,400 750,400"},
		{"bends kept", "the bends before and after stay", []geom.Point{geom.Pt(200, 400), geom.Pt(200, 200), geom.Pt(250, 200), geom.Pt(250, 400), geom.Pt(600, 400), geom.Pt(600, 700), geom.Pt(650, 700), geom.Pt(650, 400)},
			"150,400 200,400 200,200 250,200 250,500 600,500 600,700 650,700 650,400 750,400"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			one, two := b.place("diode", 100, 400), b.place("diode", 800, 400)
			w := b.wire(at(one, "K"), at(two, "A"), c.via...)
			f := b.place("fuse", 400, 900)
			b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(f), geom.Pt(0, -500)) })
			equalText(t, c.why, b.drawn(w), c.want)
			before := b.Doc().Wire(w.ID)
			b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(f), geom.Pt(0, 200)) })
			if b.Doc().Wire(w.ID) != before {
				t.Error("it stays where it is when the part goes")
			}
			if err := b.Undo(); err != nil {
				t.Fatal(err)
			}
			if err := b.Undo(); err != nil {
				t.Fatal(err)
			}
			b.must(func(tx *Tx) error { return SetLocked(tx, keysOf(w), true) })
			locked := b.Doc().Wire(w.ID)
			b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(f), geom.Pt(0, -500)) })
			if b.Doc().Wire(w.ID) != locked {
				t.Error("a locked wire stays")
			}
		})
	}
}

// However many wires a part has, an edit looks for few new ways.
func TestLeadingManyWires(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 400, 500)
	b.place("fuse", 400, 300)
	var wires []*schematic.Wire
	for i := range mostLed + 20 {
		wires = append(wires, b.wire(at(f, "1"), loose(25*i, 0)))
	}
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(f), geom.Pt(25, 25)) })
	for _, w := range wires {
		if p := b.Doc().Path(b.Doc().Wire(w.ID)); p[0] != geom.Pt(425, 475) {
			t.Fatalf("%s stayed behind: %v", w.Name, p)
		}
	}
}
