package draw

import (
	"cmp"
	"slices"

	"golang.org/x/image/font/gofont/goregular"

	"loomwright/schematic"
)

// ReadFaceForBench reads a font afresh.
func ReadFaceForBench() { readFace(goregular.TTF) }

// AtByScan is [Index.At] without the grid: the reference for tests.
func (x *Index) AtByScan(p Point, radius float64) []Hit {
	var order []hit
	for _, h := range x.hits {
		if h.box.dist(p) <= radius {
			order = append(order, h)
		}
	}
	slices.SortStableFunc(order, func(a, b hit) int {
		return cmp.Or(cmp.Compare(a.rankAt(a.box.dist(p)), b.rankAt(b.box.dist(p))), cmp.Compare(a.box.dist(p), b.box.dist(p)), a.key.Compare(b.key),
			cmp.Compare(a.view, b.view), cmp.Compare(a.pin, b.pin))
	})
	type once struct {
		key       schematic.Key
		pin, view string
	}
	seen := map[once]bool{}
	out := []Hit{}
	for _, h := range order {
		o := once{h.key, h.pin, h.view}
		if d := h.box.dist(p); !seen[o] {
			seen[o] = true
			out = append(out, h.at(d))
		}
	}
	return out
}

// InByScan is [Index.In] without the grid.
func (x *Index) InByScan(area Box, enclosed bool) []schematic.Key {
	type shown struct {
		key  schematic.Key
		view string
	}
	touches, leaves := map[shown]bool{}, map[shown]bool{}
	for _, h := range x.hits {
		if h.loose {
			continue
		}
		s := shown{h.key, h.view}
		touches[s] = touches[s] || h.box.Touches(area)
		leaves[s] = leaves[s] || !area.Encloses(h.box)
	}
	var keys []schematic.Key
	for s, hit := range touches {
		if hit && (!enclosed || !leaves[s]) {
			keys = append(keys, s.key)
		}
	}
	slices.SortFunc(keys, schematic.Key.Compare)
	return slices.Compact(keys)
}
