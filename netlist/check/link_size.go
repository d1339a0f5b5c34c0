package check

import (
	"fmt"
	"slices"

	"loomwright/calc/tables"
	"loomwright/schematic"
)

var linkSize = Rule{
	ID:    "fusible link too thick for wire",
	Title: "Conductor of a fusible link against every wire it is to protect",
	Help: "Links are sold by the size of their conductor, not by amperes: four gauge numbers thinner than the wire they protect, so that the wire " +
		"has 2.53 times their area. The link has to be the thinnest piece of its circuit. What a short does to link and wire is the business of the rule on " +
		"fuses too slow for their wire.",
	Source: tables.FusibleLinks().Source.String(),
	fuses:  true,
	run: func(r *run) {
		said := map[int]bool{}
		for _, g := range r.guards() {
			for _, i := range slices.Concat(g.by, g.unknown) {
				if br := &r.n.Branches[i]; isFuse(br) && br.Kind.Family == familyLink {
					r.linkSize(g.wire, i, said)
				}
			}
		}
	},
}

// linkArea is the conductor area of a fusible link in mm².
func (r *run) linkArea(link int) schematic.Num {
	br := &r.n.Branches[link]
	return br.Kind.ParamValue(br.Part, br.Pin, "link_mm2")
}

func (r *run) linkSize(wire, link int, said map[int]bool) {
	w, name := r.n.Branches[wire].Wire, r.n.Branches[link].Name()
	f := Finding{Severity: Warning, Items: []schematic.Key{w.Key(), r.n.Branches[link].Key()}, Unit: "mm2"}
	area, ok := r.linkArea(link).Get()
	if !ok || area <= 0 {
		if !said[link] {
			said[link] = true
			f.Severity, f.Items, f.Missing = NotAssessed, f.Items[1:], "the conductor area of "+name
			f.Text = fmt.Sprintf("What %s protects is not assessed: its conductor area is missing.", name)
			r.add(f)
		}
		return
	}
	have, ok := w.Size.AreaMM2()
	if !ok {
		f.Severity, f.Missing = NotAssessed, "the size of "+w.Name
		f.Text = fmt.Sprintf("Whether %s protects %s is not assessed: the size of %s is missing.", name, w.Name, w.Name)
		r.add(f)
		return
	}
	rule := tables.LinkStep()
	need := rule.Value * area
	if have >= need*(1-linkTolerance) {
		return
	}
	f.Value, f.Limit, f.Margin, f.Source = schematic.Some(have), schematic.Some(need), schematic.Some(have-need), rule.Source.String()
	f.Text = fmt.Sprintf("%s (%s mm²) is to protect %s (%s), which wants at least %s mm² behind it.", name, num(area), w.Name, w.Size, num(need))
	f.Formula = fmt.Sprintf("%s · %s mm² = %s mm²", num(rule.Value), num(area), num(need))
	for _, size := range larger(w.Size) {
		if a, ok := size.AreaMM2(); ok && a >= need {
			f.Fixes = []Fix{{Label: "use " + size.String() + " for " + w.Name, Items: []schematic.Item{withSize(w, size)},
				Effect: fmt.Sprintf("it has %s times the area of the link", num(a/area))}}
			break
		}
	}
	r.add(f)
}

// linkTolerance lets the usual pairs of metric sizes pass, which are rounded:
// 0.8 before 2 mm², 2 before 5 mm² (trade lists, seen second-hand).
const linkTolerance = 0.02
