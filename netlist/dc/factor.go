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
	zeros  int       // how many columns are the zero of a floating part

	// The solution on its way. What a column gets from those before it depends only on those below it in the elimination
	// tree, so that after a change just the path from there to the root is gone through again.
	pushed  []float64 // by column: current pushed into it by the elements but its rail, A
	carried []float64 // by column: current pushed into it, with what the columns before it pass on, A
	own     []float64 // by column: what the current carried into it makes there, V
	star    []star    // by column
	rail    []rail    // by voltage source

	dirty marks

	scratch []float64 // by row, zero between uses
}

// star is what it takes to find the voltage of a column from those of later ones.
type star struct {
	ground float64 // share that goes to the reference, without a rail that leads
	share  float64 // share that goes to other
	lead   int32   // the position the greatest share goes to, or a rail; all bits turned over if own is not zero
	other  int32   // the only position but lead a share goes to; lead itself if there is none, none if there are several
}

// rail is a voltage source that leads a column: one to the reference, with more conductance than all else around. It
// is then taken as a position of fixed voltage behind all others.
type rail struct {
	volt float64 // its voltage against the reference, V
	push float64 // the current it drives into a short circuit, A
}

// reset makes room for a factor with the given pattern, all of it to be computed.
func (f *factor) reset(s *symbolic, voltages int) {
	size := int(s.size)
	f.weight = resize(f.weight, len(s.rows))
	for _, column := range []*[]float64{&f.ground, &f.pivot, &f.inv, &f.pushed, &f.carried, &f.own, &f.scratch} {
		*column = resize(*column, size)
	}
	f.star = resize(f.star, size)
	f.rail = resize(f.rail, voltages)
	clear(f.rail)
	clear(f.scratch)
	for j := range f.inv {
		f.inv[j] = 1
		f.star[j].lead = s.size
	}
	f.zeros = 0
	f.dirty.all(size)
}

// refactor computes all marked columns. It returns false, and leaves the rest marked, if a negative conductance makes
// the network unstable: a star that sums to zero or less.
func (n *Network) refactor() bool {
	f := &n.fac
	for i, word := range f.dirty.column {
		for ; word != 0; word &= word - 1 {
			if !n.column(int32(i<<6 + bits.TrailingZeros64(word))) {
				f.dirty.column[i] = word
				return false
			}
		}
		f.dirty.column[i] = 0
	}
	return true
}

// stableShare is the part of a star's conductances that must remain after the negative ones are taken off.
const stableShare = 1e-12

// column computes column j from the conductances in it and from the columns before it.
func (n *Network) column(j int32) bool {
	s, f, bs := &n.sym, &n.fac, &n.branches
	w := f.scratch
	ground := 0.0
	for q := bs.ptr[j]; q < bs.ptr[j+1]; q++ {
		if row := bs.row[q]; row < s.size {
			w[row] += bs.siemens[q]
		} else {
			ground += bs.siemens[q]
		}
	}
	rail, source := none, 0.0
	if bs.activePtr[j] != bs.activePtr[j+1] {
		ground, rail, source = n.activeArms(j, ground)
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
	sum, size := ground+source, math.Abs(ground)+source
	lead, most := s.size, ground
	for i, row := range rows {
		c := w[row]
		w[row] = 0
		weight[i] = c
		sum += c
		size += math.Abs(c)
		if c > most {
			lead, most = row, c
		}
	}
	if size != 0 && !(sum > stableShare*size) {
		return false
	}
	if f.inv[j] == 0 {
		f.zeros--
	}
	inv := 0.0
	if size != 0 {
		inv = 1 / sum
	} else {
		f.zeros++
	}
	for i := range weight {
		weight[i] *= inv
	}
	f.pivot[j], f.inv[j], f.ground[j] = sum, inv, (ground+source)*inv

	st := &f.star[j]
	before, _ := upright(st.lead)
	st.lead, st.ground = lead, f.ground[j]
	if source > 0 && source > most {
		st.lead, st.ground = rail, ground*inv
	}
	st.lookAround(rows, weight)
	if before != st.lead && max(before, st.lead) > s.size {
		f.dirty.pushed.add(j)
	}
	return true
}

// lookAround fills in what the star shares with others than its lead.
func (st *star) lookAround(rows []int32, weight []float64) {
	st.other = st.lead
	for i, row := range rows {
		switch {
		case row == st.lead:
		case st.other == st.lead:
			st.other, st.share = row, weight[i]
		default:
			st.other = none
			return
		}
	}
}

// activeArms adds the conductances of the active elements in column j to the scratch row and to ground, but for that of
// the stiffest voltage source to the reference, which it returns apart.
func (n *Network) activeArms(j int32, ground float64) (total float64, rail int32, source float64) {
	s, bs := &n.sym, &n.branches
	rail = none
	for _, x := range bs.active[bs.activePtr[j]:bs.activePtr[j+1]] {
		e, atB := upright(x)
		row := s.ends[e].b
		if atB {
			row = s.ends[e].a
		}
		g := n.g[e]
		switch {
		case row < j:
		case row < s.size:
			n.fac.scratch[row] += g
		case n.kind[e] == KindVoltage && g > source:
			ground += source
			rail, source = s.size+1+n.slot[e], g
		default:
			ground += g
		}
	}
	return ground, rail, source
}

// resize returns a slice of n elements, s itself if it has room. Its contents are not defined.
func resize[T any](s []T, n int) []T {
	if cap(s) < n {
		return make([]T, n)
	}
	return s[:n]
}
