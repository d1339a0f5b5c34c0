package check

import (
	"fmt"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

var fuseLoad = Rule{
	ID:    "fuse overloaded",
	Title: "Current through a fuse against its rating",
	Help: "Above its rating a fuse opens sooner or later (error). Above the part of the rating it may carry for good it ages and opens " +
		"without a fault (warning); cranking is too short for that. Where the document gives an ambient temperature above 25 °C, " +
		"the rating of blade fuses shrinks with it.",
	Source: "fuse selection guide of a protection maker, at most 75 % at 25 °C, seen second-hand",
	fuses:  true,
	run: func(r *run) {
		v := vague{r: r}
		for i := range r.n.Branches {
			if isFuse(&r.n.Branches[i]) {
				r.fuseLoad(i, &v)
			}
		}
		v.tell("they carry it for good")
	},
}

func (r *run) fuseLoad(i int, v *vague) {
	br := &r.n.Branches[i]
	at, most := r.worst(i, anyState)
	if at == nil {
		return
	}
	rating, ok := br.Value("amp").Get()
	if !ok || rating <= 0 {
		r.add(of(at, Finding{Severity: NotAssessed, Items: []schematic.Key{br.Key()}, Pins: pinsOf(br), Value: schematic.Some(most), Unit: "A",
			Missing: "the rating of " + br.Name(), Text: fmt.Sprintf("%s carries %s; its rating is missing.", br.Name(), amps(most))}))
		return
	}
	share, src := r.limit(limitFuseShare)
	family, isBlade := fuseFamily(br.Kind)
	isBlade = isBlade && family.Family <= tables.MaxiBlade
	if c, ok := r.doc.Info().AmbientC.Get(); ok && c > 25 && isBlade {
		if hot, err := calc.FuseAtAmbient(rating, c); err == nil {
			rating, src = hot.Value, src.And(hot.Source)
		}
	}
	f := Finding{Items: []schematic.Key{br.Key()}, Pins: pinsOf(br), Unit: "A", Source: src.String()}
	lasting, a := r.worst(i, sustained)
	switch {
	case most > rating:
		f.Severity, f.Limit = Error, schematic.Some(rating)
		f.Text = fmt.Sprintf("%s carries %s, more than its rating of %s.", br.Name(), amps(most), amps(rating))
		f.Formula = fmt.Sprintf("%s > %s", amps(most), amps(rating))
		a = most
	case lasting != nil && a > share*rating && family.Family != tables.NoFuseFamily:
		at, f.Severity, f.Limit = lasting, Warning, schematic.Some(share*rating)
		f.Text = fmt.Sprintf("%s carries %s for good, %s of its rating may flow: %s.", br.Name(), amps(a), percent(share), amps(share*rating))
		f.Formula = fmt.Sprintf("%s > %s · %s", amps(a), num(share), amps(rating))
	default:
		v.keeps(i, share*rating)
		return
	}
	f.Value, f.Margin = schematic.Some(a), schematic.Some(f.Limit.Or(0)-a)
	f.remedy = func() []Fix { return r.largerFuse(i, br) }
	r.add(of(at, f))
}

// leastInHeat is leastRating where the air is hot and a rating shrinks with it.
func (r *run) leastInHeat(branch int) float64 {
	least := r.leastRating(branch)
	if c, ok := r.doc.Info().AmbientC.Get(); ok && c > 25 {
		if hot, err := calc.FuseAtAmbient(1, c); err == nil {
			least /= hot.Value
		}
	}
	return least
}

// largerFuse offers the smallest rating that carries the load for good and
// still protects every wire behind.
func (r *run) largerFuse(i int, br *netlist.Branch) []Fix {
	least, most := r.leastInHeat(i), r.weakest(i)
	amp, ok := ratingBetween(br.Kind, least, most)
	if !ok || amp <= br.Value("amp").Or(0) || r.starved(i) {
		return nil
	}
	p := withRating(br, amp)
	if p == nil {
		return nil
	}
	return []Fix{{Label: "fit " + amps(amp) + " in " + br.Name(), Items: []schematic.Item{p},
		Effect: fmt.Sprintf("the load needs at least %s, the wires bear at most %s", amps(least), amps(most))}}
}
