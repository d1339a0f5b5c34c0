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
		drivers, elements := r.drivers(), r.elementsByEnds()
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemCoil {
				r.coilSuppress(i, drivers, elements)
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

// byEnds tells what lies between nets.
type byEnds struct {
	suppressed map[[2]int]bool // something between the two, in either order, takes up the voltage of coils
	diodes     map[int][]int   // net → diodes that end there
}

func (r *run) elementsByEnds() byEnds {
	e := byEnds{map[[2]int]bool{}, map[int][]int{}}
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		a, b := r.n.Nodes[br.A].Net, r.n.Nodes[br.B].Net
		if br.Role != netlist.RoleElement || a == b {
			continue
		}
		if suppresses(br) {
			e.suppressed[[2]int{a, b}], e.suppressed[[2]int{b, a}] = true, true
		}
		if br.Element.Type == schematic.ElemDiode {
			e.diodes[a], e.diodes[b] = append(e.diodes[a], i), append(e.diodes[b], i)
		}
	}
	return e
}

func (r *run) coilSuppress(coil int, drivers map[int][]*netlist.Branch, elements byEnds) {
	br := &r.n.Branches[coil]
	ends := [2]int{r.n.Nodes[br.A].Net, r.n.Nodes[br.B].Net}
	if ends[0] == ends[1] || elements.suppressed[ends] {
		return
	}
	nets := ends[:]
	for _, end := range ends { // a driver behind a diode is one too
		for _, i := range elements.diodes[end] {
			x := &r.n.Branches[i]
			nets = append(nets, r.n.Nodes[x.A].Net, r.n.Nodes[x.B].Net)
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
	f.Fixes = r.diodeAcross(coil)
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
