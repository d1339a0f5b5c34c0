package check

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// Remedies that draw a part. They are offered where the wire or the pins are
// drawn; what the part has to bear comes from the computed currents. The
// lengths are judgement, no source.

const (
	// leadMM is the length of the wire from a source to a fuse put in, where the
	// limit leaves that much.
	leadMM = 100
	// leastLeadMM is the shortest such wire worth cutting.
	leastLeadMM = 20
	// tailMM is the length of the leads of a part put across two pins.
	tailMM = 100
	// mostOffers bounds the fuses worked out in one run, as mostTrials does for
	// what is solved.
	mostOffers = 40
)

// fuseKinds are the kinds of fuses that may be put in, small ones first.
func fuseKinds() []string { return []string{"fuse-regular", "fuse-maxi", "fuse-sf30", "fuse-sf51"} }

// fuseOnTheWay offers a fuse for a wire that a source feeds without one: in that
// wire, where it begins close enough to the source, else in the next one
// towards the source. Branch may be -1: then it looks on from the node.
func (r *run) fuseOnTheWay(branch, node int, limit float64) []Fix {
	reach := r.stretches()
	for {
		s, ok := reach[node]
		if !ok {
			return nil
		}
		if branch >= 0 && r.n.Branches[branch].Role == netlist.RoleWire && !s.unknown {
			key := offerKey{branch, node, limit}
			fix, had := r.offered[key] // many wires lead back to the same one
			if !had {
				fix = r.fusesInto(branch, node, r.n.Branches[s.source].Part.Name, s.mm, limit)
				fix = fix[:min(1, len(fix))]
				if r.offered == nil {
					r.offered = map[offerKey][]Fix{}
				}
				r.offered[key] = fix
			}
			if fix != nil {
				return fix
			}
		}
		if s.by < 0 {
			return nil
		}
		branch, node = s.by, r.n.Branches[s.by].Other(node)
	}
}

// offerKey is a place for a fuse: a wire, the node where its source is, and how
// far from the source it may stand, mm.
type offerKey struct {
	branch, node int
	limit        float64
}

// fusesInto lists the fuses for a wire near the node where its source is, the
// smallest first: those that carry the load for good, if everything they then
// feed bears them. Before is how much wire lies between the source and the node,
// limit how much may lie between the source and the fuse, mm.
func (r *run) fusesInto(branch, node int, source string, before, limit float64) []Fix {
	br := &r.n.Branches[branch]
	lead, length := math.Min(leadMM, 0.8*(limit-before)), schematic.Num{}
	if mm := br.Conductor.LengthMM; mm > 0 {
		lead = math.Floor(math.Min(lead, mm/2)/10) * 10
		length = schematic.Some(mm - lead)
	}
	_, carried := r.worst(branch, anyState)
	if lead < leastLeadMM || r.doc.Sheet(br.Wire.Sheet) == nil ||
		carried < leastOn || r.starved(branch) || r.offers >= mostOffers {
		return nil
	}
	r.offers++
	least := r.leastInHeat(branch)
	most, next, ok := r.bearsBeyond(branch, br.Other(node))
	if !ok {
		return nil
	}
	need := fmt.Sprintf("the load needs at least %s", amps(least))
	if next >= least && next < most {
		// Of two fuses in a row only the nearer one shall open.
		least = next * (1 + 1e-9)
		need += fmt.Sprintf(", the next fuse has %s", amps(next))
	}
	end := edit.EndA
	if r.n.NodeOf(br.Wire.B.Ref()) == node {
		end = edit.EndB
	}
	var out []Fix
	for _, name := range fuseKinds() {
		k := r.doc.Kind(name)
		if k == nil {
			continue
		}
		for _, amp := range ratingsBetween(k, least, most) {
			out = append(out, Fix{
				Label:  fmt.Sprintf("put a fuse of %s into %s near %s", amps(amp), br.Wire.Name, source),
				Effect: fmt.Sprintf("after %s of wire; %s, the wires behind bear at most %s", mm(before+lead), need, amps(most)),
				Draw: edit.InLine{Wire: br.Wire.ID, Near: end, Kind: name, Pins: [2]string{"1", "2"}, Values: map[string]float64{"amp": amp},
					NearMM: schematic.Some(lead), FarMM: length},
			})
		}
	}
	return out
}

// steadyAmp returns the ampacity of a wire among the most loaded ones it ever
// lies with, A, kept for the next who asks; false where it is not known.
func (r *run) steadyAmp(wire int) (float64, bool) {
	amp, ok := r.steady[wire]
	if !ok {
		br := &r.n.Branches[wire]
		amp = math.NaN()
		if rated, err := r.ampacity(br.Wire, br.Conductor.AmbientC, r.mostCrowded(wire)); err == nil {
			amp = rated.Value
		}
		if r.steady == nil {
			r.steady = map[int]float64{}
		}
		r.steady[wire] = amp
	}
	return amp, !math.IsNaN(amp)
}

// bearsBeyond returns the least ampacity of a wire and of everything it feeds up
// to the next fuses, and the largest rating of those; false where it cannot be
// told what bears what, or where another source feeds it too.
func (r *run) bearsBeyond(branch, from int) (least, next float64, ok bool) {
	least = math.Inf(1)
	take := func(i int) bool {
		br := &r.n.Branches[i]
		if br.Role != netlist.RoleWire || r.isTail(i) {
			return true
		}
		amp, known := r.steadyAmp(i)
		least = math.Min(least, amp)
		return known
	}
	if !take(branch) {
		return 0, 0, false
	}
	z := r.zones()
	seen := map[int]bool{from: true}
	for todo := []int{from}; len(todo) > 0; todo = todo[1:] {
		for _, i := range r.n.At(todo[0]) {
			br := &r.n.Branches[i]
			to := br.Other(todo[0])
			switch {
			case br.IsSource():
				return 0, 0, false
			case isFuse(br):
				next = math.Max(next, br.Value("amp").Or(0))
				continue
			case i == branch || z.of(to) == ground || !carriesOn(br) && !(isOneWay(br) && br.A == todo[0]):
				continue
			}
			if !take(i) {
				return 0, 0, false
			}
			if !seen[to] {
				seen[to] = true
				todo = append(todo, to)
			}
		}
	}
	return least, next, true
}

// diodeAcross offers a diode across a coil, its cathode where the plus is while
// the coil is on; none where no operating state switches it on.
func (r *run) diodeAcross(coil int) []Fix {
	br := &r.n.Branches[coil]
	plus, minus := r.n.Nodes[br.A].Pin, r.n.Nodes[br.B].Pin
	most := leastOn
	swap := false
	for _, s := range r.usable() {
		if a := math.Abs(s.Amp[coil]); a > most {
			most, swap = a, s.Amp[coil] < 0
		}
	}
	if most == leastOn || !r.shown(plus) || !r.shown(minus) || r.doc.Kind("diode") == nil {
		return nil
	}
	if swap {
		plus, minus = minus, plus
	}
	return []Fix{{
		Label:  "put a diode across " + br.Name(),
		Effect: fmt.Sprintf("cathode at pin %s, leads of %s; it takes up what the coil throws, which drops out a little later then", plus.Pin, mm(tailMM)),
		Draw: edit.Across{From: minus, To: plus, Kind: "diode", Pins: [2]string{"A", "K"}, Like: r.wireTo(plus),
			LengthMM: schematic.Some(tailMM)},
	}}
}

// shown reports whether a pin is shown on some sheet.
func (r *run) shown(pin schematic.PinRef) bool {
	p := r.doc.Part(pin.Part)
	return p != nil && pin.Pin != "" && len(p.Views) > 0
}

// wireTo returns the thinnest wire at a pin, for others to be like it.
func (r *run) wireTo(pin schematic.PinRef) schematic.ID {
	var best *schematic.Wire
	for _, w := range r.wiresAt(pin) {
		if a, ok := w.Size.AreaMM2(); ok {
			if b, had := sizeOf(best); !had || a < b {
				best = w
			}
		}
	}
	if best == nil {
		return schematic.ID{}
	}
	return best.ID
}

func sizeOf(w *schematic.Wire) (float64, bool) {
	if w == nil {
		return 0, false
	}
	return w.Size.AreaMM2()
}

// strapTo offers a strap from a metal nothing joins with the battery to one that
// is, or to battery negative, as thick as the thickest cable there.
func (r *run) strapTo(m metal) []Fix {
	from := r.studPin(m)
	to, name := r.n.Nodes[r.n.Reference].Pin, "battery negative"
	for _, o := range r.metals() {
		if _, joined := r.strapBlocks().between(o.node, r.n.Reference); joined && r.shown(r.studPin(o)) {
			to, name = r.studPin(o), "the "+o.name
			break
		}
	}
	if !r.shown(from) || !r.shown(to) {
		return nil
	}
	var like *schematic.Wire
	for _, w := range r.wiresAt(r.n.Nodes[r.n.Reference].Pin) {
		if a, ok := w.Size.AreaMM2(); ok {
			if b, had := sizeOf(like); !had || a > b {
				like = w
			}
		}
	}
	fix := Fix{Label: fmt.Sprintf("draw a strap from %s to %s", r.doc.Part(from.Part).Name, r.doc.Part(to.Part).Name),
		Effect: fmt.Sprintf("the %s is then joined with %s; give the length and size of the strap", m.name, name)}
	draw := edit.Across{From: from, To: to}
	if like != nil {
		draw.Like = like.ID
		fix.Effect = fmt.Sprintf("the %s is then joined with %s by %s, as %s; give its length", m.name, name, like.Size, like.Name)
	}
	fix.Draw = draw
	return []Fix{fix}
}

// studPin returns the pin of the first stud of a metal.
func (r *run) studPin(m metal) schematic.PinRef {
	if len(m.joints) == 0 {
		return schematic.PinRef{}
	}
	return r.n.Nodes[r.n.Branches[m.joints[0]].Other(m.node)].Pin
}

// resistorBefore offers a resistor in the wire to the plus of an LED that has
// none: the next larger standard one that keeps the limit.
func (r *run) resistorBefore(s *netlist.Solution, led int, limit float64) []Fix {
	br := &r.n.Branches[led]
	plus := r.n.Nodes[br.A].Pin
	a, okA := s.VoltAt(br.A)
	b, okB := s.VoltAt(br.B)
	forward, ok := br.Value("volt").Get()
	wires := r.wiresAt(plus)
	if !ok || !okA || !okB || !r.shown(plus) || len(wires) != 1 || r.doc.Kind("resistor") == nil || r.doc.Sheet(wires[0].Sheet) == nil {
		return nil
	}
	// Without the LED's own current the supply stands higher: the system's
	// voltage counts where it is more.
	supply := math.Max(a-b, r.doc.Info().Volts())
	ohm, ok := tables.NextE12((supply - forward) / (limit * surely))
	if !ok {
		return nil
	}
	end := edit.EndA
	if wires[0].B.Ref() == plus {
		end = edit.EndB
	}
	length := schematic.Num{}
	for _, i := range r.n.At(r.n.NodeOf(plus)) {
		if x := &r.n.Branches[i]; x.Wire == wires[0] && x.Conductor.LengthMM > 2*tailMM {
			length = schematic.Some(x.Conductor.LengthMM - tailMM)
		}
	}
	return []Fix{{
		Label: fmt.Sprintf("put a resistor of %s into %s before %s", ohms(ohm), wires[0].Name, br.Part.Name),
		Effect: fmt.Sprintf("(%s − %s) / %s: the LED then carries about %s, the resistor turns %s into heat",
			volts(supply), volts(forward), ohms(ohm), amps((supply-forward)/ohm), watts((supply-forward)*(supply-forward)/ohm)),
		Draw: edit.InLine{Wire: wires[0].ID, Near: end, Kind: "resistor", Pins: [2]string{"1", "2"}, Values: map[string]float64{"ohm": ohm},
			NearMM: schematic.Some(tailMM), FarMM: length},
	}}
}
