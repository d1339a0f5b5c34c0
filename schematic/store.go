package schematic

import (
	"bytes"
	"iter"
	"slices"
)

// shards splits a table so that a change copies one small slice instead of all
// items: 10 000 items make shards of 156.
const shards = 64

// table is a persistent set of items of one type. Reading order is fixed by
// the IDs alone, never by the history of edits.
type table struct {
	shard [shards][]Item
	ends  [shards]*ends // of the shards of wires
	n     int
}

func shardOf(id ID) int {
	// Every byte counts, so that hand-made IDs that differ in one place spread too.
	h := uint32(2166136261)
	for _, b := range id {
		h = (h ^ uint32(b)) * 16777619
	}
	return int(h % shards)
}

func (t *table) find(id ID) (s, i int, ok bool) {
	s = shardOf(id)
	list := t.shard[s]
	i, ok = slices.BinarySearchFunc(list, id, func(it Item, id ID) int {
		at := it.Key().ID
		return bytes.Compare(at[:], id[:])
	})
	return s, i, ok
}

func (t *table) get(id ID) Item {
	if t == nil {
		return nil
	}
	s, i, ok := t.find(id)
	if !ok {
		return nil
	}
	return t.shard[s][i]
}

// with sets (or, with a nil item, removes) one item in t, which must be a copy
// no document holds yet. Shards in fresh are already t's own.
func (t *table) with(id ID, it Item, fresh *[shards]bool) {
	s, i, ok := t.find(id)
	if !ok && it == nil {
		return
	}
	if !fresh[s] {
		t.shard[s] = append(make([]Item, 0, len(t.shard[s])+1), t.shard[s]...)
		t.ends[s], fresh[s] = &ends{}, true
	}
	list := t.shard[s]
	switch {
	case ok && it != nil:
		list[i] = it
	case ok:
		t.shard[s] = slices.Delete(list, i, i+1)
		t.n--
	default:
		t.shard[s] = slices.Insert(list, i, it)
		t.n++
	}
}

func (t *table) all() iter.Seq[Item] {
	return func(yield func(Item) bool) {
		if t == nil {
			return
		}
		for _, list := range t.shard {
			for _, it := range list {
				if !yield(it) {
					return
				}
			}
		}
	}
}
