package edit

import (
	"slices"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// TestClipOfASheet takes the symbols of the sheet that is asked for, not of the
// first that shows the part; a piece keeps all sheets it lies on.
func TestClipOfASheet(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error { return AddSheet(tx, "second") })
	second := b.Doc().Sheets()[1].ID
	stud := b.place("stud", 100, 100)
	b.must(func(tx *Tx) error { return ShowPart(tx, stud.ID, second, "", geom.Pt(700, 700), geom.Orient{}) })
	for _, c := range []struct {
		sheet schematic.ID
		at    geom.Point
	}{{b.sheet, geom.Pt(100, 100)}, {second, geom.Pt(700, 700)}} {
		items := Clip(b.Doc(), []schematic.Key{stud.Key()}, c.sheet)
		if len(items) != 1 || len(items[0].(*schematic.Part).Views) != 1 || items[0].(*schematic.Part).Views[0].At != c.at {
			t.Errorf("clip of sheet: %+v, want the symbol at %v", items, c.at)
		}
	}

	here := b.wire(Anchor{Part: stud.ID, Pin: "1"}, Anchor{At: geom.Pt(100, 500)})
	var there *schematic.Wire
	b.must(func(tx *Tx) error {
		return AddWire(tx, second, Anchor{Part: stud.ID, Pin: "1"}, Anchor{At: geom.Pt(700, 900)}, nil, nil)
	})
	for w := range b.Doc().Wires() {
		if w.Sheet == second {
			there = w
		}
	}
	piece := Extract(b.Doc(), []schematic.Key{stud.Key(), here.Key(), there.Key()})
	if errs := schematic.Check(piece); len(errs) > 0 {
		t.Fatal(errs)
	}
	sheets := piece.Sheets()
	if len(sheets) != 2 || piece.Wire(here.ID) == nil || piece.Wire(there.ID) == nil || len(piece.Part(stud.ID).Views) != 2 {
		t.Errorf("the piece has %d sheets and %d wires, want both sheets with all of it", len(sheets), piece.Len(schematic.TypeWire))
	}
	if i := slices.IndexFunc(sheets, func(s *schematic.Sheet) bool { return s.ID == second }); i != 1 {
		t.Errorf("the second sheet is tab %d of the piece", i)
	}
	alone := Extract(b.Doc(), []schematic.Key{here.Key()})
	if len(alone.Sheets()) != 1 || alone.Sheets()[0].ID != b.sheet {
		t.Error("a piece of one sheet has that sheet alone")
	}
	b.refused("lies on this sheet", func(tx *Tx) error { return Duplicate(tx, b.sheet, []schematic.Key{there.Key()}, geom.Pt(50, 50)) })
}
