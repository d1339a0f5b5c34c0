package check

import (
	"fmt"

	"loomwright/schematic"
)

var loadUnfused = Rule{
	ID:     "load without fuse",
	Title:  "Load with no fuse on the way from the source",
	Help:   "A load that can be fed from a source without passing a fuse, link or breaker, in any position of any contact. The starter motor itself is exempt, its control winding is not.",
	Source: "33 CFR 183.455 (from memory)",
	fuses:  true,
	run: func(r *run) {
		z := r.zones()
		said := map[schematic.ID]bool{}
		for i := range r.n.Branches {
			br := &r.n.Branches[i]
			if !br.IsLoad() || br.Element.Load == "starter" || said[br.Part.ID] || r.hasSource(br.Part) {
				continue
			}
			for _, node := range []int{br.A, br.B} {
				zone := z.of(node)
				if zone == ground || r.n.Nodes[node].Inner && isStarter(r.n, br.Part) {
					continue
				}
				if z.feed(zone).unfused() {
					said[br.Part.ID] = true
					limit, _ := r.limit(limitUnfused)
					text := br.Name() + " is fed without a fuse."
					if !r.n.Nodes[node].Inner {
						text = fmt.Sprintf("%s is fed at %s without a fuse.", br.Name(), r.n.Nodes[node].Name)
					}
					r.add(Finding{Severity: Error, Items: []schematic.Key{br.Key()}, remedy: func() []Fix { return r.fuseOnTheWay(-1, node, limit) },
						Text: text})
					break
				}
			}
		}
	},
}

// hasSource reports whether a part is a source itself.
func (r *run) hasSource(p *schematic.Part) bool {
	for _, i := range r.n.PartBranches(p.ID) {
		if r.n.Branches[i].IsSource() {
			return true
		}
	}
	return false
}
