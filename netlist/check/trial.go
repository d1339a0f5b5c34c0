package check

import (
	"slices"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/schematic"
)

// mostTrials bounds the networks solved to find remedies in one run: a drawing
// full of mistakes must not wait for all its remedies. Those beyond get none.
const mostTrials = 40

// surely is the share of a limit a remedy must stay within: the temperatures of
// wires are found to some hundredths of a kelvin.
const surely = 0.999

// withWire solves operating states with another wire in a wire's place; false
// when the trials of this run are used up or the new wire's resistance is not
// known.
func (r *run) withWire(branch int, w *schematic.Wire, states ...*netlist.Solution) ([]*netlist.Solution, bool) {
	if r.trials >= mostTrials || !r.n.Branches[branch].OhmKnown {
		return nil, false
	}
	if r.solver == nil {
		r.solver = netlist.NewSolver(r.n)
	}
	if !r.solver.SetWire(branch, w) {
		return nil, false
	}
	defer r.solver.SetWire(branch, r.n.Branches[branch].Wire)
	var out []*netlist.Solution
	for _, s := range states {
		r.trials++
		t := r.solver.SolveNear(s)
		if t.Err != nil {
			return nil, false
		}
		out = append(out, t)
	}
	return out, true
}

// withSize returns a copy of a wire in another size.
func withSize(w *schematic.Wire, size unit.Size) *schematic.Wire {
	c := *w
	c.Size = size
	return &c
}

// larger lists the standard sizes above one, in its own system, thinnest first.
func larger(size unit.Size) []unit.Size {
	return slices.DeleteFunc(calc.StandardSizes(size.System), func(s unit.Size) bool {
		if size.System == unit.Metric {
			return s.N <= size.N
		}
		return s.N >= size.N // gauge numbers fall as wires get thicker
	})
}

// thickerWire offers the next larger size of a wire that mends something: worth
// tells by the resistance it would have, in Ω, whether it can at all by the
// present currents; mends says so by the states solved with it, and what comes
// of it. Of the sizes worth trying the two thinnest are tried.
func (r *run) thickerWire(wire int, states []*netlist.Solution, worth func(ohm float64) bool, mends func(after []*netlist.Solution, ohm float64) (effect string, ok bool)) []Fix {
	old := r.n.Branches[wire].Wire
	tries := 0
	for _, size := range larger(old.Size) {
		c := withSize(old, size)
		ohm := netlist.ConductorOf(r.doc, c).Ohm
		if !worth(ohm) {
			continue
		}
		if tries++; tries > 2 {
			break
		}
		after, ok := r.withWire(wire, c, states...)
		if !ok {
			break
		}
		effect, ok := mends(after, ohm)
		for _, s := range after {
			delete(r.flows, s)
		}
		if ok {
			return []Fix{{Label: "use " + size.String() + " for " + old.Name, Items: []schematic.Item{c}, Effect: effect}}
		}
	}
	return nil
}

// fuseFamily returns the list of ratings a fuse belongs to.
func fuseFamily(k *schematic.Kind) (tables.FuseRow, bool) {
	families := map[string]tables.FuseFamily{"mini blade": tables.MiniBlade, "blade": tables.Blade, "maxi blade": tables.MaxiBlade,
		"SF30": tables.BoltSF30, "SF51": tables.BoltSF51}
	return tables.FuseData(families[k.Family])
}

// ratingBetween returns the smallest standard rating of a fuse's family from
// least to most; false when there is none.
func ratingBetween(k *schematic.Kind, least, most float64) (float64, bool) {
	all := ratingsBetween(k, least, most)
	if len(all) == 0 {
		return 0, false
	}
	return all[0], true
}

// ratingsBetween lists the standard ratings of a fuse's family from least to
// most, rising.
func ratingsBetween(k *schematic.Kind, least, most float64) []float64 {
	var out []float64
	row, ok := fuseFamily(k)
	for i := 0; ok && i < row.Ratings(); i++ {
		if a := row.RatingA(i); a >= least && a <= most {
			out = append(out, a)
		}
	}
	return out
}

// withRating returns a copy of a fuse's part with another rating; nil when the
// rating is fixed by the kind.
func withRating(br *netlist.Branch, amp float64) *schematic.Part {
	name := br.Element.Args["amp"].Param
	if name == "" {
		return nil
	}
	set := func(old map[string]float64) map[string]float64 {
		m := make(map[string]float64, len(old)+1)
		for k, v := range old {
			m[k] = v
		}
		m[name] = amp
		return m
	}
	p := *br.Part
	if br.Pin == nil {
		p.Values = set(p.Values)
		return &p
	}
	p.Pins = slices.Clone(p.Pins)
	for i := range p.Pins {
		if p.Pins[i].Name == br.Pin.Name {
			p.Pins[i].Values = set(p.Pins[i].Values)
		}
	}
	return &p
}

// mostCrowded returns the largest number of loaded wires round a wire in any
// operating state, itself included.
func (r *run) mostCrowded(branch int) int {
	most := 1
	for _, s := range r.usable() {
		most = max(most, r.bundled(branch, s))
	}
	return most
}
