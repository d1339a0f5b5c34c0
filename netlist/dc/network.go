package dc

import (
	"fmt"
	"math"
)

// Node is the number of a node, from 0 to one less than the count of nodes.
type Node int32

// NoNode stands where there is no node, for instance no reference.
const NoNode Node = -1

// Element is the handle of an element: 0 for the first one added, then counting up. Handles stay valid for the life
// of the network.
type Element int32

// NoElement stands where there is no element.
const NoElement Element = -1

// Kind tells what an element is.
type Kind uint8

// The kinds of elements.
const (
	KindResistor Kind = iota // a resistance
	KindCurrent              // an ideal current source
	KindVoltage              // a voltage source behind a series resistance
	KindDevice               // a current law over voltage
)

// Limits of the values a network takes. They lie far outside anything that carries a current on purpose and keep
// every product inside the range of float64.
const (
	MinOhm  = 1e-9 // smallest resistance, Ω
	MaxOhm  = 1e12 // largest resistance, Ω
	MaxVolt = 1e9  // largest source voltage, V
	MaxAmp  = 1e9  // largest source current, A
)

// Network is a set of nodes and the elements between them. Make one with [New]. It is not safe for use by several
// goroutines at once.
type Network struct {
	nodes     int
	reference Node

	// One entry per element: what the caller asked for.
	kind  []Kind
	a, b  []Node
	open  []bool
	rated []float64 // Ω of a resistor or voltage source, A of a current source
	slot  []int32   // position in devices or in voltages, -1 for other kinds

	// One entry per element: what the solver works with. The current from a to b is g·(v-emf) + inj.
	g, emf, inj []float64

	devices  []device
	sources  []Element // the current sources
	voltages []Element // the voltage sources
	actives  []Element // all but the resistors

	stale    stale
	sym      symbolic
	branches branches
	fac      factor
	islands  islands
	work     work
}

// stale says which results no longer fit the elements.
type stale struct {
	structure bool // nodes, elements or reference changed: order and pattern must be found again
	opened    bool // something was opened: an island may have been split
	closed    bool // something was closed: islands may have been joined
}

// New returns a network of the given number of nodes, numbered from 0, without elements and without a reference.
// A negative number counts as zero.
func New(nodes int) *Network {
	return &Network{
		nodes:     min(max(nodes, 0), math.MaxInt32),
		reference: NoNode,
		stale:     stale{structure: true},
	}
}

// Nodes returns the number of nodes.
func (n *Network) Nodes() int { return n.nodes }

// Elements returns the number of elements, open ones included.
func (n *Network) Elements() int { return len(n.kind) }

// Kind returns what e is; ok is false if there is no such element.
func (n *Network) Kind(e Element) (k Kind, ok bool) {
	if !n.has(e) {
		return 0, false
	}
	return n.kind[e], true
}

// SetReference names the node whose voltage is zero, usually the negative pole of the source. NoNode takes the
// reference away; every island is then a floating one.
func (n *Network) SetReference(node Node) error {
	if node != NoNode && !n.hasNode(node) {
		return fmt.Errorf("reference: there is no node %d; the network has %d nodes", node, n.nodes)
	}
	if node != n.reference {
		n.reference = node
		n.stale = stale{structure: true}
	}
	return nil
}

// Reference returns the reference node, or NoNode.
func (n *Network) Reference() Node { return n.reference }

// Resistor adds a resistance of the given ohms between a and b.
func (n *Network) Resistor(a, b Node, ohm float64) (Element, error) {
	if err := n.checkAdd("resistor", a, b, checkOhm(ohm)); err != nil {
		return NoElement, err
	}
	e := n.add(KindResistor, a, b)
	n.rated[e], n.g[e] = ohm, 1/ohm
	return e, nil
}

// CurrentSource adds an ideal source that drives amp from a through itself to b: it takes the current out of node a
// and pushes it into node b. It does not count as a connection between its ends.
func (n *Network) CurrentSource(a, b Node, amp float64) (Element, error) {
	if err := n.checkAdd("current source", a, b, checkLimit("current", "A", amp, MaxAmp)); err != nil {
		return NoElement, err
	}
	e := n.add(KindCurrent, a, b)
	n.sources = append(n.sources, e)
	n.rated[e], n.inj[e] = amp, amp
	return e, nil
}

// VoltageSource adds a source of the given open-circuit voltage, V(a)-V(b), behind a series resistance. A source
// without any resistance is not solvable in general and is an error.
func (n *Network) VoltageSource(a, b Node, volt, ohm float64) (Element, error) {
	err := checkLimit("voltage", "V", volt, MaxVolt)
	if err == nil {
		err = checkOhm(ohm)
	}
	if err := n.checkAdd("voltage source", a, b, err); err != nil {
		return NoElement, err
	}
	e := n.add(KindVoltage, a, b)
	n.slot[e] = int32(len(n.voltages))
	n.voltages = append(n.voltages, e)
	n.rated[e], n.g[e], n.emf[e] = ohm, 1/ohm, volt
	return e, nil
}

// Device adds an element with the given current law between a and b. The law must not change while the network uses
// it; see [Network.SetDevice] for a new one.
func (n *Network) Device(a, b Node, law Device) (Element, error) {
	if err := n.checkAdd("device", a, b, checkLaw(law)); err != nil {
		return NoElement, err
	}
	e := n.add(KindDevice, a, b)
	n.slot[e] = int32(len(n.devices))
	n.devices = append(n.devices, newDevice(e, law))
	return e, nil
}

// reserve makes room for the elements that a network of so many nodes mostly has.
func (n *Network) reserve() {
	room := min(n.nodes+n.nodes/4, 1<<18)
	n.kind, n.open, n.slot = make([]Kind, 0, room), make([]bool, 0, room), make([]int32, 0, room)
	n.a, n.b = make([]Node, 0, room), make([]Node, 0, room)
	n.rated, n.g, n.emf, n.inj = make([]float64, 0, room), make([]float64, 0, room), make([]float64, 0, room), make([]float64, 0, room)
}

func (n *Network) add(k Kind, a, b Node) Element {
	if n.kind == nil {
		n.reserve()
	}
	e := Element(len(n.kind))
	n.kind = append(n.kind, k)
	n.a, n.b = append(n.a, a), append(n.b, b)
	n.open = append(n.open, false)
	n.rated = append(n.rated, 0)
	n.slot = append(n.slot, -1)
	n.g, n.emf, n.inj = append(n.g, 0), append(n.emf, 0), append(n.inj, 0)
	if k != KindResistor {
		n.actives = append(n.actives, e)
	}
	n.stale = stale{structure: true}
	return e
}

func (n *Network) has(e Element) bool     { return e >= 0 && int(e) < len(n.kind) }
func (n *Network) hasNode(node Node) bool { return node >= 0 && int(node) < n.nodes }

// checkAdd puts the place in front of what is wrong with a new element.
func (n *Network) checkAdd(what string, a, b Node, value error) error {
	switch {
	case !n.hasNode(a) || !n.hasNode(b):
		return fmt.Errorf("%s from node %d to node %d: there is no such node; the network has %d nodes", what, a, b, n.nodes)
	case a == b:
		return fmt.Errorf("%s from node %d to node %d: both ends are one node; leave the element out or give it two nodes", what, a, b)
	case len(n.kind) >= math.MaxInt32:
		return fmt.Errorf("%s from node %d to node %d: the network is full", what, a, b)
	case value != nil:
		return fmt.Errorf("%s from node %d to node %d: %w", what, a, b, value)
	}
	return nil
}

func checkOhm(ohm float64) error {
	switch {
	case math.IsNaN(ohm):
		return fmt.Errorf("the resistance is not a number; give one from %g to %g Ω", MinOhm, MaxOhm)
	case ohm < MinOhm:
		return fmt.Errorf("the resistance %g Ω is below %g Ω; give its real small value or make both ends one node", ohm, MinOhm)
	case ohm > MaxOhm:
		return fmt.Errorf("the resistance %g Ω is above %g Ω; open the element instead", ohm, MaxOhm)
	}
	return nil
}

func checkLimit(what, unit string, value, limit float64) error {
	if !(math.Abs(value) <= limit) {
		return fmt.Errorf("the %s %g %s is not a number from -%g to %g %s", what, value, unit, limit, limit, unit)
	}
	return nil
}
