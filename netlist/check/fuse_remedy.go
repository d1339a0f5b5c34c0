package check

import (
	"fmt"
	"math"

	"loomwright/calc"
	"loomwright/calc/unit"
	"loomwright/schematic"
)

// What a builder does about a wire and a fuse that do not suit each other: a
// fuse of its own for the branch, another rating, a thicker wire, or both.

// thinRatio is how many times what a wire bears its fuse must let through for
// the wire to be a branch that wants a fuse of its own before all: what
// 33 CFR 183.455 (from memory) tolerates at most.
const thinRatio = 1.5

// sensibleArea is how many times the area it has, or its own load needs, a wire
// may get by a remedy: two of the steps in which wire is mostly kept (judgement,
// no source).
const sensibleArea = 2.7

// inOrder runs remedies in the order of their sense and gathers what they offer.
// Both changes at once are for where neither alone does.
func (r *run) inOrder(f Finding, wire int, thin bool, fuse, thicker, both func() []Fix) []Fix {
	branch := func() []Fix { return r.branchFuse(f, wire) }
	order := []func() []Fix{fuse, thicker, branch}
	if thin {
		order = []func() []Fix{branch, fuse, thicker}
	}
	var out []Fix
	for _, offer := range order {
		out = append(out, offer()...)
	}
	if out == nil {
		return both()
	}
	return out
}

// fuseRemedies lists what makes a wire bear what its fuses let through.
func (r *run) fuseRemedies(f Finding, g guard, now calc.Rated) []Fix {
	one := len(g.by) == 1 && isFuse(&r.n.Branches[g.by[0]])
	fuse := func() []Fix {
		if !one {
			return nil
		}
		return r.proven(f, r.smallerFuse(g.by[0], now.Value))
	}
	wire := func() []Fix { return r.proven(f, r.wireForFuse(g, now)) }
	both := func() []Fix {
		if !one {
			return nil
		}
		return r.proven(f, r.fuseAndWire(g.wire, g.by[0]))
	}
	return r.inOrder(f, g.wire, g.amp > thinRatio*now.Value, fuse, wire, both)
}

// smallerFuse lists the ratings that carry the load for good and protect every
// wire the fuse is the guard of, the smallest first.
func (r *run) smallerFuse(fuse int, ampacity float64) []Fix {
	least, ok := r.leastForFuse(fuse)
	if !ok {
		return nil
	}
	br := &r.n.Branches[fuse]
	most := math.Min(ampacity, r.weakest(fuse))
	var out []Fix
	for _, amp := range ratingsBetween(br.Kind, least, most) {
		if p := withRating(br, amp); p != nil {
			out = append(out, Fix{Label: "fit " + amps(amp) + " in " + br.Name(), Items: []schematic.Item{p},
				Effect: fmt.Sprintf("it carries the load (at least %s) and protects its wires (at most %s)", amps(least), amps(most))})
		}
	}
	return out
}

// leastForFuse is the rating that the load of a fuse needs; false where nothing
// flows through it or not all that does is known.
func (r *run) leastForFuse(fuse int) (float64, bool) {
	_, carried := r.worst(fuse, anyState)
	return r.leastRating(fuse), carried >= leastOn && !r.starved(fuse)
}

// wireForFuse lists the larger sizes that bear what the fuse lets through.
func (r *run) wireForFuse(g guard, now calc.Rated) []Fix {
	w := r.n.Branches[g.wire].Wire
	var out []Fix
	for _, x := range r.sizesFor(g.wire, g.amp, r.steadyLoad(g.wire), r.soleProtector(g)) {
		out = append(out, Fix{Label: "use " + x.size.String() + " for " + w.Name, Items: []schematic.Item{withSize(w, x.size)},
			Effect: fmt.Sprintf("it bears %s instead of %s", amps(x.bears), amps(now.Value))})
	}
	return out
}

// fuseAndWire lists smaller ratings that carry the load, each with the wire that
// bears it, the smallest first.
func (r *run) fuseAndWire(wire, fuse int) []Fix {
	least, ok := r.leastForFuse(fuse)
	if !ok {
		return nil
	}
	br, w := &r.n.Branches[fuse], r.n.Branches[wire].Wire
	var out []Fix
	for _, amp := range ratingsBetween(br.Kind, least, math.Nextafter(br.Value("amp").Or(0), 0)) {
		p := withRating(br, amp)
		opens, err := r.protectorRated(br, amp)
		if p == nil || err != nil {
			continue
		}
		for _, x := range r.sizesFor(wire, amp, least, opens) {
			out = append(out, Fix{Label: fmt.Sprintf("fit %s in %s and use %s for %s", amps(amp), br.Name(), x.size, w.Name),
				Items:  []schematic.Item{p, withSize(w, x.size)},
				Effect: fmt.Sprintf("the fuse carries the load (at least %s), the wire bears %s", amps(least), amps(x.bears))})
		}
	}
	return out
}

// steadyLoad is the most a wire carries for good, A.
func (r *run) steadyLoad(wire int) float64 {
	_, amp := r.worst(wire, sustained)
	return amp
}

// sized is a size of a wire and what the wire would bear for good, A.
type sized struct {
	size  unit.Size
	bears float64
}

// sizesFor lists the sensible sizes of a wire that bear a current for good and
// every overload until a protector has opened, thinnest first. The protector may
// be nil where there is not just one; needs is what the wire must bear anyhow, A.
func (r *run) sizesFor(wire int, amp, needs float64, p *calc.Protector) []sized {
	br := &r.n.Branches[wire]
	var out []sized
	for _, size := range r.sensibleSizes(wire, needs) {
		w := withSize(br.Wire, size)
		rated, err := r.ampacity(w, br.Conductor.AmbientC, r.mostCrowded(wire))
		if err != nil || rated.Value < amp {
			continue
		}
		if h, err := r.heating(w, br.Conductor.AmbientC, r.mostCrowded(wire)); err == nil && p != nil {
			if _, slow := r.race(p, h).upTo(math.Inf(1)); slow > 1 {
				continue
			}
		}
		out = append(out, sized{size, rated.Value})
	}
	return out
}

// soleProtector is what alone guards a wire; nil where several do, or its times
// are not known.
func (r *run) soleProtector(g guard) *calc.Protector {
	if len(g.by) != 1 || !isFuse(&r.n.Branches[g.by[0]]) {
		return nil
	}
	p, err := r.protector(g.by[0])
	if err != nil {
		return nil
	}
	return p
}

// sensibleSizes lists the larger sizes of a wire, thinnest first, up to
// sensibleArea times the area it has, or the least that bears what it must
// anyhow, A.
func (r *run) sensibleSizes(wire int, needs float64) []unit.Size {
	br := &r.n.Branches[wire]
	least, _ := br.Wire.Size.AreaMM2()
	bears, _ := r.steadyAmp(wire)
	var out []unit.Size
	for _, size := range larger(br.Wire.Size) {
		area, ok := size.AreaMM2()
		if !ok {
			continue
		}
		if bears < needs {
			least = area
			if rated, err := r.ampacity(withSize(br.Wire, size), br.Conductor.AmbientC, r.mostCrowded(wire)); err == nil {
				bears = rated.Value
			}
		}
		if area > sensibleArea*least {
			break
		}
		out = append(out, size)
	}
	return out
}
