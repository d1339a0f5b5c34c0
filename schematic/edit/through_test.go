package edit

import (
	"strings"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// wiresText lists the wires as drawn.
func (b *bench) wiresText() string {
	var all []string
	for w := range b.Doc().Wires() {
		all = append(all, w.Name+" "+b.drawn(w))
	}
	sortNames(all)
	return strings.Join(all, ", ")
}

func TestAPartThatIsThereGoesIntoAWire(t *testing.T) {
	for _, c := range []struct {
		name, kind, why string
		from            geom.Point
		by              geom.Point
		want            string
	}{
		{"along", "diode", "it lies along the wire already", geom.Pt(300, 300), geom.Pt(0, -190), "W1 0,100 250,100, W2 350,100 600,100"},
		{"across", "fuse", "it is turned to lie along", geom.Pt(300, 300), geom.Pt(0, -190), "W1 0,100 250,100, W2 350,100 600,100"},
		{"beyond the end", "diode", "it keeps a step off the end", geom.Pt(300, 300), geom.Pt(-400, -190), "W1 0,100 25,100, W2 125,100 600,100"},
		{"splice", SpliceKind, "the wire ends at it from both sides", geom.Pt(300, 300), geom.Pt(10, -190), "W1 0,100 300,100, W2 300,100 600,100"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := newBench(t)
			p, w := b.place(c.kind, c.from.X, c.from.Y), b.wire(loose(0, 100), loose(600, 100))
			if n := len(Passages(b.Doc(), b.sheet, keysOf(p))); n != 1 {
				t.Fatalf("%d ways through", n)
			}
			b.must(func(tx *Tx) error { return PutIntoWire(tx, b.sheet, keysOf(p), c.by, w.ID) })
			equalText(t, c.why, b.wiresText(), c.want)
			if c.kind != SpliceKind {
				b.refused("no free way", func(tx *Tx) error { return PutIntoWire(tx, b.sheet, keysOf(p), geom.Pt(0, 25), w.ID) })
			}
			b.must(func(tx *Tx) error { return LiftFromWire(tx, b.sheet, p.ID) })
			equalText(t, "lifted out", b.wiresText(), "W1 0,100 600,100")
			after := b.Doc().Part(p.ID)
			if body := b.Doc().Reach(after, after.Views[0]); body.Touches(geom.RectOf(geom.Pt(0, 100), geom.Pt(600, 100))) {
				t.Errorf("it lies clear of the wire, not at %v", after.Views[0].At)
			}
		})
	}
}

func TestAConnectorTakesInAllWiresThatRunThrough(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error { return PlacePart(tx, "plug", b.sheet, geom.Pt(300, 300), geom.Orient{}) })
	keys := b.Selection()
	ways := Passages(b.Doc(), b.sheet, keys)
	if len(ways) != 2 {
		t.Fatalf("%d ways through two cavities", len(ways))
	}
	pitch := ways[1].Sub(ways[0]).Y
	one, two := b.wire(loose(0, 600), loose(900, 600)), b.wire(loose(0, 600+pitch), loose(900, 600+pitch))
	b.must(func(tx *Tx) error {
		return PutIntoWire(tx, b.sheet, keys, geom.Pt(0, 595).Sub(geom.Pt(0, ways[0].Y)), one.ID)
	})
	equalText(t, "both wires run through", b.names(), "X1 X2 W1 W2 W3 W4")
	for _, w := range []*schematic.Wire{one, two} {
		if e := b.Doc().Wire(w.ID).B; e.Loose() {
			t.Errorf("%s does not end at the connector", w.Name)
		}
	}
}

func TestWhatCannotGoIntoAWire(t *testing.T) {
	b := newBench(t)
	w := b.wire(loose(0, 100), loose(600, 100))
	f, e, r, k := b.place("fuse", 100, 300), b.place("lamp", 300, 300), b.place("stud", 400, 300), b.place("relay", 500, 300)
	b.wire(at(f, "1"), at(e, "1"))
	for name, keys := range map[string][]schematic.Key{"a part with a wire": keysOf(f), "one pin": keysOf(r), "two symbols": keysOf(k), "a group": keysOf(f, e), "a wire": keysOf(w), "nothing": nil} {
		if ways := Passages(b.Doc(), b.sheet, keys); len(ways) > 0 {
			t.Errorf("%s: %v", name, ways)
		}
		b.refused("no free way leads W1 through", func(tx *Tx) error { return PutIntoWire(tx, b.sheet, keys, geom.Point{}, w.ID) })
	}
	sp := b.place(SpliceKind, 300, 500)
	tap := b.wire(at(sp, "1"), loose(300, 700))
	b.refused("ends at SP1 already", func(tx *Tx) error { return PutIntoWire(tx, b.sheet, keysOf(sp), geom.Point{}, tap.ID) })
	b.must(func(tx *Tx) error { return SetLocked(tx, keysOf(w), true) })
	b.refused("W1 is locked in place", func(tx *Tx) error { return PutIntoWire(tx, b.sheet, keysOf(sp), geom.Point{}, w.ID) })
}

func TestALockedWireKeepsItsWay(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 500)
	w := b.wire(at(f, "2"), at(e, "1"), geom.Pt(100, 200), geom.Pt(500, 200))
	b.must(func(tx *Tx) error { return SetLocked(tx, keysOf(w), true) })
	for name, fn := range map[string]func(*Tx) error{
		"push":      func(tx *Tx) error { return MoveSegment(tx, w.ID, 1, geom.Pt(0, 25)) },
		"bend":      func(tx *Tx) error { return MoveBend(tx, w.ID, 0, geom.Pt(0, 25)) },
		"add":       func(tx *Tx) error { return AddBend(tx, w.ID, geom.Pt(300, 300)) },
		"take out":  func(tx *Tx) error { return RemoveBend(tx, w.ID, 0) },
		"anew":      func(tx *Tx) error { return Straighten(tx, w.ID) },
		"reconnect": func(tx *Tx) error { return ReconnectEnd(tx, w.ID, EndA, loose(0, 0)) },
		"split":     func(tx *Tx) error { return SplitWire(tx, w.ID, geom.Pt(300, 200)) },
		"end on it": func(tx *Tx) error { return AddWire(tx, b.sheet, loose(300, 600), on(w, 300, 200), nil, nil) },
		"delete":    func(tx *Tx) error { return Delete(tx, keysOf(w)) },
		"insert":    func(tx *Tx) error { return InLine{Wire: w.ID, Kind: "fuse", Pins: [2]string{"1", "2"}}.Apply(tx) },
	} {
		t.Run(name, func(t *testing.T) { b.refused("W1 is locked in place: unlock it first", fn) })
	}
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(e), geom.Pt(50, 0)) })
	equalText(t, "it goes along with the part at its end", b.drawn(w), "100,150 100,200 550,200 550,450")
	b.must(func(tx *Tx) error { return Duplicate(tx, b.sheet, keysOf(f, e, w), geom.Pt(800, 0)) })
	for x := range b.Doc().Wires() {
		if x.Locked != (x.ID == w.ID) {
			t.Error("a copy is not locked")
		}
	}
}
