package edit

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func fuseIn(w *schematic.Wire, near WireEnd) InLine {
	return InLine{Wire: w.ID, Near: near, Kind: "fuse", Pins: [2]string{"1", "2"}, Values: map[string]float64{"rating_amp": 10},
		NearMM: schematic.Some(100), FarMM: schematic.Some(900)}
}

func TestAFuseIsPutIntoAWire(t *testing.T) {
	for _, c := range []struct {
		why             string
		near            WireEnd
		via             []geom.Point
		part, one, rest string // where the part is, the new wire, the old one
	}{
		{"downwards, close to the first pin", EndA, []geom.Point{{X: 500, Y: 900}, {X: 900, Y: 900}}, "500,650 0",
			"500,550 500,600", "500,700 500,900 900,900 900,950"},
		{"from the other end, clear of the lamp with its designation", EndB, []geom.Point{{X: 500, Y: 900}, {X: 900, Y: 900}}, "700,900 1",
			"750,900 900,900 900,950", "500,550 500,900 650,900"},
	} {
		b := newBench(t)
		f, e := b.place("fuse", 500, 500), b.place("lamp", 900, 1000)
		w := b.wire(at(f, "2"), at(e, "1"), c.via...)
		b.must(func(tx *Tx) error {
			return SetWire(tx, w.ID, func(w *schematic.Wire) { w.LengthMM, w.Circuit = schematic.Some(1000), "lamp" })
		})
		b.must(fuseIn(w, c.near).Apply)
		p := b.Doc().Part(b.Selection()[0].ID)
		v := p.Views[0]
		equalText(t, c.why, fmt.Sprintf("%d,%d %d", v.At.X, v.At.Y, v.Turns), c.part)
		equalText(t, c.why, b.names(), "E1 F1 F2 W1 W2")
		key, _ := b.Doc().Named("W2")
		fresh := b.Doc().Wire(key.ID)
		equalText(t, c.why+", new wire", b.drawn(fresh), c.one)
		equalText(t, c.why+", old wire", b.drawn(w), c.rest)
		old := b.Doc().Wire(w.ID)
		if fresh.LengthMM.Or(0) != 100 || old.LengthMM.Or(0) != 900 || fresh.Circuit != "lamp" {
			t.Errorf("%s: lengths %v and %v, circuit %q", c.why, fresh.LengthMM, old.LengthMM, fresh.Circuit)
		}
		if p.Values["rating_amp"] != 10 {
			t.Errorf("%s: values %v", c.why, p.Values)
		}
		if err := b.Undo(); err != nil {
			t.Fatal(err)
		}
		equalText(t, "one step takes it back", b.names(), "E1 F1 W1")
	}
}

func TestAFuseFindsAPlaceBesideAShortWire(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 500, 500), b.place("lamp", 500, 650)
	w := b.wire(at(f, "2"), at(e, "1"))
	b.must(fuseIn(w, EndA).Apply)
	p := b.Doc().Part(b.Selection()[0].ID)
	mine := b.Doc().Reach(p, p.Views[0])
	for _, other := range []*schematic.Part{f, e} {
		if mine.Touches(b.Doc().Reach(other, other.Views[0])) {
			t.Errorf("%s lies on %s", p.Name, other.Name)
		}
	}
}

func TestInsertionsThatCannotBe(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 500, 500), b.place("lamp", 900, 1000)
	w := b.wire(at(f, "2"), at(e, "1"))
	in := fuseIn(w, EndA)
	in.Kind = "nothing"
	b.refused("no part kind", in.Apply)
	in = fuseIn(w, EndA)
	in.Pins[1] = "9"
	b.refused(`no pin "9"`, in.Apply)
	in.Wire = f.ID
	b.refused("no longer there", in.Apply)
	b.refused("no longer there", Across{From: schematic.PinRef{Part: w.ID}}.Apply)
	b.refused(`no pin "7"`, Across{From: schematic.PinRef{Part: f.ID, Pin: "1"}, To: schematic.PinRef{Part: e.ID, Pin: "7"}}.Apply)
}

func TestADiodeIsPutAcrossACoil(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error { return PlacePart(tx, "lamp", b.sheet, geom.Pt(1000, 1000), geom.Orient{}) })
	coil := b.Doc().Part(b.Selection()[0].ID)
	b.must(Across{From: schematic.PinRef{Part: coil.ID, Pin: "2"}, To: schematic.PinRef{Part: coil.ID, Pin: "1"}, Kind: "diode", Pins: [2]string{"A", "K"}}.Apply)
	d := b.Doc().Part(b.Selection()[0].ID)
	equalText(t, "items", b.names(), "E1 V1 W1 W2")
	v := d.Views[0]
	if dist := apart(v.At, geom.Pt(1000, 1000)); dist > 400 {
		t.Errorf("the diode lies %d away from the coil", dist)
	}
	ends := map[string]string{}
	for w := range b.Doc().Wires() {
		ends[b.Doc().Part(w.A.Part).Name+"."+w.A.Pin] = b.Doc().Part(w.B.Part).Name + "." + w.B.Pin
	}
	if ends["E1.2"] != "V1.A" || ends["V1.K"] != "E1.1" {
		t.Errorf("wired %v", ends)
	}
	// It stands upright with its cathode at the coil's first pin.
	path := b.Doc().PlacedPins(d, v)
	if path[0].At.Y < path[1].At.Y {
		t.Errorf("anode at %v, cathode at %v", path[0].At, path[1].At)
	}
}

func TestAStrapIsDrawnOnTheSheetOfItsFirstEnd(t *testing.T) {
	b := newBench(t)
	one := b.place("stud", 500, 500)
	b.must(func(tx *Tx) error { return AddSheet(tx, "Second") })
	second := b.Doc().Sheets()[1].ID
	b.must(func(tx *Tx) error { return PlacePart(tx, "stud", second, geom.Pt(700, 700), geom.Orient{}) })
	two := b.Doc().Part(b.Selection()[0].ID)
	like := b.wire(at(one, "1"), loose(800, 300))
	b.must(func(tx *Tx) error {
		return SetWire(tx, like.ID, func(w *schematic.Wire) { w.Insulation = "FLRY" })
	})
	b.must(Across{From: schematic.PinRef{Part: one.ID, Pin: "1"}, To: schematic.PinRef{Part: two.ID, Pin: "1"}, Like: like.ID}.Apply)
	w := b.Doc().Wire(b.Selection()[0].ID)
	if w.Sheet != b.sheet || w.Insulation != "FLRY" || w.LengthMM.Known() {
		t.Errorf("strap %+v", w)
	}
	if views := b.Doc().Part(two.ID).Views; len(views) != 2 || views[1].Sheet != b.sheet {
		t.Errorf("the other stud is shown %v", views)
	}
}

// Whatever the wire: the part never lies on another, and the law of every edit
// holds (the bench checks it).
func TestInsertionsKeepOffOtherParts(t *testing.T) {
	for seed := range uint64(60) {
		rng := rand.New(rand.NewPCG(seed, 3))
		b := newBench(t)
		var parts []*schematic.Part
		for i := range 6 {
			kind := []string{"fuse", "lamp", "unit", "diode"}[rng.IntN(4)]
			parts = append(parts, b.place(kind, 400+500*(i%3)+25*rng.IntN(5), 500+500*(i/3)+25*rng.IntN(5)))
		}
		var wires []*schematic.Wire
		for i := range 3 {
			p, q := parts[i], parts[5-i]
			wires = append(wires, b.wire(at(p, b.Doc().PinsOf(p)[0].Name), at(q, b.Doc().PinsOf(q)[1].Name)))
		}
		for _, w := range wires {
			if err := b.Do("insert", fuseIn(w, WireEnd(rng.IntN(2))).Apply); err != nil {
				t.Errorf("seed %d: %v", seed, err)
				continue
			}
			p := b.Doc().Part(b.Selection()[0].ID)
			for other := range b.Doc().Parts() {
				if other.ID != p.ID && b.Doc().Reach(p, p.Views[0]).Touches(b.Doc().Reach(other, other.Views[0])) {
					t.Errorf("seed %d: %s lies on %s", seed, p.Name, other.Name)
				}
			}
		}
	}
}
