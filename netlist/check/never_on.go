package check

import (
	"fmt"
	"math"

	"loomwright/schematic"
)

var neverOn = Rule{
	ID:     "load never switched on",
	Title:  "Load that draws nothing in any operating state",
	Help:   "What no operating state switches on is not assessed: neither its wires nor its fuse see its current. Pins of a control unit and the terminators of a bus are exempt.",
	Source: "the operating states",
	run: func(r *run) {
		if r.n.Reference < 0 || len(r.usable()) == 0 || len(r.doc.States()) == 0 {
			return
		}
		on := map[schematic.ID]bool{}
		asked := map[schematic.ID]*schematic.Part{}
		var order []*schematic.Part
		for i := range r.n.Branches {
			br := &r.n.Branches[i]
			if !br.IsLoad() || br.Pin != nil || len(br.Missing) > 0 || r.hasSource(br.Part) || r.terminatesBus(br) {
				continue
			}
			if asked[br.Part.ID] == nil {
				asked[br.Part.ID] = br.Part
				order = append(order, br.Part)
			}
			for _, s := range r.usable() {
				on[br.Part.ID] = on[br.Part.ID] || math.Abs(s.Amp[i]) > leastOn
			}
		}
		for _, p := range order {
			if !on[p.ID] && !r.isFloating(p) {
				r.add(Finding{Severity: NotAssessed, Items: []schematic.Key{p.Key()}, Missing: "an operating state that switches it on",
					Text: fmt.Sprintf("No operating state switches %s on, so its circuit is not assessed.", p.Name)})
			}
		}
	},
}

// leastOn is the current from which a load counts as on, A: leaks stay below
// (judgement, no source).
const leastOn = 1e-4

// isFloating reports whether another rule has said that a part has no circuit.
func (r *run) isFloating(p *schematic.Part) bool {
	if r.unfed == nil {
		r.unfed = map[schematic.Key]bool{}
		for _, f := range r.out {
			if f.Rule == floatingID {
				r.unfed[f.Items[0]] = true
			}
		}
	}
	return r.unfed[p.Key()]
}
