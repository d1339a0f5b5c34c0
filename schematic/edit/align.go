package edit

import (
	"cmp"
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Line is what [Align] brings things onto.
type Line uint8

const (
	LeftEdges Line = iota
	RightEdges
	TopEdges
	BottomEdges
	UprightMiddle // middles one below the other
	LevelMiddle   // middles side by side
)

// block is something that is moved as one: a part with its symbols on the
// sheet, two connector halves plugged together, or a note.
type block struct {
	keys   []schematic.Key
	area   geom.Rect
	anchor geom.Point // comes to lie on the grid
	locked bool
	free   bool // a note, which needs no grid
}

// blocks returns the blocks of a selection on a sheet in stable order. Parts
// count without their pins' stubs: their bodies are what the eye lines up.
func blocks(d *schematic.Doc, sheet schematic.ID, keys []schematic.Key) []block {
	g := gather(d, sheet, keys)
	chosen := partSet(g.parts)
	var all []block
	at := map[schematic.ID]int{}
	for _, p := range g.parts {
		area, anchor := geom.EmptyRect(), geom.Point{}
		for _, v := range p.Views {
			if v.Sheet != sheet {
				continue
			}
			if area.Empty() {
				anchor = v.At
			}
			area = area.Union(d.Body(p, v))
		}
		if i, ok := at[p.Mate]; ok && chosen(p.Mate) {
			b := &all[i]
			b.keys, b.area, b.locked = append(b.keys, p.Key()), b.area.Union(area), b.locked || p.Locked
			continue
		}
		at[p.ID] = len(all)
		all = append(all, block{keys: []schematic.Key{p.Key()}, area: area, anchor: anchor, locked: p.Locked})
	}
	for _, n := range g.notes {
		area := geom.RectOf(n.At, n.At.Add(geom.Pt(n.Width, n.Height)))
		all = append(all, block{keys: []schematic.Key{n.Key()}, area: area, anchor: n.At, locked: n.Locked, free: true})
	}
	return all
}

// shift adds the motion of a block along one axis by about this much, so that a
// part lands on the grid.
func (b *block) shift(motions []motion, d *schematic.Doc, sheet schematic.ID, upright bool, by int) []motion {
	to := geom.Pt(by, 0)
	if upright {
		to = geom.Pt(0, by)
	}
	if !b.free {
		there := b.anchor.Add(to).Snap(geom.Grid).Sub(b.anchor)
		if to.X = there.X; upright {
			to = geom.Pt(0, there.Y)
		}
	}
	if to == (geom.Point{}) {
		return motions
	}
	return append(motions, motion{shift(to), gather(d, sheet, b.keys)})
}

// Align brings what is selected on a sheet into line: the outermost edge of the
// group, or its middle, is the line; where something is locked, that is. Parts
// land on the grid; wires follow.
func Align(tx *Tx, sheet schematic.ID, keys []schematic.Key, line Line) error {
	all := blocks(tx.doc, sheet, keys)
	if len(all) < 2 {
		return fmt.Errorf("select two or more parts or notes to align")
	}
	hold, upright := geom.EmptyRect(), line == TopEdges || line == BottomEdges || line == LevelMiddle
	for _, b := range all {
		if b.locked {
			hold = hold.Union(b.area)
		}
	}
	if hold.Empty() {
		for _, b := range all {
			hold = hold.Union(b.area)
		}
	}
	var motions []motion
	for i := range all {
		if b := &all[i]; !b.locked {
			motions = b.shift(motions, tx.doc, sheet, upright, line.of(hold)-line.of(b.area))
		}
	}
	return tx.move(sheet, motions)
}

// of returns where the line of a rectangle lies.
func (l Line) of(r geom.Rect) int {
	switch l {
	case LeftEdges:
		return r.Min.X
	case RightEdges:
		return r.Max.X
	case TopEdges:
		return r.Min.Y
	case BottomEdges:
		return r.Max.Y
	case UprightMiddle:
		return r.Center().X
	}
	return r.Center().Y
}

// Distribute spaces what is selected on a sheet evenly, side by side or, with
// upright, one below the other. The outermost two stay; between the others the
// gaps become equal, as far as the grid allows.
func Distribute(tx *Tx, sheet schematic.ID, keys []schematic.Key, upright bool) error {
	all := blocks(tx.doc, sheet, keys)
	if len(all) < 3 {
		return fmt.Errorf("select three or more parts or notes to space evenly")
	}
	span := func(r geom.Rect) (from, to int) {
		if upright {
			return r.Min.Y, r.Max.Y
		}
		return r.Min.X, r.Max.X
	}
	slices.SortStableFunc(all, func(a, b block) int {
		a0, a1 := span(a.area)
		b0, b1 := span(b.area)
		return cmp.Compare(a0+a1, b0+b1)
	})
	last := len(all) - 1
	start, _ := span(all[0].area)
	_, end := span(all[last].area)
	room := end - start
	for _, b := range all {
		from, to := span(b.area)
		room -= to - from
	}
	// The places are worked out from the start, so that the rounding to the
	// grid does not add up.
	used := 0
	var motions []motion
	for i := range all {
		b := &all[i]
		from, to := span(b.area)
		want := start + used + room*i/last
		used += to - from
		if i == 0 || i == last {
			continue
		}
		if b.locked {
			return lockedError(tx.doc, b.keys[0])
		}
		motions = b.shift(motions, tx.doc, sheet, upright, want-from)
	}
	return tx.move(sheet, motions)
}
