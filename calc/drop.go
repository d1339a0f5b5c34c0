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

// GroundLimit gives the most resistance in ohm a ground path may have so that
// a amps drop at most limitV in it.
func GroundLimit(limitV, a float64) (Result, error) {
	if err := positive(quantity{"the drop limit", limitV}, quantity{"the current", a}); err != nil {
		return Result{}, err
	}
	v := limitV / a
	return Result{v, fmt.Sprintf("R = %s / %s = %s", volts(limitV), amps(a), ohms(v)), ohmsLaw}, nil
}
