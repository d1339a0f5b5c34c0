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
	row, _ := tables.InsulationByCode(w.Insulation)
	in := calc.HeatingInput{Metal: netlist.MetalOf(w), AreaMM2: area, InsulationC: netlist.InsulationC(w), ShortC: row.ShortCircuitC}
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
