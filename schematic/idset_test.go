package schematic

import (
	"testing"

	"github.com/google/uuid"
	"github.com/stretchr/testify/require"
)

func TestIDSet(t *testing.T) {
	var s IDSet
	require.False(t, s.Has(ID{}), "an empty set has nothing")
	in, out := map[ID]bool{}, []ID{{}}
	for i := range 2000 {
		made := ID{15: byte(i), 14: byte(i >> 8)} // by hand: all but two bytes alike
		for _, id := range []ID{uuid.New(), made} {
			if i%2 == 0 {
				s.Add(id)
				in[id] = true
			} else {
				out = append(out, id)
			}
		}
	}
	other := s.Clone()
	other.Add(out...)
	require.Equal(t, len(in), s.Len())
	for id := range in {
		require.True(t, s.Has(id))
		require.True(t, other.Has(id))
	}
	for _, id := range out {
		require.Equal(t, in[id], s.Has(id))
		require.True(t, other.Has(id))
	}
}
