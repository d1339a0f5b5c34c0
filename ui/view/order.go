package view

import (
	"cmp"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// rowBand is how much lower than the topmost thing of a row another may lie and
// still belong to it, in units.
const rowBand = 6 * geom.Grid

// InOrder returns what is drawn on a sheet in the order it is read in: parts row
// by row from left to right, then wires, then notes likewise.
func InOrder(d *schematic.Doc, sheet schematic.ID) []schematic.Key {
	type spot struct {
		key schematic.Key
		at  geom.Point
		row int
	}
	var all []spot
	for _, k := range All(d, sheet) {
		all = append(all, spot{key: k, at: Bounds(d, []schematic.Key{k}, sheet).Min})
	}
	slices.SortFunc(all, func(a, b spot) int {
		return cmp.Or(cmp.Compare(a.key.Type, b.key.Type), cmp.Compare(a.at.Y, b.at.Y), cmp.Compare(a.at.X, b.at.X), a.key.Compare(b.key))
	})
	row, top := 0, 0
	for i := range all {
		if i == 0 || all[i].key.Type != all[i-1].key.Type || all[i].at.Y-top > rowBand {
			row, top = row+1, all[i].at.Y
		}
		all[i].row = row
	}
	slices.SortStableFunc(all, func(a, b spot) int { return cmp.Or(cmp.Compare(a.row, b.row), cmp.Compare(a.at.X, b.at.X)) })
	keys := make([]schematic.Key, len(all))
	for i, s := range all {
		keys[i] = s.key
	}
	return keys
}

// Next returns what comes after, or with a step of -1 before, a thing in the
// order of its sheet, round and round; for something that is not on the sheet
// the first, or last. It is false for an empty sheet.
func Next(d *schematic.Doc, sheet schematic.ID, from schematic.Key, step int) (schematic.Key, bool) {
	all := InOrder(d, sheet)
	if len(all) == 0 {
		return schematic.Key{}, false
	}
	i := slices.Index(all, from)
	if i < 0 && step < 0 {
		i = 0
	}
	return all[(i+step+len(all))%len(all)], true
}
