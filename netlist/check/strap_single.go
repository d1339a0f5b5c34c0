package check

import (
	"fmt"

	"loomwright/netlist"
	"loomwright/schematic"
)

var strapSingle = Rule{
	ID:    "single ground strap",
	Title: "Strap on which a whole metal depends",
	Help: "A strap or cable without which no way of wires leads from engine, body or frame to battery negative. When it breaks, the current " +
		"goes through control cables, bearings, screens and units. The only cable at the battery's own terminal is not named, every vehicle has one.",
	Source: "common practice, no source",
	run: func(r *run) {
		if r.n.Reference < 0 {
			return
		}
		for _, m := range r.metals() {
			r.strapSingle(m)
		}
	},
}

func (r *run) strapSingle(m metal) {
	b := r.strapBlocks()
	on, ok := b.between(m.node, r.n.Reference)
	if !ok {
		return // another rule says so
	}
	size, only := map[int]int{}, map[int]int{}
	for i, block := range b.of {
		if block >= 0 && on[block] {
			size[block]++
			only[block] = i
		}
	}
	terminal := 0
	for _, i := range r.n.At(r.n.Reference) {
		if r.n.Branches[i].Role == netlist.RoleWire {
			terminal++
		}
	}
	f := Finding{Severity: Note, Items: []schematic.Key{m.studs[0].Key()}, Unit: "A"}
	var names []string
	var at *netlist.Solution
	most, more := 0.0, false
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if block := b.of[i]; br.Role != netlist.RoleWire || block < 0 || size[block] != 1 || only[block] != i {
			continue
		}
		if terminal == 1 && (br.A == r.n.Reference || br.B == r.n.Reference) {
			continue
		}
		s, a := r.worst(i, anyState)
		if s != nil && a > most {
			at, most = s, a
		}
		more = more || r.starved(i)
		names, f.Items = append(names, br.Name()), append(f.Items, br.Key())
	}
	floor, _ := r.limit(limitLoaded)
	switch {
	case len(names) == 0 || most < floor && !more:
		return
	case more:
		f.Text = fmt.Sprintf("The %s depends on %s alone; how much flows there is more than the figures say, currents of loads are missing.", m.name, list(names))
		f.Severity, f.Missing = NotAssessed, "currents of loads"
		r.add(f, m.name)
		return
	}
	f.Value = schematic.Some(most)
	f.Text = fmt.Sprintf("The %s depends on %s alone for its ground, up to %s: a second strap would keep the current out of cables and units.", m.name, list(names), amps(most))
	f.Formula = fmt.Sprintf("without %s no way of wires leads from the %s to battery negative", list(names), m.name)
	r.add(of(at, f), m.name)
}
