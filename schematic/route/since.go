package route

import "loomwright/schematic"

// mostChanged is how many items may have changed since a sheet was surveyed; with
// more than manyChanged, surveying it anew pays when there is time.
const (
	mostChanged = 1000
	manyChanged = 50
)

// Prepare surveys a sheet ahead of need. It may take long: call it beside the
// window.
func Prepare(d *schematic.Doc, sheet schematic.ID) {
	key, n := memoKey{sheet}, 0
	if p, ok := d.Recall(key).(*plan); ok && d.Library() == p.doc.Library() {
		d.Since(p.doc, func(schematic.Key, schematic.Item) bool { n++; return n <= manyChanged })
		if n <= manyChanged {
			return
		}
	}
	d.Memo(key, func() any { return survey(d, sheet) })
}

// since returns the board of a later, or earlier, snapshot: the plan and what
// has changed. It is nil where the sheet has to be surveyed again.
func (p *plan) since(d *schematic.Doc, sheet schematic.ID) *Board {
	if d.Library() != p.doc.Library() {
		return nil
	}
	b := &Board{plan: p}
	var parts []schematic.ID
	var wires []*schematic.Wire
	var notes []*schematic.Note
	n, whole := 0, true
	d.Since(p.doc, func(k schematic.Key, now schematic.Item) bool {
		n++
		switch k.Type {
		case schematic.TypeKind, schematic.TypeSheet:
			whole = false // all may lie elsewhere
		case schematic.TypePart:
			parts = append(parts, k.ID)
		case schematic.TypeWire:
			b.gone.Add(k.ID)
			if w, ok := now.(*schematic.Wire); ok {
				wires = append(wires, w)
			}
		case schematic.TypeNote:
			b.gone.Add(k.ID)
			if note, ok := now.(*schematic.Note); ok {
				notes = append(notes, note)
			}
		}
		return whole && n <= mostChanged
	})
	if !whole || n > mostChanged {
		return nil
	}
	for _, id := range parts {
		b.gone.Add(id)
		if part := d.Part(id); part != nil {
			b.AddPart(d, part, sheet)
		}
	}
	for _, w := range d.WiresOf(parts...) {
		if !b.gone.Has(w.ID) {
			b.gone.Add(w.ID)
			wires = append(wires, w)
		}
	}
	for _, w := range wires {
		if w.Sheet == sheet {
			b.AddWire(w, d.Path(w))
		}
	}
	for _, note := range notes {
		if note.Sheet == sheet {
			b.add(note.ID, func() { b.more.add(thing{sort: text, area: noteText(note), owner: note.ID}) })
		}
	}
	return b
}
