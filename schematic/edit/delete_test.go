package edit

import (
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestDeletePartTakesItsWiresAlong(t *testing.T) {
	b := newBench(t)
	f, e, s := b.place("fuse", 100, 100), b.place("lamp", 500, 500), b.place("switch", 800, 100)
	b.wire(at(f, "2"), at(e, "1"))
	b.wire(at(e, "2"), loose(500, 900))
	b.wire(at(f, "1"), at(s, "1"))
	b.must(func(tx *Tx) error { return AddState(tx, "lights on", "") })
	state := b.Doc().States()[0].ID
	b.must(func(tx *Tx) error { return SetDuty(tx, state, e.ID, "", schematic.Some(0.5)) })
	b.must(func(tx *Tx) error { return Switch(tx, state, s.ID, "", "on") })
	b.must(func(tx *Tx) error {
		tx.Put(&schematic.Reading{ID: tx.NewID(), Date: "2024-05-01", Quantity: "volt", From: schematic.PinRef{Part: e.ID, Pin: "1"}, State: state})
		tx.Put(&schematic.Reading{ID: tx.NewID(), Date: "2024-05-02", Quantity: "volt", From: schematic.PinRef{Part: f.ID, Pin: "1"}, State: state})
		return nil
	})
	b.must(func(tx *Tx) error { return Delete(tx, keysOf(e)) })
	equalText(t, "left", b.names(), "F1 S1 W3")
	if set := b.Doc().State(state).Set; len(set) != 1 || set[0].Part != s.ID {
		t.Errorf("settings left: %v", set)
	}
	if n := b.Doc().Len(schematic.TypeReading); n != 1 {
		t.Errorf("%d readings left, want 1", n)
	}
	b.must(func(tx *Tx) error { return DeleteState(tx, state) })
	if n := b.Doc().Len(schematic.TypeReading); n != 1 {
		t.Error("a reading goes with its state; it should stay")
	}
}

func TestDeleteSheetKeepsPartsShownElsewhere(t *testing.T) {
	b := newBench(t)
	g, f := b.place("stud", 100, 100), b.place("fuse", 300, 300)
	b.must(func(tx *Tx) error { return AddSheet(tx, "Cabin") })
	cabin := b.Doc().Sheets()[1].ID
	b.must(func(tx *Tx) error { return ShowPart(tx, g.ID, cabin, "", geom.Pt(100, 100), geom.Orient{}) })
	b.wire(at(f, "2"), at(g, "1"))
	b.must(func(tx *Tx) error { return AddWire(tx, cabin, at(g, "1"), loose(100, 0), nil, nil) })
	b.must(func(tx *Tx) error { return AddNote(tx, b.sheet, geom.Pt(0, 0), 0, 0, "hello") })
	b.must(func(tx *Tx) error { return DeleteSheet(tx, b.sheet) })
	equalText(t, "left", b.names(), "GND1 W2")
	if n := b.Doc().Len(schematic.TypeNote); n != 0 {
		t.Error("the note outlived its sheet")
	}
	b.refused("is the only sheet", func(tx *Tx) error { return DeleteSheet(tx, cabin) })
}

func TestTakeOff(t *testing.T) {
	b := newBench(t)
	g, f := b.place("stud", 100, 100), b.place("fuse", 300, 300)
	b.must(func(tx *Tx) error { return AddSheet(tx, "Cabin") })
	cabin := b.Doc().Sheets()[1].ID
	b.must(func(tx *Tx) error { return ShowPart(tx, g.ID, cabin, "", geom.Pt(100, 100), geom.Orient{}) })
	b.wire(at(f, "2"), at(g, "1"))
	b.must(func(tx *Tx) error { return AddWire(tx, cabin, at(g, "1"), loose(100, 0), nil, nil) })
	b.must(func(tx *Tx) error { return TakeOff(tx, keysOf(g, f), b.sheet) })
	equalText(t, "left", b.names(), "GND1 W2")
	b.must(func(tx *Tx) error { return TakeOff(tx, keysOf(g), cabin) })
	equalText(t, "the last symbol takes the part along", b.names(), "")
}

func TestDeleteOwnKind(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error {
		tx.Put(&schematic.Kind{ID: tx.NewID(), Name: "horn", Prefix: "B", Sections: []schematic.Section{{}}})
		return nil
	})
	horn := b.Doc().Kind("horn")
	p := b.place("horn", 100, 100)
	b.refused(`part kind "horn" is still used by B1`, func(tx *Tx) error { return Delete(tx, keysOf(horn)) })
	b.must(func(tx *Tx) error { return Delete(tx, keysOf(horn, p)) })
	b.refused("settings cannot be deleted", func(tx *Tx) error { return Delete(tx, keysOf(b.Doc().Info())) })
	b.must(func(tx *Tx) error { return Delete(tx, keysOf(horn, p)) }) // gone: nothing to do
}

func TestDeleteLoomAndGroup(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	w := b.wire(at(f, "1"), loose(100, 0))
	loom := &schematic.Loom{ID: schematic.ID{1}, Name: "L1", Nodes: []schematic.Node{{ID: schematic.ID{2}}, {ID: schematic.ID{3}}},
		Segments: []schematic.Segment{{ID: schematic.ID{4}, From: schematic.ID{2}, To: schematic.ID{3}}}}
	b.must(func(tx *Tx) error { tx.Put(loom); return nil })
	b.must(func(tx *Tx) error {
		return SetPart(tx, f.ID, func(p *schematic.Part) { p.Loom, p.Node = loom.ID, loom.Nodes[0].ID })
	})
	b.must(func(tx *Tx) error {
		return SetWire(tx, w.ID, func(w *schematic.Wire) { w.Loom, w.Route = loom.ID, []schematic.ID{{4}} })
	})
	b.must(func(tx *Tx) error { return Bind(tx, schematic.ScreenGroup, []schematic.ID{w.ID}) })
	group := b.Doc().Wire(w.ID).Screen
	b.must(func(tx *Tx) error {
		return Delete(tx, []schematic.Key{loom.Key(), {Type: schematic.TypeGroup, ID: group}})
	})
	if w, p := b.Doc().Wire(w.ID), b.Doc().Part(f.ID); w.Route != nil || w.Screen != (schematic.ID{}) || p.Node != (schematic.ID{}) {
		t.Errorf("still pointing: %+v %+v", w, p)
	}
}

// TestALockedWireHoldsItsParts: it does not go with them by accident, but with
// its sheet.
func TestALockedWireHoldsItsParts(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 500)
	w := b.wire(at(f, "2"), at(e, "1"))
	b.must(func(tx *Tx) error { return SetLocked(tx, keysOf(w), true) })
	b.refused("W1 at E1 is locked in place", func(tx *Tx) error { return Delete(tx, keysOf(e)) })
	b.refused("W1 at F1 is locked in place", func(tx *Tx) error { return TakeOff(tx, keysOf(f, w), b.sheet) })
	b.must(func(tx *Tx) error { return AddSheet(tx, "Cabin") })
	b.must(func(tx *Tx) error { return DeleteSheet(tx, b.sheet) })
	equalText(t, "left", b.names(), "")
}
