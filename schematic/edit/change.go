// Package edit changes documents: transactions, the changes they record, undo
// and redo, and the edits a builder makes (place, move, wire, delete, paste).
//
// Start with [Session]. Every change of a document goes through [Session.Do];
// the transaction records what was before and after, so no edit ever needs an
// undo of its own.
package edit

import (
	"errors"
	"fmt"
	"reflect"
	"slices"

	"loomwright/schematic"
)

// Pair is one item before and after a change; nil means absent.
type Pair struct{ Before, After schematic.Item }

// Change is a set of changed items. A change whose pairs are equal on both
// sides holds nothing at all.
type Change map[schematic.Key]Pair

// ErrMismatch is returned by [Change.Apply] for a document the change was not
// made for.
var ErrMismatch = errors.New("the change does not fit the document")

// Keys returns the changed keys in stable order.
func (c Change) Keys() []schematic.Key {
	keys := make([]schematic.Key, 0, len(c))
	for k := range c {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, schematic.Key.Compare)
	return keys
}

// Invert returns the change that takes c back.
func (c Change) Invert() Change {
	inv := make(Change, len(c))
	for k, p := range c {
		inv[k] = Pair{p.After, p.Before}
	}
	return inv
}

// Then returns c followed by d as one change. What d takes back disappears.
func (c Change) Then(d Change) Change {
	sum := make(Change, len(c)+len(d))
	for k, p := range c {
		sum[k] = p
	}
	for k, p := range d {
		if first, ok := sum[k]; ok {
			p.Before = first.Before
		}
		if Equal(p.Before, p.After) {
			delete(sum, k)
			continue
		}
		sum[k] = p
	}
	return sum
}

// Apply returns the changed document, or an error that wraps [ErrMismatch] when
// an item is not, by value, what the change found before. It fails whole.
func (c Change) Apply(d *schematic.Doc) (*schematic.Doc, error) {
	puts := make([]schematic.Put, 0, len(c))
	for _, k := range c.Keys() {
		if !Equal(d.Get(k), c[k].Before) {
			return nil, fmt.Errorf("%s %s: %w", k.Type, k.ID, ErrMismatch)
		}
		puts = append(puts, schematic.Put{Key: k, Item: c[k].After})
	}
	return d.With(puts...), nil
}

// Diff returns the change that leads from a to b.
func Diff(a, b *schematic.Doc) Change {
	c := Change{}
	for it := range a.All() {
		k := it.Key()
		if other := b.Get(k); !Equal(it, other) {
			c[k] = Pair{it, other}
		}
	}
	for it := range b.All() {
		if k := it.Key(); a.Get(k) == nil {
			c[k] = Pair{nil, it}
		}
	}
	return c
}

// Equal reports whether two items are the same by value; nil is no item.
func Equal(a, b schematic.Item) bool {
	// By identity first: unchanged items are shared.
	return a == b || a != nil && b != nil && reflect.DeepEqual(a, b)
}
