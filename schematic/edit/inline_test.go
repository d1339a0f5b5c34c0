package edit

import (
	"strings"
	"testing"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestAPartPlacedOnAWireIsPutIntoIt(t *testing.T) {
	cases := []struct {
		name, kind, why string
		at              geom.Point
		want            []string
	}{
		{"along", "diode", "it lies along the wire already", geom.Pt(310, 110), []string{"W1 0,100 250,100", "W2 350,100 600,100"}},
		{"turned", "fuse", "its pins are up and down: it is turned", geom.Pt(310, 110), []string{"W1 0,100 250,100", "W2 350,100 600,100"}},
		{"connector", "plug", "each half takes one of the ends", geom.Pt(300, 110), []string{"W1 0,100 275,100", "W2 475,100 600,100"}},
		{"near an end", "diode", "it keeps a step off the end", geom.Pt(0, 100), []string{"W1 0,100 25,100", "W2 125,100 600,100"}},
		{"splice", SpliceKind, "a splice goes where it is put", geom.Pt(310, 110), []string{"W1 0,100 300,100", "W2 300,100 600,100"}},
	}
	for _, c := range cases {
		for _, reversed := range []bool{false, true} {
			t.Run(c.name, func(t *testing.T) {
				b := newBench(t)
				a, z := loose(0, 100), loose(600, 100)
				if reversed {
					a, z = z, a
				}
				w := b.wire(a, z)
				b.must(func(tx *Tx) error {
					return SetWire(tx, w.ID, func(w *schematic.Wire) {
						w.Size, w.Color, w.LengthMM, w.SlackMM = unit.MM2(1.5), schematic.Color{Base: "RD"}, schematic.Some(901), schematic.Some(30)
					})
				})
				if !FitsOnWire(b.Doc(), c.kind) {
					t.Fatal("it fits")
				}
				b.must(func(tx *Tx) error { return PlaceOnWire(tx, c.kind, w.ID, c.at, geom.Orient{}) })
				var got []string
				total, slack := 0.0, 0.0
				for x := range b.Doc().Wires() {
					p := b.Doc().Path(x)
					if reversed {
						p = geom.Path{p[1], p[0]}
					}
					got = append(got, x.Name+" "+pathText(p))
					if x.Size != unit.MM2(1.5) || x.Color.Base != "RD" {
						t.Errorf("%s lost what it is made of", x.Name)
					}
					total, slack = total+x.LengthMM.Or(-1), slack+x.SlackMM.Or(-1)
				}
				sortNames(got)
				want := c.want
				if reversed {
					want = []string{"W1 " + c.want[1][3:], "W2 " + c.want[0][3:]}
				}
				if strings.Join(got, ", ") != strings.Join(want, ", ") {
					t.Errorf("%s:\ngot  %v\nwant %v", c.why, got, want)
				}
				if total != 901 || slack != 30 {
					t.Errorf("the halves share the length and the slack: %v %v", total, slack)
				}
				part := b.Selection()[0].ID
				if !CanJoin(b.Doc(), part) {
					t.Fatal("what was put in can be taken out")
				}
				b.must(func(tx *Tx) error { return JoinWires(tx, part) })
				equalText(t, "as before", b.names(), "W1")
				equalText(t, "path", b.drawn(w), pathText(geom.Path{w.A.At, w.B.At}))
				if l := b.Doc().Wire(w.ID).LengthMM; l.Or(0) != 901 {
					t.Errorf("length %v after joining", l)
				}
			})
		}
	}
}

func TestNoRoomOnTheStretchLeadsTheHalvesAnew(t *testing.T) {
	b := newBench(t)
	w := b.wire(loose(0, 100), loose(75, 300), geom.Pt(75, 100))
	b.must(func(tx *Tx) error { return PlaceOnWire(tx, "diode", w.ID, geom.Pt(30, 100), geom.Orient{}) })
	if n := b.Doc().Len(schematic.TypeWire); n != 2 {
		t.Fatalf("%d wires", n)
	}
}

func TestOnlyPartsWithAWayThroughGoIntoAWire(t *testing.T) {
	b := newBench(t)
	w := b.wire(loose(0, 100), loose(600, 100))
	for _, kind := range []string{"relay", "stud", "header", "unknown"} {
		if FitsOnWire(b.Doc(), kind) {
			t.Errorf("a wire does not run through a %s", kind)
		}
		b.refused("", func(tx *Tx) error { return PlaceOnWire(tx, kind, w.ID, geom.Pt(300, 100), geom.Orient{}) })
	}
}

func TestWiresThatDifferAreNotJoined(t *testing.T) {
	b := newBench(t)
	w := b.wire(loose(0, 100), loose(600, 100))
	b.must(func(tx *Tx) error { return SplitWire(tx, w.ID, geom.Pt(300, 100)) })
	splice := b.Selection()[0].ID
	b.must(func(tx *Tx) error { return SetWire(tx, w.ID, func(w *schematic.Wire) { w.Size = unit.MM2(4) }) })
	b.refused("differ in size", func(tx *Tx) error { return JoinWires(tx, splice) })
	tap := b.wire(loose(300, 300), Anchor{Part: splice, Pin: "1"})
	b.refused("3 wires are at SP1", func(tx *Tx) error { return JoinWires(tx, splice) })
	b.must(func(tx *Tx) error { return Delete(tx, keysOf(tap)) })
	b.must(func(tx *Tx) error { return SetWire(tx, w.ID, func(w *schematic.Wire) { w.Size = unit.Size{} }) })
	b.must(func(tx *Tx) error { return JoinWires(tx, splice) })
	equalText(t, "joined", b.drawn(w), "0,100 600,100")
}

func TestJoiningBringsTheOldDesignationBack(t *testing.T) {
	b := newBench(t)
	w := b.wire(loose(0, 100), loose(600, 100))
	b.must(func(tx *Tx) error { return SetWire(tx, w.ID, func(w *schematic.Wire) { w.Name = "W133" }) })
	b.must(func(tx *Tx) error { return SplitWire(tx, w.ID, geom.Pt(300, 100)) })
	equalText(t, "the half that was added has the free number", b.names(), "SP1 W1 W133")
	b.must(func(tx *Tx) error { return JoinWires(tx, b.Selection()[0].ID) })
	equalText(t, "joined", b.names(), "W133")
}
