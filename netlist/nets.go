package netlist

import (
	"slices"

	"loomwright/schematic"
)

// collectNets unites the nodes that wires, plugged contacts and joints connect.
func (n *Netlist) collectNets() {
	joined := NewGroups(len(n.Nodes))
	for i := range n.Branches {
		if br := &n.Branches[i]; br.sameNet() {
			joined.Join(br.A, br.B) // the lower index leads: nets are numbered by their first node
		}
	}
	number := make(map[int]int)
	for i := range n.Nodes {
		r := joined.Of(i)
		net, ok := number[r]
		if !ok {
			net = len(n.Nets)
			number[r] = net
			n.Nets = append(n.Nets, Net{})
		}
		n.Nodes[i].Net = net
		n.Nets[net].Nodes = append(n.Nets[net].Nodes, i)
	}
	for i := range n.Branches {
		if br := &n.Branches[i]; br.Role == RoleWire {
			net := &n.Nets[n.Nodes[br.A].Net]
			net.Wires = append(net.Wires, br.Wire)
		}
	}
	taken := map[string]bool{}
	for i := range n.Nets {
		n.Nets[i].Name = n.netName(&n.Nets[i], taken)
		taken[n.Nets[i].Name] = true
	}
}

// sameNet reports whether the branch only carries a potential on.
func (b *Branch) sameNet() bool {
	return b.Role != RoleElement || b.Element.Type == schematic.ElemJoint
}

// netName prefers what the builder calls the circuit, then ground metal, then
// the first pin.
func (n *Netlist) netName(net *Net, taken map[string]bool) string {
	var names []string
	for _, w := range net.Wires {
		if w.Circuit != "" {
			names = append(names, w.Circuit)
		}
	}
	slices.SortFunc(names, schematic.CompareNames)
	pins := make([]string, 0, len(net.Nodes))
	for _, i := range net.Nodes {
		if n.Nodes[i].Ground != "" {
			names = append([]string{n.Nodes[i].Name}, names...)
		}
		pins = append(pins, n.Nodes[i].Name)
	}
	slices.SortFunc(pins, schematic.CompareNames)
	for _, name := range append(names, pins...) {
		if !taken[name] {
			return name
		}
	}
	return pins[0]
}
