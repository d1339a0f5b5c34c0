package check

import (
	"fmt"

	"loomwright/netlist"
	"loomwright/schematic"
)

var strapMissing = Rule{
	ID:    "ground strap missing",
	Title: "Engine, body or frame that no strap joins with battery negative",
	Help: "Engine, body and frame are joined only by straps and cables, the rubber mounts between them do not conduct. From the studs of " +
		"each metal a way of wires, plugs, splices and studs must lead to battery negative; through the inside of a unit or a load is no way.",
	Source: "common practice, no source",
	run: func(r *run) {
		if r.n.Reference < 0 {
			return // another rule says so
		}
		for _, m := range r.metals() {
			r.strapMissing(m)
		}
	},
}

func (r *run) strapMissing(m metal) {
	if _, joined := r.strapBlocks().between(m.node, r.n.Reference); joined {
		return
	}
	f := Finding{Severity: Warning}
	for k, p := range m.studs {
		f.Items = append(f.Items, p.Key())
		if pin := r.n.Nodes[r.n.Branches[m.joints[k]].Other(m.node)].Pin; pin.Pin != "" {
			f.Pins = append(f.Pins, pin)
		}
	}
	if p := r.unknownPart(m.node); p != nil {
		f.Severity, f.Missing = NotAssessed, "the kind "+p.Kind
		f.Text = fmt.Sprintf("Whether a strap joins the %s with battery negative is not assessed: nobody defines the kind %q of %s.", m.name, p.Kind, p.Name)
		r.add(f, m.name)
		return
	}
	f.Text = fmt.Sprintf("No strap joins the %s with battery negative or the other metal: its currents look for ways through units, cables and bearings.", m.name)
	f.Fixes = r.strapTo(m)
	if s, amp := r.throughUnits(m); s != nil {
		f = of(s, f)
		f.Value, f.Unit = schematic.Some(amp), "A"
		f.Text = fmt.Sprintf("No strap joins the %s with battery negative: %s return through the inside of units.", m.name, amps(amp))
	}
	r.add(f, m.name)
}

// unknownPart returns a part of a kind nobody defines that hangs on a node.
func (r *run) unknownPart(node int) *schematic.Part {
	b := r.strapBlocks()
	for _, p := range r.n.Unknown {
		for i := range r.n.Branches {
			br := &r.n.Branches[i]
			if br.Role != netlist.RoleWire || br.Wire.A.Part != p.ID && br.Wire.B.Part != p.ID {
				continue
			}
			if _, ok := b.between(br.A, node); ok {
				return p
			}
		}
	}
	return nil
}

// throughUnits returns the largest current that leaves a metal in any state;
// without a strap it goes through something else.
func (r *run) throughUnits(m metal) (*netlist.Solution, float64) {
	var at *netlist.Solution
	most := leastOn
	for _, s := range r.usable() {
		if _, ok := s.VoltAt(m.node); !ok {
			continue
		}
		if _, _, sum := r.leaving(m, s); sum > most {
			at, most = s, sum
		}
	}
	return at, most
}
