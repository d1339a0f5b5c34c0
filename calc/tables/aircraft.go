package tables

const ac43 = "FAA AC 43.13-1B"

// AircraftRow is one line of AC 43.13-1B Table 11-9, tin-plated copper.
type AircraftRow struct {
	Gauge     int        // 0, -1, -2, -3 for 0, 00, 000, 0000
	Amps      [3]float64 // at 105, 150 and 200 degC conductor temperature
	OhmPerKft float64    // maximum at 20 degC per 1000 ft
	CircMils  float64    // area of the real stranding
}

var aircraft = [...]AircraftRow{
	{24, [3]float64{2.5, 4, 5}, 28.40, 475},
	{22, [3]float64{3, 5, 6}, 16.20, 755},
	{20, [3]float64{4, 7, 9}, 9.88, 1216},
	{18, [3]float64{6, 9, 12}, 6.23, 1900},
	{16, [3]float64{7, 11, 14}, 4.81, 2426},
	{14, [3]float64{10, 14, 18}, 3.06, 3831},
	{12, [3]float64{13, 19, 25}, 2.02, 5874},
	{10, [3]float64{17, 26, 32}, 1.26, 9354},
	{8, [3]float64{38, 57, 71}, 0.70, 16983},
	{6, [3]float64{50, 76, 97}, 0.44, 26818},
	{4, [3]float64{68, 103, 133}, 0.28, 42615},
	{2, [3]float64{95, 141, 179}, 0.18, 66500},
	{1, [3]float64{113, 166, 210}, 0.15, 81700},
	{0, [3]float64{128, 192, 243}, 0.12, 104500},
	{-1, [3]float64{147, 222, 285}, 0.09, 133000},
	{-2, [3]float64{172, 262, 335}, 0.07, 166500},
	{-3, [3]float64{204, 310, 395}, 0.06, 210900},
}

// AircraftWire is AC 43.13-1B Table 11-9. Its amps hold at 70 degC ambient in
// a bundle of 33 wires (9 from size 8 up) that carries a fifth of its sum.
func AircraftWire() Table[AircraftRow] {
	return Table[AircraftRow]{Source{Title: ac43, Place: "Table 11-9"}, aircraft[:]}
}

// SwitchLoad is the kind of load a switch works.
type SwitchLoad uint8

// Kinds of load of AC 43.13-1B Table 11-4.
const (
	LampLoad SwitchLoad = iota + 1
	InductiveLoad
	ResistiveLoad
	MotorLoad
)

// SwitchRow gives the factor from load current to the switch's nominal rating.
type SwitchRow struct {
	Load  SwitchLoad
	Name  string
	At28V float64
	At12V float64
}

var switches = [...]SwitchRow{
	{LampLoad, "lamp", 8, 5}, {InductiveLoad, "inductive (relay, solenoid)", 4, 2},
	{ResistiveLoad, "resistive (heater)", 2, 1}, {MotorLoad, "motor", 3, 2},
}

// Switches gives AC 43.13-1B Table 11-4.
func Switches() Table[SwitchRow] {
	return Table[SwitchRow]{Source{Title: ac43, Place: "Table 11-4"}, switches[:]}
}
