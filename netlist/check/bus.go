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
	if node.Part == nil {
		return ""
	}
	k := r.doc.KindOf(node.Part)
	if k == nil {
		return ""
	}
	pin, _ := r.doc.PinOf(node.Part, node.Pin.Pin)
	role, _ := k.Role(pin.Role)
	return role.Signal
}
