package dc

import "math"

// balance is what a run over all currents finds about how well they close.
type balance struct {
	tally
	scale float64 // largest current of an active element, A
	given float64 // power given out by active elements, W
	taken float64 // power taken up by active elements, W
	room  float64 // power that the last digits of the devices' voltages make, W

	// The first count of suspects are the positions whose residual is above noise against the resistors in their column
	// alone.
	suspects []int32
	count    int
}

// tally is what is counted at each position. Squares take less time than absolute values.
type tally struct {
	squares float64 // sum of the squares of the residuals, A²
	largest float64 // the largest of them, A²
	at      int     // its position
}

func (t tally) with(square float64, position int) tally {
	t.squares += square
	if square > t.largest {
		t.largest, t.at = square, position
	}
	return t
}

// flow finds the current of each element and what of the currents is missing at each position. Resistors are run over
// by column, so that the sum at a column is complete when the run has passed it.
func (n *Network) flow() {
	w, bs := &n.work, &n.branches
	clear(w.residual)
	w.balance = balance{suspects: w.balance.suspects}
	n.activeFlow()
	t, begin := tally{}, int32(0)
	for _, r := range bs.runs {
		switch r.own {
		case 1:
			t = n.flowSingle(t, begin, r.end)
		case 2:
			t = n.flowDouble(t, begin, r.end)
		default:
			t = n.flowMixed(t, begin, r.end)
		}
		begin = r.end
	}
	if n.reference != NoNode {
		left := w.residual[begin]
		t = t.with(left*left, int(begin))
		w.balance.suspect(int(begin))
	}
	w.balance.tally = t
}

// flowMixed runs over the columns from begin to end.
func (n *Network) flowMixed(t tally, begin, end int32) tally {
	w, bs := &n.work, &n.branches
	x := w.x
	q := int(bs.ptr[begin])
	for j := int(begin); j < int(end); j++ {
		v, left, squares := x[j], w.residual[j], 0.0
		for ; q < int(bs.ptr[j+1]); q++ {
			to := bs.row[q]
			i := bs.siemens[q] * v.minus(x[to])
			w.amp[q] = i
			w.residual[to] += i
			left -= i
			squares += i * i
		}
		w.residual[j] = left
		square := left * left
		t = t.with(square, j)
		if square > noise*noise*(squares+floorAmp*floorAmp) {
			w.balance.suspect(j)
		}
	}
	return t
}

// flowSingle runs over the columns from begin to end, which have one resistor each.
func (n *Network) flowSingle(t tally, begin, end int32) tally {
	w, bs := &n.work, &n.branches
	// Slices of equal length spare the checks of their bounds.
	residual := w.residual
	x := w.x[:len(residual)]
	own, sums := x[begin:end], residual[begin:end]
	sums = sums[:len(own)]
	q := bs.ptr[begin]
	row, siemens, amp := bs.row[q:][:len(own)], bs.siemens[q:][:len(own)], w.amp[q:][:len(own)]
	for j, v := range own {
		to := row[j]
		i := siemens[j] * v.minus(x[to])
		amp[j] = i
		residual[to] += i
		left := sums[j] - i
		sums[j] = left
		square := left * left
		t = t.with(square, int(begin)+j)
		if square > noise*noise*(i*i+floorAmp*floorAmp) {
			w.balance.suspect(int(begin) + j)
		}
	}
	return t
}

// flowDouble runs over the columns from begin to end, which have two resistors each.
func (n *Network) flowDouble(t tally, begin, end int32) tally {
	w, bs := &n.work, &n.branches
	residual := w.residual
	x := w.x[:len(residual)]
	own, sums := x[begin:end], residual[begin:end]
	sums = sums[:len(own)]
	q := bs.ptr[begin]
	row, siemens, amp := bs.row[q:][:2*len(own)], bs.siemens[q:][:2*len(own)], w.amp[q:][:2*len(own)]
	for j, v := range own {
		k := 2 * j
		if k+1 >= len(row) {
			break // for the compiler: it is never so
		}
		to := row[k]
		i := siemens[k] * v.minus(x[to])
		amp[k] = i
		residual[to] += i
		left, squares := sums[j]-i, i*i
		to = row[k+1]
		i = siemens[k+1] * v.minus(x[to])
		amp[k+1] = i
		residual[to] += i
		left -= i
		sums[j] = left
		square := left * left
		t = t.with(square, int(begin)+j)
		if square > noise*noise*(squares+i*i+floorAmp*floorAmp) {
			w.balance.suspect(int(begin) + j)
		}
	}
	return t
}

// suspect puts a position on the list. Each is put there once at most.
func (b *balance) suspect(position int) {
	b.suspects[b.count] = int32(position)
	b.count++
}

// activeFlow does the same for the active elements. Devices have the currents their laws give at the voltages found.
func (n *Network) activeFlow() {
	w := &n.work
	b := &w.balance
	for k, e := range n.actives {
		at := n.sym.ends[e]
		var i float64
		switch {
		case n.open[e]:
		case n.kind[e] == KindDevice:
			d := &n.devices[n.slot[e]]
			v := w.exactDrop(at, 0)
			var slope float64
			i, slope = d.current(v)
			d.room = roundingAmp(max(math.Abs(slope), math.Abs(n.g[e])), v)
			b.room += d.room * (math.Abs(w.x[at.a].hi) + math.Abs(w.x[at.b].hi))
		default:
			i = n.g[e]*w.exactDrop(at, n.emf[e]) + n.inj[e]
		}
		w.amp[len(n.branches.row)+k] = i
		w.residual[at.a] -= i
		w.residual[at.b] += i
		b.scale = max(b.scale, math.Abs(i))
		if watt := w.exactDrop(at, 0) * i; watt > 0 {
			b.taken += watt
		} else {
			b.given -= watt
		}
	}
}

// exactDrop returns the voltage between two positions less emf, without losing the digits that lie below the last one
// of the voltages themselves.
func (w *work) exactDrop(at ends, emf float64) float64 {
	drop, rest := twoSum(w.x[at.a].hi, -w.x[at.b].hi)
	drop, more := twoSum(drop, -emf)
	return drop + (rest + more + (w.x[at.a].lo - w.x[at.b].lo))
}

// gross returns the sum of the absolute currents at a position, A. What the last digits of the voltages of devices
// make of their currents counts as a share of RelativeTolerance of it.
func (n *Network) gross(p int32) float64 {
	bs, amp, sum := &n.branches, n.work.amp, 0.0
	if p < n.sym.size {
		for _, i := range amp[bs.ptr[p]:bs.ptr[p+1]] {
			sum += math.Abs(i)
		}
	}
	for _, q := range bs.lower[bs.lowerPtr[p]:bs.lowerPtr[p+1]] {
		sum += math.Abs(amp[q])
	}
	for _, x := range bs.active[bs.activePtr[p]:bs.activePtr[p+1]] {
		e, _ := upright(x)
		sum += math.Abs(amp[bs.place[e]])
		if n.kind[e] == KindDevice && !n.open[e] {
			sum += n.devices[n.slot[e]].room / RelativeTolerance
		}
	}
	return sum
}
