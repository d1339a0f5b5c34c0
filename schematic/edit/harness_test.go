package edit

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// harness is a document with something of everything.
func harness(t *testing.T) (*schematic.Doc, *bench) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 500)
	w := b.wire(at(f, "2"), at(e, "1"))
	tail := b.wire(at(e, "2"), loose(500, 900))
	b.must(func(tx *Tx) error { return Bind(tx, schematic.TwistGroup, []schematic.ID{w.ID, tail.ID}) })
	b.must(func(tx *Tx) error { return PlacePart(tx, "plug", b.sheet, geom.Pt(900, 500), geom.Orient{}) })
	b.must(func(tx *Tx) error { return AddLoom(tx, "L1") })
	k, _ := b.Doc().Named("L1")
	n1, n2, seg, spare := schematic.ID{1}, schematic.ID{2}, schematic.ID{3}, schematic.ID{4}
	b.must(func(tx *Tx) error {
		return SetLoom(tx, k.ID, func(l *schematic.Loom) {
			l.Nodes = []schematic.Node{{ID: n1, Name: "bay"}, {ID: n2, Name: "dash"}}
			l.Segments = []schematic.Segment{{ID: seg, From: n1, To: n2, LengthMM: schematic.Some(700)}, {ID: spare, From: n2, To: n1}}
		})
	})
	b.must(func(tx *Tx) error {
		return SetWire(tx, w.ID, func(w *schematic.Wire) {
			w.Loom, w.Route, w.Size, w.Build = k.ID, []schematic.ID{seg}, unit.MM2(1), schematic.Fitted
		})
	})
	b.must(func(tx *Tx) error { return AddState(tx, "night", schematic.EngineRunning) })
	b.must(func(tx *Tx) error { return AddState(tx, "day", schematic.EngineOff) })
	b.must(func(tx *Tx) error { return SetDuty(tx, b.Doc().States()[0].ID, e.ID, "", schematic.Some(0.5)) })
	b.must(func(tx *Tx) error {
		tx.Put(&schematic.Kind{ID: tx.NewID(), Name: "horn", Title: "Horn", Prefix: "H", Sections: []schematic.Section{{Form: "box"}}, Pins: []schematic.Pin{{Name: "1"}}})
		return PlacePart(tx, "horn", b.sheet, geom.Pt(1500, 500), geom.Orient{})
	})
	b.must(func(tx *Tx) error { return AddNote(tx, b.sheet, geom.Pt(100, 1500), 0, 0, "left lamp") })
	return b.Doc(), b
}

func insert(b *bench, src *schematic.Doc, in HarnessPlace) (HarnessReport, error) {
	var done HarnessReport
	err := b.Do("insert", func(tx *Tx) (err error) {
		done, err = InsertHarness(tx, src, in)
		return err
	})
	return done, err
}

func TestInsertBringsAHarnessAlong(t *testing.T) {
	src, _ := harness(t)
	b := newBench(t)
	b.place("fuse", 100, 100)
	b.must(func(tx *Tx) error { return AddState(tx, "night", schematic.EngineOff) })
	start := b.Doc()
	done, err := insert(b, src, HarnessPlace{Sheet: b.sheet, Offset: geom.Pt(1000, 0), States: true})
	require.NoError(t, err)
	d := b.Doc()
	assert.Equal(t, HarnessReport{Parts: 5, Wires: 2, Notes: 1, Looms: 1, States: 1, Renamed: []string{"F1 is now F2"}}, done)
	assert.Len(t, d.Sheets(), 1)
	w := itemNamed[*schematic.Wire](t, d, "W1")
	f := itemNamed[*schematic.Part](t, d, "F2")
	assert.Equal(t, f.ID, w.A.Part)
	assert.Empty(t, w.Build, "nothing inserted counts as built")
	l := itemNamed[*schematic.Loom](t, d, "L1")
	assert.Equal(t, l.ID, w.Loom)
	mm, _ := d.Loom(w.Loom).Segments[0].LengthMM.Get()
	assert.Equal(t, 700.0, mm, "the route came along")
	assert.NotEqual(t, schematic.ID{}, w.Twist)
	x := itemNamed[*schematic.Part](t, d, "X1")
	assert.Equal(t, itemNamed[*schematic.Part](t, d, "X2").ID, x.Mate)
	assert.Equal(t, 1, d.Len(schematic.TypeKind))
	states := d.States()
	require.Len(t, states, 2)
	assert.Equal(t, "night", states[0].Name)
	require.Len(t, states[0].Set, 1, "the setting of the lamp went to the state of that name")
	assert.Equal(t, schematic.EngineOff, states[0].Engine, "which stays what it is")
	assert.Equal(t, "day", states[1].Name)
	assert.Equal(t, geom.Pt(1100, 100), f.Views[0].At)
	require.NoError(t, b.Undo())
	require.Same(t, start, b.Doc())

	// As new sheets; and a second time, which never collides.
	for n := 1; n <= 2; n++ {
		done, err = insert(b, src, HarnessPlace{States: true})
		require.NoError(t, err)
		assert.Equal(t, 1, done.Sheets)
		assert.Len(t, b.Doc().Sheets(), 1+n)
		assert.Equal(t, 1, b.Doc().Len(schematic.TypeKind), "the same kind is used again")
		assert.Len(t, b.Doc().States(), 2)
	}
	assert.Equal(t, "Engine (2)", b.Doc().Sheets()[1].Name)
	assert.Equal(t, "Engine (3)", b.Doc().Sheets()[2].Name)
	names := strings.Fields(b.names())
	sorted := slices.Clone(names)
	slices.Sort(sorted)
	assert.Equal(t, len(names), len(slices.Compact(sorted)), "no designation twice")
}

func itemNamed[T schematic.Item](t *testing.T, d *schematic.Doc, name string) T {
	t.Helper()
	k, ok := d.Named(name)
	require.True(t, ok, name)
	it, ok := d.Get(k).(T)
	require.True(t, ok, name)
	return it
}

func TestKindsOfOneNameAndOtherContentAreKeptApart(t *testing.T) {
	src, _ := harness(t)
	b := newBench(t)
	other := &schematic.Kind{ID: schematic.ID{9}, Name: "horn", Title: "Loud horn", Prefix: "H", Sections: []schematic.Section{{Form: "box"}}, Pins: []schematic.Pin{{Name: "a"}}}
	fuse := *b.Doc().Library().Kind("fuse")
	fuse.ID, fuse.Title = schematic.ID{8}, "Fuse of our own"
	b.must(func(tx *Tx) error {
		tx.Put(other)
		return PlacePart(tx, "horn", b.sheet, geom.Pt(100, 100), geom.Orient{})
	})
	done, err := insert(b, src, HarnessPlace{Sheet: b.sheet})
	require.NoError(t, err)
	assert.Equal(t, []string{"Horn is now horn-2"}, done.Kinds)
	assert.Equal(t, "horn", itemNamed[*schematic.Part](t, b.Doc(), "H1").Kind)
	assert.Equal(t, "horn-2", itemNamed[*schematic.Part](t, b.Doc(), "H2").Kind)

	// A kind of the other document's library that is not in this one comes along too.
	foreign := schematic.New(schematic.NewLibrary(&schematic.Kind{Name: "siren", Prefix: "H", Sections: []schematic.Section{{Form: "box"}}, Pins: []schematic.Pin{{Name: "1"}}}))
	tx := Begin(foreign, nil)
	require.NoError(t, AddSheet(tx, "1"))
	require.NoError(t, PlacePart(tx, "siren", tx.Doc().Sheets()[0].ID, geom.Pt(100, 100), geom.Orient{}))
	_, err = insert(b, tx.Doc(), HarnessPlace{Sheet: b.sheet})
	require.NoError(t, err)
	assert.NotNil(t, b.Doc().Kind("siren"))
}

func TestInsertRefusals(t *testing.T) {
	src, _ := harness(t)
	b := newBench(t)
	_, err := insert(b, schematic.New(testLibrary()), HarnessPlace{})
	require.ErrorContains(t, err, "nothing is drawn")
	_, err = insert(b, src, HarnessPlace{Sheet: schematic.ID{7}})
	require.ErrorContains(t, err, "no longer there")
	tx := Begin(src, nil)
	require.NoError(t, AddSheet(tx, "second"))
	require.NoError(t, AddNote(tx, tx.Doc().Sheets()[1].ID, geom.Pt(1, 1), 0, 0, "x"))
	_, err = insert(b, tx.Doc(), HarnessPlace{Sheet: b.sheet})
	require.ErrorContains(t, err, "drawn on 2 sheets")
	done, err := insert(b, tx.Doc(), HarnessPlace{})
	require.NoError(t, err)
	assert.Equal(t, 2, done.Sheets)
}

func TestExtractIsADocumentOfItsOwn(t *testing.T) {
	src, b := harness(t)
	f, e := itemNamed[*schematic.Part](t, src, "F1"), itemNamed[*schematic.Part](t, src, "E1")
	b.must(func(tx *Tx) error {
		tx.Put(&schematic.Reading{ID: tx.NewID(), Date: "2026-01-02", Quantity: "volt", From: schematic.PinRef{Part: f.ID, Pin: "1"}, Value: 12})
		return nil
	})
	piece := Extract(b.Doc(), keysOf(f, e))
	require.NoError(t, whole(piece))
	assert.Equal(t, 2, piece.Len(schematic.TypePart))
	assert.Equal(t, 1, piece.Len(schematic.TypeWire), "the wire between them")
	assert.Equal(t, 1, piece.Len(schematic.TypeReading))
	assert.Equal(t, 0, piece.Len(schematic.TypeKind))
	l := itemNamed[*schematic.Loom](t, piece, "L1")
	assert.Len(t, l.Segments, 1, "only what is used of the loom")
	assert.Len(t, l.Nodes, 2)
	assert.Len(t, piece.States(), 2)
	assert.Equal(t, schematic.Fitted, itemNamed[*schematic.Wire](t, piece, "W1").Build)
}
