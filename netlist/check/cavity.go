package check

import (
	"fmt"
	"math"
	"slices"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

var cavityRule = Rule{
	ID:    "cavity badly filled",
	Title: "Wires in the cavities of connectors",
	Help: "A contact and its seal are made for one wire: two wires in one cavity belong in a splice. Contacts of a width take a range of " +
		"wire sizes; outside it the crimp does not hold or does not close.",
	Source: "common practice, no source",
	run: func(r *run) {
		for _, p := range r.parts() {
			if k := r.doc.KindOf(p); k != nil && hasCavities(k, p) {
				r.cavities(p)
			}
		}
	},
}

var openCavity = Rule{
	ID:     "open cavity in sealed housing",
	Title:  "Unused cavities of sealed housings",
	Help:   "Water comes in through every unused cavity that no plug closes. Only the cavities drawn are looked at.",
	Source: "common practice, no source",
	run: func(r *run) {
		for _, p := range r.parts() {
			if k := r.doc.KindOf(p); k != nil && p.Housing != nil && p.Housing.Sealed && p.Housing.Plug == "" {
				r.openCavities(p)
			}
		}
	},
}

// hasCavities reports whether the pins of a part are cavities of a connector.
func hasCavities(k *schematic.Kind, p *schematic.Part) bool {
	return isConnector(k) || p.Housing != nil
}

// wiresAt lists the wires that end at a pin, by name.
func (r *run) wiresAt(ref schematic.PinRef) []*schematic.Wire {
	node := r.n.NodeOf(ref)
	if node < 0 {
		return nil
	}
	var out []*schematic.Wire
	for _, i := range r.n.At(node) {
		if w := r.n.Branches[i].Wire; w != nil && !slices.Contains(out, w) {
			out = append(out, w)
		}
	}
	slices.SortFunc(out, func(a, b *schematic.Wire) int { return schematic.CompareNames(a.Name, b.Name) })
	return out
}

func (r *run) cavities(p *schematic.Part) {
	for _, pin := range r.doc.PinsOf(p) {
		ref := schematic.PinRef{Part: p.ID, Pin: pin.Name}
		wires := r.wiresAt(ref)
		f := Finding{Items: []schematic.Key{p.Key()}, Pins: []schematic.PinRef{ref}}
		var names []string
		for _, w := range wires {
			f.Items, names = append(f.Items, w.Key()), append(names, w.Name)
		}
		if len(wires) > 1 {
			f.Severity = Warning
			f.Text = fmt.Sprintf("%s share the cavity %s.%s: join them in a splice.", list(names), p.Name, pin.Name)
			r.add(f, "shared")
		}
		for _, w := range wires {
			r.wireInContact(p, ref, w)
		}
	}
}

// wireInContact holds the size of a wire against what a contact takes.
func (r *run) wireInContact(p *schematic.Part, ref schematic.PinRef, w *schematic.Wire) {
	if p.Housing == nil {
		return
	}
	area, known := w.Size.AreaMM2()
	least, most, source, ok := contactWires(p.Housing)
	if !ok || !known || area >= least && area <= most {
		return // another rule asks for the size of the wire
	}
	f := Finding{Severity: Warning, Items: []schematic.Key{p.Key(), w.Key()}, Pins: []schematic.PinRef{ref}, Unit: "mm2", Value: schematic.Some(area), Source: source}
	at := "contact of " + p.Name + "." + ref.Pin
	if width, given := p.Housing.ContactMM.Get(); given {
		at = mm(width) + " " + at
	}
	word := "thin"
	f.Limit, f.Margin = schematic.Some(least), schematic.Some(area-least)
	if area > most {
		word = "thick"
		f.Limit, f.Margin = schematic.Some(most), schematic.Some(most-area)
	} else {
		f.Fixes = thickEnough(w, least, most, p.Name+"."+ref.Pin)
	}
	takes := num(least) + " to " + num(most) + " mm²"
	switch {
	case !p.Housing.WireMinMM2.Known() && p.Housing.WireMaxMM2.Known():
		takes = "up to " + num(most) + " mm²"
	case p.Housing.WireMinMM2.Known() && !p.Housing.WireMaxMM2.Known():
		takes = num(least) + " mm² and more"
	}
	f.Text = fmt.Sprintf("%s (%s) is %s for the %s, which takes %s.", w.Name, w.Size, word, at, takes)
	f.Formula = fmt.Sprintf("%s: %s mm²", w.Size, num(area))
	r.add(f, w.ID.String())
}

// contactWires returns the wires, in mm², that the contacts of a housing take:
// as its terminals are described, else what is usual for their width.
func contactWires(h *schematic.Housing) (least, most float64, source string, ok bool) {
	if h.WireMinMM2.Known() || h.WireMaxMM2.Known() {
		return h.WireMinMM2.Or(0), h.WireMaxMM2.Or(math.Inf(1)), "the sizes given for its terminals", true
	}
	width, known := h.ContactMM.Get()
	list := tables.ContactWires()
	row, found := list.Find(func(c tables.ContactWireRow) bool { return c.TabMM == width })
	return row.MinMM2, row.MaxMM2, list.Source.String(), known && found
}

// cavityPlug stands in a housing until somebody writes which plug it takes.
const cavityPlug = "cavity plug"

func (r *run) openCavities(p *schematic.Part) {
	f := Finding{Severity: Warning, Items: []schematic.Key{p.Key()}}
	var names []string
	for _, pin := range r.doc.PinsOf(p) {
		ref := schematic.PinRef{Part: p.ID, Pin: pin.Name}
		if node := r.n.NodeOf(ref); node >= 0 && !slices.ContainsFunc(r.n.At(node), func(i int) bool { return r.n.Branches[i].Role == netlist.RoleWire }) {
			names, f.Pins = append(names, pin.Name), append(f.Pins, ref)
		}
	}
	if len(names) == 0 {
		return
	}
	f.Text = fmt.Sprintf("%s %s of %s %s no wire, and its sealed housing has no plugs for them.", upper(cavities(len(names))), list(names), p.Name, has(len(names)))
	plugged, housing := *p, *p.Housing
	housing.Plug = cavityPlug
	plugged.Housing = &housing
	f.Fixes = []Fix{{Label: "close the unused cavities of " + p.Name + " with plugs", Items: []schematic.Item{&plugged},
		Effect: fmt.Sprintf("%d to order, named %q until you write which", len(names), cavityPlug)}}
	r.add(f)
}
