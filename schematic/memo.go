package schematic

import (
	"slices"
	"sync"
)

// memo keeps a few large things derived from whole snapshots. All snapshots of
// one document share it, so that a long history does not keep them alive.
type memo struct {
	sync.Mutex
	kept []kept // newest first
}

type kept struct {
	doc   *Doc
	key   any
	value any
}

const mostKept = 4

// Memo returns what make makes of this snapshot, which is kept for a while: as
// long as few others are asked for. While it is being made, others can recall
// what there is; asked for twice at once, it may be made twice.
func (d *Doc) Memo(key any, make func() any) any {
	if v, ok := d.kept(key); ok {
		return v
	}
	v := make()
	if v, ok := d.kept(key); ok {
		return v
	}
	m := d.memo
	m.Lock()
	defer m.Unlock()
	m.kept = slices.Insert(m.kept, 0, kept{d, key, v})
	m.kept = m.kept[:min(len(m.kept), mostKept)]
	return v
}

// kept returns what is kept of this snapshot, and keeps it longer.
func (d *Doc) kept(key any) (any, bool) {
	m := d.memo
	m.Lock()
	defer m.Unlock()
	i := slices.IndexFunc(m.kept, func(k kept) bool { return k.doc == d && k.key == key })
	if i >= 0 {
		k := m.kept[i]
		copy(m.kept[1:i+1], m.kept[:i])
		m.kept[0] = k
		return k.value, true
	}
	return nil, false
}

// Recall returns what was kept last under a key, whatever snapshot it was made
// of, or nil.
func (d *Doc) Recall(key any) any {
	d.memo.Lock()
	defer d.memo.Unlock()
	for _, k := range d.memo.kept {
		if k.key == key {
			return k.value
		}
	}
	return nil
}
