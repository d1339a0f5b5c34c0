package check

import (
	"loomwright/netlist"
	"loomwright/schematic"
)

// terminatesBus reports whether a load is a resistor between two bus wires,
// where no source is needed.
func (r *run) terminatesBus(br *netlist.Branch) bool {
	from, to := r.n.Nodes[br.A].Net, r.n.Nodes[br.B].Net
	return br.Element.Type == schematic.ElemResistor && from != to && r.onlyBus(from, br.Part) && r.onlyBus(to, br.Part)
}

// onlyBus reports whether other parts than besides have pins for a bus in a
// net, and no pin there is for anything else. Pins that only carry on, such as
// a connector's, say nothing.
func (r *run) onlyBus(net int, besides *schematic.Part) bool {
	bus := false
	for _, i := range r.n.Nets[net].Nodes {
		node := &r.n.Nodes[i]
		if node.Part == nil || node.Inner || node.Part == besides {
			continue
		}
		switch r.signal(node) {
		case "":
		case "bus-high", "bus-low":
			bus = true
		default:
			return false
		}
	}
	return bus
}

// signal returns what a pin says it is for.
func (r *run) signal(node *netlist.Node) string {
	if node.Part == nil || node.Pin.Pin == "" {
		return ""
	}
	if r.signals == nil {
		r.findSignals()
	}
	return r.signals[r.n.NodeOf(node.Pin)]
}

// findSignals looks at every pin once: rules ask of whole nets what they are for.
func (r *run) findSignals() {
	r.signals = make([]string, len(r.n.Nodes))
	for p := range r.doc.Parts() {
		k := r.doc.KindOf(p)
		if k == nil || len(k.Roles) == 0 {
			continue
		}
		for _, pin := range r.doc.PinsOf(p) {
			if i := r.n.NodeOf(schematic.PinRef{Part: p.ID, Pin: pin.Name}); i >= 0 {
				role, _ := k.Role(pin.Role)
				r.signals[i] = role.Signal
			}
		}
	}
}
