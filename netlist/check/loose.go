package check

import (
	"fmt"
	"math"

	"loomwright/netlist"
	"loomwright/schematic"
)

var loose = Rule{
	ID:     "loose wire end",
	Title:  "Wire that ends at nothing",
	Help:   "An end that is at no pin. It is a warning when the end is live in some operating state, else a note. Wires marked as parked are left out unless live.",
	Source: "the drawing",
	run: func(r *run) {
		for i := range r.n.Branches {
			if br := &r.n.Branches[i]; br.Role == netlist.RoleWire {
				r.loose(br, br.Wire.A, br.A, "A")
				r.loose(br, br.Wire.B, br.B, "B")
			}
		}
	},
}

// liveVolt is the voltage from which a loose end counts as live (judgement, no
// source).
const liveVolt = 1

func (r *run) loose(br *netlist.Branch, e schematic.End, node int, end string) {
	if r.n.Nodes[node].Pin.Pin != "" {
		return
	}
	if p := r.doc.Part(e.Part); p != nil && r.doc.KindOf(p) == nil {
		return // another rule asks for the kind
	}
	what := "is not connected"
	if !e.Loose() {
		what = fmt.Sprintf("names a pin %q that does not exist", e.Pin)
	}
	f := Finding{Severity: Note, Items: []schematic.Key{br.Wire.Key()}, Text: fmt.Sprintf("End %s of %s %s.", end, br.Wire.Name, what)}
	most := 0.0
	for _, s := range r.usable() {
		if v, ok := s.VoltAt(node); ok && math.Abs(v) > math.Max(most, liveVolt) {
			most = math.Abs(v)
			f = of(s, f)
		}
	}
	switch {
	case most > 0:
		f.Severity, f.Value, f.Unit = Warning, schematic.Some(most), "V"
		f.Text = fmt.Sprintf("End %s of %s %s and stands at %s: insulate it.", end, br.Wire.Name, what, volts(most))
	case br.Wire.Build == schematic.Parked:
		return
	case e.Loose():
		c := *br.Wire
		c.Build = schematic.Parked
		f.Fixes = []Fix{{Label: "mark " + c.Name + " as parked", Effect: "kept on purpose and not connected", Items: []schematic.Item{&c}}}
	}
	r.add(f, end)
}
