package edit

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Duplicate puts a copy of a selection beside it, on the same sheet, and
// selects the copy.
func Duplicate(tx *Tx, sheet schematic.ID, keys []schematic.Key, by geom.Point) error {
	items := Clip(tx.doc, keys, sheet)
	if len(items) == 0 {
		return fmt.Errorf("nothing of the selection lies on this sheet: show its sheet first")
	}
	return Paste(tx, items, sheet, by)
}

// Paste adds the items of a clip to a sheet, moved by offset, and selects
// them. Of a clip of several sheets what [Leading] returns goes there; the rest
// goes on the sheets it comes from where the document has them, by ID or else
// by name, where it was or, where that would cover what is there, aside; for
// others sheets are added. Every item gets a fresh ID and references follow; designations that
// are taken get the next free number. What points outside the clip and to
// nothing in the document is dropped: a wire's end there becomes loose.
// Nothing pasted counts as built yet, or is locked.
func Paste(tx *Tx, items []schematic.Item, sheet schematic.ID, offset geom.Point) error {
	if tx.doc.Sheet(sheet) == nil {
		return fmt.Errorf("the sheet to paste on is no longer there: choose another one")
	}
	items = slices.Clone(items)
	slices.SortStableFunc(items, compareItems)
	p := newPasting(tx, items, sheet, offset)
	p.placeSheets(items)
	// Kinds first: parts name them, and the checks of parts look them up.
	p.addKinds(items)
	for _, it := range items {
		if err := p.add(it); err != nil {
			return err
		}
	}
	if err := p.addWires(items); err != nil {
		return err
	}
	tx.Select(p.selected...)
	return nil
}

// pasting is a clip on its way into a document.
type pasting struct {
	tx       *Tx
	sheet    schematic.ID
	sheets   map[schematic.ID]schematic.ID // where several come along: of the clip → of the document
	looms    map[schematic.ID]bool         // looms of the document that came along
	places   map[loomPlace]schematic.ID    // their nodes and segments
	offset   geom.Point
	aside    map[schematic.ID]geom.Point // the offset instead, by sheet of the clip
	names    *namer
	ids      map[schematic.Key]schematic.ID
	mates    map[schematic.ID]schematic.ID // within the clip
	kinds    map[string]string             // names in the clip → names in the document
	selected []schematic.Key
}

// newPasting gives each item of a clip the ID it will have.
func newPasting(tx *Tx, items []schematic.Item, sheet schematic.ID, offset geom.Point) *pasting {
	p := &pasting{
		tx: tx, sheet: sheet, offset: offset, names: newNamer(tx.doc), looms: map[schematic.ID]bool{},
		ids: map[schematic.Key]schematic.ID{}, mates: map[schematic.ID]schematic.ID{}, kinds: map[string]string{},
	}
	for _, it := range items {
		p.ids[it.Key()] = tx.NewID()
		if half, ok := it.(*schematic.Part); ok {
			p.mates[half.ID] = half.Mate
		}
	}
	return p
}

// to returns the new ID of something in the clip, or none.
func (p *pasting) to(t schematic.ItemType, old schematic.ID) schematic.ID {
	if (old == schematic.ID{}) {
		return old
	}
	return p.ids[schematic.Key{Type: t, ID: old}]
}

// on returns the sheet that what lay on a sheet of the clip goes to.
func (p *pasting) on(old schematic.ID) schematic.ID {
	if id, ok := p.sheets[old]; ok {
		return id
	}
	return p.sheet
}

// by returns how far what lay on a sheet of the clip is moved.
func (p *pasting) by(old schematic.ID) geom.Point {
	if by, ok := p.aside[old]; ok {
		return by
	}
	return p.offset
}

// loom returns the loom that takes the place of one of the clip: the copy that
// came along, or the one itself where it is of this document.
func (p *pasting) loom(old schematic.ID) schematic.ID {
	if id := p.to(schematic.TypeLoom, old); p.looms[id] {
		return id
	}
	return old
}

func (p *pasting) put(it schematic.Item) {
	p.tx.Put(it)
	p.selected = append(p.selected, it.Key())
}

// addKinds brings the clip's own kinds along. One that the document knows by
// the same name and content is used as it is; another of that name gets a
// new one, so that nothing already drawn changes its nature.
func (p *pasting) addKinds(items []schematic.Item) {
	var fresh []*schematic.Kind
	taken := map[string]bool{}
	for _, it := range items {
		k, ok := it.(*schematic.Kind)
		if !ok {
			continue
		}
		name := k.Name
		for n := 2; ; n++ {
			there := p.tx.doc.Kind(name)
			if there != nil && name == k.Name && sameKind(k, there) {
				break
			}
			if there == nil && !taken[name] {
				fresh = append(fresh, k)
				break
			}
			name = k.Name + "-" + strconv.Itoa(n)
		}
		taken[name] = true
		p.kinds[k.Name] = name
	}
	for _, k := range fresh {
		c := *k
		c.ID, c.Name = p.to(schematic.TypeKind, k.ID), p.kinds[k.Name]
		if other, ok := p.kinds[k.OtherHalf]; ok {
			c.OtherHalf = other
		}
		p.tx.Put(&c)
	}
}

func sameKind(a, b *schematic.Kind) bool {
	c := *a
	c.ID = b.ID
	return reflect.DeepEqual(&c, b)
}

// add puts everything but wires, which need the parts in place.
func (p *pasting) add(it schematic.Item) error {
	switch it := it.(type) {
	case *schematic.Part:
		return p.addPart(it)
	case *schematic.Group:
		c := *it
		c.ID, c.Name = p.to(schematic.TypeGroup, it.ID), p.names.claim(it.Name, string(it.Type))
		c.Drain = p.to(schematic.TypeWire, it.Drain)
		p.tx.Put(&c)
	case *schematic.Note:
		c := *it
		c.ID, c.Sheet, c.At = p.to(schematic.TypeNote, it.ID), p.on(it.Sheet), it.At.Add(p.by(it.Sheet))
		c.Locked = false
		if err := onSheet("the note", c.At); err != nil {
			return err
		}
		p.put(&c)
	case *schematic.State:
		p.addSettings(it)
	}
	return nil
}

func (p *pasting) addPart(it *schematic.Part) error {
	c := *it
	if name, ok := p.kinds[it.Kind]; ok {
		c.Kind = name
	}
	prefix := plainPrefix
	if k := p.tx.doc.Kind(c.Kind); k != nil && k.Prefix != "" {
		prefix = k.Prefix
	}
	c.ID, c.Name = p.to(schematic.TypePart, it.ID), p.names.claim(it.Name, prefix)
	c.Mate = schematic.ID{}
	if p.mates[it.Mate] == it.ID && it.Mate != it.ID {
		c.Mate = p.to(schematic.TypePart, it.Mate)
	}
	c.Views = slices.Clone(it.Views)
	for i := range c.Views {
		from := c.Views[i].Sheet
		c.Views[i].Sheet = p.on(from)
		c.Views[i].At = c.Views[i].At.Add(p.by(from))
	}
	if c.Loom = p.loom(it.Loom); c.Loom != it.Loom {
		c.Node = p.inner(it.Loom, it.Node)
	}
	if p.tx.doc.Loom(c.Loom) == nil {
		c.Loom, c.Node = schematic.ID{}, schematic.ID{}
	}
	c.Build, c.Locked = "", false
	if err := validPart(p.tx.doc, &c); err != nil {
		return err
	}
	p.put(&c)
	return nil
}

// addSettings gives the copies the settings of their originals in the states
// the document knows by ID or name.
func (p *pasting) addSettings(s *schematic.State) {
	target := p.tx.doc.State(s.ID)
	for _, t := range p.tx.doc.States() {
		if target == nil && t.Name == s.Name {
			target = t
		}
	}
	if target == nil {
		return
	}
	c := *target
	c.Set = slices.Clone(target.Set)
	for _, set := range s.Set {
		if id := p.to(schematic.TypePart, set.Part); id != (schematic.ID{}) {
			set.Part = id
			c.Set = append(c.Set, set)
		}
	}
	p.tx.Put(&c)
}

func (p *pasting) addWires(items []schematic.Item) error {
	var puts []schematic.Item
	for _, it := range items {
		w, ok := it.(*schematic.Wire)
		if !ok {
			continue
		}
		c := *w
		c.ID, c.Name, c.Sheet = p.to(schematic.TypeWire, w.ID), p.names.claim(w.Name, WirePrefix), p.on(w.Sheet)
		if c.Loom = p.loom(w.Loom); c.Loom != w.Loom {
			c.Route = nil
			for _, id := range w.Route {
				c.Route = append(c.Route, p.inner(w.Loom, id))
			}
		}
		c.Twist, c.Screen = p.to(schematic.TypeGroup, w.Twist), p.to(schematic.TypeGroup, w.Screen)
		c.Build, c.Locked = "", false
		for _, e := range []*schematic.End{&c.A, &c.B} {
			p.end(&c, e, p.by(w.Sheet))
		}
		c.Via = nil
		for _, q := range w.Via {
			c.Via = append(c.Via, q.Add(p.by(w.Sheet)))
		}
		if !routed(p.tx.doc, &c) {
			c.Route = nil
			if p.tx.doc.Loom(c.Loom) == nil {
				c.Loom = schematic.ID{}
			}
		}
		if err := validWire(p.tx.doc, &c); err != nil {
			return err
		}
		if err := onSheet(c.Name, append(slices.Clone(c.Via), c.A.At, c.B.At)...); err != nil {
			return err
		}
		puts = append(puts, &c)
	}
	for _, it := range puts {
		p.put(it)
	}
	return nil
}

// end leads a pasted wire's end to the pasted part, or lets it hang loose.
func (p *pasting) end(w *schematic.Wire, e *schematic.End, by geom.Point) {
	e.At = e.At.Add(by)
	if e.Loose() {
		return
	}
	e.Part = p.to(schematic.TypePart, e.Part)
	if !e.Loose() {
		if _, _, shown := p.tx.doc.EndAt(w, *e); shown {
			e.At = geom.Point{}
			return
		}
	}
	e.Part, e.Pin, e.View = schematic.ID{}, "", ""
}

// routed reports whether the wire's loom exists and has all its segments.
func routed(d *schematic.Doc, w *schematic.Wire) bool {
	l := d.Loom(w.Loom)
	if l == nil {
		return len(w.Route) == 0 && w.Loom == schematic.ID{}
	}
	for _, id := range w.Route {
		if _, ok := l.Segment(id); !ok {
			return false
		}
	}
	return true
}
