package tables

// DropKind is a part of a circuit, or a kind of circuit, with its own limit
// on the voltage lost in it.
type DropKind uint8

// Kinds of drop. "Line" is the insulated side alone, "circuit" both sides.
const (
	SmallConnection DropKind = iota + 1
	HighCurrentConnection
	HighCurrentCable
	SwitchContact
	GroundConnection
	PathInvestigate
	PathFault
	StarterPositive
	StarterNegative
	StarterTotal
	ChargingPositive
	ChargingNegative
	VitalCircuit
	OtherCircuit
	SmallLampLine
	LampLine
	HeadlampLine
	ChargingLine
	StarterLine
	StarterControlLine
	ControlLine
	LampCircuit
	StarterControlCircuit
	AircraftEquipment
)

// DropLimit is the most a part may drop: volts, or a fraction of nominal.
type DropLimit struct {
	Kind     DropKind
	Name     string
	At12V    float64 // V, in a 12 V system
	At24V    float64 // V, in a 24 V system; 0 is not published
	Fraction float64 // of the nominal voltage; used where the volts are 0
	Source   Source
}

var (
	manualSAE = Source{Title: "a vehicle workshop manual", Place: "\"as recommended by SAE\", seen second-hand"}
	manuals   = Source{Title: "vehicle workshop manuals", Place: "voltage-drop tests, seen second-hand"}
	handbook  = Source{Title: "automotive handbook", Place: "permissible voltage drop", FromMemory: true}
	// 14 V and 28 V in the table, which are 12 V and 24 V systems.
	aircraftDrop = Source{Title: "FAA AC 43.13-1B", Place: "Table 11-6, continuous", FromMemory: true}
	percents     = Source{Title: "ABYC E-11 and ISO 10133", Place: "3 % and 10 % rule, quoted second-hand"}
)

// Where a range is published the lower end is kept.
var drops = [...]DropLimit{
	{SmallConnection, "small wire connection", 0, 0, 0, manualSAE},
	{HighCurrentConnection, "high-current connection", 0.1, 0, 0, manualSAE},
	{HighCurrentCable, "high-current cable", 0.2, 0, 0, manualSAE},
	{SwitchContact, "switch or solenoid contact", 0.3, 0, 0, manualSAE},
	{GroundConnection, "ground connection", 0.1, 0, 0, manuals},
	{PathInvestigate, "whole path, investigate above", 0.5, 0, 0, manuals},
	{PathFault, "whole path, fault above", 1.0, 0, 0, manuals},
	{StarterPositive, "starter circuit, positive side", 0.5, 0, 0, manuals},
	{StarterNegative, "starter circuit, negative side", 0.3, 0, 0, manuals},
	{StarterTotal, "starter circuit, both sides", 0.8, 0, 0, manuals},
	{ChargingPositive, "charging circuit, positive side", 0.5, 0, 0, manuals},
	{ChargingNegative, "charging circuit, negative side", 0.2, 0, 0, manuals},
	{VitalCircuit, "circuit that matters", 0, 0, 0.03, percents},
	{OtherCircuit, "other circuit", 0, 0, 0.10, percents},
	{SmallLampLine, "lighting line up to 15 W", 0.1, 0.1, 0, handbook},
	{LampLine, "lighting line above 15 W", 0.5, 0.5, 0, handbook},
	{HeadlampLine, "headlamp line", 0.3, 0.3, 0, handbook},
	{ChargingLine, "charging line", 0.3, 0.6, 0, handbook},
	{StarterLine, "starter main cable", 0.5, 1.0, 0, handbook},
	{StarterControlLine, "starter control line", 1.4, 2.0, 0, handbook},
	{ControlLine, "other control line (relay, horn)", 0.5, 1.0, 0, handbook},
	{LampCircuit, "lighting circuit with ground", 0.6, 0, 0, handbook},
	{AircraftEquipment, "equipment from bus to ground, continuous", 0.5, 1.0, 0, aircraftDrop},
	{StarterControlCircuit, "starter control circuit with ground", 1.5, 2.0, 0, handbook},
}

// DropLimits lists the limits.
func DropLimits() Table[DropLimit] {
	return Table[DropLimit]{Source{Title: "voltage-drop practice", Place: "see each row"}, drops[:]}
}

// DropLimitV gives the limit in V for a system of nominal 12 or 24 V; false
// if none is published for it. A limit of 0 V is a published value.
func DropLimitV(k DropKind, nominalV float64) (float64, Source, bool) {
	r, ok := DropLimits().Find(func(r DropLimit) bool { return r.Kind == k })
	switch {
	case !ok:
		return 0, Source{}, false
	case r.Fraction > 0:
		return r.Fraction * nominalV, r.Source, nominalV > 0
	case nominalV == 12:
		return r.At12V, r.Source, true
	case nominalV == 24:
		return r.At24V, r.Source, r.At24V > 0
	}
	return 0, Source{}, false
}
