package tool

import (
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// Beneath selects what lies under the selected one of the things at a place,
// round and round; the first time the second from the top. It tells which of
// them, from 1, and how many there are; the effect is nil for an empty place.
func Beneath(env Env, at geom.Point) (do Effect, which, of int) {
	hits := env.Hits(at)
	if len(hits) == 0 {
		return nil, 0, 0
	}
	on := 0
	if sel := env.Selection(); len(sel) == 1 {
		on = max(0, slices.IndexFunc(hits, func(h Hit) bool { return h.Key == sel[0] }))
	}
	next := (on + 1) % len(hits)
	return Select{[]schematic.Key{hits[next].Key}}, next + 1, len(hits)
}
