package tables

// ChargeRow pairs the state of charge with the rest voltage of a 12 V battery.
type ChargeRow struct {
	Charge float64 // 0 to 1
	RestV  float64
}

var (
	chargeSeen = [...]ChargeRow{{0, 11.6}, {0.25, 12.0}, {0.50, 12.2}, {0.75, 12.4}, {1, 12.6}}
	chargeBCI  = [...]ChargeRow{{0, 11.89}, {0.25, 12.06}, {0.50, 12.24}, {0.75, 12.45}, {1, 12.65}}
)

// ChargeSet chooses between two published lists of rest voltage.
type ChargeSet uint8

// The lists, for flooded lead-acid batteries at 25 degC after 8 to 24 h rest.
const (
	ChargeListed ChargeSet = iota // seen second-hand; the default
	ChargeBCI                     // BCI-type values from memory
)

// RestVoltage gives a list in ascending charge. Double the volts for 24 V.
func RestVoltage(s ChargeSet) Table[ChargeRow] {
	if s == ChargeBCI {
		return Table[ChargeRow]{Source{Title: "BCI-type rest voltages", Place: "flooded, 25 °C", FromMemory: true}, chargeBCI[:]}
	}
	return Table[ChargeRow]{Source{Title: "battery rest voltages", Place: "flooded, 25 °C, seen second-hand"}, chargeSeen[:]}
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

// InrushKind is a load that starts with more than its running current.
type InrushKind uint8

// Kinds of starting current.
const (
	FilamentInrush InrushKind = iota + 1
	MotorStall
	FanStart
	LEDInrush
)

// InrushRow bounds the starting current as a multiple of the running current.
type InrushRow struct {
	Kind     InrushKind
	Name     string
	Min, Max float64
	Source   Source
}

var inrushes = [...]InrushRow{
	{FilamentInrush, "filament lamp, cold", 8, 15, Source{Title: "lamp driver paper and wiring guide", Place: "seen second-hand"}},
	{MotorStall, "motor, stalled", 5, 10, practiceM("stall current of small motors")},
	{FanStart, "fan, starting", 2, 4, practiceM("fan start")},
	{LEDInrush, "LED lamp, under 1 ms", 1, 10, practiceM("input capacitor")},
}

// Inrushes lists starting currents.
func Inrushes() Table[InrushRow] {
	return Table[InrushRow]{Source{Title: "starting currents", Place: "see each row"}, inrushes[:]}
}
