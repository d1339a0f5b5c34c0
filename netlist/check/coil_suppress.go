package check

import (
	"fmt"
	"slices"

	"loomwright/netlist"
	"loomwright/schematic"
)

var coilSuppress = Rule{
	ID:    "coil without suppression",
	Title: "Coils that a control unit switches, with nothing across them",
	Help: "A relay or solenoid coil that is switched off throws up a hundred volts and more at the driver. A diode, a resistor or a " +
		"suppression diode across the coil takes it up: in the relay, or beside it. Some units have it inside for some " +
		"outputs; the drawing cannot say so. Valves and injectors are not looked at: units are made for them.",
	Source: "common practice, no source",
	run: func(r *run) {
		drivers := r.drivers()
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemCoil {
				r.coilSuppress(i, br, drivers)
			}
		}
	},
}

// drivers lists the outputs of units by the net of their pin.
func (r *run) drivers() map[int][]*netlist.Branch {
	out := map[int][]*netlist.Branch{}
	for i := range r.n.Branches {
		if br := &r.n.Branches[i]; br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemOutput && br.Pin != nil {
			net := r.n.Nodes[r.n.NodeOf(schematic.PinRef{Part: br.Part.ID, Pin: br.Pin.Name})].Net
			out[net] = append(out[net], br)
		}
	}
	return out
}

func (r *run) coilSuppress(coil int, br *netlist.Branch, drivers map[int][]*netlist.Branch) {
	ends := [2]int{r.n.Nodes[br.A].Net, r.n.Nodes[br.B].Net}
	if ends[0] == ends[1] {
		return
	}
	nets := ends[:]
	for i := range r.n.Branches {
		x := &r.n.Branches[i]
		if i == coil || x.Role != netlist.RoleElement {
			continue
		}
		a, b := r.n.Nodes[x.A].Net, r.n.Nodes[x.B].Net
		across := a == ends[0] && b == ends[1] || a == ends[1] && b == ends[0]
		if across && suppresses(x) {
			return
		}
		if x.Element.Type == schematic.ElemDiode && !across { // a driver behind a diode is one too
			switch {
			case slices.Contains(ends[:], a):
				nets = append(nets, b)
			case slices.Contains(ends[:], b):
				nets = append(nets, a)
			}
		}
	}
	f := Finding{Severity: Warning, Items: []schematic.Key{br.Key()}}
	var names []string
	for _, net := range nets {
		for _, d := range drivers[net] {
			if name := d.Part.Name + "." + d.Pin.Name; !slices.Contains(names, name) {
				names = append(names, name)
				f.Items, f.Pins = append(f.Items, d.Key()), append(f.Pins, schematic.PinRef{Part: d.Part.ID, Pin: d.Pin.Name})
			}
		}
	}
	if len(names) == 0 {
		return
	}
	f.Text = fmt.Sprintf("%s is switched by %s and has neither diode nor resistor across it.", br.Name(), list(names))
	r.add(f, br.Element.Name)
}

// suppresses reports whether an element across a coil takes up its voltage.
func suppresses(br *netlist.Branch) bool {
	switch br.Element.Type {
	case schematic.ElemDiode, schematic.ElemResistor, schematic.ElemLamp:
		return true
	case schematic.ElemOpen:
		return br.Element.Name == "clamp" // lets nothing through up to its own voltage
	}
	return false
}
