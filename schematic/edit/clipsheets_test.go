package edit

import (
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// overTwoSheets draws a stud on two sheets, a lamp at it on each, and a fuse
// beside them on the first.
func (b *bench) overTwoSheets() (keys []schematic.Key, second schematic.ID) {
	b.must(func(tx *Tx) error { return AddSheet(tx, "second") })
	second = b.Doc().Sheets()[1].ID
	stud, here, f := b.place("stud", 100, 100), b.place("lamp", 500, 500), b.place("fuse", 900, 100)
	b.must(func(tx *Tx) error { return ShowPart(tx, stud.ID, second, "", geom.Pt(700, 700), geom.Orient{}) })
	b.wire(at(here, "2"), at(stud, "1"))
	b.must(func(tx *Tx) error { return PlacePart(tx, "lamp", second, geom.Pt(1100, 1100), geom.Orient{}) })
	there := b.Doc().Part(b.Selection()[0].ID)
	b.must(func(tx *Tx) error { return AddWire(tx, second, at(there, "2"), at(stud, "1"), nil, nil) })
	keys = keysOf(stud, here, there, f)
	for w := range b.Doc().Wires() {
		keys = append(keys, w.Key())
	}
	return keys, second
}

// onSheets lists for each sheet what is drawn of the selection there.
func (b *bench) onSheets() map[string]int {
	n := map[string]int{}
	for _, s := range b.Doc().Sheets() {
		var items []schematic.Item
		for _, k := range b.Selection() {
			items = append(items, b.Doc().Get(k))
		}
		n[s.Name] = len(itemsOn(items, s.ID))
	}
	return n
}

func TestSheetsOfASelection(t *testing.T) {
	b := newBench(t)
	keys, second := b.overTwoSheets()
	none := schematic.ID{}
	for _, c := range []struct {
		what    string
		keys    []schematic.Key
		inSight schematic.ID
		want    []schematic.ID
	}{
		{"all", keys, b.sheet, []schematic.ID{b.sheet, second}},
		{"all, seen from the second", keys, second, []schematic.ID{b.sheet, second}},
		{"the stud alone, which both show", keys[:1], second, []schematic.ID{second}},
		{"stud and first lamp, seen from the first", keys[:2], b.sheet, []schematic.ID{b.sheet}},
		{"the second lamp, seen from the first", keys[2:3], b.sheet, []schematic.ID{second}},
		{"the stud alone, no sheet in sight", keys[:1], none, []schematic.ID{b.sheet}},
	} {
		got := SheetsOf(b.Doc(), c.keys, c.inSight)
		if len(got) != len(c.want) || got[0] != c.want[0] {
			t.Errorf("%s: %v, want %v", c.what, got, c.want)
		}
	}
}

// TestPasteOverSeveralSheets: what is copied from several sheets comes back on
// them, joined as it was; only what goes on the sheet in sight follows the offset.
func TestPasteOverSeveralSheets(t *testing.T) {
	b := newBench(t)
	keys, second := b.overTwoSheets()
	clip := Clip(b.Doc(), keys, b.sheet, second)
	b.must(func(tx *Tx) error { return Paste(tx, clip, b.sheet, geom.Pt(1000, 0)) })
	equalText(t, "names", b.names(), "E1 E2 E3 E4 F1 F2 GND1 GND2 W1 W2 W3 W4")
	k, _ := b.Doc().Named("GND2")
	views := b.Doc().Part(k.ID).Views
	if len(views) != 2 || views[0].At != geom.Pt(1100, 100) || views[1].Sheet != second || views[1].At != geom.Pt(750, 750) {
		t.Errorf("the stud is shown at %+v, want it moved by the offset on the first sheet and two grid steps aside on the second", views)
	}
	for _, name := range []string{"W3", "W4"} {
		k, _ := b.Doc().Named(name)
		if w := b.Doc().Wire(k.ID); w.A.Loose() || w.B.Loose() {
			t.Errorf("%s hangs loose", name)
		}
	}

	b.must(func(tx *Tx) error { return AddSheet(tx, "third") })
	b.must(func(tx *Tx) error { return Paste(tx, clip, b.Doc().Sheets()[2].ID, geom.Point{}) })
	if n := b.onSheets(); n["third"] != 4 || n["second"] != 3 || len(n) != 3 {
		t.Errorf("on a third sheet: %v, want what lay on the fuller sheet there and the rest where it was", n)
	}
}

func TestPasteOverSeveralSheetsOfAnotherDocument(t *testing.T) {
	from := newBench(t)
	keys, second := from.overTwoSheets()
	clip := Clip(from.Doc(), keys, from.sheet, second)

	to := newBench(t)
	old, mine, sheet := to.sheet, &schematic.Sheet{ID: schematic.ID{76}, Name: "mine", Order: 8}, &schematic.Sheet{ID: schematic.ID{77}, Name: "second", Order: 9}
	to.must(func(tx *Tx) error { tx.Put(mine, sheet); return DeleteSheet(tx, old) }) // no ID is known there
	to.sheet = mine.ID
	to.must(func(tx *Tx) error { return Paste(tx, clip, to.sheet, geom.Pt(25, 25)) })
	if n := to.onSheets(); n["mine"] != 4 || n["second"] != 3 || len(n) != 2 {
		t.Errorf("%v: want the fuller sheet on the one in sight, the other on that of its name", n)
	}

	// The sheet in sight has the name of the emptier one: that leads, and the
	// other gets a sheet of its own.
	to.must(func(tx *Tx) error { return Paste(tx, clip, sheet.ID, geom.Pt(25, 25)) })
	name := from.Doc().Sheet(from.sheet).Name
	if n := to.onSheets(); n["second"] != 3 || n[name] != 4 || len(n) != 3 {
		t.Errorf("%v: want a sheet %q more", n, name)
	}
	if got := len(Leading(to.Doc(), clip, sheet.ID)); got != 3 {
		t.Errorf("%d items lead, want the 3 of the sheet of that name", got)
	}
}

func TestCutOverSeveralSheets(t *testing.T) {
	b := newBench(t)
	keys, second := b.overTwoSheets()
	b.must(func(tx *Tx) error { return TakeOff(tx, keys, b.sheet, second) })
	equalText(t, "left", b.names(), "")
}
