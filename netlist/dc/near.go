package dc

import "math"

// SolveNear is [Network.Solve] for a network that differs little from the one solved last, by the resistance of a wire
// that has warmed, say. Devices begin where that left them, which takes half the steps or less. The result is
// that of Solve within the tolerance of the devices, not to the last bit, and the states of Demands are told by the
// voltages that Solve last found without them. Where there is nothing to begin from, or a Demand comes out
// starved or with much less voltage than before, so that another operating point may have been found than the one that
// Solve looks for, it solves as Solve does.
func (n *Network) SolveNear(sol *Solution) error {
	if n.stale.structure || n.stale.closed || n.stale.opened {
		return n.Solve(sol)
	}
	return n.solve(sol, n.settleNear)
}

// nearShare is the part of its voltage that a Demand must keep in SolveNear.
const nearShare = 0.8

func (n *Network) settleNear() (iterations int, err error) {
	for i := range n.devices {
		d := &n.devices[i]
		if n.open[d.e] {
			continue
		}
		if !d.known || !d.take(n.drop(n.work.x, d.e)) {
			return n.settle()
		}
		d.from = d.v
	}
	iterations, err = n.iterate(false)
	if err == nil && n.keptUp() {
		return iterations, nil
	}
	more, err := n.settle()
	return iterations + more, err
}

// keptUp reports whether all Demands work as before.
func (n *Network) keptUp() bool {
	for i := range n.devices {
		d := &n.devices[i]
		if !d.demand || n.open[d.e] {
			continue
		}
		now := n.drop(n.work.x, d.e)
		if math.Abs(now) < nearShare*math.Abs(d.from) || d.state(now) == StateStarved {
			return false
		}
	}
	return true
}
