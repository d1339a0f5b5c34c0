package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
	"loomwright/calc/unit"
)

// SizeQuestion is what a wire of copper and its fuse must do.
type SizeQuestion struct {
	Amp         float64 // while it flows, A
	Duty        float64 // share of time it flows, above 0 to 1, in turns of some seconds; 0 stands for 1
	LengthMM    float64 // of conductor, there and back if the return is wire; NaN: the drop is not asked for
	DropV       float64 // most that may be lost over the length; NaN: the drop is not asked for
	AmbientC    float64
	InsulationC float64 // what the insulation bears for good
	Bundled     int     // loaded wires lying together, this one included
	Set         tables.BundleSet
	AltitudeM   float64
}

// SizeAdvice is the answer to a [SizeQuestion].
type SizeAdvice struct {
	Fuse    *FuseAdvice // nil: none on record is large enough
	Sizes   []SizeStep  // one for each system
	Missing []string    // what is not assessed
}

// FuseAdvice is the smallest standard fuse for the load.
type FuseAdvice struct {
	Family tables.FuseFamily
	Result // rating, A
}

// SizeStep is the smallest size of one system that carries the load, is
// protected by the fuse and keeps the drop.
type SizeStep struct {
	System    unit.SizeSystem
	Size      unit.Size // unknown: none of the list is enough
	Ampacity  Rated
	Warm      Result  // temperature of the conductor, degC
	Ohm, Drop Result  // where the drop is asked for
	DecidedBy string  // "current", "fuse" or "drop"
	NextDrop  float64 // V the next thinner size would lose; 0 where the drop does not decide
}

// Reasons lists how a step came about.
func (s SizeStep) Reasons() []Result {
	out := []Result{s.Ampacity.Result, s.Warm}
	if s.Drop.Formula != "" {
		out = append(out, s.Ohm, s.Drop)
	}
	return out
}

// asksDrop reports whether length and limit are both given.
func (q SizeQuestion) asksDrop() bool { return !math.IsNaN(q.LengthMM) && !math.IsNaN(q.DropV) }

// duty returns the share of time, 1 for none given.
func (q SizeQuestion) duty() float64 {
	if q.Duty == 0 {
		return 1
	}
	return q.Duty
}

func (q SizeQuestion) check() error {
	if err := positive(quantity{"the current", q.Amp}, quantity{"the insulation temperature", q.InsulationC}); err != nil {
		return err
	}
	if d := q.duty(); math.IsNaN(d) || d < 0 || d > 1 {
		return outside("%s is not a share of time: give more than 0, up to 1", num(d))
	}
	for _, x := range []quantity{{"the length", q.LengthMM}, {"the drop allowed", q.DropV}} {
		if !math.IsNaN(x.v) {
			if err := positive(x); err != nil {
				return err
			}
		}
	}
	if q.Bundled < 1 {
		return outside("%d loaded wires: the wire itself counts, so give 1 or more", q.Bundled)
	}
	return celsius(quantity{"the ambient temperature", q.AmbientC})
}

// Advise finds the fuse for a load, then in each system the smallest size that
// carries the load, is protected by the fuse and keeps the drop. A current that
// flows in turns warms as its r.m.s. value does; the drop counts in full.
func Advise(q SizeQuestion) (SizeAdvice, error) {
	if err := q.check(); err != nil {
		return SizeAdvice{}, err
	}
	var out SizeAdvice
	share := tables.FuseContinuous().Value
	heats := q.Amp * math.Sqrt(q.duty())
	need := q.Amp
	for _, family := range []tables.FuseFamily{tables.Blade, tables.MaxiBlade, tables.BoltSF30, tables.BoltSF51} {
		// In turns it may flow up to the rating, while its heat keeps the share.
		fit, err := FuseForLoad(family, math.Max(heats, share*q.Amp))
		if err != nil {
			continue
		}
		if q.duty() < 1 {
			fit.Formula = fmt.Sprintf("%s · √%s = %s r.m.s., at least %s · %s: %s", amps(q.Amp), num(q.duty()), amps(heats), num(share), amps(q.Amp), fit.Formula)
		}
		out.Fuse = &FuseAdvice{family, fit}
		need = fit.Value
		break
	}
	if out.Fuse == nil {
		out.Missing = append(out.Missing, "a fuse: no rating on record is large enough")
	}
	if !q.asksDrop() {
		out.Missing = append(out.Missing, "the voltage drop: it needs the length and the volts allowed")
	}
	for _, sys := range []unit.SizeSystem{unit.Metric, unit.AWG} {
		out.Sizes = append(out.Sizes, q.smallest(sys, heats, need))
	}
	return out, nil
}

// smallest tries the sizes of a system, thinnest first.
func (q SizeQuestion) smallest(sys unit.SizeSystem, heats, need float64) SizeStep {
	step := SizeStep{System: sys, DecidedBy: "current"}
	for _, size := range StandardSizes(sys) {
		rated, err := Ampacity(AmpacityInput{Metal: tables.Copper, Size: size, InsulationC: q.InsulationC, AmbientC: q.AmbientC,
			Bundled: q.Bundled, Set: q.Set, AltitudeM: q.AltitudeM})
		switch {
		case err != nil || rated.Value < heats:
			continue
		case rated.Value < need:
			step.DecidedBy = "fuse"
			continue
		}
		// The drop counts with the conductor as warm as the load makes it.
		warm, err := WireTemperature(rated.Value, rated.ConductorC, rated.AmbientC, heats, q.AmbientC)
		if err != nil {
			continue
		}
		if q.asksDrop() {
			ohm, err := WireResistance(Conductor{Metal: tables.Copper, Size: size}, q.LengthMM, warm.Value)
			if err != nil {
				continue
			}
			drop, err := VoltageDrop(q.Amp, ohm.Value)
			if err != nil {
				continue
			}
			if drop.Value > q.DropV {
				step.DecidedBy, step.NextDrop = "drop", drop.Value
				continue
			}
			step.Ohm, step.Drop = ohm, drop
		}
		step.Size, step.Ampacity, step.Warm = size, rated, warm
		return step
	}
	return SizeStep{System: sys}
}
