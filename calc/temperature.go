package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
)

// WireTemperature gives the steady temperature in degC of a copper conductor
// carrying a amps in air of ambientC, when ratedA amps in air of ratedAmbientC
// heat it to ratedC. It takes the rise of resistance with temperature along:
// ΔT/(234.5+Ta+ΔT) = (I/Ir)²·ΔTr/(234.5+Tr). Where no steady temperature
// below the melting point exists, the value is the melting point.
func WireTemperature(ratedA, ratedC, ratedAmbientC, a, ambientC float64) (Result, error) {
	if math.IsNaN(a) {
		return Result{}, missing("the current")
	}
	if err := positive(quantity{"the rated current", ratedA}); err != nil {
		return Result{}, err
	}
	if err := celsius(quantity{"the rated temperature", ratedC}, quantity{"the ambient temperature of the rating", ratedAmbientC},
		quantity{"the ambient temperature", ambientC}); err != nil {
		return Result{}, err
	}
	if ratedC <= ratedAmbientC {
		return Result{}, outside("the rated temperature %s is not above its ambient %s", degC(ratedC), degC(ratedAmbientC))
	}
	cu, _ := tables.MetalData(tables.Copper)
	part := a / ratedA
	q := part * part * (ratedC - ratedAmbientC) / (cu.Beta + ratedC)
	t := float64(tables.CopperMeltsC)
	if q < 1 {
		t = math.Min(t, ambientC+q*(cu.Beta+ambientC)/(1-q))
	}
	text := fmt.Sprintf("ΔT/(%g + %s + ΔT) = (%s/%s)² · %s K/(%g + %s), T = %s", cu.Beta, degC(ambientC), amps(a), amps(ratedA),
		num(ratedC-ratedAmbientC), cu.Beta, degC(ratedC), degC(t))
	if t == tables.CopperMeltsC {
		text += ", copper melts"
	}
	return Result{t, text, tables.Source{Title: "heat balance of a wire", Place: "resistance at temperature after IEC 60228 and AC 43.13-1B"}}, nil
}
