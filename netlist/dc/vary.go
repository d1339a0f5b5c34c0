package dc

import "iter"

// Change is one change of one element, for [Network.Variations]. Make one with [Opened], [Closed], [WithOhm],
// [WithVolt], [WithAmp] or [WithLaw]; the zero value opens element 0.
type Change struct {
	element Element
	kind    changeKind
	value   float64
	law     Device
}

type changeKind uint8

const (
	changeOpen changeKind = iota
	changeClose
	changeOhm
	changeVolt
	changeAmp
	changeLaw
)

// Opened is the change that [Network.Open] makes.
func Opened(e Element) Change { return Change{element: e, kind: changeOpen} }

// Closed is the change that [Network.Close] makes.
func Closed(e Element) Change { return Change{element: e, kind: changeClose} }

// WithOhm is the change that [Network.SetOhm] makes.
func WithOhm(e Element, ohm float64) Change { return Change{element: e, kind: changeOhm, value: ohm} }

// WithVolt is the change that [Network.SetVolt] makes.
func WithVolt(e Element, volt float64) Change {
	return Change{element: e, kind: changeVolt, value: volt}
}

// WithAmp is the change that [Network.SetAmp] makes.
func WithAmp(e Element, amp float64) Change { return Change{element: e, kind: changeAmp, value: amp} }

// WithLaw is the change that [Network.SetDevice] makes.
func WithLaw(e Element, law Device) Change { return Change{element: e, kind: changeLaw, law: law} }

// Variations solves the network once for each of the changes, made alone to the network as it is: each wire open in
// turn, each switch the other way. It yields the number of the change, and the error of making it or of Solve. While
// the loop's body runs, sol holds that solution, the same to the last bit as after making the change for good, and the
// network is back as it was; after the loop, however it ends, it still is. A variation takes as long as a change and a
// Solve, and no memory.
func (n *Network) Variations(sol *Solution, changes []Change) iter.Seq2[int, error] {
	return func(yield func(int, error) bool) {
		for i, c := range changes {
			if !yield(i, n.solveWith(sol, c)) {
				return
			}
		}
	}
}

// solveWith makes a change, solves and takes the change back. What it takes to bring the factor back is left to the
// next Solve, which has the same columns to compute again for its own change, or some of them.
func (n *Network) solveWith(sol *Solution, c Change) error {
	e := c.element
	if !n.has(e) {
		return n.noElement("variation", e)
	}
	defer n.restore(e, n.open[e], n.rated[e], n.emf[e], n.law(e))
	if err := n.change(c); err != nil {
		return err
	}
	return n.Solve(sol)
}

// law returns the law of a device, nil for other elements.
func (n *Network) law(e Element) Device {
	if n.kind[e] != KindDevice {
		return nil
	}
	return n.devices[n.slot[e]].law
}

// change makes a change.
func (n *Network) change(c Change) error {
	switch c.kind {
	case changeClose:
		return n.Close(c.element)
	case changeOhm:
		return n.SetOhm(c.element, c.value)
	case changeVolt:
		return n.SetVolt(c.element, c.value)
	case changeAmp:
		return n.SetAmp(c.element, c.value)
	case changeLaw:
		return n.SetDevice(c.element, c.law)
	default:
		return n.Open(c.element)
	}
}

// restore gives an element the values it had. They were checked when it got them.
func (n *Network) restore(e Element, open bool, rated, emf float64, law Device) {
	switch n.kind[e] {
	case KindResistor:
		_ = n.SetOhm(e, rated)
	case KindVoltage:
		_ = n.SetOhm(e, rated)
		_ = n.SetVolt(e, emf)
	case KindCurrent:
		_ = n.SetAmp(e, rated)
	case KindDevice:
		n.devices[n.slot[e]] = newDevice(e, law)
	}
	if open {
		_ = n.Open(e)
	} else {
		_ = n.Close(e)
	}
}
