package edit

import (
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestALabelStaysBesideItsWire(t *testing.T) {
	b := newBench(t)
	one, two := b.place("diode", 100, 100), b.place("diode", 600, 100)
	w := b.wire(at(one, "K"), at(two, "A")) // 150,100 550,100: its middle is 350,100
	tag := func() geom.Point { return b.Doc().Wire(w.ID).Tag }
	b.must(func(tx *Tx) error { return MoveLabel(tx, w.ID, geom.Pt(390, 60)) })
	if tag() != geom.Pt(40, -40) {
		t.Fatalf("label %v from the middle", tag())
	}
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(one, two, w), geom.Pt(50, 75)) })
	if tag() != geom.Pt(40, -40) {
		t.Errorf("moved with its wire it keeps its distance, got %v", tag())
	}
	b.must(func(tx *Tx) error { return Rotate(tx, b.sheet, keysOf(one, two, w), 1) })
	if tag() != geom.Pt(40, 40) {
		t.Errorf("turned with its wire it turns about it, got %v", tag())
	}
	b.must(func(tx *Tx) error { return MoveLabel(tx, w.ID, b.Doc().Path(b.Doc().Wire(w.ID)).Middle()) })
	if tag() == (geom.Point{}) {
		t.Error("on the middle of the wire it is still where the user put it")
	}
	b.must(func(tx *Tx) error { return ResetLabels(tx, keysOf(w, one)) })
	if tag() != (geom.Point{}) {
		t.Errorf("put back, got %v", tag())
	}
	b.refused("no longer there", func(tx *Tx) error { return MoveLabel(tx, schematic.ID{9}, geom.Pt(0, 0)) })
	b.refused("off the sheet", func(tx *Tx) error { return MoveLabel(tx, w.ID, geom.Pt(geom.MaxCoord+1, 0)) })
}

func TestALabelStaysWhenItsWireIsLedAnotherWay(t *testing.T) {
	place := func(b *bench, w *schematic.Wire) geom.Point {
		now := b.Doc().Wire(w.ID)
		return b.Doc().Path(now).Middle().Add(now.Tag)
	}
	b := newBench(t)
	one, two := b.place("diode", 300, 300), b.place("diode", 900, 300)
	w := b.wire(at(one, "K"), at(two, "A"))
	b.must(func(tx *Tx) error { return MoveLabel(tx, w.ID, geom.Pt(420, 270)) })
	b.must(func(tx *Tx) error { return AddBend(tx, w.ID, geom.Pt(700, 500)) })
	equalText(t, "near the wire still: it stays", pathText([]geom.Point{place(b, w)}), "420,270")
	b.must(func(tx *Tx) error { return Straighten(tx, w.ID) })
	equalText(t, "and back", pathText([]geom.Point{place(b, w)}), "420,270")
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(one, two), geom.Pt(0, 600)) })
	equalText(t, "moved with both parts", pathText([]geom.Point{place(b, w)}), "420,870")
	b.must(func(tx *Tx) error { return MoveSegment(tx, w.ID, 0, geom.Pt(0, 300)) })
	if d, _, _ := b.Doc().Path(b.Doc().Wire(w.ID)).Dist(place(b, w)); d > 60 {
		t.Errorf("the label was left %.0f units from its wire", d)
	}
}
