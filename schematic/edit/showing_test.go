package edit

import (
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestShowPartNear(t *testing.T) {
	b := newBench(t)
	g, lamp := b.place("stud", 1000, 1000), b.place("lamp", 500, 500)
	b.must(func(tx *Tx) error {
		return ShowPartNear(tx, g.ID, b.sheet, "", geom.Pt(500, 500), geom.Orient{})
	})
	g = b.Doc().Part(g.ID)
	second := b.Doc().Reach(g, g.Views[1])
	if second.Touches(b.Doc().Reach(lamp, lamp.Views[0])) {
		t.Errorf("the symbol at %v covers the lamp", second)
	}
	if d := g.Views[1].At.Dist(geom.Pt(500, 500)); d > 300 {
		t.Errorf("the symbol is %.0f away though there is room near", d)
	}
}

func TestAddWireFromAfar(t *testing.T) {
	b := newBench(t)
	g := b.place("stud", 1000, 1000)
	b.must(func(tx *Tx) error { return AddSheet(tx, "Cabin") })
	engine, cabin := b.sheet, b.Doc().Sheets()[1].ID
	b.sheet = cabin
	lamp := b.place("lamp", 500, 500)
	pins := b.Doc().PinsOf(lamp)
	from := schematic.PinRef{Part: g.ID, Pin: "1"}
	b.must(func(tx *Tx) error { return AddWireFromAfar(tx, cabin, from, at(lamp, pins[0].Name), nil) })
	w := b.Doc().Wire(b.Selection()[0].ID)
	if w == nil || w.Sheet != cabin || w.A.Ref() != from {
		t.Fatalf("drawn: %+v", w)
	}
	if g = b.Doc().Part(g.ID); len(g.Views) != 2 || g.Views[1].Sheet != cabin {
		t.Fatalf("views: %+v", g.Views)
	}
	if tip, dir, _ := b.Doc().EndAt(w, w.B); dir.Vec() != (geom.Point{}) {
		if d := g.Views[1].At.Sub(tip); d.X*dir.Vec().X+d.Y*dir.Vec().Y <= 0 {
			t.Errorf("the stud stands at %v, behind the pin at %v that points to %v", g.Views[1].At, tip, dir)
		}
	}
	b.must(func(tx *Tx) error { return AddWireFromAfar(tx, cabin, from, at(lamp, pins[1].Name), nil) })
	if g = b.Doc().Part(g.ID); len(g.Views) != 2 {
		t.Errorf("shown again though it is on the sheet: %+v", g.Views)
	}
	b.must(func(tx *Tx) error { return AddWireFromAfar(tx, engine, from, loose(700, 700), nil) })
	if w := b.Doc().Wire(b.Selection()[0].ID); w.Sheet != engine || len(b.Doc().Part(g.ID).Views) != 2 {
		t.Errorf("on its own sheet: %+v", w)
	}
	b.refused("no longer there", func(tx *Tx) error {
		return AddWireFromAfar(tx, cabin, schematic.PinRef{Pin: "1"}, loose(1, 1), nil)
	})
	b.refused(`no pin 9`, func(tx *Tx) error {
		return AddWireFromAfar(tx, cabin, schematic.PinRef{Part: g.ID, Pin: "9"}, loose(1, 1), nil)
	})
}
