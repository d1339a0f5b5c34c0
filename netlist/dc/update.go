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

// setConductance changes what the solver sees and marks what depends on it.
func (n *Network) setConductance(e Element, g float64) {
	if g == n.g[e] {
		return
	}
	n.g[e] = g
	if n.stale.structure {
		return
	}
	at := n.sym.ends[e]
	n.fac.touchColumn(n.sym.parent, min(at.a, at.b))
	if n.kind[e] == KindResistor {
		n.branches.siemens[n.branches.place[e]] = g
	} else {
		n.touchEnds(at)
	}
}

// setPush changes the voltage and the current in the law g·(v-emf) + inj of an element, and marks what depends on it.
func (n *Network) setPush(e Element, emf, inj float64) {
	if emf == n.emf[e] && inj == n.inj[e] {
		return
	}
	n.emf[e], n.inj[e] = emf, inj
	if !n.stale.structure {
		n.touchEnds(n.sym.ends[e])
	}
}

// touchEnds marks what depends on the currents pushed into the two positions.
func (n *Network) touchEnds(at ends) {
	if at.a < n.sym.size {
		n.fac.touchPushed(n.sym.parent, at.a)
	}
	if at.b < n.sym.size {
		n.fac.touchPushed(n.sym.parent, at.b)
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
