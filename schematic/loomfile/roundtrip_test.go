package loomfile

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

func requireSame(t testing.TB, want, got *schematic.Doc) {
	t.Helper()
	require.Empty(t, edit.Diff(want, got))
	require.Equal(t, len(want.Extra()), len(got.Extra()))
	for k, v := range want.Extra() {
		require.Equal(t, string(v), string(got.Extra()[k]))
	}
}

func TestRandomDocumentsRoundTrip(t *testing.T) {
	kept := 0
	for seed := range uint64(150) {
		m := newMaker(t, seed)
		d := m.doc(t, m.IntN(30))
		data, err := Encode(d)
		require.NoError(t, err, "seed %d", seed)
		back, err := Decode(data, m.lib)
		require.NoError(t, err, "seed %d\n%s", seed, data)
		requireSame(t, d, back)
		again, err := Encode(back)
		require.NoError(t, err)
		require.Equal(t, string(data), string(again), "seed %d: writing is idempotent", seed)
		kept += strings.Count(string(data), `"zebra"`)
	}
	assert.Greater(t, kept, 100, "unknown fields at all levels took part")
}

func TestWriteDoesNotDependOnHistory(t *testing.T) {
	m := newMaker(t, 3)
	d := m.doc(t, 40)
	want, err := Encode(d)
	require.NoError(t, err)
	var items []schematic.Item
	for it := range d.All() {
		items = append(items, it)
	}
	m.Shuffle(len(items), func(i, j int) { items[i], items[j] = items[j], items[i] })
	other := schematic.New(m.lib).WithExtra(d.Extra())
	for _, it := range items {
		other = other.With(schematic.Put{Key: it.Key(), Item: it})
	}
	var got bytes.Buffer
	require.NoError(t, Write(&got, other))
	assert.Equal(t, string(want), got.String())
}

func TestMovingOnePartTouchesFewLines(t *testing.T) {
	m := newMaker(t, 5)
	d := m.doc(t, 60)
	before, err := Encode(d)
	require.NoError(t, err)
	for p := range d.Parts() {
		tx := edit.Begin(d, nil)
		tx.EditPart(p.ID, func(q *schematic.Part) {
			q.Views = append([]schematic.View(nil), q.Views...)
			q.Views[0].At.X += 25
		})
		after, err := Encode(tx.Doc())
		require.NoError(t, err)
		assert.LessOrEqual(t, changedLines(string(before), string(after)), 6)
		break
	}
}

// changedLines counts the lines of b from the first to the last that differs.
func changedLines(a, b string) int {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	for len(x) > 0 && len(y) > 0 && x[0] == y[0] {
		x, y = x[1:], y[1:]
	}
	for len(x) > 0 && len(y) > 0 && x[len(x)-1] == y[len(y)-1] {
		x, y = x[:len(x)-1], y[:len(y)-1]
	}
	return max(len(x), len(y))
}

// Budgets: 10 000 wires open in 300 ms and are saved in 150 ms. The full
// documents carry unknown fields and links at every level.
func BenchmarkOpen10000Wires(b *testing.B) {
	for _, c := range sizes {
		b.Run(c.name, func(b *testing.B) {
			m := newMaker(b, 1)
			m.plain = c.plain
			data, err := Encode(m.doc(b, 10_000))
			require.NoError(b, err)
			b.SetBytes(int64(len(data)))
			for b.Loop() {
				if _, err := Decode(data, m.lib); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkSave10000Wires(b *testing.B) {
	for _, c := range sizes {
		b.Run(c.name, func(b *testing.B) {
			m := newMaker(b, 1)
			m.plain = c.plain
			d := m.doc(b, 10_000)
			path := b.TempDir() + "/a" + Ext
			for b.Loop() {
				if err := Save(path, d); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

var sizes = []struct {
	name  string
	plain bool
}{{"plain", true}, {"full", false}}
