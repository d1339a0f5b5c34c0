package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
)

// Delete removes items and whatever cannot stand without them: the wires at a
// part, the settings and readings of a part, a group without wires, all that
// lies on a sheet. What only pointed at them, a mate or a drain, points at
// nothing afterwards. Keys that name nothing are passed over, and so are locked
// items, unless all are locked: that is an error, as it is to delete a part at
// which a locked wire ends. What goes with a sheet goes locked or not.
func Delete(tx *Tx, keys []schematic.Key) error {
	keys, err := unlocked(tx.doc, keys)
	if err != nil {
		return err
	}
	return remove(tx, keys)
}

// TakeOff is Delete for a selection on one sheet, or on some: a part that is
// also shown elsewhere only loses its symbols, and the wires at them, there.
func TakeOff(tx *Tx, keys []schematic.Key, sheets ...schematic.ID) error {
	keys, err := unlocked(tx.doc, keys)
	if err != nil {
		return err
	}
	return remove(tx, keys, sheets...)
}

// DeleteSheet removes a sheet with what lies on it; parts that other sheets
// show too stay there. The last sheet cannot go.
func DeleteSheet(tx *Tx, id schematic.ID) error {
	return Delete(tx, []schematic.Key{{Type: schematic.TypeSheet, ID: id}})
}

// remove deletes; a part that is shown on one of the sheets only goes from them.
func remove(tx *Tx, keys []schematic.Key, sheets ...schematic.ID) error {
	r := removal{tx: tx, gone: map[schematic.Key]bool{}}
	var kinds []schematic.Key
	for _, k := range keys {
		if k.Type == schematic.TypeKind {
			kinds = append(kinds, k) // last: its parts may go with it
			continue
		}
		if k.Type == schematic.TypePart {
			if p := tx.doc.Part(k.ID); p != nil {
				here := slices.DeleteFunc(slices.Clone(sheets), func(s schematic.ID) bool { return !shownOn(p, s) })
				for _, s := range here {
					r.takeOff(p, s)
				}
				if len(here) > 0 {
					continue
				}
			}
		}
		if err := r.add(k); err != nil {
			return err
		}
	}
	for _, k := range kinds {
		if err := r.add(k); err != nil {
			return err
		}
	}
	return r.run()
}

// removal collects what goes before anything is touched.
type removal struct {
	tx   *Tx
	gone map[schematic.Key]bool
	lost []lostViews
}

// lostViews is a part that goes from one sheet and stays on others.
type lostViews struct{ part, sheet schematic.ID }

func (r *removal) add(k schematic.Key) error {
	d := r.tx.doc
	it := d.Get(k)
	if it == nil || r.gone[k] {
		return nil
	}
	switch it := it.(type) {
	case *schematic.Info:
		return fmt.Errorf("the document settings cannot be deleted")
	case *schematic.Kind:
		for p := range d.Parts() {
			if p.Kind == it.Name && !r.gone[p.Key()] {
				return fmt.Errorf("part kind %q is still used by %s: delete or change that part first", it.Name, p.Name)
			}
		}
	case *schematic.Sheet:
		left := 0
		for _, s := range d.Sheets() {
			if s.ID != it.ID && !r.gone[s.Key()] {
				left++
			}
		}
		if left == 0 {
			return fmt.Errorf("%q is the only sheet: a document keeps at least one", it.Name)
		}
		for p := range d.Parts() {
			if shownOn(p, it.ID) {
				r.takeOff(p, it.ID)
			}
		}
		for w := range d.Wires() {
			if w.Sheet == it.ID {
				r.gone[w.Key()] = true
			}
		}
		for n := range d.Notes() {
			if n.Sheet == it.ID {
				r.gone[n.Key()] = true
			}
		}
	}
	r.gone[k] = true
	return nil
}

// takeOff notes that a part goes from a sheet; the last symbol takes the part
// along.
func (r *removal) takeOff(p *schematic.Part, sheet schematic.ID) {
	r.lost = append(r.lost, lostViews{p.ID, sheet})
	for _, v := range p.Views {
		if !slices.Contains(r.lost, lostViews{p.ID, v.Sheet}) {
			return
		}
	}
	r.gone[p.Key()] = true
}

func (r *removal) is(t schematic.ItemType, id schematic.ID) bool {
	return id != schematic.ID{} && r.gone[schematic.Key{Type: t, ID: id}]
}

func (r *removal) run() error {
	tx := r.tx
	for _, l := range r.lost {
		if r.is(schematic.TypePart, l.part) {
			continue
		}
		tx.EditPart(l.part, func(p *schematic.Part) {
			p.Views = slices.DeleteFunc(slices.Clone(p.Views), func(v schematic.View) bool { return v.Sheet == l.sheet })
		})
	}
	if err := r.wires(); err != nil {
		return err
	}
	r.groups()
	var puts []schematic.Item
	for it := range tx.doc.All() {
		if mended := r.mend(it); mended != nil && !r.gone[it.Key()] {
			puts = append(puts, mended)
		}
	}
	tx.Put(puts...)
	keys := make([]schematic.Key, 0, len(r.gone))
	for k := range r.gone {
		keys = append(keys, k)
	}
	slices.SortFunc(keys, schematic.Key.Compare)
	tx.Delete(keys...)
	return nil
}

// wires adds the wires that lose the part or the symbol they end at. A locked
// one holds its parts, unless its whole sheet goes.
func (r *removal) wires() error {
	d := r.tx.doc
	lost := make(map[lostViews]bool, len(r.lost))
	for _, l := range r.lost {
		lost[l] = true
	}
	for w := range d.Wires() {
		for _, e := range []*schematic.End{&w.A, &w.B} {
			gone := r.is(schematic.TypePart, e.Part)
			if !gone && len(lost) > 0 && lost[lostViews{e.Part, w.Sheet}] {
				_, _, shown := d.EndAt(w, *e)
				gone = !shown
			}
			if !gone || r.gone[w.Key()] {
				continue
			}
			if w.Locked {
				return fmt.Errorf("%s at %s is locked in place: unlock it first", w.Name, d.Part(e.Part).Name)
			}
			r.gone[w.Key()] = true
		}
	}
	return nil
}

// groups adds the groups that lose their last wire, and the readings that lose
// a pin.
func (r *removal) groups() {
	lost, kept := map[schematic.ID]bool{}, map[schematic.ID]bool{}
	for w := range r.tx.doc.Wires() {
		if (w.Twist == schematic.ID{} && w.Screen == schematic.ID{}) {
			continue
		}
		into := kept
		if r.gone[w.Key()] {
			into = lost
		}
		into[w.Twist], into[w.Screen] = true, true
	}
	for g := range r.tx.doc.Groups() {
		if lost[g.ID] && !kept[g.ID] {
			r.gone[g.Key()] = true
		}
	}
	for m := range r.tx.doc.Readings() {
		if r.is(schematic.TypePart, m.From.Part) || r.is(schematic.TypePart, m.To.Part) {
			r.gone[m.Key()] = true
		}
	}
}

// mend returns the item without what it pointed at, or nil when nothing it
// points at goes.
func (r *removal) mend(it schematic.Item) schematic.Item {
	switch it := it.(type) {
	case *schematic.Part:
		mate, loom := r.is(schematic.TypePart, it.Mate), r.is(schematic.TypeLoom, it.Loom)
		if !mate && !loom {
			return nil
		}
		c := *it
		if mate {
			c.Mate = schematic.ID{}
		}
		if loom {
			c.Loom, c.Node = schematic.ID{}, schematic.ID{}
		}
		return &c
	case *schematic.Wire:
		return r.mendWire(it)
	case *schematic.Group:
		if r.is(schematic.TypeWire, it.Drain) {
			c := *it
			c.Drain = schematic.ID{}
			return &c
		}
	case *schematic.State:
		left := slices.DeleteFunc(slices.Clone(it.Set), func(s schematic.Setting) bool { return r.is(schematic.TypePart, s.Part) })
		if len(left) < len(it.Set) {
			c := *it
			c.Set = orNil(left)
			return &c
		}
	case *schematic.Reading:
		if r.is(schematic.TypeState, it.State) {
			c := *it
			c.State = schematic.ID{}
			return &c
		}
	}
	return nil
}

func (r *removal) mendWire(w *schematic.Wire) schematic.Item {
	loom := r.is(schematic.TypeLoom, w.Loom)
	twist, screen := r.is(schematic.TypeGroup, w.Twist), r.is(schematic.TypeGroup, w.Screen)
	if !loom && !twist && !screen {
		return nil
	}
	c := *w
	if loom {
		c.Loom, c.Route = schematic.ID{}, nil
	}
	if twist {
		c.Twist = schematic.ID{}
	}
	if screen {
		c.Screen = schematic.ID{}
	}
	return &c
}

// orNil keeps "none" in one form, so that equal documents compare equal.
func orNil[T any](s []T) []T {
	if len(s) == 0 {
		return nil
	}
	return s
}
