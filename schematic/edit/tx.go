package edit

import (
	"github.com/google/uuid"

	"loomwright/schematic"
	"loomwright/schematic/route"
)

// Tx is a document being changed. It is valid only inside the function passed
// to [Session.Do]. Edits read the current state with Doc and write with Put
// and Delete.
type Tx struct {
	base, doc *schematic.Doc
	change    Change
	newID     func() schematic.ID
	selected  []schematic.Key
	selects   bool
	boards    map[schematic.ID]*route.Board // sheets of base, by [Tx.baseBoard]
}

// Begin starts a transaction on a document without a session, for tools that
// preview an edit and for tests. NewID may be nil for random IDs.
func Begin(d *schematic.Doc, newID func() schematic.ID) *Tx {
	if newID == nil {
		newID = uuid.New
	}
	return &Tx{base: d, doc: d, change: Change{}, newID: newID}
}

// Doc returns the document with the changes made so far.
func (tx *Tx) Doc() *schematic.Doc { return tx.doc }

// Change returns what has been changed so far.
func (tx *Tx) Change() Change { return tx.change }

// NewID returns a fresh ID.
func (tx *Tx) NewID() schematic.ID { return tx.newID() }

// Put adds or replaces an item. The caller gives it away and must not write to
// it afterwards. Putting an equal item changes nothing.
func (tx *Tx) Put(items ...schematic.Item) {
	puts := make([]schematic.Put, 0, len(items))
	for _, it := range items {
		if tx.record(it.Key(), it) {
			puts = append(puts, schematic.Put{Key: it.Key(), Item: it})
		}
	}
	tx.doc = tx.doc.With(puts...)
}

// Delete removes items; keys that name nothing are passed over.
func (tx *Tx) Delete(keys ...schematic.Key) {
	puts := make([]schematic.Put, 0, len(keys))
	for _, k := range keys {
		if tx.record(k, nil) {
			puts = append(puts, schematic.Put{Key: k})
		}
	}
	tx.doc = tx.doc.With(puts...)
}

// record notes the step and reports whether the document has to change.
func (tx *Tx) record(k schematic.Key, after schematic.Item) bool {
	// A key may come twice in one Put, before the document follows.
	now := tx.doc.Get(k)
	if p, ok := tx.change[k]; ok {
		now = p.After
	}
	if Equal(now, after) {
		return false
	}
	before := tx.base.Get(k)
	if Equal(before, after) {
		delete(tx.change, k)
	} else {
		tx.change[k] = Pair{before, after}
	}
	return true
}

// Select asks the session to select these items when the edit is committed.
func (tx *Tx) Select(keys ...schematic.Key) {
	tx.selected, tx.selects = append([]schematic.Key(nil), keys...), true
}

// Selected returns what the edit asked to select.
func (tx *Tx) Selected() []schematic.Key { return tx.selected }

// EditPart puts a changed copy of the part; it does nothing when there is none.
// Slices and maps of the copy are still shared: replace them, never write into
// them.
func (tx *Tx) EditPart(id schematic.ID, f func(*schematic.Part)) {
	if p := tx.doc.Part(id); p != nil {
		c := *p
		f(&c)
		tx.Put(&c)
	}
}

// EditWire is EditPart for wires.
func (tx *Tx) EditWire(id schematic.ID, f func(*schematic.Wire)) {
	if w := tx.doc.Wire(id); w != nil {
		c := *w
		f(&c)
		tx.Put(&c)
	}
}
