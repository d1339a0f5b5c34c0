package check

import (
	"fmt"
	"math"
	"slices"

	"loomwright/calc"
	"loomwright/schematic"
)

var selective = Rule{
	ID:    "fuse before fuse opens as well",
	Title: "Whether only the nearer of two fuses in a row opens",
	Help: "A short behind the nearer fuse shall open that one alone, or everything else behind the farther one goes dark. The latest the nearer one opens " +
		"is held against the earliest the farther one does, for every dead short from the end of the longest wire, hot, up to right behind it, cold. Where the bands overlap " +
		"the farther one may open too (a note); where it opens first for certain, or its rating is no larger, that is a warning.",
	Source: "ISO 8820-3, SAE J1284, J1888 and ISO 8820-5 (from memory); selectivity of fuses by their bands",
	fuses:  true,
	run: func(r *run) {
		least := r.leastShorts()
		z := r.zones()
		for l := range z.links {
			if near := z.links[l].branch; isFuse(&r.n.Branches[near]) {
				r.selective(l, near, least[near])
			}
		}
	},
}

// before returns the fuse through which alone another one is fed; false where
// there is none or there are several.
func (r *run) before(l int) (far, fedZone int, ok bool) {
	z := r.zones()
	for _, zone := range []int{z.links[l].from, z.links[l].to} {
		if z.live[zone] {
			return 0, 0, false // fed by a source itself
		}
	}
	found := -1
	for _, zone := range []int{z.links[l].from, z.links[l].to} {
		f := r.fedBeside(zone, l)
		if f.amp == 0 {
			continue
		}
		by := slices.Concat(f.by, f.unknown)
		if found >= 0 || len(by) != 1 || !isFuse(&r.n.Branches[by[0]]) {
			return 0, 0, false
		}
		found, fedZone = by[0], zone
	}
	return found, fedZone, found >= 0
}

// fedBeside returns what can come into a zone at either end of a link, not
// counting the link.
func (r *run) fedBeside(zone, l int) fed {
	z, feeders := r.zones(), r.sides().feeders
	only := func(zone int) bool {
		f := feeders[zone]
		return len(z.at[zone]) == 1 || len(f) == 1 && f[0] == l
	}
	switch other := z.links[l].far(zone); {
	case only(zone):
		return fed{}
	case only(other): // so that nothing comes back through the link
		return z.feed(zone)
	}
	return z.feedBy(zone, func(i int) bool { return i != l })
}

// leastShorts returns the least current of a dead short on any wire behind a
// protector, A.
func (r *run) leastShorts() map[int]float64 {
	least := map[int]float64{}
	for _, w := range r.shorts() {
		if !w.alone {
			continue
		}
		if s, ok := r.prospect(hot).at(w.node); ok {
			if a, had := least[w.by[0]]; !had || s.amp() < a {
				least[w.by[0]] = s.amp()
			}
		}
	}
	return least
}

func (r *run) selective(l, near int, least float64) {
	far, zone, ok := r.before(l)
	if !ok {
		return
	}
	a, b := &r.n.Branches[near], &r.n.Branches[far]
	f := Finding{Severity: Note, Items: []schematic.Key{b.Key(), a.Key()}, Pins: append(pinsOf(b), pinsOf(a)...), Unit: "A"}
	ps, err := r.protectorsOf([]int{near, far})
	if err != nil {
		f.Severity, f.Missing = NotAssessed, lacking(err)
		f.Text = fmt.Sprintf("Whether a short behind %s opens %s as well is not assessed: %s.", a.Name(), b.Name(), reason(err))
		r.add(f, a.Name())
		return
	}
	out := a.A
	if r.zones().of(out) == zone {
		out = a.B
	}
	s, ok := r.prospect(cold).at(out)
	if !ok || r.prospect(hot).gapAt(out) >= 0 {
		return // what is missing is said by the rule on slow fuses
	}
	most := s.amp()
	if least == 0 {
		least = most // what hangs on it is no wire, or fed from elsewhere too
	}
	from, sure := r.overlap(ps[0], ps[1], least, most)
	switch {
	case ps[1].RatingA <= ps[0].RatingA && a.Kind.Family != familyLink && b.Kind.Family != familyLink:
		f.Severity = Warning
		f.Value, f.Limit, f.Margin = schematic.Some(ps[1].RatingA), schematic.Some(ps[0].RatingA), schematic.Num{}
		f.Text = fmt.Sprintf("%s (%s) lies before %s (%s): an overload behind %s opens %s first, and what else hangs on it goes dark.",
			b.Name(), amps(ps[1].RatingA), a.Name(), amps(ps[0].RatingA), a.Name(), b.Name())
		f.Formula = fmt.Sprintf("%s ≤ %s", amps(ps[1].RatingA), amps(ps[0].RatingA))
	case math.IsInf(from, 1):
		return
	case sure:
		f.Severity = Warning
		f.Value, f.Text = schematic.Some(most), fmt.Sprintf("A short right behind %s draws %s and opens %s first: %s takes at least %s, %s at most %s.",
			a.Name(), amps(most), b.Name(), a.Name(), span(ps[0].Early(most)), b.Name(), span(ps[1].Late(most)))
		f.Formula = ps[1].Formula(most)
	default:
		f.Value, f.Text = schematic.Some(from), fmt.Sprintf("From %s up a short behind %s may open %s too: %s takes up to %s, %s may open after %s. A short right behind draws %s.",
			amps(from), a.Name(), b.Name(), a.Name(), span(ps[0].Late(from)), b.Name(), span(ps[1].Early(from)), amps(most))
		f.Formula = ps[0].Formula(from)
	}
	f.Source = ps[0].Source.And(ps[1].Source).String()
	r.add(f, a.Name())
}

// overlap returns the least current from least to most at which the farther
// protector may open before the nearer has for certain, +Inf if there is none,
// and whether it opens first for certain at most.
func (r *run) overlap(near, far *calc.Protector, least, most float64) (from float64, sure bool) {
	from = math.Inf(1)
	try := func(a float64) {
		if a >= least && a <= most && a < from && far.Early(a) <= near.Late(a) && !math.IsInf(far.Early(a), 1) {
			from = a
		}
	}
	try(least)
	try(most)
	for _, p := range []*calc.Protector{near, far} {
		for _, a := range r.knots(p) {
			try(a)
		}
	}
	return from, !math.IsInf(from, 1) && far.Late(most) < near.Early(most)
}
