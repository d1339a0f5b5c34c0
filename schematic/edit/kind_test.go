package edit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func hornKind() *schematic.Kind {
	return &schematic.Kind{Name: "horn", Title: "Horn", Prefix: "H", Sections: []schematic.Section{{Form: "box"}},
		Params: []schematic.Param{{Name: "amp", Title: "current", Unit: "A"}},
		Pins:   []schematic.Pin{{Name: "1", Side: "left"}, {Name: "2", Side: "right"}}}
}

func TestAKindIsAddedAndChangedWithItsParts(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error { return SetKind(tx, hornKind(), Renamed{}) })
	k := b.Doc().Kind("horn")
	h := b.place("horn", 500, 500)
	b.must(func(tx *Tx) error {
		return SetPart(tx, h.ID, func(p *schematic.Part) { p.Values = map[string]float64{"amp": 4} })
	})
	w := b.wire(at(h, "2"), loose(900, 900))
	x0, _, _ := b.Doc().EndAt(w, w.A)

	// A third pin and another side: the wire follows, the value stays.
	c := *k
	c.Name, c.Title = "horn-loud", "Loud horn"
	c.Pins = []schematic.Pin{{Name: "2", Side: "down"}, {Name: "1", Side: "left"}, {Name: "3", Side: "left"}}
	b.must(func(tx *Tx) error { return SetKind(tx, &c, Renamed{}) })
	h = b.Doc().Part(h.ID)
	assert.Equal(t, "horn-loud", h.Kind)
	assert.Equal(t, 4.0, h.Values["amp"])
	x1, _, ok := b.Doc().EndAt(b.Doc().Wire(w.ID), b.Doc().Wire(w.ID).A)
	require.True(t, ok)
	assert.NotEqual(t, x0, x1)

	// Values the kind no longer has go; pins in use cannot.
	c2 := c
	c2.Params = nil
	b.must(func(tx *Tx) error { return SetKind(tx, &c2, Renamed{}) })
	assert.Empty(t, b.Doc().Part(h.ID).Values)
	c3 := c2
	c3.Pins = c3.Pins[1:]
	b.refused("pin 2 still has W1", func(tx *Tx) error { return SetKind(tx, &c3, Renamed{}) })
	c4 := c2
	c4.Name = "fuse"
	b.refused("there is a part kind \"fuse\" already", func(tx *Tx) error { return SetKind(tx, &c4, Renamed{}) })
	c5 := c2
	c5.Elements = []schematic.Element{{Name: "x", Type: "resistor", A: "1", B: "9"}}
	b.refused("neither a pin", func(tx *Tx) error { return SetKind(tx, &c5, Renamed{}) })
	b.refused("is of the kind", func(tx *Tx) error { return DeleteKind(tx, c.ID) })
	b.must(func(tx *Tx) error { return Delete(tx, keysOf(h)) })
	b.must(func(tx *Tx) error { return DeleteKind(tx, c.ID) })
	assert.Nil(t, b.Doc().Kind("horn-loud"))
}

// A kind of the user's own library goes into every document that uses it.
func TestDocumentsCarryTheUsersOwnKinds(t *testing.T) {
	lib := testLibrary().WithLent(hornKind(), &schematic.Kind{Name: "fuse", Title: "not this one"})
	assert.True(t, lib.Lent("horn"))
	assert.False(t, lib.Lent("fuse"), "a name that is taken is passed over")
	tx := Begin(schematic.New(lib), nil)
	require.NoError(t, AddSheet(tx, "1"))
	sheet := tx.Doc().Sheets()[0].ID
	for range 2 {
		require.NoError(t, PlacePart(tx, "horn", sheet, geom.Pt(100, 100), geom.Orient{}))
		require.NoError(t, PlacePart(tx, "fuse", sheet, geom.Pt(100, 100), geom.Orient{}))
	}
	d := tx.Doc()
	assert.Equal(t, 1, d.Len(schematic.TypeKind))
	require.NoError(t, whole(d))
	assert.Equal(t, "Horn", d.WithLibrary(testLibrary()).Kind("horn").Title, "also where the library is not")
	require.NoError(t, whole(d.WithLibrary(testLibrary())))
}

// What refers to a pin of the kind goes with its name, also when two change
// places.
func TestPinsOfAKindAreRenamedUnderTheirWires(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error { return SetKind(tx, hornKind(), Renamed{}) })
	h, g := b.place("horn", 500, 500), b.place("horn", 500, 900)
	w1, w2, other := b.wire(at(h, "1"), loose(200, 500)), b.wire(at(h, "2"), at(g, "1")), b.wire(at(b.place("lamp", 2000, 500), "1"), loose(2000, 200))
	b.must(func(tx *Tx) error {
		return AddReading(tx, schematic.Reading{Date: "2026-01-02", Quantity: "volt", Value: 12, From: schematic.PinRef{Part: h.ID, Pin: "1"}})
	})
	c := *b.Doc().Kind("horn")
	c.Pins = []schematic.Pin{{Name: "2", Side: "left"}, {Name: "+", Side: "right"}}
	b.must(func(tx *Tx) error { return SetKind(tx, &c, Renamed{Pins: map[string]string{"1": "2", "2": "+"}}) })
	d := b.Doc()
	assert.Equal(t, "2", d.Wire(w1.ID).A.Pin)
	assert.Equal(t, "+", d.Wire(w2.ID).A.Pin)
	assert.Equal(t, "2", d.Wire(w2.ID).B.Pin)
	assert.Equal(t, "1", d.Wire(other.ID).A.Pin, "other kinds stay as they are")
	for m := range d.Readings() {
		assert.Equal(t, "2", m.From.Pin)
	}
	b.refused("H1 and H2 are of the kind", func(tx *Tx) error { return DeleteKind(tx, c.ID) })
}

// A symbol falls into two pieces: the second is put beside the first, and the
// wires of its pins go with it. Pieces are renamed under the symbols that show
// them.
func TestThePiecesOfASymbolFollowTheirKind(t *testing.T) {
	b := newBench(t)
	b.must(func(tx *Tx) error { return SetKind(tx, hornKind(), Renamed{}) })
	h := b.place("horn", 500, 500)
	w := b.wire(at(h, "2"), loose(900, 900))
	body := []schematic.Shape{{Type: "rect", Points: []geom.Point{{X: -25, Y: -25}, {X: 25, Y: 25}}}}
	c := *b.Doc().Kind("horn")
	c.Sections = []schematic.Section{{Name: "one", Shapes: body}, {Name: "two", Shapes: body}}
	c.Pins = []schematic.Pin{{Name: "1", Section: "one", At: geom.Pt(0, -50), Dir: "up"}, {Name: "2", Section: "two", At: geom.Pt(0, 50), Dir: "down"}}
	b.must(func(tx *Tx) error { return SetKind(tx, &c, Renamed{Pieces: map[string]string{"": "one"}}) })
	views := b.Doc().Part(h.ID).Views
	require.Len(t, views, 2)
	assert.Equal(t, []string{"one", "two"}, []string{views[0].Section, views[1].Section})
	assert.NotEqual(t, views[0].At, views[1].At)
	end, _, shown := b.Doc().EndAt(b.Doc().Wire(w.ID), b.Doc().Wire(w.ID).A)
	require.True(t, shown)
	assert.Equal(t, views[1].At.Add(geom.Pt(0, 50)), end)

	c2 := c
	c2.Sections = []schematic.Section{{Name: "one", Shapes: body}, {Name: "other", Shapes: body}}
	c2.Pins = []schematic.Pin{c.Pins[0], {Name: "2", Section: "other", At: geom.Pt(0, 50), Dir: "down"}}
	b.must(func(tx *Tx) error { return SetKind(tx, &c2, Renamed{Pieces: map[string]string{"two": "other"}}) })
	assert.Equal(t, "other", b.Doc().Part(h.ID).Views[1].Section)

	c3 := c
	c3.Sections = c.Sections[:1]
	c3.Pins = []schematic.Pin{c.Pins[0], {Name: "2", Section: "one", At: geom.Pt(0, 50), Dir: "down"}}
	b.refused("H1 still shows the piece \"other\"", func(tx *Tx) error { return SetKind(tx, &c3, Renamed{}) })
}
