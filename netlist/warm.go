package netlist

import (
	"math"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/calc/unit"
	"loomwright/schematic"
)

// InsulationC returns the long-term temperature a wire's insulation bears in
// degC, NaN when nobody can tell.
func InsulationC(w *schematic.Wire) float64 {
	if c, ok := w.TempC.Get(); ok {
		return c
	}
	if row, ok := tables.InsulationByCode(w.Insulation); ok {
		return row.MaxC
	}
	return math.NaN()
}

// listAirC is the air temperature the rating lists hold for, degC.
const listAirC = 30

// wireSort is what a wire's warming by its own current depends on.
type wireSort struct {
	metal   tables.Metal
	size    unit.Size
	maxC    float64
	bundled int
	set     tables.BundleSet
	heightM float64 // above the sea, 0 leaves thin air out
}

// heating returns h of ΔT/(β+T) = h·I², in 1/A²: the current the rating lists
// allow in air of 30 °C leads to the temperature they allow it for. It is
// unknown where the lists say nothing of the wire.
func (k wireSort) heating() schematic.Num {
	rated, err := calc.Ampacity(calc.AmpacityInput{Metal: k.metal, Size: k.size, InsulationC: k.maxC,
		AmbientC: listAirC, Bundled: k.bundled, Set: k.set, AltitudeM: k.heightM})
	beta := betaOf(k.metal)
	if err != nil || rated.Value <= 0 || rated.ConductorC <= listAirC || beta == 0 {
		return schematic.Num{}
	}
	return schematic.Some((rated.ConductorC - listAirC) / (beta + rated.ConductorC) / rated.Value / rated.Value)
}

func betaOf(m tables.Metal) float64 {
	row, _ := tables.MetalData(m)
	return row.Beta
}

// heat is a branch whose resistance depends on its own current.
type heat struct {
	wire  *schematic.Wire // nil for a fuse
	fuse  fuseWire
	sort  wireSort
	beta  float64
	cond  Conductor
	ohm   float64 // now, Ω
	tempC float64 // of the conductor now, degC
	known bool    // the rating lists know the wire
	surge float64 // β + T grows by e^(surge·I²) within the time of cranking if no heat is lost, 1/A²
	step  float64 // the last change, Ω
	ease  float64 // share of a change that is made: less where changes go to and fro
}

// toward moves the resistance towards another value. A thin wire on a stiff
// supply carries less as it warms, so that whole steps would overshoot for ever.
func (t *heat) toward(ohm float64) {
	step := ohm - t.ohm
	switch {
	case t.ease == 0:
		t.ease = 1
	case step*t.step < 0:
		t.ease /= 2
	default:
		t.ease = min(1, 1.3*t.ease)
	}
	t.step = step
	t.ohm += t.ease * step
	if t.wire != nil {
		t.tempC = t.tempOf(t.ohm)
	}
}

// tempOf returns the conductor temperature that goes with a wire's resistance.
func (t *heat) tempOf(ohm float64) float64 {
	joints := t.cond.JointOhm[0] + t.cond.JointOhm[1]
	return (ohm-joints)/t.cond.WireOhm*(t.beta+t.cond.AmbientC) - t.beta
}

// at returns the resistance and the conductor temperature with a settled
// current in a wire of heating h; with short at the end of cranking, where it
// has not got further than it would without losing heat (IEC 60949). Both
// temperatures are bounds, so the lower one counts.
func (t *heat) at(amp, h float64, short bool) (ohm, tempC float64) {
	if t.wire == nil {
		return t.fuse.ohm(amp), 0
	}
	q := h * amp * amp
	tempC = tables.CopperMeltsC
	if q < 1 {
		tempC = math.Min(tempC, t.cond.AmbientC+q*(t.beta+t.cond.AmbientC)/(1-q))
	}
	if short && t.surge > 0 {
		grown := (t.beta+t.cond.AmbientC)*math.Exp(math.Min(t.surge*amp*amp, 100)) - t.beta
		if h == 0 || grown < tempC {
			tempC = math.Min(grown, tables.CopperMeltsC)
		}
	}
	joints := t.cond.JointOhm[0] + t.cond.JointOhm[1]
	return joints + t.cond.WireOhm*(t.beta+tempC)/(t.beta+t.cond.AmbientC), tempC
}

// addHeat notes a branch that warms.
func (s *Solver) addHeat(i int) {
	br := &s.n.Branches[i]
	switch {
	case s.elem[i] == noElement:
	case br.Role == RoleWire && len(br.Missing) == 0:
		s.addWireHeat(i, br.Wire, br.Conductor)
	case br.Role == RoleElement && br.Element.Type == schematic.ElemFuse:
		if f := br.fuse(); f.hot != f.cold {
			s.heats[i] = &heat{fuse: f, ohm: f.cold}
		}
	}
}

func (s *Solver) addWireHeat(i int, w *schematic.Wire, c Conductor) {
	s.heats[i] = nil
	maxC, metal := InsulationC(w), MetalOf(w)
	if s.ambient || math.IsNaN(maxC) || betaOf(metal) == 0 {
		return
	}
	s.heats[i] = &heat{wire: w, cond: c, ohm: c.Ohm, tempC: c.AmbientC, beta: betaOf(metal), known: true,
		surge: s.surgeOf(metal, w.Size), sort: wireSort{metal: metal, size: w.Size, maxC: maxC, set: BundleSetOf(s.n.Doc.Info()), heightM: AltitudeOf(s.n.Doc.Info())}}
}

// surgeOf returns t/(K·S)² for the time of cranking t, 0 where the metal's
// constant K or the size S is not known.
func (s *Solver) surgeOf(metal tables.Metal, size unit.Size) float64 {
	seconds, given := s.n.Doc.Info().Limits[CrankLimit]
	if !given {
		seconds = DefaultCrankSecond
	}
	row, _, ok := tables.Adiabatic(metal)
	area, known := size.AreaMM2()
	if !ok || !known || area <= 0 || row.K <= 0 || seconds <= 0 {
		return 0
	}
	return seconds / (row.K * row.K * area * area)
}

// chill puts every branch back to where warming begins, so that an answer does
// not depend on what was asked before.
func (s *Solver) chill() {
	for i, t := range s.heats {
		if t == nil {
			continue
		}
		ohm, tempC := t.cond.Ohm, t.cond.AmbientC
		if t.wire == nil {
			ohm = t.fuse.cold
		}
		if ohm != t.ohm {
			t.ohm = ohm
			must(s.net.SetOhm(s.elem[i], bounded(ohm)))
		}
		t.tempC, t.step, t.ease = tempC, 0, 0
	}
}

// warmAs puts every branch to the temperature another solution has it at, but
// for wires that stand in place of others.
func (s *Solver) warmAs(base *Solution) {
	for i, t := range s.heats {
		if t == nil || i >= len(base.ohm) || math.IsNaN(base.ohm[i]) || t.wire != nil && t.wire != base.Netlist.Branches[i].Wire {
			continue
		}
		if t.ohm != base.ohm[i] {
			t.ohm = base.ohm[i]
			must(s.net.SetOhm(s.elem[i], bounded(t.ohm)))
		}
		if t.step, t.ease = 0, 0; t.wire != nil {
			t.tempC = t.tempOf(t.ohm)
		}
	}
}

// The search for temperatures that agree with the currents they lead to ends
// when no resistance moves by more than warmTolerance of itself (some hundredths
// of a kelvin), or after warmRounds.
const (
	warmTolerance = 1e-4
	warmRounds    = 80
)

// warm lets wires and fuses warm by their currents until resistances and
// currents agree. It reports the wires that melt, and those that still move
// after the last round.
func (s *Solver) warm(out *Solution, closed []bool) {
	cranking := out.State.Engine == schematic.EngineCranking
	heating := s.heatings(cranking)
	for range warmRounds {
		moved := out.Unsteady[:0]
		for i, t := range s.heats {
			if t == nil {
				continue
			}
			ohm, _ := t.at(s.sol.Amp[s.elem[i]], heating[i], cranking)
			if math.Abs(ohm-t.ohm) <= warmTolerance*t.ohm {
				continue
			}
			t.toward(ohm)
			moved = append(moved, i)
			must(s.net.SetOhm(s.elem[i], bounded(t.ohm)))
		}
		out.Unsteady = moved
		if len(moved) == 0 {
			for i, t := range s.heats {
				if t != nil && t.wire != nil && t.tempC > tables.CopperMeltsC-1 {
					out.Unsteady = append(out.Unsteady, i)
				}
			}
			return
		}
		s.settle(out, closed)
		if out.Err != nil || len(out.Chattering) > 0 {
			out.Unsteady = nil
			return
		}
	}
}

// heatings returns the warming of every wire among the loaded wires round it.
func (s *Solver) heatings(cranking bool) []float64 {
	h := make([]float64, len(s.heats))
	loaded := s.n.Doc.Info().Limits[LoadedLimit]
	if _, given := s.n.Doc.Info().Limits[LoadedLimit]; !given {
		loaded = DefaultLoadedAmp
	}
	carries := func(i int) bool {
		return s.elem[i] != noElement && math.Abs(s.sol.Amp[s.elem[i]]) >= loaded
	}
	crowd := map[schematic.ID]int{}
	for i := range s.n.Branches {
		if br := &s.n.Branches[i]; br.Role == RoleWire && len(br.Wire.Route) > 0 && carries(i) {
			for _, id := range br.Wire.Route {
				crowd[id]++
			}
		}
	}
	for i, t := range s.heats {
		if t == nil || t.wire == nil {
			continue
		}
		key := t.sort
		for _, id := range t.wire.Route {
			others := crowd[id]
			if carries(i) {
				others--
			}
			key.bundled = max(key.bundled, others)
		}
		key.bundled++
		v, ok := s.heating[key]
		if !ok {
			v = key.heating()
			s.heating[key] = v
		}
		t.known = v.Known() || cranking && t.surge > 0
		h[i] = v.Or(0)
	}
	return h
}

// WireTempC returns the temperature a wire's conductor settles at in this
// operating state, in degC: the air at the hottest place of its route and what
// its current adds among the loaded wires round it. While the engine is cranked
// it is what the conductor has at most at the end of the longest time of
// cranking, begun at the temperature of the air. It is not assessed, and the
// air's temperature returned, where length, size or insulation are missing, the
// rating lists do not know the wire, or the document leaves warming out.
func (s *Solution) WireTempC(id schematic.ID) (tempC float64, assessed bool) {
	i := s.Netlist.WireBranch(id)
	if i < 0 || s.Err != nil {
		return 0, false
	}
	if i < len(s.tempC) && !math.IsNaN(s.tempC[i]) {
		return s.tempC[i], true
	}
	return s.Netlist.Branches[i].Conductor.AmbientC, false
}

// OhmOf returns the resistance a wire, plugged contact, fuse or other plain
// resistance had in this operating state, in Ω; false where it has none, or
// something stands in for it.
func (s *Solution) OhmOf(branch int) (float64, bool) {
	br := &s.Netlist.Branches[branch]
	if branch < len(s.ohm) && !math.IsNaN(s.ohm[branch]) {
		return s.ohm[branch], true
	}
	switch {
	case br.Role == RoleElement && br.Element.Type == schematic.ElemFuse:
		return br.fuse().cold, len(br.Missing) == 0 || br.OhmKnown
	case br.Role == RoleElement && br.Element.Type == schematic.ElemBattery:
		return br.Cells().Ohm, len(br.Missing) == 0
	}
	return br.Ohm, br.OhmKnown
}

// ConductorOf returns how a wire's resistance came about at the temperature it
// settled at.
func (s *Solution) ConductorOf(id schematic.ID) Conductor {
	i := s.Netlist.WireBranch(id)
	if i < 0 {
		return Conductor{}
	}
	br := &s.Netlist.Branches[i]
	c := br.Conductor
	if i >= len(s.tempC) || math.IsNaN(s.tempC[i]) {
		return c
	}
	tempC := s.tempC[i]
	r, err := calc.WireResistance(calc.Conductor{Metal: MetalOf(br.Wire), Size: br.Wire.Size, Tinned: br.Wire.Metal == schematic.Tinned}, c.LengthMM, tempC)
	if err != nil {
		return c
	}
	c.WireOhm, c.Formula, c.Source = r.Value, r.Formula, r.Source
	c.Ohm = c.JointOhm[0] + c.JointOhm[1] + r.Value
	return c
}
