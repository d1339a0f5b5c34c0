package draw

import (
	"cmp"
	"math"
	"slices"

	"loomwright/schematic"
)

// Index finds what lies where on a sheet. It belongs to one list and, like it,
// never changes; it is safe for concurrent use.
type Index struct {
	hits  []hit
	spots buckets
}

// NewIndex returns the index of a list. Lists that no [Builder] made have no
// items.
func NewIndex(l *List) *Index {
	x := &Index{hits: l.things.hits()}
	x.spots = newBuckets(l.Size, len(x.hits), func(i int) Box { return x.hits[i].box })
	return x
}

// At returns what lies within radius mm of a place, best first: pins, then the
// part the place is on, wires, parts close by, texts, notes; the nearer first.
// An item comes once per pin and once for itself.
func (x *Index) At(p Point, radius float64) []Hit {
	if !(radius >= 0) || math.IsInf(radius, 0) || math.IsNaN(p.X+p.Y) {
		return nil
	}
	type found struct {
		rank rank
		Hit
	}
	var all []found
	box := Box{p, p}.Grow(radius)
	x.spots.each(box, func(i int32) {
		h := &x.hits[i]
		d := h.box.dist(p)
		if d > radius {
			return
		}
		all = append(all, found{h.rankAt(d), h.at(d)})
	})
	slices.SortFunc(all, func(a, b found) int {
		return cmp.Or(cmp.Compare(a.rank, b.rank), cmp.Compare(a.Dist, b.Dist), a.Key.Compare(b.Key),
			cmp.Compare(a.View, b.View), cmp.Compare(a.Pin, b.Pin))
	})
	out := make([]Hit, 0, len(all))
	for _, f := range all {
		if !slices.ContainsFunc(out, func(h Hit) bool { return h.Key == f.Key && h.Pin == f.Pin && h.View == f.View }) {
			out = append(out, f.Hit)
		}
	}
	return out
}

// In returns the items that touch an area, or with enclosed those that lie
// wholly in it, in the order of their keys. Designations and labels do not
// count; of a part shown several times, one symbol in the area is enough.
func (x *Index) In(area Box, enclosed bool) []schematic.Key {
	if area.Empty() {
		return nil
	}
	type shown struct {
		key  schematic.Key
		view string
	}
	touched, outside := map[shown]bool{}, map[shown]bool{}
	x.spots.each(area, func(i int32) {
		if h := &x.hits[i]; !h.loose && h.box.Touches(area) {
			touched[shown{h.key, h.view}] = true
		}
	})
	if enclosed {
		for i := range x.hits {
			if h := &x.hits[i]; !h.loose && !area.Encloses(h.box) {
				outside[shown{h.key, h.view}] = true
			}
		}
	}
	var keys []schematic.Key
	for s := range touched {
		if !outside[s] {
			keys = append(keys, s.key)
		}
	}
	slices.SortFunc(keys, schematic.Key.Compare)
	return slices.Compact(keys)
}

// buckets is a grid over boxes. Boxes that would fill very many cells are kept
// in a list of their own.
type buckets struct {
	cell   float64
	nx, ny int
	start  []int32 // per cell: where its entries begin; one more at the end
	item   []int32
	wide   []int32
}

const maxSpread = 256 // cells one box may fill

// newBuckets sorts n boxes into the cells of a sheet; those that would fill too
// many cells are kept apart.
func newBuckets(size Point, n int, box func(int) Box) buckets {
	b := buckets{cell: 10}
	// About a cell per item; more would only cost memory.
	for {
		b.nx, b.ny = int(max(size.X, 1)/b.cell)+1, int(max(size.Y, 1)/b.cell)+1
		if b.nx*b.ny <= max(4096, n) {
			break
		}
		b.cell *= 1.5
	}
	b.start = make([]int32, b.nx*b.ny+1)
	spread := func(i int, f func(cell int)) bool {
		r := box(i)
		if r.Empty() {
			return true
		}
		x0, y0, x1, y1 := b.cells(r)
		if (x1-x0+1)*(y1-y0+1) > maxSpread {
			return false
		}
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				f(y*b.nx + x)
			}
		}
		return true
	}
	for i := range n {
		if !spread(i, func(c int) { b.start[c+1]++ }) {
			b.wide = append(b.wide, int32(i))
		}
	}
	for c := range b.nx * b.ny {
		b.start[c+1] += b.start[c]
	}
	b.item = make([]int32, b.start[len(b.start)-1])
	at := slices.Clone(b.start)
	for i := range n {
		spread(i, func(c int) {
			b.item[at[c]] = int32(i)
			at[c]++
		})
	}
	return b
}

func (b *buckets) cells(r Box) (x0, y0, x1, y1 int) {
	at := func(v float64, n int) int {
		if !(v > 0) {
			return 0
		}
		return int(math.Min(v/b.cell, float64(n-1)))
	}
	return at(r.Min.X, b.nx), at(r.Min.Y, b.ny), at(r.Max.X, b.nx), at(r.Max.Y, b.ny)
}

// each calls f for every item that may touch the box, some more than once.
func (b *buckets) each(r Box, f func(int32)) {
	if r.Empty() {
		return
	}
	for _, i := range b.wide {
		f(i)
	}
	x0, y0, x1, y1 := b.cells(r)
	for y := y0; y <= y1; y++ {
		row := y * b.nx
		for c := row + x0; c <= row+x1; c++ {
			for _, i := range b.item[b.start[c]:b.start[c+1]] {
				f(i)
			}
		}
	}
}
