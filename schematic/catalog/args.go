package catalog

import (
	"maps"
	"slices"

	"loomwright/schematic"
)

// argSpec is what an element type takes.
type argSpec struct {
	need, may []string
	load      bool // turns current into work or heat: must say its kind of load
}

var argSpecs = map[schematic.ElementType]argSpec{
	schematic.ElemResistor:   {need: []string{"ohm"}},
	schematic.ElemJoint:      {need: []string{"ohm"}, may: []string{"limit_amp"}},
	schematic.ElemBattery:    {need: []string{"volt", "ohm"}, may: []string{"charge", "cold_crank_amp", "temp_degc"}},
	schematic.ElemAlternator: {need: []string{"volt", "ohm", "limit_amp"}, may: []string{"idle_limit_amp", "hot_limit_amp", "hot_degc", "temp_degc"}, load: true},
	schematic.ElemContact:    {need: []string{"ohm"}, may: []string{"limit_amp"}},
	schematic.ElemCoil:       {need: []string{"ohm", "pull_in_volt", "drop_out_volt"}, load: true},
	schematic.ElemDiode:      {need: []string{"volt", "ohm"}},
	schematic.ElemCurrent:    {need: []string{"amp", "min_volt"}, may: []string{"start_a2s"}, load: true},
	schematic.ElemPower:      {need: []string{"watt", "min_volt"}, may: []string{"start_a2s"}, load: true},
	schematic.ElemLamp:       {need: []string{"volt", "watt"}, may: []string{"cold_ohm"}, load: true},
	schematic.ElemMotor:      {need: []string{"volt", "amp", "stall_amp"}, load: true},
	schematic.ElemFuse:       {need: []string{"amp", "ohm"}, may: []string{"break_amp", "melt_a2s"}},
	schematic.ElemOutput:     {need: []string{"ohm", "limit_amp"}},
	schematic.ElemRegulator:  {need: []string{"volt", "ohm", "limit_amp", "min_volt"}},
	schematic.ElemOpen:       {},
}

// argUnit is the unit an argument is in.
var argUnit = map[string]string{
	"ohm": "ohm", "volt": "V", "amp": "A", "watt": "W", "limit_amp": "A", "stall_amp": "A",
	"min_volt": "V", "pull_in_volt": "V", "drop_out_volt": "V", "cold_ohm": "ohm", "charge": "ratio", "cold_crank_amp": "A",
	"temp_degc": "degC", "hot_degc": "degC", "idle_limit_amp": "A", "hot_limit_amp": "A",
	"break_amp": "A", "melt_a2s": "A2s", "start_a2s": "A2s",
}

var (
	units   = set("V", "A", "ohm", "W", "mm", "mm2", "degC", "Ah", "ratio", "count", "A2s")
	loads   = set("lamp", "motor", "heater", "solenoid", "coil", "sensor", "electronics", "indicator", "starter", "charging")
	signals = set("power", "ground", "sensor-ground", "sensor-supply", "output", "input", "bus-high", "bus-low", "screen", "pull-up", "pair")
)

// RuleParams returns the parameters that stand beside the elements, for rules:
//
//	contact_ohm      resistance of one mated contact of a connector, Ω
//	splice_ohm       resistance of a splice from wire to wire, Ω
//	rated_amp        what a contact or conductor of the part may carry, A
//	rated_watt       what a resistor may turn into heat, W
//	capacity_ah      battery capacity, Ah
//	cold_crank_amp   battery cold cranking current, A
//	link_mm2         conductor area of a fusible link, mm²
//	switch_degc      temperature at which a thermo switch operates, °C
func RuleParams() []string {
	return []string{"contact_ohm", "splice_ohm", "rated_amp", "rated_watt", "capacity_ah", "cold_crank_amp", "link_mm2", "switch_degc"}
}

func set(names ...string) map[string]bool {
	m := make(map[string]bool, len(names))
	for _, n := range names {
		m[n] = true
	}
	return m
}

// Args returns the arguments an element type needs and those it may have.
func Args(t schematic.ElementType) (need, may []string) {
	spec := argSpecs[t]
	return slices.Clone(spec.need), slices.Clone(spec.may)
}

// ArgUnit returns the unit an argument is in, as parameters write it.
func ArgUnit(arg string) string { return argUnit[arg] }

// Families lists the fuse families that rules know.
func Families() []string {
	return []string{"mini blade", "blade", "maxi blade", "SF30", "SF51", "fusible link", "circuit breaker"}
}

// Units, Loads, Signals and Sides list what parameters, elements, roles and pins
// may say.
func Units() []string   { return slices.Sorted(maps.Keys(units)) }
func Loads() []string   { return slices.Sorted(maps.Keys(loads)) }
func Signals() []string { return slices.Sorted(maps.Keys(signals)) }
func Sides() []string   { return []string{"left", "right", "up", "down"} }
