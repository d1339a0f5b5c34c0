package check

import (
	"fmt"
	"math"
	"slices"

	"loomwright/schematic"
)

// crowd gathers the wires that keep a limit by the number of loaded wires round
// them, but would not if wires whose loads nobody gave a current count as loaded.
type crowd struct {
	r      *run
	wires  []int
	behind []int // loads without data
}

// keeps enters a wire that bears a current by the figures.
func (c *crowd) keeps(branch int, amp float64) {
	r := c.r
	more, loads := r.crowdedUnknown(branch)
	if len(loads) == 0 {
		return
	}
	br := &r.n.Branches[branch]
	rated, err := r.ampacity(br.Wire, br.Conductor.AmbientC, r.mostCrowded(branch)+more)
	if err != nil || amp <= rated.Value {
		return
	}
	c.wires, c.behind = append(c.wires, branch), append(c.behind, loads...)
}

// tell says what was gathered: whether the wires do what is not assessed.
func (c *crowd) tell(what string) {
	if len(c.wires) == 0 {
		return
	}
	r := c.r
	slices.Sort(c.behind)
	c.behind = slices.Compact(c.behind)
	names, items := r.n.Names(c.behind), r.keys(c.wires)
	items = append(items, r.keys(c.behind)...)
	r.add(Finding{Severity: NotAssessed, Items: items, Missing: "the current of " + list(names),
		Text: fmt.Sprintf("Whether %s %s is not assessed: how many wires round them are loaded hangs on the current of %s, which is missing.",
			list(r.n.Names(c.wires)), what, list(names))}, "crowd")
}

// crowdedUnknown counts, in the segment of a wire's route where it is most, the
// other wires that count as not loaded because the current of a load is
// missing, and names the loads.
func (r *run) crowdedUnknown(branch int) (most int, loads []int) {
	if len(r.shaded()) == 0 {
		return 0, nil
	}
	if r.dim == nil {
		r.dim = map[schematic.ID][]int{}
		floor, _ := r.limit(limitLoaded)
		for i := range r.n.Branches {
			if w := r.n.Branches[i].Wire; w != nil && r.starved(i) {
				if _, a := r.worst(i, anyState); math.Abs(a) < floor {
					for _, id := range w.Route {
						r.dim[id] = append(r.dim[id], i)
					}
				}
			}
		}
	}
	for _, id := range r.n.Branches[branch].Wire.Route {
		n := 0
		for _, i := range r.dim[id] {
			if i != branch {
				n++
				loads = append(loads, r.shaded()[i]...)
			}
		}
		most = max(most, n)
	}
	return most, loads
}
