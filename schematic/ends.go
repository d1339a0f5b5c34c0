package schematic

import (
	"bytes"
	"slices"
	"sync"
)

// ends tells which wires of one shard end at a part. It is made when first asked
// for and shared by all snapshots that hold the shard, so that after an edit
// only the shards it touched are looked through again.
type ends struct {
	once sync.Once
	at   map[ID][]*Wire // in the order of their IDs
}

func (e *ends) of(part ID, shard []Item) []*Wire {
	e.once.Do(func() {
		e.at = make(map[ID][]*Wire, 2*len(shard))
		for _, it := range shard {
			w, ok := it.(*Wire)
			if !ok {
				return // a shard holds items of one type
			}
			if !w.A.Loose() {
				e.at[w.A.Part] = append(e.at[w.A.Part], w)
			}
			if !w.B.Loose() && w.B.Part != w.A.Part {
				e.at[w.B.Part] = append(e.at[w.B.Part], w)
			}
		}
	})
	return e.at[part]
}

// WiresOf returns the wires that end at any of some parts, each once, in the
// order of [Doc.Wires]. For a few parts it costs next to nothing, however large
// the document.
func (d *Doc) WiresOf(parts ...ID) []*Wire {
	t := d.tables[TypeWire]
	if t == nil || len(parts) == 0 {
		return nil
	}
	var out []*Wire
	if len(parts) > t.n/(2*shards) { // asking each shard for each part would cost more than to look at all
		var set IDSet
		set.Add(parts...)
		for w := range d.Wires() {
			if !w.A.Loose() && set.Has(w.A.Part) || !w.B.Loose() && set.Has(w.B.Part) {
				out = append(out, w)
			}
		}
		return out
	}
	for s, shard := range t.shard {
		if len(shard) == 0 {
			continue
		}
		from := len(out)
		for _, p := range parts {
			out = append(out, t.ends[s].of(p, shard)...)
		}
		if len(parts) == 1 || len(out)-from < 2 {
			continue
		}
		here := out[from:]
		slices.SortFunc(here, func(a, b *Wire) int { return bytes.Compare(a.ID[:], b.ID[:]) })
		out = out[:from+len(slices.Compact(here))]
	}
	return out
}

// WiresAt returns the wires that end at a pin, in the order of [Doc.Wires].
func (d *Doc) WiresAt(r PinRef) []*Wire {
	return slices.DeleteFunc(d.WiresOf(r.Part), func(w *Wire) bool { return w.A.Ref() != r && w.B.Ref() != r })
}
