package check

import (
	"fmt"

	"loomwright/netlist"
	"loomwright/schematic"
)

var pullUp = Rule{
	ID:    "pull-up missing",
	Title: "Sensors that give a signal only against a pull-up",
	Help: "Hall sensors with an open collector and temperature sensors switch or divide a voltage they do not make: a resistor at the unit, inside it or " +
		"beside it, must lead from their signal to a supply. Inputs of a unit have one if their role says so.",
	Source: "common practice, no source",
	run: func(r *run) {
		grounds := isGround(r.n)
		for _, p := range r.parts() {
			for _, pin := range r.doc.PinsOf(p) {
				i := r.n.NodeOf(schematic.PinRef{Part: p.ID, Pin: pin.Name})
				if i >= 0 && r.signal(&r.n.Nodes[i]) == "pull-up" && r.wired(i) {
					r.pullUp(p, i, grounds)
				}
			}
		}
	},
}

func (r *run) pullUp(p *schematic.Part, node int, grounds []bool) {
	net := r.n.Nodes[node].Net
	var unit, sealed []int // nodes that read the signal: inputs that show what is inside, and others
	for _, i := range r.n.Nets[net].Nodes {
		at := &r.n.Nodes[i]
		for _, j := range r.n.At(i) {
			if br := &r.n.Branches[j]; br.Part != p && pulls(br) {
				if far := r.n.Nodes[br.Other(i)].Net; far != net && !grounds[far] {
					return
				}
			}
		}
		switch {
		case at.Part == nil || at.Part == p:
		case r.signal(at) == "input" && r.doc.KindOf(at.Part).OwnPins:
			unit = append(unit, i)
		case r.signal(at) == "input" || len(r.n.PartBranches(at.Part.ID)) == 0 && !r.passes(at.Part):
			sealed = append(sealed, i)
		}
	}
	name := r.n.Nodes[node].Name
	f := Finding{Severity: NotAssessed, Items: []schematic.Key{p.Key()}, Pins: []schematic.PinRef{r.n.Nodes[node].Pin}}
	for _, i := range append(append([]int{}, unit...), sealed...) {
		f.Items, f.Pins = append(f.Items, r.n.Nodes[i].Part.Key()), append(f.Pins, r.n.Nodes[i].Pin)
	}
	switch {
	case len(unit) > 0:
		f.Severity = Warning
		f.Text = fmt.Sprintf("%s gives a signal only against a pull-up: %s has none, and no resistor leads from there to a supply.", name, list(r.nodeNames(unit)))
	case len(sealed) > 0:
		f.Missing = "whether a pull-up is inside at " + list(r.nodeNames(sealed))
		f.Text = fmt.Sprintf("%s gives a signal only against a pull-up: whether one is inside at %s is missing.", name, list(r.nodeNames(sealed)))
	default:
		f.Missing = "what reads the signal"
		f.Text = fmt.Sprintf("%s gives a signal only against a pull-up, and nothing that reads it is drawn.", name)
	}
	r.add(f)
}

// pulls reports whether an element can pull a signal up: a resistor, or a load
// such as a tell-tale lamp.
func pulls(br *netlist.Branch) bool {
	return br.Role == netlist.RoleElement && (br.Element.Type == schematic.ElemResistor || br.IsLoad())
}

// passes reports whether a part only carries on, as connectors and splices do.
func (r *run) passes(p *schematic.Part) bool {
	k := r.doc.KindOf(p)
	return k != nil && (k.Passes || isConnector(k))
}

func (r *run) nodeNames(nodes []int) []string {
	var out []string
	for _, i := range nodes {
		out = append(out, r.n.Nodes[i].Name)
	}
	return out
}
