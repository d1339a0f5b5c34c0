// Package schematic is the document: parts, wires, looms, sheets and operating
// states of one vehicle harness, as immutable snapshots.
//
// Start with [Doc]. A Doc and the items in it never change; package edit makes
// new snapshots. The part kinds a document refers to come from its [Library]
// and from the kinds defined in the document itself.
package schematic

import (
	"cmp"
	"iter"
	"slices"
	"sync"
)

// Doc is one snapshot of a document. It is safe for concurrent reading. Make
// one with [New] and derive others with [Doc.With].
type Doc struct {
	lib    *Library
	info   *Info
	tables [typeEnd]*table
	extra  Extra

	derived struct {
		sync.Mutex
		names map[string]Key
	}
	memo *memo // shared with the documents derived from this one
}

// New returns an empty document that finds part kinds in lib.
func New(lib *Library) *Doc { return &Doc{lib: lib, info: &Info{}, memo: &memo{}} }

// Library returns the kinds that come from outside the document.
func (d *Doc) Library() *Library { return d.lib }

// Info returns the title block and settings; never nil.
func (d *Doc) Info() *Info { return d.info }

// Extra returns the unknown top-level fields of the file.
func (d *Doc) Extra() Extra { return d.extra }

// WithExtra returns the document with other unknown top-level fields.
func (d *Doc) WithExtra(x Extra) *Doc {
	return &Doc{lib: d.lib, info: d.info, tables: d.tables, extra: x, memo: d.memo}
}

// WithLibrary returns the document with another library.
func (d *Doc) WithLibrary(lib *Library) *Doc {
	return &Doc{lib: lib, info: d.info, tables: d.tables, extra: d.extra, memo: d.memo}
}

// Put is one entry of [Doc.With]: the item that shall stand at Key, or nil for none.
type Put struct {
	Key  Key
	Item Item
}

// With returns the document with some items set or removed. It costs a copy of
// the shards touched. It does not check references: see [Check].
func (d *Doc) With(puts ...Put) *Doc {
	n := &Doc{lib: d.lib, info: d.info, tables: d.tables, extra: d.extra, memo: d.memo}
	var fresh [typeEnd]*[shards]bool
	for _, p := range puts {
		t := p.Key.Type
		switch {
		case t == TypeInfo:
			n.info = &Info{}
			if i, ok := p.Item.(*Info); ok {
				n.info = i
			}
			continue
		case t == 0 || t >= typeEnd:
			panic("schematic: With: key without a type")
		}
		if fresh[t] == nil {
			fresh[t] = new([shards]bool)
			c := table{}
			if n.tables[t] != nil {
				c = *n.tables[t]
			}
			n.tables[t] = &c
		}
		n.tables[t].with(p.Key.ID, p.Item, fresh[t])
	}
	return n
}

// Get returns the item at key, or nil.
func (d *Doc) Get(k Key) Item {
	if k.Type == TypeInfo {
		return d.info
	}
	if k.Type >= typeEnd {
		return nil
	}
	return d.tables[k.Type].get(k.ID)
}

// Len returns how many items of the type the document holds.
func (d *Doc) Len(t ItemType) int {
	if t == TypeInfo {
		return 1
	}
	if d.tables[t] == nil {
		return 0
	}
	return d.tables[t].n
}

// All yields every item, types in file order, each type in ID order of its
// shards: stable, but of no meaning to the user.
func (d *Doc) All() iter.Seq[Item] {
	return func(yield func(Item) bool) {
		if !yield(d.info) {
			return
		}
		for t := TypeSheet; t < typeEnd; t++ {
			for it := range d.tables[t].all() {
				if !yield(it) {
					return
				}
			}
		}
	}
}

func typed[T Item](d *Doc, t ItemType) iter.Seq[T] {
	return func(yield func(T) bool) {
		for it := range d.tables[t].all() {
			if !yield(it.(T)) {
				return
			}
		}
	}
}

func one[T Item](d *Doc, t ItemType, id ID) T {
	it, _ := d.tables[t].get(id).(T)
	return it
}

// The sequences of items have the order of [Doc.All].

func (d *Doc) Parts() iter.Seq[*Part]       { return typed[*Part](d, TypePart) }
func (d *Doc) Wires() iter.Seq[*Wire]       { return typed[*Wire](d, TypeWire) }
func (d *Doc) Groups() iter.Seq[*Group]     { return typed[*Group](d, TypeGroup) }
func (d *Doc) Looms() iter.Seq[*Loom]       { return typed[*Loom](d, TypeLoom) }
func (d *Doc) Notes() iter.Seq[*Note]       { return typed[*Note](d, TypeNote) }
func (d *Doc) Readings() iter.Seq[*Reading] { return typed[*Reading](d, TypeReading) }
func (d *Doc) OwnKinds() iter.Seq[*Kind]    { return typed[*Kind](d, TypeKind) }
func (d *Doc) Acceptances() iter.Seq[*Acceptance] {
	return typed[*Acceptance](d, TypeAcceptance)
}

// The lookups return nil when there is no such item.

func (d *Doc) Part(id ID) *Part   { return one[*Part](d, TypePart, id) }
func (d *Doc) Wire(id ID) *Wire   { return one[*Wire](d, TypeWire, id) }
func (d *Doc) Group(id ID) *Group { return one[*Group](d, TypeGroup, id) }
func (d *Doc) Loom(id ID) *Loom   { return one[*Loom](d, TypeLoom, id) }
func (d *Doc) Sheet(id ID) *Sheet { return one[*Sheet](d, TypeSheet, id) }
func (d *Doc) State(id ID) *State { return one[*State](d, TypeState, id) }

// Sheets returns the sheets in tab order.
func (d *Doc) Sheets() []*Sheet {
	return inOrder(typed[*Sheet](d, TypeSheet), func(s *Sheet) int { return s.Order })
}

// States returns the operating states in the user's order.
func (d *Doc) States() []*State {
	return inOrder(typed[*State](d, TypeState), func(s *State) int { return s.Order })
}

// inOrder sorts items by the number that places them.
func inOrder[T Item](items iter.Seq[T], order func(T) int) []T {
	return slices.SortedFunc(items, func(a, b T) int {
		return cmp.Or(cmp.Compare(order(a), order(b)), a.Key().Compare(b.Key()))
	})
}

// Kind returns the named part kind, looking in the document first, or nil.
func (d *Doc) Kind(name string) *Kind {
	for k := range d.OwnKinds() {
		if k.Name == name {
			return k
		}
	}
	return d.lib.Kind(name)
}

// KindOf returns the part's kind, or nil when nobody defines it.
func (d *Doc) KindOf(p *Part) *Kind { return d.Kind(p.Kind) }

// Named returns the part, wire, loom … with the given designation.
func (d *Doc) Named(name string) (Key, bool) {
	d.derived.Lock()
	defer d.derived.Unlock()
	if d.derived.names == nil {
		m := make(map[string]Key)
		for it := range d.All() {
			if n := NameOf(it); n != "" {
				if _, taken := m[n]; !taken {
					m[n] = it.Key()
				}
			}
		}
		d.derived.names = m
	}
	k, ok := d.derived.names[name]
	return k, ok
}
