package tables

// ChargeRow pairs the state of charge with the rest voltage of a 12 V battery.
type ChargeRow struct {
	Charge float64 // 0 to 1
	RestV  float64
}

var charges = [...]ChargeRow{{0, 11.6}, {0.25, 12.0}, {0.50, 12.2}, {0.75, 12.4}, {1, 12.6}}

// RestVoltage lists the rest voltage of flooded lead-acid batteries at 25 degC
// after 8 to 24 h of rest, in ascending charge. Double the volts for 24 V.
func RestVoltage() Table[ChargeRow] {
	return Table[ChargeRow]{Source{Title: "battery rest voltages", Place: "flooded, 25 °C, seen second-hand"}, charges[:]}
}

// CrankEndV is the voltage a 12 V battery still holds after 30 s at its cold
// cranking current at -18 degC.
func CrankEndV() Rule {
	return Rule{7.2, Source{Title: "SAE and BCI cold cranking", Place: "-18 °C, 30 s, at least 7.2 V, seen second-hand"}}
}

// WarmResistance is the part of the cold internal resistance that remains at
// 25 degC: 0.4 to 0.6.
func WarmResistance() Rule {
	return Rule{0.5, practiceM("warm resistance 0.4 to 0.6 of cold")}
}

// ParkedCharge is the part of the capacity that may be used while parked.
func ParkedCharge() Rule {
	return Rule{0.5, practice("park until half of the charge is gone")}
}

// KeyOffAmps is the current a parked vehicle may draw.
func KeyOffAmps() Rule {
	return Rule{0.050, Source{Title: "vehicle workshop manuals", Place: "key-off current, seen second-hand"}}
}
