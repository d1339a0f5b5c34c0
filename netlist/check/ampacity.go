package check

import (
	"fmt"
	"math"

	"loomwright/calc"
	"loomwright/netlist"
	"loomwright/schematic"
)

type ampacityKey struct {
	in   calc.AmpacityInput
	cold bool // no insulation temperature: NaN would never be found again
}

type ampacityAnswer struct {
	rated calc.Rated
	err   error
}

// ampacity returns the continuous current of a wire among a number of loaded
// ones. Few combinations occur in a harness, so the answers are kept.
func (r *run) ampacity(w *schematic.Wire, ambientC float64, bundled int) (calc.Rated, error) {
	maxC, _ := r.insulation(w)
	in := calc.AmpacityInput{Metal: netlist.MetalOf(w), Size: w.Size, InsulationC: maxC,
		AmbientC: ambientC, Bundled: bundled, Set: netlist.BundleSetOf(r.doc.Info()), AltitudeM: netlist.AltitudeOf(r.doc.Info())}
	key := ampacityKey{in: in}
	if math.IsNaN(in.InsulationC) {
		key.in.InsulationC, key.cold = 0, true
	}
	a, ok := r.ampacities[key]
	if !ok {
		a.rated, a.err = calc.Ampacity(in)
		if r.ampacities == nil {
			r.ampacities = map[ampacityKey]ampacityAnswer{}
		}
		r.ampacities[key] = a
	}
	return a.rated, a.err
}

// bears returns the current a wire bears in an operating state: the ampacity,
// and while the engine is cranked what heats the conductor from the air's
// temperature to its insulation's within the time of cranking, if that is more.
func (r *run) bears(branch int, w *schematic.Wire, s *netlist.Solution) (calc.Rated, error) {
	c := r.n.Branches[branch].Conductor
	rated, err := r.ampacity(w, c.AmbientC, r.bundled(branch, s))
	if err != nil || !cranking(s) {
		return rated, err
	}
	area, ok := w.Size.AreaMM2()
	seconds, src := r.limit(limitCrank)
	if !ok || seconds <= 0 || rated.ConductorC <= c.AmbientC {
		return rated, nil
	}
	k, err := calc.AdiabaticK(netlist.MetalOf(w), c.AmbientC, rated.ConductorC)
	if err != nil {
		return rated, nil
	}
	short, err := calc.WithstandAmps(area, k.Value, seconds)
	if err != nil || short.Value <= rated.Value {
		return rated, nil
	}
	rated.Value, rated.Source = short.Value, short.Source.And(src)
	rated.Formula = fmt.Sprintf("%s, from %s to %s in %s s of cranking", short.Formula, degC(c.AmbientC), degC(rated.ConductorC), num(seconds))
	return rated, nil
}
