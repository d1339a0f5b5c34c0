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

// AircraftWireTemperature is the conductor temperature estimate of AC
// 43.13-1B, T2 = T1 + (TR−T1)·√(I2/Imax), in degC. It lies above the physical
// law and is meant to.
func AircraftWireTemperature(ambientC, ratedC, a, maxA float64) (Result, error) {
	if err := positive(quantity{"the current", a}, quantity{"the largest current", maxA}); err != nil {
		return Result{}, err
	}
	if err := celsius(quantity{"the ambient temperature", ambientC}, quantity{"the rated temperature", ratedC}); err != nil {
		return Result{}, err
	}
	t := ambientC + (ratedC-ambientC)*math.Sqrt(a/maxA)
	return Result{t, fmt.Sprintf("T2 = %s + %s K · √(%s/%s) = %s", degC(ambientC), num(ratedC-ambientC), amps(a), amps(maxA), degC(t)),
		tables.AircraftHotWire()}, nil
}

// HotLength gives the copper length in mm that has at tempC the resistance of
// coldMM at 20 degC: L2 = 254.5·L1/(234.5+T2).
func HotLength(coldMM, tempC float64) (Result, error) {
	if err := positive(quantity{"the length", coldMM}); err != nil {
		return Result{}, err
	}
	cu, _ := tables.MetalData(tables.Copper)
	f, _, err := tempFactor(cu, tempC)
	if err != nil {
		return Result{}, err
	}
	v := coldMM / f
	return Result{v, fmt.Sprintf("L2 = %g · %s/(%g + %s) = %s", cu.Beta+20, mm(coldMM), cu.Beta, degC(tempC), mm(v)),
		tables.Source{Title: "FAA AC 43.13-1B", Place: "paragraph 11-66d"}}, nil
}
