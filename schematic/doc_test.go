package schematic

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestWithSharesAndKeeps(t *testing.T) {
	s := newSample()
	old := s.doc()
	text := snapshot(old)
	moved := *s.f1
	moved.Label = "changed"
	next := old.With(Put{moved.Key(), &moved}, Put{Key: s.w2.Key()}, Put{s.info.Key(), &Info{Title: "new"}})

	assert.Equal(t, text, snapshot(old), "the old document stays as it was")
	assert.Same(t, s.f1, old.Part(s.f1.ID))
	assert.Same(t, &moved, next.Part(s.f1.ID))
	assert.Nil(t, next.Wire(s.w2.ID))
	assert.Equal(t, old.Len(TypeWire)-1, next.Len(TypeWire))
	assert.Equal(t, "new", next.Info().Title)
	assert.Same(t, s.k1, next.Part(s.k1.ID), "untouched items are shared")
	assert.Same(t, old.tables[TypeLoom], next.tables[TypeLoom], "and untouched tables")
	for i := range shards {
		if i == shardOf(s.f1.ID) || len(old.tables[TypePart].shard[i]) == 0 {
			continue
		}
		assert.Same(t, &old.tables[TypePart].shard[i][0], &next.tables[TypePart].shard[i][0], "and untouched shards")
	}
}

// snapshot prints all items with their addresses.
func snapshot(d *Doc) string {
	out := ""
	for it := range d.All() {
		out += fmt.Sprintf("%p %+v\n", it, it)
	}
	return out
}

// TestTableAgainstMap plays random sets and removals on a document and on maps;
// every document made on the way must keep its content.
func TestTableAgainstMap(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	type state struct {
		d    *Doc
		want map[ID]Item
	}
	now := state{New(nil), map[ID]Item{}}
	history := []state{now}
	for range 300 {
		want := map[ID]Item{}
		for k, v := range now.want {
			want[k] = v
		}
		var puts []Put
		for range 1 + r.IntN(5) {
			p := &Part{ID: testID(r.IntN(400)), Name: fmt.Sprint(r.IntN(1000))}
			if r.IntN(3) == 0 {
				puts = append(puts, Put{Key: p.Key()})
				delete(want, p.ID)
				continue
			}
			puts = append(puts, Put{p.Key(), p})
			want[p.ID] = p
		}
		now = state{now.d.With(puts...), want}
		history = append(history, now)
	}
	for _, h := range history {
		require.Equal(t, len(h.want), h.d.Len(TypePart))
		n := 0
		var last Item
		for p := range h.d.Parts() {
			require.Same(t, h.want[p.ID], p)
			n++
			if last != nil && shardOf(last.Key().ID) == shardOf(p.ID) {
				require.Negative(t, last.Key().Compare(p.Key()))
			}
			last = p
		}
		require.Equal(t, len(h.want), n)
		for i := range 400 {
			require.Equal(t, h.want[testID(i)] == nil, h.d.Part(testID(i)) == nil)
		}
	}
}

func TestOrderDoesNotDependOnHistory(t *testing.T) {
	a, b := New(nil), New(nil)
	for i := range 200 {
		p, q := &Part{ID: testID(i)}, &Part{ID: testID(199 - i)}
		a, b = a.With(Put{p.Key(), p}), b.With(Put{q.Key(), q})
	}
	var x, y []ID
	for p := range a.Parts() {
		x = append(x, p.ID)
	}
	for p := range b.Parts() {
		y = append(y, p.ID)
	}
	assert.Equal(t, x, y)
}

func TestDocLookups(t *testing.T) {
	s := newSample()
	d := s.doc()
	assert.Equal(t, []*Sheet{s.back, s.sheet}, d.Sheets(), "tab order")
	assert.Same(t, s.state, d.States()[0])
	assert.Same(t, s.own, d.Kind("own"))
	assert.Same(t, fuseKind, d.KindOf(s.f1))
	assert.Nil(t, d.Kind("nothing"))
	assert.Nil(t, d.Get(Key{Type: typeEnd}))
	assert.Nil(t, d.Get(Key{}))
	assert.Same(t, s.info, d.Get(s.info.Key()))
	assert.Equal(t, 1, d.Len(TypeInfo))
	assert.Zero(t, New(nil).Len(TypePart))
	assert.NotNil(t, New(nil).Info())
	assert.Nil(t, d.With(Put{Key: s.info.Key()}).Info().Links, "settings can be emptied, not removed")
	assert.Panics(t, func() { d.With(Put{}) })

	x := d.WithExtra(Extra{"a": []byte("1")})
	assert.Equal(t, "1", string(x.With().Extra()["a"]), "unknown fields go along")
	assert.Nil(t, d.Extra())
	assert.Nil(t, d.WithLibrary(NewLibrary()).KindOf(s.f1))

	own := *fuseKind
	own.ID = testID(70)
	assert.Same(t, &own, d.With(Put{own.Key(), &own}).KindOf(s.f1), "the document's own kind goes before the library's")
}

func TestNamed(t *testing.T) {
	s := newSample()
	d := s.doc()
	for name, want := range map[string]Item{"F1": s.f1, "W1": s.w1, "T1": s.twist, "L1": s.loom} {
		k, ok := d.Named(name)
		require.True(t, ok, name)
		assert.Equal(t, want.Key(), k)
	}
	_, ok := d.Named("front")
	assert.False(t, ok, "sheets have no designation")
	renamed := *s.f1
	renamed.Name = "F7"
	next := d.With(Put{renamed.Key(), &renamed})
	_, ok = next.Named("F1")
	assert.False(t, ok, "the index belongs to one snapshot")
	_, ok = d.Named("F1")
	assert.True(t, ok)

	assert.Equal(t, "F3", d.FreeName("F", nil))
	assert.Equal(t, "F4", d.FreeName("F", map[string]bool{"F3": true}))
	assert.Equal(t, "Q1", d.FreeName("Q", nil))
}

func TestWiresAt(t *testing.T) {
	s := newSample()
	loop := &Wire{ID: testID(42), Name: "W3", Sheet: s.sheet.ID, A: s.w1.A, B: s.w1.A}
	d := s.doc().With(Put{loop.Key(), loop})
	got := d.WiresAt(PinRef{s.f1.ID, "2"})
	assert.ElementsMatch(t, []*Wire{s.w1, loop}, got, "a wire with both ends at the pin counts once")
	assert.ElementsMatch(t, []*Wire{s.w1, s.w2}, d.WiresAt(PinRef{s.f2.ID, "1"}))
	assert.Empty(t, d.WiresAt(PinRef{}), "loose ends are at no pin")
	gone := d.With(Put{Key: s.w1.Key()})
	assert.Equal(t, []*Wire{loop}, gone.WiresAt(PinRef{s.f1.ID, "2"}))
	assert.Len(t, d.WiresAt(PinRef{s.f1.ID, "2"}), 2)
}

func TestConcurrentReading(t *testing.T) {
	d := newSample().doc()
	done := make(chan bool)
	for range 8 {
		go func() {
			_, ok := d.Named("F1")
			done <- ok && len(d.WiresAt(PinRef{testID(10), "2"})) == 1
		}()
	}
	for range 8 {
		assert.True(t, <-done)
	}
}

func TestTypesAreClosed(t *testing.T) {
	items := []Item{&Info{}, &Sheet{}, &Kind{}, &Part{}, &Wire{}, &Group{}, &Loom{}, &State{}, &Note{}, &Reading{}, &Acceptance{}}
	require.Len(t, items, len(Types()))
	for i, typ := range Types() {
		assert.Equal(t, typ, items[i].Key().Type)
		assert.NotEqual(t, "unknown item", typ.String())
		assert.NotEmpty(t, Describe(items[i]))
	}
	assert.Equal(t, "nothing", Describe(nil))
	assert.Equal(t, `note "first"`, Describe(newSample().note))
}
