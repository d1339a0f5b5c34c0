package check

import (
	"math"
	"slices"

	"loomwright/calc"
	"loomwright/netlist"
)

// shortWay is a wire as the current of a dead short sees it: fed from one of
// its ends, shorted to metal at the other.
type shortWay struct {
	wire  int   // branch
	by    []int // what has to open: fuses, links and breakers
	amp   float64
	node  int  // the far end
	near  int  // the fed end
	alone bool // whatever the short draws flows through the wire and the one protector
}

// shorts lists the ways a short can be fed through every wire behind a fuse,
// in the order of the branches. A wire that lies between two feeds has two.
func (r *run) shorts() []shortWay {
	if r.waysFound {
		return r.shortWays
	}
	r.waysFound = true
	z, s := r.zones(), r.sides()
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleWire || z.of(br.A) == ground || br.A == br.B {
			continue
		}
		zone := z.of(br.A)
		all := z.feed(zone)
		if all.amp == 0 || all.unfused() {
			continue // dead, or the business of another rule
		}
		below, above, apart := s.ends(i, zone)
		if !apart {
			r.shortWays = r.addWay(r.shortWays, i, all, r.farEnd(br), len(s.feeders[zone]) < 2)
			continue
		}
		tip, ok := s.tip[i]
		if !ok { // nothing feeds the end away from the root
			r.shortWays = r.addWay(r.shortWays, i, above, r.farEnd(br), len(s.feeders[zone]) < 2)
			continue
		}
		r.shortWays = r.addWay(r.shortWays, i, above, tip, false)
		r.shortWays = r.addWay(r.shortWays, i, below, br.Other(tip), false)
	}
	return r.shortWays
}

// addWay takes a way in, unless nothing feeds it or what limits it is no fuse.
func (r *run) addWay(list []shortWay, wire int, f fed, node int, alone bool) []shortWay {
	by := slices.Concat(f.by, f.unknown)
	for _, i := range by {
		if !isFuse(&r.n.Branches[i]) {
			return list
		}
	}
	if len(by) == 0 {
		return list
	}
	return append(list, shortWay{wire: wire, by: by, amp: f.amp, node: node, near: r.n.Branches[wire].Other(node), alone: alone && len(by) == 1})
}

// farEnd is the end of a wire at which a short draws less.
func (r *run) farEnd(br *netlist.Branch) int {
	p := r.prospect(hot)
	a, okA := p.at(br.A)
	b, okB := p.at(br.B)
	switch {
	case okA && okB && a.amp() < b.amp() || okB && !okA:
		return br.A
	}
	return br.B
}

// drawn is what a short through a wire amounts to.
type drawn struct {
	shortAt
	wireA float64   // through the wire, at least
	by    []int     // what it flows through and has to open
	fuseA []float64 // through each of them
	near  int       // node where the wire is fed
}

// leastShare is the part of a short's current below which a fuse takes no part
// in it (judgement, no source).
const leastShare = 1e-3

// drawn finds the current that batteries send through a way to a short at its
// far end; false where it is not known, or no battery feeds it. Others are the
// protectors that no battery feeds.
func (r *run) drawn(w shortWay) (d drawn, others []int, ok bool) {
	p := r.prospect(hot)
	s, ok := p.at(w.node)
	if !ok {
		return drawn{}, nil, false
	}
	d = drawn{shortAt: s, wireA: s.amp(), near: w.near}
	if w.alone {
		d.by, d.fuseA = w.by, []float64{d.wireA}
		return d, nil, true
	}
	if r.sides().bridge[w.wire] {
		part, before, ok := p.share(w.wire, w.node)
		if !ok {
			return drawn{}, nil, false
		}
		d.wireA = math.Abs(part*s.amp() + before)
	}
	for _, f := range w.by {
		part, before, ok := p.share(f, w.node)
		if !ok {
			return drawn{}, nil, false
		}
		if a := math.Abs(part*s.amp() + before); a > leastShare*s.amp() {
			d.by, d.fuseA = append(d.by, f), append(d.fuseA, a)
		} else {
			others = append(others, f)
		}
	}
	return d, others, len(d.by) > 0
}

// most is the current of a short where the wire is fed, with cold copper.
func (r *run) most(d drawn) float64 {
	if top, ok := r.prospect(cold).at(d.near); ok && d.ohm > 0 {
		return math.Max(d.wireA, top.amp())
	}
	return d.wireA
}

// race is a protector against a wire: which is first at every current.
type race struct {
	amps  []float64 // rising
	worst []int     // index of the largest ratio of opening time to what the wire bears up to here
	ratio []float64 // 0 where the wire bears the current until the protector has opened
}

// raceKey tells races apart.
type raceKey struct {
	p *calc.Protector
	h *calc.Heating
}

// race returns the race of a protector with a sort of wire. It is run once for
// each pair.
func (r *run) race(p *calc.Protector, h *calc.Heating) *race {
	key := raceKey{p, h}
	if c, ok := r.races[key]; ok {
		return c
	}
	c := newRace(r.knots(p), p, h)
	if r.races == nil {
		r.races = map[raceKey]*race{}
	}
	r.races[key] = c
	return c
}

// knots returns the currents by which a protector's band is walked.
func (r *run) knots(p *calc.Protector) []float64 {
	k, ok := r.knotted[p]
	if !ok {
		k = p.Knots()
		if r.knotted == nil {
			r.knotted = map[*calc.Protector][]float64{}
		}
		r.knotted[p] = k
	}
	return k
}

func newRace(amps []float64, p *calc.Protector, h *calc.Heating) *race {
	c := &race{amps: amps}
	for i, a := range c.amps {
		ratio := 0.0
		if t := p.Late(a); !h.Bears(a, t) {
			ratio = t / h.BearsS(a)
		}
		c.ratio = append(c.ratio, ratio)
		worst := i
		if i > 0 && c.ratio[c.worst[i-1]] >= c.ratio[i] {
			worst = c.worst[i-1]
		}
		c.worst = append(c.worst, worst)
	}
	return c
}

// upTo returns the current up to top at which the protector is slowest against
// the wire, and how many times too slow it is there; 0 where it need not open
// at any.
func (c *race) upTo(top float64) (amp, ratio float64) {
	k, _ := slices.BinarySearch(c.amps, top*(1+1e-9))
	if k == 0 {
		return 0, 0
	}
	i := c.worst[k-1]
	return c.amps[i], c.ratio[i]
}
