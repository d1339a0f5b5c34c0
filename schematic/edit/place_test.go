package edit

import (
	"slices"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestPlacePartNamesAndPins(t *testing.T) {
	b := newBench(t)
	b.place("fuse", 100, 100)
	f2 := b.place("fuse", 200, 100)
	u := b.place("unit", 500, 500)
	equalText(t, "names", b.names(), "A1 F1 F2")
	if f2.Pins != nil {
		t.Error("a fixed kind keeps its pins to itself")
	}
	if len(u.Pins) != 2 || u.Pins[1].Role != "output" {
		t.Errorf("start pins %v", u.Pins)
	}
	b.must(func(tx *Tx) error { return Delete(tx, keysOf(b.Doc().Part(f2.ID))) })
	b.place("fuse", 300, 100)
	equalText(t, "a number that is free again is used", b.names(), "A1 F1 F2")
}

func TestPlacePartInSections(t *testing.T) {
	b := newBench(t)
	k := b.place("relay", 100, 100)
	if len(k.Views) != 2 {
		t.Fatalf("%d views, want coil and contact", len(k.Views))
	}
	coil, contact := b.Doc().Reach(k, k.Views[0]), b.Doc().Reach(k, k.Views[1])
	if coil.Touches(contact) {
		t.Errorf("coil %v and contact %v overlap", coil, contact)
	}
	b.wire(at(k, "86"), at(k, "30"))
}

func TestPlacePartWithOtherHalf(t *testing.T) {
	for i, o := range []geom.Orient{{}, {Turns: 1}, {Turns: 2}, {Turns: 3}, {Mirror: true}, {Turns: 1, Mirror: true}} {
		b := newBench(t)
		kinds := []string{"plug", "socket"}
		kind, other := kinds[i%2], kinds[1-i%2]
		b.must(func(tx *Tx) error { return PlacePart(tx, kind, b.sheet, geom.Pt(500, 500), o) })
		p, q := b.Doc().Part(b.Selection()[0].ID), b.Doc().Part(b.Selection()[1].ID)
		if p.Mate != q.ID || q.Mate != p.ID || p.Kind != kind || q.Kind != other {
			t.Errorf("%v: halves are not mated: %+v %+v", o, p, q)
		}
		one, two := b.Doc().Body(p, p.Views[0]), b.Doc().Body(q, q.Views[0])
		shared := geom.Rect{Min: geom.Pt(max(one.Min.X, two.Min.X), max(one.Min.Y, two.Min.Y)), Max: geom.Pt(min(one.Max.X, two.Max.X), min(one.Max.Y, two.Max.Y))}
		if !one.Touches(two) || shared.Width() != 0 && shared.Height() != 0 {
			t.Errorf("%v: halves %v and %v do not lie edge to edge", o, one, two)
		}
		pins, opposite := b.Doc().PlacedPins(p, p.Views[0]), b.Doc().PlacedPins(q, q.Views[0])
		for i := range pins {
			a, c := pins[i].At, opposite[i].At
			if out := geom.DirOf(a.Sub(c)); out != pins[i].Dir {
				t.Errorf("%v: cavity %s of a %s faces its other half", o, pins[i].Pin.Name, kind)
			}
			if a.X != c.X && a.Y != c.Y {
				t.Errorf("%v: cavity %s is at %v on one half and %v on the other", o, pins[i].Pin.Name, a, c)
			}
		}
	}
}

func TestPlacePartRefusals(t *testing.T) {
	b := newBench(t)
	b.refused(`no part kind "warp core"`, func(tx *Tx) error {
		return PlacePart(tx, "warp core", b.sheet, geom.Point{}, geom.Orient{})
	})
	b.refused("sheet is no longer there", func(tx *Tx) error {
		return PlacePart(tx, "fuse", schematic.ID{9}, geom.Point{}, geom.Orient{})
	})
	b.refused("off the sheet", func(tx *Tx) error {
		return PlacePart(tx, "fuse", b.sheet, geom.Pt(geom.MaxCoord+1, 0), geom.Orient{})
	})
}

func TestShowPart(t *testing.T) {
	b := newBench(t)
	g := b.place("stud", 100, 100)
	b.must(func(tx *Tx) error { return AddSheet(tx, "Cabin") })
	cabin := b.Doc().Sheets()[1].ID
	b.must(func(tx *Tx) error { return ShowPart(tx, g.ID, cabin, "", geom.Pt(200, 200), geom.Orient{}) })
	b.must(func(tx *Tx) error { return ShowPart(tx, g.ID, cabin, "", geom.Pt(300, 200), geom.Orient{}) })
	g = b.Doc().Part(g.ID)
	if len(g.Views) != 3 {
		t.Fatalf("%d views", len(g.Views))
	}
	b.must(func(tx *Tx) error {
		return AddWire(tx, cabin, Anchor{Part: g.ID, Pin: "1", View: g.Views[2].Key}, loose(300, 100), nil, nil)
	})
	w := b.Doc().Wire(b.Selection()[0].ID)
	if p := b.Doc().Path(w); p[0] != geom.Pt(300, 175) {
		t.Errorf("the wire starts at %v, not at the symbol it was drawn from", p[0])
	}
	b.refused(`has no section "lid"`, func(tx *Tx) error { return ShowPart(tx, g.ID, cabin, "lid", geom.Point{}, geom.Orient{}) })
}

func TestMate(t *testing.T) {
	b := newBench(t)
	one, two, three := b.place("header", 100, 100), b.place("header", 400, 100), b.place("header", 700, 100)
	b.must(func(tx *Tx) error { return Mate(tx, one.ID, two.ID) })
	b.refused("X1 is already plugged into X2", func(tx *Tx) error { return Mate(tx, three.ID, one.ID) })
	b.refused("into itself", func(tx *Tx) error { return Mate(tx, three.ID, three.ID) })
	b.must(func(tx *Tx) error { return Unmate(tx, two.ID) })
	if b.Doc().Part(one.ID).Mate != (schematic.ID{}) {
		t.Error("unplugging one half leaves the other plugged")
	}
	b.must(func(tx *Tx) error { return Mate(tx, three.ID, one.ID) })
	b.must(func(tx *Tx) error { return Delete(tx, keysOf(three)) })
	if b.Doc().Part(one.ID).Mate != (schematic.ID{}) {
		t.Error("a deleted half is still named as mate")
	}
}

func TestRenumberByPosition(t *testing.T) {
	b := newBench(t)
	right, left, below := b.place("fuse", 500, 100), b.place("fuse", 100, 100), b.place("fuse", 100, 300)
	lamp := b.place("lamp", 0, 0)
	b.must(func(tx *Tx) error { return SetPart(tx, lamp.ID, func(p *schematic.Part) { p.Name = "F5" }) })
	b.must(func(tx *Tx) error { return SetPart(tx, right.ID, func(p *schematic.Part) { p.Name = "F77" }) })
	b.must(func(tx *Tx) error {
		return Renumber(tx, keysOf(right, left, below, lamp), Numbering{Prefix: "F", Start: 1})
	})
	var got []string
	for _, p := range []*schematic.Part{lamp, left, right, below} {
		got = append(got, b.Doc().Part(p.ID).Name)
	}
	if want := []string{"F1", "F2", "F3", "F4"}; !slices.Equal(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

func TestRenumberKeepsOffForeignNames(t *testing.T) {
	b := newBench(t)
	one, two := b.place("fuse", 100, 100), b.place("fuse", 200, 100)
	w := b.wire(loose(0, 500), loose(100, 500))
	b.must(func(tx *Tx) error { return SetWire(tx, w.ID, func(w *schematic.Wire) { w.Name = "F1x" }) })
	b.must(func(tx *Tx) error { return SetPart(tx, two.ID, func(p *schematic.Part) { p.Name = "F9" }) })
	b.must(func(tx *Tx) error { return Renumber(tx, keysOf(one, two), Numbering{Prefix: "F", Start: 1}) })
	equalText(t, "names", b.names(), "F1 F2 F1x")
}
