package dc

import "fmt"

// SetOhm changes the resistance of a resistor or the series resistance of a voltage source.
func (n *Network) SetOhm(e Element, ohm float64) error {
	if err := n.checkSet("resistance", e, checkOhm(ohm), KindResistor, KindVoltage); err != nil {
		return err
	}
	n.rated[e] = ohm
	if !n.open[e] {
		n.setConductance(e, 1/ohm)
	}
	return nil
}

// SetVolt changes the open-circuit voltage of a voltage source.
func (n *Network) SetVolt(e Element, volt float64) error {
	if err := n.checkSet("voltage", e, checkLimit("voltage", "V", volt, MaxVolt), KindVoltage, KindVoltage); err != nil {
		return err
	}
	n.setPush(e, volt, 0)
	return nil
}

// SetAmp changes the current of a current source.
func (n *Network) SetAmp(e Element, amp float64) error {
	if err := n.checkSet("current", e, checkLimit("current", "A", amp, MaxAmp), KindCurrent, KindCurrent); err != nil {
		return err
	}
	n.rated[e] = amp
	if !n.open[e] {
		n.setPush(e, 0, amp)
	}
	return nil
}

// SetDevice gives a device another law.
func (n *Network) SetDevice(e Element, law Device) error {
	if err := n.checkSet("law", e, checkLaw(law), KindDevice, KindDevice); err != nil {
		return err
	}
	n.devices[n.slot[e]] = newDevice(e, law)
	return nil
}

// Open cuts the element: it carries no current and connects nothing until [Network.Close]. Its value
// may be changed meanwhile.
func (n *Network) Open(e Element) error {
	if !n.has(e) {
		return n.noElement("open", e)
	}
	if n.open[e] {
		return nil
	}
	n.open[e] = true
	n.setPush(e, n.emf[e], 0)
	if n.kind[e] != KindCurrent {
		n.stale.opened = true
		n.setConductance(e, 0)
	}
	return nil
}

// Close puts an opened element back with the value it has.
func (n *Network) Close(e Element) error {
	if !n.has(e) {
		return n.noElement("close", e)
	}
	if !n.open[e] {
		return nil
	}
	n.open[e] = false
	switch n.kind[e] {
	case KindCurrent:
		n.setPush(e, 0, n.rated[e])
	case KindResistor, KindVoltage:
		n.stale.closed = true
		n.setConductance(e, 1/n.rated[e])
	case KindDevice: // Solve gives it its conductance
		n.stale.closed = true
	}
	return nil
}

// IsOpen reports whether e is open; an element that does not exist is.
func (n *Network) IsOpen(e Element) bool { return !n.has(e) || n.open[e] }

// setConductance changes the conductance of an element as the solver sees it.
func (n *Network) setConductance(e Element, g float64) { n.setTerms(e, g, n.emf[e], n.inj[e]) }

// setPush changes the voltage and the current of an active element as the solver sees them.
func (n *Network) setPush(e Element, emf, inj float64) { n.setTerms(e, n.g[e], emf, inj) }

// setTerms changes the terms in the law g·(v-emf) + inj of an element, and marks what depends on them.
func (n *Network) setTerms(e Element, g, emf, inj float64) {
	other := g != n.g[e]
	if !other && emf == n.emf[e] && inj == n.inj[e] {
		return
	}
	n.g[e], n.emf[e], n.inj[e] = g, emf, inj
	if n.stale.structure {
		return
	}
	at := n.sym.ends[e]
	if other {
		n.fac.dirty.conductance(&n.sym, at)
	}
	if n.kind[e] == KindResistor {
		q, _ := seat(n.branches.place[e])
		n.branches.siemens[q] = g
	} else {
		n.fac.dirty.push(&n.sym, at)
	}
}

func (n *Network) checkSet(what string, e Element, value error, first, second Kind) error {
	switch {
	case !n.has(e):
		return n.noElement("set "+what, e)
	case n.kind[e] != first && n.kind[e] != second:
		return fmt.Errorf("set %s of element %d: the element has none; it is a %v", what, e, n.kind[e])
	case value != nil:
		return fmt.Errorf("set %s of element %d: %w", what, e, value)
	}
	return nil
}

func (n *Network) noElement(what string, e Element) error {
	return fmt.Errorf("%s: there is no element %d; the network has %d elements", what, e, len(n.kind))
}

// String returns the name of the kind.
func (k Kind) String() string {
	switch k {
	case KindResistor:
		return "resistor"
	case KindCurrent:
		return "current source"
	case KindVoltage:
		return "voltage source"
	case KindDevice:
		return "device"
	}
	return fmt.Sprintf("Kind(%d)", uint8(k))
}
