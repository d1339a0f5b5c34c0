package check

import (
	"fmt"
	"maps"
	"slices"
)

// others gathers the loads that keep a limit by the figures, though loads whose
// current nobody gave share wires with them.
type others struct {
	r      *run
	loads  []int
	behind map[int]bool // loads without data
}

// keeps enters a load and the lines its current goes through.
func (o *others) keeps(load int, ways ...[]int) {
	shaded := o.r.shaded()
	if len(shaded) == 0 {
		return
	}
	if o.behind == nil {
		o.behind = map[int]bool{}
	}
	found := false
	for _, i := range slices.Concat(ways...) {
		if len(shaded[i]) > 0 {
			found = true
			for _, l := range shaded[i] {
				o.behind[l] = true
			}
		}
	}
	if found {
		o.loads = append(o.loads, load)
	}
}

// tell says once for all of them what is not assessed.
func (o *others) tell(what, verdict string) {
	if len(o.loads) == 0 {
		return
	}
	r := o.r
	behind := slices.Sorted(maps.Keys(o.behind))
	names := r.n.Names(behind)
	items := append(r.keys(o.loads), r.keys(behind)...)
	f := Finding{Severity: NotAssessed, Items: items, Missing: "the current of " + list(names)}
	f.Text = fmt.Sprintf("%s %s %s: the current of %s on the same wires is missing.", upper(what), list(r.n.Names(o.loads)), verdict, list(names))
	r.add(f, "others")
}
