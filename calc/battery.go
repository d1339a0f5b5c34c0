package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
)

// BatteryCold gives the internal resistance in ohm at -18 degC that the cold
// cranking current implies: (rest voltage − 7.2 V)/CCA, volts doubled for a
// 24 V set.
func BatteryCold(restV, cca, nominalV float64) (Result, error) {
	if err := positive(quantity{"the rest voltage", restV}, quantity{"the cold cranking current", cca}); err != nil {
		return Result{}, err
	}
	n, err := batteries(nominalV)
	if err != nil {
		return Result{}, err
	}
	rule := tables.CrankEndV()
	end := rule.Value * n
	if restV <= end {
		return Result{}, outside("the rest voltage %s is not above %s", volts(restV), volts(end))
	}
	v := (restV - end) / cca
	return Result{v, fmt.Sprintf("R = (%s − %s)/%s = %s", volts(restV), volts(end), amps(cca), ohms(v)), rule.Source}, nil
}

// BatteryWarm gives the internal resistance in ohm at 25 degC from the cold one.
func BatteryWarm(coldOhm float64) (Result, error) {
	if err := positive(quantity{"the cold resistance", coldOhm}); err != nil {
		return Result{}, err
	}
	rule := tables.WarmResistance()
	v := rule.Value * coldOhm
	return Result{v, fmt.Sprintf("%s · %s = %s", num(rule.Value), ohms(coldOhm), ohms(v)), rule.Source}, nil
}

// RestVoltage gives the voltage in V of a rested lead-acid battery at a charge
// of 0 to 1, straight between the rows of the list.
func RestVoltage(charge, nominalV float64) (Result, error) {
	n, err := batteries(nominalV)
	if err != nil {
		return Result{}, err
	}
	switch {
	case math.IsNaN(charge):
		return Result{}, missing("the state of charge")
	case charge < 0 || charge > 1:
		return Result{}, outside("the state of charge %s is outside 0 to 1", num(charge))
	}
	list := tables.RestVoltage()
	v := n * restV(list, charge)
	return Result{v, fmt.Sprintf("%s %% charged rests at %s", num(charge*100), volts(v)), list.Source}, nil
}

// restV is the voltage of one 12 V battery, straight between the rows, which
// rise in charge.
func restV(list tables.Table[tables.ChargeRow], charge float64) float64 {
	last := list.At(0)
	for _, r := range list.All() {
		if charge < r.Charge {
			return last.RestV + (r.RestV-last.RestV)*(charge-last.Charge)/(r.Charge-last.Charge)
		}
		last = r
	}
	return last.RestV
}

// batteries is how many 12 V batteries the system has in series.
func batteries(nominalV float64) (float64, error) {
	switch nominalV {
	case 12, 24:
		return nominalV / 12, nil
	}
	if math.IsNaN(nominalV) || nominalV == 0 {
		return 0, missing("the nominal voltage")
	}
	return 0, outside("battery data is for 12 and 24 V, not for %s", volts(nominalV))
}

// ParkedDays gives how many days a battery of capacityAh feeds keyOffA until
// half of its charge is gone.
func ParkedDays(capacityAh, keyOffA float64) (Result, error) {
	if err := positive(quantity{"the battery capacity", capacityAh}, quantity{"the key-off current", keyOffA}); err != nil {
		return Result{}, err
	}
	rule := tables.ParkedCharge()
	v := rule.Value * capacityAh / keyOffA / 24
	return Result{v, fmt.Sprintf("%s · %s Ah / %s / 24 h = %s days", num(rule.Value), num(capacityAh), amps(keyOffA), num(v)), rule.Source}, nil
}
