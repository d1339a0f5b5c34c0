package dc

import (
	"fmt"
	"math"
)

// ResistanceBetween returns the resistance between two nodes, Ω, as an ohmmeter sees it with all sources dead: voltage
// sources are their series resistances, current sources are open, and a device is the slope of its curve at 0 V, so
// that an ideal diode or a regulated source carries nothing but leakage. It is 0 from a node to itself and +Inf between
// islands. An error says that there is no such node, or is a *[LawError].
//
// It takes the factor that Solve has left, and time in proportion to the way of the two nodes to the root of the
// elimination tree. With devices, the first call after a Solve has their slopes to put into the factor.
func (n *Network) ResistanceBetween(a, b Node) (ohm float64, err error) {
	for _, v := range [2]Node{a, b} {
		if !n.hasNode(v) {
			return 0, fmt.Errorf("resistance between nodes %d and %d: there is no node %d; the network has %d nodes", a, b, v, n.nodes)
		}
	}
	n.prepare()
	if err := n.restDevices(); err != nil {
		return 0, err
	}
	if n.islands.of[a] != n.islands.of[b] {
		return math.Inf(1), nil
	}
	return n.fac.resistance(&n.sym, n.sym.position[a], n.sym.position[b]), nil
}

// restDevices puts the slopes of all devices at 0 V into the factor.
func (n *Network) restDevices() error {
	if len(n.devices) == 0 {
		return nil
	}
	for i := range n.devices {
		d := &n.devices[i]
		if n.open[d.e] {
			continue
		}
		_, slope := d.law.Current(0)
		if !finite(slope) {
			return &LawError{d.e, 0}
		}
		n.setConductance(d.e, max(slope, 0)+LeakSiemens)
	}
	n.refactor() // cannot fail: no conductance is negative
	return nil
}

// resistance sends a current of 1 A from position p to position q of the same island. With the factor LDLᵀ the voltage
// between them, and so the resistance, is a sum of squares: what each column carries, squared, over its pivot.
func (f *factor) resistance(s *symbolic, p, q int32) (ohm float64) {
	carried := f.scratch
	up := func(j int32) int32 { // the way ends at the reference or at a root
		if j == none || j >= s.size {
			return math.MaxInt32
		}
		return j
	}
	p, q = up(p), up(q)
	if p != math.MaxInt32 {
		carried[p]++
	}
	if q != math.MaxInt32 {
		carried[q]--
	}
	for p != q || p != math.MaxInt32 {
		j := min(p, q)
		i := carried[j]
		carried[j] = 0
		ohm += i * i * f.inv[j]
		weight := f.weight[s.colPtr[j]:s.colPtr[j+1]]
		for k, row := range s.rows[s.colPtr[j]:s.colPtr[j+1]] {
			carried[row] += weight[k] * i
		}
		if p == j {
			p = up(s.parent[j])
		}
		if q == j {
			q = up(s.parent[j])
		}
	}
	return ohm
}
