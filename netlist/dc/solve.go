package dc

import "math"

// RelativeTolerance is how far a solution may miss Kirchhoff's current law at a node, as a share of the currents that
// meet there, and the power balance, as a share of the power given.
const RelativeTolerance = 1e-9

// floorAmp is the current that counts as none in all closing checks, A; floorShare is the same as a share of the
// largest current in the network, whose rounding has to go somewhere.
const (
	floorAmp   = 1e-12
	floorShare = 1e-13
)

// maxRefinements bounds the steps of iterative refinement, and refineAbove is the relative residual that calls for
// another one. The first step is always taken.
const (
	maxRefinements = 3
	refineAbove    = 1e-12
)

// work holds the vectors of a solution, by position.
type work struct {
	hi, lo    []float64 // voltages, V, as the sum of two: lo carries the digits hi has no room for
	next      []float64 // the voltages a Newton step leads to
	residual  []float64 // current into the node that goes nowhere, A
	gross     []float64 // sum of the absolute currents at the node, A
	amp       []float64 // by element: current from a to b, A
	curvature float64   // of the linear elements' co-content along a Newton step, W
	powerRoom float64   // power that the last digits of the devices' voltages make, W
}

// Solve finds the voltages and currents and puts them into sol, which keeps no tie to the network and may be used
// again for the next solve without new memory.
//
// An error is one of *[NoReturnError], *[LawError], *[ConvergenceError] and *[ClosureError]. With the last two sol
// holds what was found, for display, not for use; with the first two only its islands are valid.
func (n *Network) Solve(sol *Solution) error {
	n.prepare()
	sol.begin(n)
	if err := n.checkReturns(); err != nil {
		return err
	}
	var unsettled error
	if len(n.devices) == 0 {
		n.fac.refactor(&n.sym, n.g) // cannot fail: no conductance is negative
		n.solveInto(n.work.hi)
	} else {
		sol.Iterations, unsettled = n.settle()
		if _, broken := unsettled.(*LawError); broken {
			return unsettled
		}
	}
	sol.Converged = unsettled == nil
	n.refine(sol)
	closure := n.fill(sol)
	if unsettled != nil {
		return unsettled
	}
	return closure
}

// prepare brings order, pattern and islands up to date.
func (n *Network) prepare() {
	if n.stale.structure {
		n.analyse()
		n.fac.reset(&n.sym)
		w, places := &n.work, int(n.sym.size)+1
		w.hi, w.lo, w.next = resize(w.hi, places), resize(w.lo, places), resize(w.next, places)
		w.residual, w.gross = resize(w.residual, places), resize(w.gross, places)
		w.amp = resize(w.amp, len(n.kind))
	}
	if n.stale.topology {
		n.findIslands()
	}
	n.stale = stale{}
}

// solveInto solves the network with its present factor.
func (n *Network) solveInto(x []float64) {
	clear(x)
	for e, at := range n.sym.ends {
		if i := n.inj[e] - n.g[e]*n.emf[e]; i != 0 {
			x[at.a] -= i
			x[at.b] += i
		}
	}
	x[n.sym.size] = 0
	n.fac.solve(&n.sym, x)
}

// refine finds the currents, and improves the voltages by the currents missing at the nodes. Devices are on their
// curves here, not on their tangents, so that this is also the last step of Newton's method, in twice the digits.
func (n *Network) refine(sol *Solution) {
	w := &n.work
	clear(w.lo)
	worst := n.currents()
	for sol.Refinements = 0; sol.Refinements < maxRefinements; sol.Refinements++ {
		if sol.Refinements > 0 && worst <= refineAbove {
			return
		}
		w.residual[n.sym.size] = 0
		n.fac.solve(&n.sym, w.residual)
		for i, v := range w.residual {
			w.hi[i], w.lo[i] = twoSum(w.hi[i], w.lo[i]+v)
		}
		worst = n.currents()
	}
}

// currents finds the current of each element, the residual of each node, and the largest residual as a share of the
// currents at the node.
func (n *Network) currents() (worst float64) {
	w := &n.work
	clear(w.residual)
	clear(w.gross)
	w.powerRoom = 0
	for e, at := range n.sym.ends {
		i := n.g[e]*n.exactDrop(at, n.emf[e]) + n.inj[e]
		w.amp[e] = i
		w.residual[at.a] -= i
		w.residual[at.b] += i
		i = math.Abs(i)
		w.gross[at.a] += i
		w.gross[at.b] += i
	}
	for i := range n.devices {
		d := &n.devices[i]
		if n.open[d.e] {
			continue
		}
		at := n.sym.ends[d.e]
		v := n.exactDrop(at, 0)
		curve, slope := d.current(v)
		off := curve - w.amp[d.e]
		w.amp[d.e] = curve
		w.residual[at.a] -= off
		w.residual[at.b] += off
		room := roundingAmp(max(math.Abs(slope), math.Abs(n.g[d.e])), v)
		w.gross[at.a] += room / RelativeTolerance
		w.gross[at.b] += room / RelativeTolerance
		w.powerRoom += room * (math.Abs(w.hi[at.a]) + math.Abs(w.hi[at.b]))
	}
	for p, r := range w.residual {
		r = math.Abs(r)
		if r > worst*(w.gross[p]+floorAmp) {
			worst = r / (w.gross[p] + floorAmp)
		}
	}
	return worst
}

// exactDrop returns the voltage between two positions less emf, without losing the digits that lie below the last one
// of the voltages themselves.
func (n *Network) exactDrop(at ends, emf float64) float64 {
	w := &n.work
	drop, rest := twoSum(w.hi[at.a], -w.hi[at.b])
	drop, more := twoSum(drop, -emf)
	return drop + (rest + more + (w.lo[at.a] - w.lo[at.b]))
}

// twoSum returns a+b as its float64 and what that misses (Knuth 1969, 4.2.2).
func twoSum(a, b float64) (sum, rest float64) {
	sum = a + b
	part := sum - a
	return sum, (a - (sum - part)) + (b - part)
}
