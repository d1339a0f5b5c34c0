package ui

import (
	"loomwright/schematic"
	"loomwright/schematic/draw"
)

// mostPatched is how many items may differ between a picture and what it is to
// show, for it to be patched in the window's own goroutine.
const mostPatched = 600

// patched returns a picture of a document that differs little from the one it was
// made of: what has changed is taken out of it and drawn over it, without regard
// to what lies around. That takes as long as the change is large, not the sheet.
func (p *picture) patched(w wanted) (picture, bool) {
	if p.index == nil || p.made.sheet != w.sheet || p.made.opts.Show != w.opts.Show || p.made.opts.NoHops != w.opts.NoHops || p.made.doc.Library() != w.doc.Library() {
		return picture{}, false
	}
	moved, ok := differing(p.made.doc, w.doc)
	if !ok {
		return picture{}, false
	}
	out := *p
	if out.want, out.plan = w, p.whole; len(moved) > 0 {
		out.plan = p.whole.Patched(moved, drawAlone(w, moved))
	}
	return out, true
}

// differing returns the items that are drawn otherwise in the later of two
// documents: those that changed and the wires at parts that did. It is false
// where there are too many, or others than parts, wires and notes.
func differing(was, is *schematic.Doc) (map[schematic.Key]bool, bool) {
	moved, plain := map[schematic.Key]bool{}, true
	var parts []schematic.ID
	is.Since(was, func(k schematic.Key, _ schematic.Item) bool {
		switch k.Type {
		case schematic.TypePart:
			parts = append(parts, k.ID)
			moved[k] = true
		case schematic.TypeWire, schematic.TypeNote:
			moved[k] = true
		default:
			plain = false // names of sheets, kinds, groups: anything may look different
		}
		return plain && len(moved) <= mostPatched
	})
	for _, d := range [2]*schematic.Doc{was, is} {
		for _, w := range d.WiresOf(parts...) {
			moved[w.Key()] = true
		}
	}
	return moved, plain && len(moved) <= mostPatched
}

// drawAlone draws some items of a sheet as if they were alone there.
func drawAlone(w wanted, items map[schematic.Key]bool) *draw.List {
	var puts []schematic.Put
	put := func(it schematic.Item) { puts = append(puts, schematic.Put{Key: it.Key(), Item: it}) }
	put(w.doc.Info())
	if s := w.doc.Sheet(w.sheet); s != nil {
		put(s)
	}
	for k := range w.doc.OwnKinds() {
		put(k)
	}
	for k := range items {
		it := w.doc.Get(k)
		if it == nil {
			continue
		}
		put(it)
		if wire, ok := it.(*schematic.Wire); ok {
			for _, e := range [2]schematic.End{wire.A, wire.B} {
				if part := w.doc.Part(e.Part); part != nil {
					put(part) // the wire ends there
				}
			}
		}
	}
	w.opts.Under = nil
	all := draw.Sheet(schematic.New(w.doc.Library()).With(puts...), w.sheet, w.opts)
	alone := &draw.List{Size: all.Size}
	for _, m := range all.Marks {
		if items[m.Owner] {
			alone.Marks = append(alone.Marks, m)
		}
	}
	return alone
}
