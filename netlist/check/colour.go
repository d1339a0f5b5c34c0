package check

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"loomwright/schematic"
)

var sameColour = Rule{
	ID:    "same colour twice in a connector",
	Title: "Wires of one colour in one connector",
	Help: "Two wires of the same colour in one connector get swapped. Those of one net are exempt, so are drain wires, and pins of a " +
		"unit that are for the same ground or supply.",
	Source: "common practice, no source",
	run: func(r *run) {
		for _, p := range r.parts() {
			if k := r.doc.KindOf(p); k != nil && hasCavities(k, p) {
				r.sameColour(p)
			}
		}
	},
}

// sameColour names each colour of a connector that would mislead.
func (r *run) sameColour(p *schematic.Part) {
	type place struct {
		wire *schematic.Wire
		pin  schematic.PinRef
		what string // places of one sort may be swapped
	}
	drains := r.drains()
	byColour := map[schematic.Color][]place{}
	for _, pin := range r.doc.PinsOf(p) {
		ref := schematic.PinRef{Part: p.ID, Pin: pin.Name}
		for _, w := range r.wiresAt(ref) {
			if w.Color.IsZero() || drains[w.ID] {
				continue
			}
			byColour[w.Color] = append(byColour[w.Color], place{w, ref, r.sortOf(ref)})
		}
	}
	for _, c := range slices.SortedFunc(maps.Keys(byColour), func(a, b schematic.Color) int { return strings.Compare(a.String(), b.String()) }) {
		places := byColour[c]
		if !slices.ContainsFunc(places, func(x place) bool { return x.what != places[0].what }) {
			continue
		}
		f := Finding{Severity: Note, Items: []schematic.Key{p.Key()}}
		var names []string
		for _, x := range places {
			f.Items, f.Pins, names = append(f.Items, x.wire.Key()), append(f.Pins, x.pin), append(names, x.wire.Name)
		}
		slices.SortFunc(names, schematic.CompareNames)
		f.Text = fmt.Sprintf("%s in %s are of one colour, %s: they can be swapped unseen.", list(slices.Compact(names)), p.Name, c)
		if len(places) == 2 {
			f.Fixes = r.retraced(p, places[1].wire)
		}
		r.add(f, c.String())
	}
}

// sortOf tells the places of a connector apart whose wires must not be
// swapped: by net, but for the grounds and supplies of a unit, by what they
// are for.
func (r *run) sortOf(ref schematic.PinRef) string {
	node := r.n.NodeOf(ref)
	switch s := r.signal(&r.n.Nodes[node]); s {
	case "ground", "sensor-ground", "sensor-supply":
		return s
	}
	return fmt.Sprint(r.n.Nodes[node].Net)
}

// drains lists the drain wires of screens.
func (r *run) drains() map[schematic.ID]bool {
	out := map[schematic.ID]bool{}
	for g := range r.doc.Groups() {
		if (g.Drain != schematic.ID{}) {
			out[g.Drain] = true
		}
	}
	return out
}

var circuitColours = Rule{
	ID:     "circuit in several colours",
	Title:  "One circuit, one colour",
	Help:   "Wires that carry the name of one circuit have one base colour, so that it can be followed by eye; tracers tell its branches apart.",
	Source: "common practice, no source",
	run: func(r *run) {
		wires := map[string][]*schematic.Wire{}
		for _, w := range r.wires() {
			if w.Circuit != "" && !w.Color.IsZero() {
				wires[w.Circuit] = append(wires[w.Circuit], w)
			}
		}
		for _, circuit := range slices.SortedFunc(maps.Keys(wires), schematic.CompareNames) {
			colours := map[string][]string{}
			var items []schematic.Key
			for _, w := range wires[circuit] {
				colours[w.Color.Base] = append(colours[w.Color.Base], w.Name)
				items = append(items, w.Key())
			}
			if len(colours) < 2 {
				continue
			}
			var said []string
			for _, c := range slices.Sorted(maps.Keys(colours)) {
				said = append(said, c+" ("+list(colours[c])+")")
			}
			r.add(Finding{Severity: Note, Items: items, Text: fmt.Sprintf("Circuit %s has wires in several colours: %s.", circuit, list(said))}, circuit)
		}
	},
}

var noColour = Rule{
	ID:     "wire without colour",
	Title:  "Wires nobody gave a colour",
	Help:   "A wire without a colour cannot be ordered or found. Said once for the whole drawing.",
	Source: "the drawing",
	run: func(r *run) {
		var names []string
		var items []schematic.Key
		wires := r.wires()
		for _, w := range wires {
			if w.Color.IsZero() {
				names, items = append(names, w.Name), append(items, w.Key())
			}
		}
		f := Finding{Severity: Note, Items: append([]schematic.Key{r.doc.Info().Key()}, items...), Text: fmt.Sprintf("%s %s no colour.", list(names), has(len(names)))}
		switch len(names) {
		case 0:
			return
		case len(wires):
			f.Items, f.Text = f.Items[:1], "No wire has a colour."
		}
		r.add(f)
	},
}

// wires lists the wires of the document in the order of their names, in which
// the netlist has them.
func (r *run) wires() []*schematic.Wire {
	out := make([]*schematic.Wire, 0, r.doc.Len(schematic.TypeWire))
	for i := range r.n.Branches {
		if w := r.n.Branches[i].Wire; w != nil {
			out = append(out, w)
		}
	}
	return out
}
