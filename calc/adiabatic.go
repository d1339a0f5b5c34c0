package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
)

var adiabaticLaw = tables.Source{Title: "IEC 60949", Place: "adiabatic equation I²t = k²S²"}

// AdiabaticK gives k in A·s^½/mm2 for heating from startC to endC without
// loss: K·√(ln((θf+β)/(θi+β))).
func AdiabaticK(m tables.Metal, startC, endC float64) (Result, error) {
	row, src, ok := tables.Adiabatic(m)
	if !ok {
		return Result{}, missing("the adiabatic constant of the metal")
	}
	if endC == 0 {
		return Result{}, missing("the final temperature of the insulation")
	}
	if err := celsius(quantity{"the start temperature", startC}, quantity{"the final temperature", endC}); err != nil {
		return Result{}, err
	}
	if endC <= startC {
		return Result{}, outside("the final temperature %s is not above the start %s", degC(endC), degC(startC))
	}
	k := row.K * math.Sqrt(math.Log((endC+row.Beta)/(startC+row.Beta)))
	return Result{k, fmt.Sprintf("k = %g · √ln((%g + %g)/(%g + %g)) = %s A·√s/mm²", row.K, endC, row.Beta, startC, row.Beta, num(k)), src}, nil
}

// WithstandI2t gives k²S² in A²s, the heat a short circuit may bring.
func WithstandI2t(areaMM2, k float64) (Result, error) {
	if err := positive(quantity{"the cross-section", areaMM2}, quantity{"k", k}); err != nil {
		return Result{}, err
	}
	v := k * k * areaMM2 * areaMM2
	return Result{v, fmt.Sprintf("I²t = %s² · (%s)² = %s", num(k), mm2(areaMM2), a2s(v)), adiabaticLaw}, nil
}

// WithstandAmps gives the current in A that a conductor bears for t seconds.
func WithstandAmps(areaMM2, k, t float64) (Result, error) {
	w, err := WithstandI2t(areaMM2, k)
	if err != nil {
		return Result{}, err
	}
	if err := positive(quantity{"the time", t}); err != nil {
		return Result{}, err
	}
	v := math.Sqrt(w.Value / t)
	return Result{v, fmt.Sprintf("I = √(%s / %s) = %s", a2s(w.Value), seconds(t), amps(v)), adiabaticLaw}, nil
}
