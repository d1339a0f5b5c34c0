package dc

import (
	"math"
	"math/bits"
)

// Iterative refinement is called for if
//   - the residuals together are more than refineSum of the largest current of an active element, or
//   - one is above noise of the currents at its node and above lastDigit of that largest current, or
//   - those above noise together move a voltage by more than refineVolt of the highest on its way to the root.
//
// A residual below noise is what the rounding of the currents themselves makes.
const (
	maxRefinements = 3

	noise      = 2e-15
	lastDigit  = 4.0 / (1 << 53)
	refineSum  = 1e-12
	refineVolt = 1e-13
)

// refine finds the currents, and improves the voltages by the currents missing at the nodes where that is called for.
// Devices are on their curves here, not on their tangents, so that with devices the first step is always taken: it is
// also the last step of Newton's method, in twice the digits. It returns whether more would be called for.
func (n *Network) refine(sol *Solution) (open bool) {
	w := &n.work
	n.flow()
	for sol.Refinements = 0; ; sol.Refinements++ {
		if open = len(n.devices) > 0 && sol.Refinements == 0 || !n.closes(); !open || sol.Refinements == maxRefinements {
			return open
		}
		w.residual[n.sym.size] = 0
		n.correct(w.residual)
		for j, v := range w.residual[:n.sym.size] {
			w.x[j] = w.x[j].plus(v)
		}
		n.flow()
	}
}

// closes reports whether no refinement is called for.
func (n *Network) closes() bool {
	w, b := &n.work, &n.work.balance
	sum := math.Sqrt(b.squares * float64(n.nodes)) // no less than the sum of the residuals
	if !(sum <= refineSum*(b.scale+floorAmp)) {
		sum = 0
		for _, left := range w.residual {
			sum += math.Abs(left)
		}
		if !(sum <= refineSum*(b.scale+floorAmp)) {
			return false
		}
	}
	kept := b.suspects[:0]
	for _, p := range b.suspects[:b.count] {
		left, gross := math.Abs(w.residual[p]), n.gross(p)
		switch {
		case left <= noise*(gross+floorAmp):
		case p == n.sym.size && left <= refineSum*b.scale: // as the sum of all others
		case p == n.sym.size || left > lastDigit*b.scale:
			return false
		default:
			kept = append(kept, p)
		}
	}
	b.count = len(kept)
	return len(kept) == 0 || n.moves(kept) <= refineVolt
}

// moves returns how far the residuals at some positions move a voltage, as a share of the highest on its way to the
// root. It looks at the columns on the ways of these positions only: the voltages of all others move by weighted means
// of those.
func (n *Network) moves(positions []int32) (share float64) {
	s, f, w := &n.sym, &n.fac, &n.work
	carried := f.scratch
	for _, j := range positions {
		carried[j] = w.residual[j]
		for ; j != none && !w.way.has(j); j = s.parent[j] {
			w.way.add(j)
		}
	}
	for i, word := range w.way {
		for ; word != 0; word &= word - 1 {
			j := i<<6 + bits.TrailingZeros64(word)
			weight := f.weight[s.colPtr[j]:s.colPtr[j+1]]
			for k, row := range s.rows[s.colPtr[j]:s.colPtr[j+1]] {
				carried[row] += weight[k] * carried[j]
			}
		}
	}
	for i := len(w.way) - 1; i >= 0; i-- {
		for word := w.way[i]; word != 0; {
			bit := 63 - bits.LeadingZeros64(word)
			word &^= 1 << bit
			j := i<<6 + bit
			move := carried[j] * f.inv[j]
			weight := f.weight[s.colPtr[j]:s.colPtr[j+1]]
			for k, row := range s.rows[s.colPtr[j]:s.colPtr[j+1]] {
				move += weight[k] * carried[row]
			}
			carried[j] = move
			highest := math.Abs(w.x[j].hi)
			if p := s.parent[j]; p != none {
				highest = max(highest, w.highest[p])
			}
			w.highest[j] = highest
			if move = math.Abs(move); !(move <= share*highest) {
				share = move / highest
			}
		}
	}
	for i, word := range w.way {
		for ; word != 0; word &= word - 1 {
			carried[i<<6+bits.TrailingZeros64(word)] = 0
		}
		w.way[i] = 0
	}
	return share
}
