package edit

import (
	"bytes"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// dodge leads wires of a sheet round parts that have come to lie on them since
// before. Only the stretches that are hit are led anew, between the bends before
// and after; locked wires stay, and so do those that lay below the part already.
// Wires that are yet to be led themselves are not in the way.
func (tx *Tx) dodge(before *schematic.Doc, sheet schematic.ID, parts []schematic.ID, unled ...schematic.ID) {
	// A board as things are now serves many parts; for one or two it is dearer to
	// make than to do without, and mostly nothing is hit.
	var board *route.Board
	if len(parts) > 2 {
		board = tx.board(sheet, unled...)
	}
	var hit []*schematic.Wire
	for _, id := range parts {
		areas := solid(tx.doc, id, sheet)
		was := solid(before, id, sheet)
		var wires []schematic.ID
		if board != nil {
			wires = board.WiresIn(areas...)
		} else {
			wires = tx.wiresOn(sheet, areas)
		}
		for _, wire := range wires {
			w := tx.doc.Wire(wire)
			if w == nil || w.Locked || w.A.Part == id || w.B.Part == id || slices.Contains(hit, w) || slices.Contains(unled, wire) || len(hit) == mostLed {
				continue
			}
			if old := before.Wire(wire); old != nil && touches(before.Path(old), was) {
				continue
			}
			hit = append(hit, w)
		}
	}
	if len(hit) == 0 {
		return
	}
	if board == nil {
		board = tx.board(sheet, unled...)
	}
	var all []geom.Rect
	for _, id := range parts {
		all = append(all, solid(tx.doc, id, sheet)...)
	}
	slices.SortFunc(hit, func(a, b *schematic.Wire) int { return schematic.CompareNames(a.Name, b.Name) })
	for _, w := range hit {
		board.Without(w.ID)
	}
	for _, w := range hit {
		if board.Effort() >= mostEffort {
			board.AddWire(w, tx.doc.Path(w))
			continue
		}
		a, b := route.TipOf(tx.doc, w, w.A), route.TipOf(tx.doc, w, w.B)
		path := roundHit(board, tx.doc.Path(w), all, a, b)
		via := bendsOf(path, a, b)
		if found := board.Way(a, b); path == nil || board.Price(path, a, b).Faults > found.Faults {
			via = route.Bends(found.Path, a, b)
		}
		tx.rebend(w, via)
		board.AddWire(w, tx.doc.Path(tx.doc.Wire(w.ID)))
	}
}

// wiresOn returns the wires of a sheet that run over some areas as they are now,
// in the order of their IDs.
func (tx *Tx) wiresOn(sheet schematic.ID, areas []geom.Rect) []schematic.ID {
	var parts []schematic.ID
	ids := tx.boardAtFirst(sheet).WiresIn(areas...)
	for k := range tx.change {
		switch k.Type {
		case schematic.TypeKind, schematic.TypeSheet:
			return tx.board(sheet).WiresIn(areas...) // all may lie elsewhere
		case schematic.TypePart:
			parts = append(parts, k.ID)
		case schematic.TypeWire:
			ids = append(ids, k.ID)
		}
	}
	for _, w := range tx.doc.WiresOf(parts...) {
		ids = append(ids, w.ID)
	}
	slices.SortFunc(ids, func(a, b schematic.ID) int { return bytes.Compare(a[:], b[:]) })
	return slices.DeleteFunc(slices.Compact(ids), func(id schematic.ID) bool {
		w := tx.doc.Wire(id)
		return w == nil || w.Sheet != sheet || !touches(tx.doc.Path(w), areas)
	})
}

// solid are the areas of a part that a wire must not run over: bodies and leads.
func solid(d *schematic.Doc, part, sheet schematic.ID) []geom.Rect {
	p := d.Part(part)
	if p == nil {
		return nil
	}
	var out []geom.Rect
	for _, v := range viewsOn(p, sheet) {
		out = append(out, d.Body(p, v))
		for _, pin := range d.PlacedPins(p, v) {
			out = append(out, geom.RectOf(pin.At, pin.Edge))
		}
	}
	return out
}

func touches(path geom.Path, areas []geom.Rect) bool {
	for i := 1; i < len(path); i++ {
		if touched(path[i-1], path[i], areas) {
			return true
		}
	}
	return false
}

func touched(p, q geom.Point, areas []geom.Rect) bool {
	on := geom.RectOf(p, q)
	return slices.ContainsFunc(areas, on.Touches)
}

// roundHit leads a path round areas that it touches, keeping the bends before
// and after. It returns nil where there is nothing to keep.
func roundHit(board *route.Board, path geom.Path, areas []geom.Rect, a, b route.Tip) geom.Path {
	first, last := -1, -1
	for i := 1; i < len(path); i++ {
		if touched(path[i-1], path[i], areas) {
			if first < 0 {
				first = i - 1
			}
			last = i
		}
	}
	// A bend that is covered itself cannot stay.
	for first > 0 && touched(path[first], path[first], areas) {
		first--
	}
	for last >= 0 && last < len(path)-1 && touched(path[last], path[last], areas) {
		last++
	}
	if first < 0 || first == 0 && last == len(path)-1 {
		return nil
	}
	from, to := route.Tip{At: path[first]}, route.Tip{At: path[last]}
	if first == 0 {
		from = a
	}
	if last == len(path)-1 {
		to = b
	}
	out := append(slices.Clone(path[:first]), board.Way(from, to).Path...)
	return append(out, path[last+1:]...).Clean()
}
