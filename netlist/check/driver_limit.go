package check

import (
	"fmt"

	"loomwright/netlist"
	"loomwright/schematic"
)

// unratedDrivers names the outputs of units that switch a load and have no
// limit, once for each unit: even a relay coil is too much for some.
func (r *run) unratedDrivers() {
	for _, p := range r.parts() {
		f := Finding{Severity: NotAssessed, Items: []schematic.Key{p.Key()}, Unit: "A"}
		var names []string
		var at *netlist.Solution
		most := 0.0
		for _, i := range r.n.PartBranches(p.ID) {
			br := &r.n.Branches[i]
			if br.Element.Type != schematic.ElemOutput || br.Value("limit_amp").Known() {
				continue
			}
			s, amp := r.worst(i, anyState)
			if s == nil || amp < leastOn {
				continue
			}
			if at == nil || amp > most {
				at, most = s, amp
			}
			f.Pins = append(f.Pins, pinsOf(br)...)
			names = append(names, br.Name())
		}
		if at == nil {
			continue
		}
		f.Value, f.Missing = schematic.Some(most), "the limit of "+list(names)
		each := "carries up to " + amps(most)
		if len(names) > 1 {
			each = "carry up to " + amps(most) + " each"
		}
		f.Text = fmt.Sprintf("%s %s; what the unit bears there is missing: look it up in the data of %s.", list(names), each, p.Name)
		r.add(of(at, f), "drivers")
	}
}
