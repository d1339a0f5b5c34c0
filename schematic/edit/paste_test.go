package edit

import (
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// circuit draws a fuse, a lamp, the wire between them and a tail to elsewhere.
func (b *bench) circuit() (f, e *schematic.Part, inner, tail *schematic.Wire) {
	f, e = b.place("fuse", 100, 100), b.place("lamp", 500, 500)
	g := b.place("stud", 800, 800)
	inner = b.wire(at(f, "2"), at(e, "1"), geom.Pt(100, 300), geom.Pt(500, 300))
	tail = b.wire(at(e, "2"), at(g, "1"))
	return f, e, inner, tail
}

func TestDuplicate(t *testing.T) {
	b := newBench(t)
	f, e, inner, tail := b.circuit()
	b.must(func(tx *Tx) error { return Bind(tx, schematic.ScreenGroup, []schematic.ID{inner.ID}) })
	screen := b.Doc().Wire(inner.ID).Screen
	b.must(func(tx *Tx) error { return SetDrain(tx, screen, inner.ID) })
	b.must(func(tx *Tx) error { return AddState(tx, "night", "") })
	state := b.Doc().States()[0].ID
	b.must(func(tx *Tx) error { return SetDuty(tx, state, e.ID, "", schematic.Some(0.25)) })
	b.must(func(tx *Tx) error {
		return SetWire(tx, inner.ID, func(w *schematic.Wire) { w.Build = schematic.Fitted })
	})

	b.must(func(tx *Tx) error { return Duplicate(tx, b.sheet, keysOf(f, e), geom.Pt(1000, 0)) })
	equalText(t, "names", b.names(), "E1 E2 F1 F2 GND1 W1 W2 W3")
	if n := len(b.Selection()); n != 3 {
		t.Errorf("%d items selected, want the three copies", n)
	}
	k, _ := b.Doc().Named("W3")
	w := b.Doc().Wire(k.ID)
	equalText(t, "copied wire", b.drawn(w), "1100,150 1100,300 1500,300 1500,450")
	if w.Build != "" {
		t.Error("the copy counts as built")
	}
	if w.Screen == screen || b.Doc().Group(w.Screen).Drain != w.ID {
		t.Error("the copy shares the screen of the original")
	}
	if set := b.Doc().State(state).Set; len(set) != 2 || set[1].Duty.Or(0) != 0.25 {
		t.Errorf("settings %v", set)
	}

	b.must(func(tx *Tx) error { return Duplicate(tx, b.sheet, keysOf(e, tail), geom.Pt(0, 1000)) })
	k, _ = b.Doc().Named("W4")
	w = b.Doc().Wire(k.ID)
	if w.A.Loose() || !w.B.Loose() {
		t.Errorf("ends %+v %+v: one at the copied lamp, one loose", w.A, w.B)
	}
	want := b.Doc().Path(tail)
	for i := range want {
		want[i] = want[i].Add(geom.Pt(0, 1000))
	}
	equalText(t, "shape", b.drawn(w), pathText(want))
}

func TestDuplicateMatedHalves(t *testing.T) {
	b := newBench(t)
	p := b.place("plug", 100, 100)
	q := b.Doc().Part(p.Mate)
	b.must(func(tx *Tx) error { return Duplicate(tx, b.sheet, keysOf(p, q), geom.Pt(500, 0)) })
	for _, k := range b.Selection() {
		if half := b.Doc().Part(k.ID); b.Doc().Part(half.Mate).Mate != half.ID {
			t.Errorf("%s: the copy is not mated to the other copy", half.Name)
		}
	}
	b.must(func(tx *Tx) error { return Duplicate(tx, b.sheet, keysOf(q), geom.Pt(0, 500)) })
	if half := b.Doc().Part(b.Selection()[0].ID); half.Mate != (schematic.ID{}) {
		t.Error("a half copied alone is still mated")
	}
}

func TestPasteIntoAnotherDocument(t *testing.T) {
	from := newBench(t)
	own := &schematic.Kind{ID: schematic.ID{7}, Name: "horn", Prefix: "B", Sections: []schematic.Section{{}},
		Pins: []schematic.Pin{{Name: "1"}}}
	from.must(func(tx *Tx) error { tx.Put(own); return nil })
	from.circuit()
	from.place("horn", 900, 100)
	keys := keysOfAll(from.Doc())
	clip := Clip(from.Doc(), keys)

	to := newBench(t)
	to.place("fuse", 0, 0)
	paste := func(tx *Tx) error { return Paste(tx, clip, to.sheet, geom.Pt(25, 25)) }
	to.must(paste)
	equalText(t, "names stay unless taken", to.names(), "B1 E1 F1 F2 GND1 W1 W2")
	to.must(paste)
	if n := to.Doc().Len(schematic.TypeKind); n != 1 {
		t.Errorf("%d own kinds after pasting twice, want 1", n)
	}

	clash := newBench(t)
	other := *own
	other.Prefix = "H"
	clash.must(func(tx *Tx) error { tx.Put(&other); return nil })
	clash.place("horn", 0, 0)
	clash.must(func(tx *Tx) error { return Paste(tx, clip, clash.sheet, geom.Point{}) })
	if k, ok := clash.Doc().Named("B1"); !ok || clash.Doc().Part(k.ID).Kind != "horn-2" {
		t.Errorf("a kind of the same name and other content must get a new name: %s", clash.names())
	}
}

func keysOfAll(d *schematic.Doc) []schematic.Key {
	var keys []schematic.Key
	for it := range d.All() {
		keys = append(keys, it.Key())
	}
	return keys
}

func TestPasteDropsWhatPointsNowhere(t *testing.T) {
	b := newBench(t)
	far := schematic.ID{42}
	items := []schematic.Item{
		&schematic.Part{ID: schematic.ID{1}, Name: "F1", Kind: "fuse", Mate: far, Loom: far, Node: far, Build: schematic.Tested,
			Views: []schematic.View{{Sheet: far, At: geom.Pt(100, 100)}}},
		&schematic.Wire{ID: schematic.ID{2}, Name: "W1", Sheet: far, A: schematic.End{Part: schematic.ID{1}, Pin: "2"},
			B: schematic.End{Part: far, Pin: "1", At: geom.Pt(100, 500)}, Twist: far, Screen: far, Loom: far, Route: []schematic.ID{far}},
		&schematic.Group{ID: schematic.ID{3}, Name: "SC1", Type: schematic.ScreenGroup, Drain: far},
		&schematic.State{ID: far, Name: "nowhere", Set: []schematic.Setting{{Part: schematic.ID{1}}}},
	}
	b.must(func(tx *Tx) error { return Paste(tx, items, b.sheet, geom.Pt(50, 0)) })
	k, _ := b.Doc().Named("W1")
	equalText(t, "path", b.drawn(b.Doc().Wire(k.ID)), "150,150 150,500")
	if b.Doc().Len(schematic.TypeState) != 0 {
		t.Error("a paste must not bring operating states")
	}
}

func TestPasteRefusesBrokenItems(t *testing.T) {
	for _, c := range []struct {
		words string
		item  schematic.Item
	}{
		{"quarter turns", &schematic.Part{Name: "F1", Kind: "fuse", Views: []schematic.View{{Turns: 9}}}},
		{"no section", &schematic.Part{Name: "F1", Kind: "fuse", Views: []schematic.View{{Section: "lid"}}}},
		{"two symbols", &schematic.Part{Name: "F1", Kind: "fuse", Views: []schematic.View{{}, {}}}},
		{"off the sheet", &schematic.Part{Name: "F1", Kind: "fuse", Views: []schematic.View{{At: geom.Pt(1<<28, 0)}}}},
		{"two pins are named", &schematic.Part{Name: "A1", Kind: "unit", Pins: []schematic.Pin{{Name: "1", Role: "input"}, {Name: "1", Role: "input"}}}},
		{"cannot be a", &schematic.Part{Name: "A1", Kind: "unit", Pins: []schematic.Pin{{Name: "1", Role: "tap"}}}},
		{"not a conductor metal", &schematic.Wire{Name: "W1", Metal: "gold"}},
		{"off the sheet", &schematic.Wire{Name: "W1", Via: []geom.Point{{X: 1 << 28}}}},
		{"off the sheet", &schematic.Note{At: geom.Pt(1<<28, 0)}},
	} {
		b := newBench(t)
		b.refused(c.words, func(tx *Tx) error { return Paste(tx, []schematic.Item{c.item}, b.sheet, geom.Point{}) })
	}
	b := newBench(t)
	b.refused("sheet to paste on", func(tx *Tx) error { return Paste(tx, nil, schematic.ID{3}, geom.Point{}) })
}

func TestClipTakesOnlyItsSheet(t *testing.T) {
	b := newBench(t)
	g := b.place("stud", 100, 100)
	b.must(func(tx *Tx) error { return AddSheet(tx, "") })
	other := b.Doc().Sheets()[1].ID
	b.must(func(tx *Tx) error { return ShowPart(tx, g.ID, other, "", geom.Pt(300, 300), geom.Orient{}) })
	b.must(func(tx *Tx) error { return AddNote(tx, other, geom.Pt(0, 0), 0, 0, "here") })
	clip := Clip(b.Doc(), append(b.Selection(), g.Key()))
	if p := clip[0].(*schematic.Part); len(p.Views) != 1 || p.Views[0].Sheet != other {
		t.Errorf("views %+v", p.Views)
	}
}
