package edit

import (
	"testing"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestAddWireTakesOverTheConductor(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	like := &schematic.Wire{Size: unit.MM2(1.5), Color: schematic.Color{Base: "RD"}, Insulation: "thin wall", Notes: "by the door", Build: schematic.Cut}
	b.must(func(tx *Tx) error { return AddWire(tx, b.sheet, at(f, "1"), loose(300, 0), nil, like) })
	w := b.Doc().Wire(b.Selection()[0].ID)
	if w.Size != like.Size || w.Color != like.Color || w.Insulation != like.Insulation {
		t.Errorf("not taken over: %+v", w)
	}
	if w.Notes != "" || w.Build != "" || w.Name != "W1" {
		t.Errorf("taken over too much: %+v", w)
	}
}

func TestAddWireKeepsTheBendsDrawn(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 400)
	w := b.wire(at(f, "2"), at(e, "1"), geom.Pt(100, 300), geom.Pt(500, 300))
	equalText(t, "path", b.drawn(w), "100,150 100,300 500,300 500,350")
	straight := b.wire(loose(0, 0), loose(200, 0), geom.Pt(50, 0), geom.Pt(100, 0))
	equalText(t, "points in a straight run say nothing", pathText(straight.Via), "")
}

func TestAddWireRefusals(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	b.must(func(tx *Tx) error { return AddSheet(tx, "") })
	other := b.Doc().Sheets()[1].ID
	w := b.wire(at(f, "1"), loose(300, 0))
	for _, c := range []struct {
		words string
		sheet schematic.ID
		a, b  Anchor
	}{
		{"both ends of W2 would be at pin 1 of F1", b.sheet, at(f, "1"), at(f, "1")},
		{"no length", b.sheet, loose(50, 50), loose(50, 50)},
		{`F1 has no pin "9"`, b.sheet, at(f, "9"), loose(0, 0)},
		{"not shown on this sheet", other, at(f, "2"), loose(0, 0)},
		{"drawn on another sheet", other, on(w, 200, 0), loose(0, 0)},
		{"no longer there", b.sheet, Anchor{Part: schematic.ID{9}, Pin: "1"}, loose(0, 0)},
		{"no longer there", b.sheet, Anchor{Wire: schematic.ID{9}}, loose(0, 0)},
		{"off the sheet", b.sheet, loose(geom.MaxCoord+5, 0), loose(0, 0)},
	} {
		b.refused(c.words, func(tx *Tx) error { return AddWire(tx, c.sheet, c.a, c.b, nil, nil) })
	}
}

func TestWireOntoWireMakesASplice(t *testing.T) {
	b := newBench(t)
	one, two, three := b.place("diode", 0, 0), b.place("diode", 500, 0), b.place("fuse", 200, 300)
	main := b.wire(at(one, "K"), at(two, "A"))
	b.must(func(tx *Tx) error {
		return SetWire(tx, main.ID, func(w *schematic.Wire) {
			w.Size, w.Color, w.LengthMM, w.Build = unit.MM2(2.5), schematic.Color{Base: "BU"}, schematic.Some(800), schematic.Cut
			w.A.Terminal, w.B.Terminal = "ring 6", "blade 6.3"
		})
	})
	tap := b.wire(at(three, "1"), on(main, 203, 9))
	equalText(t, "names", b.names(), "F1 SP1 V1 V2 W1 W2 W3")
	equalText(t, "first half", b.drawn(main), "50,0 200,0")
	equalText(t, "tap", b.drawn(tap), "200,250 200,0")
	k, _ := b.Doc().Named("W2")
	second := b.Doc().Wire(k.ID)
	equalText(t, "second half", b.drawn(second), "200,0 450,0")
	first := b.Doc().Wire(main.ID)
	for _, w := range []*schematic.Wire{first, second} {
		if w.Size != unit.MM2(2.5) || w.Color.Base != "BU" {
			t.Errorf("%s lost what it is made of", w.Name)
		}
		if w.Build != "" {
			t.Errorf("%s still counts as cut to the length of the whole", w.Name)
		}
	}
	if first.A.Terminal != "ring 6" || first.B.Terminal != "" || second.A.Terminal != "" || second.B.Terminal != "blade 6.3" {
		t.Error("terminals stay at the ends they were crimped to")
	}
	b.wire(loose(200, -200), Anchor{Part: first.B.Part, Pin: first.B.Pin})
	if n := len(b.Doc().WiresAt(first.B.Ref())); n != 4 {
		t.Errorf("%d wires meet at the splice, want 4", n)
	}
}

func TestSplitKeepsTheDrawing(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 600)
	w := b.wire(at(f, "1"), at(e, "2")) // leaves upwards, arrives from below
	before := b.Doc().Path(w)
	for i := 1; i < len(before); i++ {
		mid := geom.Pt((before[i-1].X+before[i].X)/2, (before[i-1].Y+before[i].Y)/2)
		b.must(func(tx *Tx) error { return SplitWire(tx, w.ID, mid) })
		splice := b.Doc().Part(b.Selection()[0].ID)
		joint := splice.Views[0].At
		var halves geom.Path
		for _, h := range b.Doc().WiresAt(schematic.PinRef{Part: splice.ID, Pin: "1"}) {
			p := b.Doc().Path(h)
			if p[0] == joint {
				halves = append(halves, p...)
			} else {
				halves = append(p, halves...)
			}
		}
		equalText(t, "halves together", pathText(halves.Clean()), pathText(before))
		if err := b.Undo(); err != nil {
			t.Fatal(err)
		}
	}
}

func TestBothEndsOnOneWire(t *testing.T) {
	b := newBench(t)
	main := b.wire(loose(0, 0), loose(800, 0))
	b.wire(on(main, 200, 0), on(main, 600, 0), geom.Pt(200, 200), geom.Pt(600, 200))
	equalText(t, "names", b.names(), "SP1 SP2 W1 W2 W3 W4")
	b.refused("both ends", func(tx *Tx) error {
		return AddWire(tx, b.sheet, on(main, 100, 0), on(main, 100, 0), nil, nil)
	})
}

func TestWireOntoTheEndOfAWire(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	main := b.wire(at(f, "2"), loose(100, 500))
	b.wire(loose(400, 150), on(main, 100, 150)) // right at the fuse
	equalText(t, "a pin needs no splice", b.names(), "F1 W1 W2")
	b.wire(loose(400, 500), on(main, 100, 510)) // at the loose end
	equalText(t, "a loose end is spliced but not split", b.names(), "F1 SP1 W1 W2 W3")
	if b.Doc().Wire(main.ID).B.Loose() {
		t.Error("the end is still loose")
	}
}

func TestReconnectEnd(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 400)
	w := b.wire(at(f, "2"), at(e, "1"), geom.Pt(100, 300), geom.Pt(500, 300))
	b.must(func(tx *Tx) error {
		return SetWire(tx, w.ID, func(w *schematic.Wire) { w.B.Terminal = "socket" })
	})
	b.must(func(tx *Tx) error { return ReconnectEnd(tx, w.ID, EndB, loose(600, 350)) })
	equalText(t, "bends stay", b.drawn(w), "100,150 100,300 600,300 600,350")
	if got := b.Doc().Wire(w.ID).B.Terminal; got != "" {
		t.Errorf("terminal %q went along to another place", got)
	}
	other := b.wire(loose(0, 700), loose(900, 700))
	b.must(func(tx *Tx) error { return ReconnectEnd(tx, w.ID, EndB, on(other, 600, 700)) })
	equalText(t, "on a wire", b.drawn(w), "100,150 100,300 600,300 600,700")
	b.refused("cannot end on itself", func(tx *Tx) error { return ReconnectEnd(tx, w.ID, EndA, on(w, 300, 300)) })
	b.refused("both ends", func(tx *Tx) error { return ReconnectEnd(tx, w.ID, EndB, at(f, "2")) })
}

func TestBind(t *testing.T) {
	b := newBench(t)
	one, two := b.wire(loose(0, 0), loose(100, 0)), b.wire(loose(0, 50), loose(100, 50))
	ids := []schematic.ID{one.ID, two.ID}
	b.refused("needs 2 or more", func(tx *Tx) error { return Bind(tx, schematic.TwistGroup, ids[:1]) })
	b.must(func(tx *Tx) error { return Bind(tx, schematic.TwistGroup, ids) })
	b.must(func(tx *Tx) error { return Bind(tx, schematic.ScreenGroup, ids) })
	screen := b.Doc().Wire(one.ID).Screen
	b.must(func(tx *Tx) error { return SetDrain(tx, screen, two.ID) })
	b.refused("only a screen has a drain", func(tx *Tx) error { return SetDrain(tx, b.Doc().Wire(one.ID).Twist, two.ID) })
	b.must(func(tx *Tx) error { return Delete(tx, keysOf(two)) })
	if b.Doc().Group(screen).Drain != (schematic.ID{}) {
		t.Error("the drain is gone but still named")
	}
	b.must(func(tx *Tx) error { return Unbind(tx, schematic.TwistGroup, ids[:1]) })
	if n := b.Doc().Len(schematic.TypeGroup); n != 1 {
		t.Errorf("%d groups, want the screen alone", n)
	}
}
