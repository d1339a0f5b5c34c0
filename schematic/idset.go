package schematic

import (
	"encoding/binary"
	"maps"
	"math/bits"
)

// IDSet is a set of IDs that says quickly of most others that they are not in
// it: looking through a large document for a few hundred items asks that very
// often. The zero value is empty.
type IDSet struct {
	// sieve has a bit for every hash in the set.
	sieve [sieveBits / 64]uint64
	all   map[ID]struct{}
}

const (
	sieveLog  = 13
	sieveBits = 1 << sieveLog
)

// hash returns a bit of the sieve. Every byte counts, as hand-made IDs differ in
// one place.
func (s *IDSet) hash(id *ID) uint64 {
	a, b := binary.LittleEndian.Uint64(id[:8]), binary.LittleEndian.Uint64(id[8:])
	return (a ^ bits.RotateLeft64(b*0xd6e8feb86659fd93, 29)) * 0x9e3779b97f4a7c15 >> (64 - sieveLog)
}

// Add puts IDs into the set.
func (s *IDSet) Add(ids ...ID) {
	if s.all == nil {
		s.all = make(map[ID]struct{}, len(ids))
	}
	for i := range ids {
		h := s.hash(&ids[i])
		s.sieve[h/64] |= 1 << (h % 64)
		s.all[ids[i]] = struct{}{}
	}
}

// Has reports whether an ID is in the set.
func (s *IDSet) Has(id ID) bool {
	if h := s.hash(&id); s.sieve[h/64]&(1<<(h%64)) == 0 {
		return false
	}
	_, ok := s.all[id]
	return ok
}

// Len returns how many IDs there are.
func (s *IDSet) Len() int { return len(s.all) }

// Clone returns a set of its own with the same IDs.
func (s *IDSet) Clone() IDSet { return IDSet{s.sieve, maps.Clone(s.all)} }
