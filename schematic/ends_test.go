package schematic

import (
	"encoding/binary"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
)

// Through many edits, the wires of a part are those that a look at all wires
// finds, in the same order, and earlier snapshots keep theirs.
func TestWiresOfEqualsScan(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 0))
	id := func(space byte, n int) (id ID) {
		id[0] = space
		binary.BigEndian.PutUint32(id[12:], uint32(n))
		return id
	}
	const parts = 40
	end := func() End {
		if rng.IntN(5) == 0 {
			return End{}
		}
		return End{Part: id(1, rng.IntN(parts)), Pin: string(rune('a' + rng.IntN(3)))}
	}
	scan := func(d *Doc, is func(End) bool) (out []*Wire) {
		for w := range d.Wires() {
			if is(w.A) || is(w.B) {
				out = append(out, w)
			}
		}
		return out
	}
	check := func(d *Doc) {
		few := []ID{id(1, rng.IntN(parts)), id(1, rng.IntN(parts)), id(1, parts+5), {}}
		want := scan(d, func(e End) bool { return !e.Loose() && slices.Contains(few, e.Part) })
		require.Equal(t, want, d.WiresOf(few...))
		pin := PinRef{Part: few[0], Pin: "b"}
		require.ElementsMatch(t, scan(d, func(e End) bool { return e.Ref() == pin }), d.WiresAt(pin))
		var all []ID
		for n := range parts {
			all = append(all, id(1, n))
		}
		require.Equal(t, scan(d, func(e End) bool { return !e.Loose() }), d.WiresOf(all...))
	}
	d := New(NewLibrary())
	old := []*Doc{d}
	for range 60 {
		var puts []Put
		for range 1 + rng.IntN(40) {
			w := &Wire{ID: id(2, rng.IntN(1500)), A: end(), B: end()}
			p := Put{Key: w.Key(), Item: w}
			if rng.IntN(4) == 0 {
				p.Item = nil
			}
			puts = append(puts, p)
		}
		d = d.With(puts...)
		check(d)
		old = append(old, d)
	}
	for _, d := range old {
		check(d)
	}
}
