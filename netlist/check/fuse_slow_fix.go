package check

import (
	"fmt"
	"math"
	"slices"

	"loomwright/calc"
	"loomwright/netlist"
	"loomwright/schematic"
)

// timeRemedies lists what makes a short end in time, in the order a builder
// would think of it.
func (r *run) timeRemedies(f Finding, w shortWay, v verdict, p *calc.Protector, h *calc.Heating, d drawn) []Fix {
	fuse := func() []Fix { return r.proven(f, r.fasterFuse(w, v, h, d)) }
	wire := func() []Fix { return r.proven(f, r.wireForTime(w, v, p, d)) }
	both := func() []Fix {
		if !w.alone {
			return nil
		}
		return r.proven(f, r.fuseAndWire(w.wire, w.by[0]))
	}
	return r.inOrder(f, w.wire, w.amp > thinRatio*h.RatedA, fuse, wire, both)
}

// fasterFuse lists the smaller ratings that still carry the load and open in
// time, the largest first.
func (r *run) fasterFuse(w shortWay, now verdict, h *calc.Heating, d drawn) []Fix {
	if !w.alone || d.ohm == 0 {
		return nil
	}
	fuse := w.by[0]
	br := &r.n.Branches[fuse]
	row, ok := fuseFamily(br.Kind)
	least := r.leastRating(fuse)
	if _, carried := r.worst(fuse, anyState); !ok || carried < leastOn || r.starved(fuse) {
		return nil
	}
	rating := br.Value("amp").Or(0)
	var out []Fix
	for i := row.Ratings() - 1; i >= 0; i-- {
		amp := row.RatingA(i)
		if amp >= rating || amp < least {
			continue
		}
		p, err := r.protectorRated(br, amp)
		part := withRating(br, amp)
		if err != nil || part == nil {
			return nil
		}
		after := d
		_, was, _ := br.FuseOhm()
		after.ohm += fuseOhm(br, amp) - was
		after.wireA, after.fuseA = after.amp(), []float64{after.amp()}
		v := r.judge([]*calc.Protector{p}, h, after, true)
		if v.outcome != inTime {
			continue
		}
		out = append(out, Fix{Label: "fit " + amps(amp) + " in " + br.Name(), Items: []schematic.Item{part},
			Effect: fmt.Sprintf("%s; the load needs a rating of at least %s", ends(now, v, p, h), amps(least))})
	}
	return out
}

// fuseOhm is the resistance a fuse would have at its rating, had it another.
func fuseOhm(br *netlist.Branch, rating float64) float64 {
	c := *br
	if p := withRating(br, rating); p != nil {
		c.Part = p
		if br.Pin != nil {
			i := slices.IndexFunc(p.Pins, func(x schematic.Pin) bool { return x.Name == br.Pin.Name })
			c.Pin = &p.Pins[i]
		}
	}
	_, hotOhm, _ := c.FuseOhm()
	return hotOhm
}

// wireForTime offers the next larger size that bears the short until the fuse
// has opened.
func (r *run) wireForTime(w shortWay, now verdict, p *calc.Protector, d drawn) []Fix {
	br := &r.n.Branches[w.wire]
	if !w.alone || d.ohm == 0 {
		return nil
	}
	was, _ := r.lineOhm(br, hot)
	for _, size := range r.sensibleSizes(w.wire, r.steadyLoad(w.wire)) {
		c := withSize(br.Wire, size)
		cond := netlist.ConductorOf(r.doc, c)
		h, err := r.heating(c, cond.AmbientC, r.mostCrowded(w.wire))
		if err != nil || len(cond.Missing) > 0 {
			continue
		}
		after := d
		after.ohm += cond.Ohm + r.wireRise(c, cond, hot) - was
		after.wireA, after.fuseA = after.amp(), []float64{after.amp()}
		v := r.judge([]*calc.Protector{p}, h, after, w.amp <= h.RatedA)
		if v.outcome != inTime || w.amp > h.RatedA {
			continue
		}
		return []Fix{{Label: "use " + size.String() + " for " + br.Wire.Name, Items: []schematic.Item{c},
			Effect: ends(now, v, p, h)}}
	}
	return nil
}

// ends says how what was too slow ends after a remedy.
func ends(was, is verdict, p *calc.Protector, h *calc.Heating) string {
	if was.outcome == lateBetween {
		return fmt.Sprintf("an overload of %s is then cut off within %s, the wire bears it for %s", amps(was.amp), span(p.Late(was.amp)), span(h.BearsS(was.amp)))
	}
	return fmt.Sprintf("a dead short then draws %s and is cut off within %s, the wire bears it for %s", amps(is.amp), span(is.lateS), span(h.BearsS(is.amp)))
}

// shortenings is how finely shorter wires are tried, and leastLeft the share of
// its length a wire must keep for that to be worth saying.
const (
	shortenings = 50
	leastLeft   = 0.1
)

// longest returns how long the wire of a dead short may be, in mm, for its
// protection to open in time.
func (r *run) longest(w shortWay, now verdict, p *calc.Protector, h *calc.Heating, d drawn) (float64, bool) {
	br := &r.n.Branches[w.wire]
	if !w.alone || d.ohm == 0 || now.outcome == lateBetween || br.Conductor.LengthMM <= 0 || len(d.by) > 1 {
		return 0, false
	}
	whole := br.Conductor.WireOhm + r.wireRise(br.Wire, br.Conductor, hot)
	for k := 1; k < shortenings*(1-leastLeft); k++ {
		after, left := d, 1-float64(k)/shortenings
		after.ohm -= whole * (1 - left)
		after.wireA, after.fuseA = after.amp(), []float64{after.amp()}
		if r.judge([]*calc.Protector{p}, h, after, false).outcome == inTime {
			return math.Floor(left * br.Conductor.LengthMM), true
		}
	}
	return 0, false
}
