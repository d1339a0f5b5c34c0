package tables

// RelayRow is the data of a common relay form.
type RelayRow struct {
	Name               string
	NominalV           float64
	CoilOhm            float64 // at 20 degC, ±10 %
	PullInMaxV         float64 // closes by this voltage; 0 is not on record
	DropOutMinV        float64 // opens by this voltage; 0 is not on record
	MakeA, BreakA      float64 // contact ratings; 0 is not on record
	ContactTypicalOhm  float64
	SuppressorOhm      float64 // usual resistor across the coil; 0 is none
	OperateS, ReleaseS float64 // slowest commonly quoted
}

var relays = [...]RelayRow{
	{"mini relay, 12 V", 12, 90, 8.4, 1.2, 40, 30, 3e-3, 680, 10e-3, 5e-3},
	{"mini relay, 24 V", 24, 320, 16.8, 2.4, 20, 15, 3e-3, 2700, 10e-3, 5e-3},
	{"board relay, 12 V", 12, 280, 0, 0, 0, 0, 3e-3, 0, 10e-3, 5e-3},
}

// Relays lists defaults for relays of the ISO 7588 forms. Coils of 75 to
// 100 ohm are sold for 12 V; the suppressor resistors are from memory.
func Relays() Table[RelayRow] {
	return Table[RelayRow]{Source{Title: "relay makers' data sheets", Place: "ISO 7588 forms, seen second-hand"}, relays[:]}
}
