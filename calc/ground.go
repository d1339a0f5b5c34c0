package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
)

// GroundLimit gives the most resistance in ohm a ground path may have so that
// a amps drop at most limitV in it.
func GroundLimit(limitV, a float64) (Result, error) {
	if err := positive(quantity{"the drop limit", limitV}, quantity{"the current", a}); err != nil {
		return Result{}, err
	}
	v := limitV / a
	return Result{v, fmt.Sprintf("R = %s / %s = %s", volts(limitV), amps(a), ohms(v)), ohmsLaw}, nil
}

// SheetSpreading gives the resistance in ohm of a sheet between a stud of
// radius studMM and a circle of radius farMM round it: ρ/(2πt)·ln(b/a).
func SheetSpreading(m tables.Metal, thicknessMM, studMM, farMM float64) (Result, error) {
	d, ok := tables.MetalData(m)
	if !ok {
		return Result{}, missing("the sheet metal")
	}
	if err := positive(quantity{"the sheet thickness", thicknessMM}, quantity{"the stud radius", studMM}, quantity{"the far radius", farMM}); err != nil {
		return Result{}, err
	}
	if farMM <= studMM {
		return Result{}, outside("the far radius %s is not beyond the stud's %s", mm(farMM), mm(studMM))
	}
	v := d.Rho20 / 1000 / (2 * math.Pi * thicknessMM) * math.Log(farMM/studMM) // Ω·mm²/m is 1e-3 Ω·mm
	return Result{v, fmt.Sprintf("R = %s Ω·mm²/m / (2π · %s) · ln(%s/%s) = %s", num(d.Rho20), mm(thicknessMM), mm(farMM), mm(studMM), ohms(v)), d.Source}, nil
}
