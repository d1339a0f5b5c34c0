package check

import (
	"fmt"
	"math"
	"slices"

	"loomwright/calc"

	"loomwright/schematic"
)

var fuseLarge = Rule{
	ID:    "fuse too large for wire",
	Title: "Fuse against every wire it is to protect",
	Help: "A wire must bear for good what the fuses before it let through. Where it can be fed from both ends, the end that lets " +
		"more through counts; several fuses on one side add up; of fuses in a row the smallest counts. " +
		"A rating above the ampacity is a warning while it is the next standard size and at most 150 % of it, else an error. " +
		"A short piece from where a branch begins to the branch's own fuse is allowed, as it is from a source.",
	Source: "AC 43.13-1B, paragraph 11-48; 33 CFR 183.455 (from memory)",
	fuses:  true,
	run: func(r *run) {
		c := crowd{r: r}
		for _, g := range r.guards() {
			r.fuseLarge(g, &c)
		}
		c.tell("bear what their fuses let through")
	},
}

func (r *run) fuseLarge(g guard, c *crowd) {
	if len(g.unknown) > 0 && !slices.ContainsFunc(g.unknown, func(i int) bool { return r.n.Branches[i].Kind.Family != familyLink }) {
		return // links have no rating: their rule is about the size of their conductor
	}
	br := &r.n.Branches[g.wire]
	w := br.Wire
	f := Finding{Items: []schematic.Key{w.Key()}, Unit: "A"}
	for _, i := range append(g.by, g.unknown...) {
		f.Items = append(f.Items, r.n.Branches[i].Key())
	}
	rated, err := r.ampacity(w, br.Conductor.AmbientC, r.mostCrowded(g.wire))
	switch {
	case len(g.unknown) > 0:
		f.Severity, f.Missing = NotAssessed, "the rating of "+list(r.names(g.unknown))
		f.Text = fmt.Sprintf("Whether %s %s %s is not assessed: %s missing.", list(r.names(g.unknown)), verb(len(g.unknown), "protect"), w.Name, its(len(g.unknown), "rating"))
		r.add(f)
		return
	case err != nil:
		f.Severity, f.Missing = NotAssessed, lacking(err)
		f.Text = fmt.Sprintf("Whether %s (%s) %s %s is not assessed: %s.", list(r.names(g.by)), amps(g.amp), verb(len(g.by), "protect"), w.Name, reason(err))
		r.add(f)
		return
	case g.amp <= rated.Value:
		c.keeps(g.wire, g.amp)
		return
	case r.isTail(g.wire):
		return
	}
	f.Severity = Error
	f.Value, f.Limit, f.Margin = schematic.Some(g.amp), schematic.Some(rated.Value), schematic.Some(rated.Value-g.amp)
	f.Text = fmt.Sprintf("%s (%s) bears %s, but %s %s %s through.", w.Name, w.Size, amps(rated.Value), list(r.names(g.by)), verb(len(g.by), "let"), amps(g.amp))
	f.Formula, f.Source = rated.Formula, rated.Source.String()
	if p, err := calc.FuseAgainstAmpacity(g.amp, rated.Value, rated.Source); err == nil {
		f.Formula, f.Source = rated.Formula+"; "+p.Formula, p.Source.String()
	}
	if len(g.by) == 1 && rated.Value > 0 {
		if row, ok := fuseFamily(r.n.Branches[g.by[0]].Kind); ok {
			if next, err := calc.NextSizeAllowed(row.Family, g.amp, rated.Value); err == nil && next.Within {
				f.Severity, f.Source = Warning, next.Source.String()
				f.Formula = rated.Formula + "; " + next.Formula
				f.Text += " As the next standard size it is tolerated."
			}
		}
	}
	mend := r.identified(f)
	f.remedy = func() []Fix { return r.fuseRemedies(mend, g, rated) }
	r.add(f)
}

// names returns the names of branches.
func (r *run) names(branches []int) []string {
	var out []string
	for _, i := range branches {
		out = append(out, r.n.Branches[i].Name())
	}
	return out
}

// leastRating is the rating a fuse needs for the current it carries.
func (r *run) leastRating(fuse int) float64 {
	share, _ := r.limit(limitFuseShare)
	_, sustained := r.worst(fuse, sustained)
	_, any := r.worst(fuse, anyState)
	if share <= 0 {
		return math.Inf(1)
	}
	return math.Max(sustained/share, any)
}

// weakest is the largest rating of a fuse that all wires it guards bear, other
// fuses that feed them counted in; 0 when one cannot be told.
func (r *run) weakest(fuse int) float64 {
	least := math.Inf(1)
	rating := r.n.Branches[fuse].Value("amp").Or(0)
	for _, g := range r.guards() {
		if !slices.Contains(g.by, fuse) || r.isTail(g.wire) {
			continue
		}
		br := &r.n.Branches[g.wire]
		rated, err := r.ampacity(br.Wire, br.Conductor.AmbientC, r.mostCrowded(g.wire))
		if err != nil {
			return 0
		}
		least = math.Min(least, rated.Value-(g.amp-rating))
	}
	return least
}
