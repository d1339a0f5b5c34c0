package check

import (
	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

// heatingAnswer is how a sort of wire heats up in its surroundings.
type heatingAnswer struct {
	heat calc.Heating
	err  error
}

// heating returns how a wire among the given number of loaded ones heats up
// with a current too large for it. Few sorts occur in a harness, so the answers
// are kept.
func (r *run) heating(w *schematic.Wire, ambientC float64, bundled int) (*calc.Heating, error) {
	rated, err := r.ampacity(w, ambientC, bundled)
	if err != nil {
		return nil, err
	}
	area, ok := w.Size.AreaMM2()
	if !ok {
		area = 0 // counts as missing
	}
	maxC, shortC := r.insulation(w)
	in := calc.HeatingInput{Metal: netlist.MetalOf(w), AreaMM2: area, InsulationC: maxC, ShortC: shortC}
	key := heatingKey{in, rated.Value, rated.ConductorC, rated.AmbientC}
	a, ok := r.heatings[key]
	if !ok {
		in.Rated = rated
		a = &heatingAnswer{}
		a.heat, a.err = calc.NewHeating(in)
		if r.heatings == nil {
			r.heatings = map[heatingKey]*heatingAnswer{}
		}
		r.heatings[key] = a
	}
	return &a.heat, a.err
}

// heatingKey tells sorts of wires apart.
type heatingKey struct {
	in                   calc.HeatingInput // without Rated
	amp, conductorC, air float64
}

// coat is what insulation bears in degC: for good, NaN where nobody can tell,
// and within 5 s, 0 where it is not on record.
type coat struct{ maxC, shortC float64 }

// insulation returns what a wire's insulation bears. Few sorts occur in a
// harness, so the answers are kept.
func (r *run) insulation(w *schematic.Wire) (maxC, shortC float64) {
	key := coatKey{w.Insulation, w.TempC}
	c, ok := r.coats[key]
	if !ok {
		row, _ := tables.InsulationByCode(w.Insulation)
		c = coat{netlist.InsulationC(w), row.ShortCircuitC}
		if r.coats == nil {
			r.coats = map[coatKey]coat{}
		}
		r.coats[key] = c
	}
	return c.maxC, c.shortC
}

// coatKey tells sorts of insulation apart.
type coatKey struct {
	code  string
	tempC schematic.Num
}
