package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
)

var ohmsLaw = tables.Source{Title: "Ohm's law"}

// VoltageDrop gives I·R in V. A current of zero drops nothing.
func VoltageDrop(a, ohm float64) (Result, error) {
	switch {
	case math.IsNaN(a) || math.IsInf(a, 0):
		return Result{}, missing("the current")
	case math.IsNaN(ohm) || math.IsInf(ohm, 0) || ohm < 0:
		return Result{}, missing("the resistance")
	}
	v := a * ohm
	return Result{v, fmt.Sprintf("U = %s · %s = %s", amps(a), ohms(ohm), volts(v)), ohmsLaw}, nil
}

// DropLimit gives the most in V that a part of a circuit may drop.
func DropLimit(k tables.DropKind, nominalV float64) (Result, error) {
	if err := positive(quantity{"the nominal voltage", nominalV}); err != nil {
		return Result{}, err
	}
	row, ok := tables.DropLimits().Find(func(r tables.DropLimit) bool { return r.Kind == k })
	if !ok {
		return Result{}, missing("the kind of voltage drop")
	}
	v, src, ok := tables.DropLimitV(k, nominalV)
	if !ok {
		return Result{}, outside("no limit is published for %s at %s", row.Name, volts(nominalV))
	}
	text := fmt.Sprintf("%s: at most %s", row.Name, volts(v))
	if row.Fraction > 0 {
		text = fmt.Sprintf("%s: %s %% of %s = %s", row.Name, num(row.Fraction*100), volts(nominalV), volts(v))
	}
	return Result{v, text, src}, nil
}

// LengthForDrop gives the conductor length in mm, there and back if the
// return is wire, over which a amps drop limitV.
func LengthForDrop(a, limitV, ohmPerM float64) (Result, error) {
	if err := positive(quantity{"the current", a}, quantity{"the drop limit", limitV}, quantity{"the resistance per metre", ohmPerM}); err != nil {
		return Result{}, err
	}
	v := limitV / a / ohmPerM * 1000
	return Result{v, fmt.Sprintf("L = %s / (%s · %s/m) = %s", volts(limitV), amps(a), ohms(ohmPerM), mm(v)), ohmsLaw}, nil
}

// SmallestForDrop picks the first of the candidates, given thinnest first, on
// which a amps over lengthMM drop at most limitV with the conductor at tempC.
// The result is its drop in V.
func SmallestForDrop(candidates []Conductor, a, lengthMM, limitV, tempC float64) (Conductor, Result, error) {
	if err := positive(quantity{"the current", a}, quantity{"the drop limit", limitV}); err != nil {
		return Conductor{}, Result{}, err
	}
	for _, c := range candidates {
		r, err := WireResistance(c, lengthMM, tempC)
		if err != nil {
			return Conductor{}, Result{}, err
		}
		d, err := VoltageDrop(a, r.Value)
		if err != nil {
			return Conductor{}, Result{}, err
		}
		if d.Value <= limitV {
			return c, Result{d.Value, r.Formula + "; " + d.Formula, r.Source}, nil
		}
	}
	return Conductor{}, Result{}, outside("no size offered keeps %s over %s within %s", amps(a), mm(lengthMM), volts(limitV))
}
