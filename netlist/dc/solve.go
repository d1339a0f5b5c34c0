package dc

// RelativeTolerance is how far a solution may miss Kirchhoff's current law at a node, as a share of the currents that
// meet there, and the power balance, as a share of the power given.
const RelativeTolerance = 1e-9

// floorAmp is the current that counts as none in all closing checks, A; floorShare is the same as a share of the
// largest current in the network, whose rounding has to go somewhere.
const (
	floorAmp   = 1e-12
	floorShare = 1e-13
)

// work holds the vectors of a solution.
type work struct {
	// By position; x and next go on with the rails.
	x        []volt    // voltages
	next     []volt    // the voltages a Newton step leads to
	residual []float64 // current into the node that goes nowhere, A
	highest  []float64 // largest absolute voltage on the way to the root, V
	way      columnSet // columns on such ways; empty between uses

	amp       []float64 // by place: current out of the column through a resistor, from a to b through an active element, A
	balance   balance
	curvature float64 // of the linear elements' co-content along a Newton step, W
}

// Solve finds the voltages and currents and puts them into sol, which keeps no tie to the network and may be used
// again for the next solve without new memory.
//
// An error is one of *[NoReturnError], *[LawError], *[ConvergenceError] and *[ClosureError]. With the last two sol
// holds what was found, for display, not for use; with the first two only its islands are valid.
func (n *Network) Solve(sol *Solution) error { return n.solve(sol, n.settle) }

func (n *Network) solve(sol *Solution, settle func() (int, error)) error {
	n.prepare()
	sol.begin(n)
	if err := n.checkReturns(); err != nil {
		sol.blank()
		return err
	}
	var unsettled error
	if len(n.devices) == 0 {
		n.linear(n.work.x)
	} else {
		sol.Iterations, unsettled = settle()
		if _, broken := unsettled.(*LawError); broken {
			sol.blank()
			return unsettled
		}
	}
	sol.Converged = unsettled == nil
	open := n.refine(sol)
	n.report(sol)
	closure := n.checkClosure(sol, !open)
	if unsettled != nil {
		return unsettled
	}
	return closure
}

// prepare brings order, pattern, factor and islands up to date; with devices the factor follows later.
func (n *Network) prepare() {
	if n.stale.structure {
		n.analyse()
		n.branches.file(n)
		n.fac.reset(&n.sym, len(n.voltages))
		n.work.reset(int(n.sym.size)+1, len(n.voltages), len(n.kind))
	}
	if len(n.devices) == 0 {
		n.refactor() // cannot fail: no conductance is negative
	}
	if n.islandsStale() {
		n.findIslands()
	}
	n.stale = stale{}
}

func (w *work) reset(positions, rails, elements int) {
	w.x, w.next = resize(w.x, positions+rails), resize(w.next, positions+rails)
	w.residual = resize(w.residual, positions)
	w.amp = resize(w.amp, elements)
	w.highest = resize(w.highest, positions)
	w.way = resize(w.way, (positions+63)/64)
	clear(w.way)
	w.balance.suspects = resize(w.balance.suspects, positions)
}
