package dc

import (
	"math"
	"math/bits"
)

// factor holds the numbers of the factorisation. Eliminating position j turns the star of conductances around it into
// a mesh: with d the sum of the star, the arm to i is kept as its share weight = arm/d, and two arms to i and k add
// arm(i)·arm(k)/d between i and k. The arm to the reference is treated alike but kept apart, as the reference has no row.
//
// A position whose star is empty has no path to the reference or to any later position: it becomes the zero of its
// floating part.
type factor struct {
	weight []float64 // by entry of the pattern: share of the star that goes to this row
	ground []float64 // by column: share of the star that goes to the reference
	pivot  []float64 // by column: sum of the star, S
	inv    []float64 // by column: 1/pivot, or 0 for the zero of a floating part

	dirty   []uint64  // columns to be computed again, one bit each
	scratch []float64 // by row, zero between uses
}

// reset makes room for a factor with the given pattern, all of it to be computed.
func (f *factor) reset(s *symbolic) {
	f.weight = resize(f.weight, len(s.rows))
	f.ground = resize(f.ground, int(s.size))
	f.pivot = resize(f.pivot, int(s.size))
	f.inv = resize(f.inv, int(s.size))
	f.scratch = resize(f.scratch, int(s.size))
	clear(f.scratch)
	f.dirty = resize(f.dirty, (int(s.size)+63)/64)
	f.touchAll(int(s.size))
}

// touch marks the columns that depend on a conductance in column j: j and all above it in the elimination tree.
func (f *factor) touch(parent []int32, j int32) {
	for j != none && f.dirty[j>>6]&(1<<(j&63)) == 0 {
		f.dirty[j>>6] |= 1 << (j & 63)
		j = parent[j]
	}
}

func (f *factor) touchAll(size int) {
	for i := range f.dirty {
		f.dirty[i] = math.MaxUint64
	}
	if tail := size & 63; tail != 0 {
		f.dirty[len(f.dirty)-1] = 1<<tail - 1
	}
}

// refactor computes all marked columns from the conductances g. It returns false, and leaves the rest marked, if a
// negative conductance makes the network unstable: a star that sums to zero or less.
func (f *factor) refactor(s *symbolic, g []float64) bool {
	for i, word := range f.dirty {
		for word != 0 {
			j := int32(i<<6 + bits.TrailingZeros64(word))
			if !f.column(s, g, j) {
				f.dirty[i] = word
				return false
			}
			word &= word - 1
		}
		f.dirty[i] = 0
	}
	return true
}

// column computes column j from the conductances in it and from the columns before it.
func (f *factor) column(s *symbolic, g []float64, j int32) bool {
	w := f.scratch
	ground := 0.0
	for q := s.elemPtr[j]; q < s.elemPtr[j+1]; q++ {
		c := g[s.elem[q]]
		if row := s.elemRow[q]; row < s.size {
			w[row] += c
		} else {
			ground += c
		}
	}
	for q := s.rowPtr[j]; q < s.rowPtr[j+1]; q++ {
		k, p := s.rowCol[q], s.rowPos[q]
		arm := f.weight[p] * f.pivot[k]
		if arm == 0 {
			continue
		}
		ground += arm * f.ground[k]
		rows := s.rows[p+1 : s.colPtr[k+1]]
		weight := f.weight[p+1 : s.colPtr[k+1]]
		for i, row := range rows {
			w[row] += arm * weight[i]
		}
	}
	rows := s.rows[s.colPtr[j]:s.colPtr[j+1]]
	weight := f.weight[s.colPtr[j]:s.colPtr[j+1]]
	sum, size := ground, math.Abs(ground)
	for i, row := range rows {
		c := w[row]
		w[row] = 0
		weight[i] = c
		sum += c
		size += math.Abs(c)
	}
	if size == 0 {
		f.pivot[j], f.inv[j], f.ground[j] = 0, 0, 0
		return true
	}
	if !(sum > stableShare*size) {
		return false
	}
	inv := 1 / sum
	for i := range weight {
		weight[i] *= inv
	}
	f.pivot[j], f.inv[j], f.ground[j] = sum, inv, ground*inv
	return true
}

// stableShare is the part of a star's conductances that must remain after the negative ones are taken off.
const stableShare = 1e-12

// solve turns the currents pushed into the positions, in A, into their voltages, in V, in place.
func (f *factor) solve(s *symbolic, x []float64) {
	for j := range s.size {
		v := x[j]
		if v == 0 {
			continue
		}
		rows := s.rows[s.colPtr[j]:s.colPtr[j+1]]
		weight := f.weight[s.colPtr[j]:s.colPtr[j+1]]
		for i, row := range rows {
			x[row] += weight[i] * v
		}
	}
	for j := s.size - 1; j >= 0; j-- {
		v := x[j] * f.inv[j]
		rows := s.rows[s.colPtr[j]:s.colPtr[j+1]]
		weight := f.weight[s.colPtr[j]:s.colPtr[j+1]]
		for i, row := range rows {
			v += weight[i] * x[row]
		}
		x[j] = v
	}
}

// resize returns a slice of n elements, s itself if it has room. Its contents are not defined.
func resize[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}
