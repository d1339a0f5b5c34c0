package check

import (
	"math"
	"slices"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

// Limit is a number the rules hold values against. A document overrides it
// under its name in [schematic.Info].Limits.
type Limit struct {
	Name    string // key in the document
	Title   string
	Unit    string        // "V", "A", "ohm", "mm", "ratio", "s"
	Default schematic.Num // in a 12 V system
	Source  string
	value   func(volts float64) (float64, tables.Source)
}

// Choice is a named choice of the rules. A document overrides it under its
// name in [schematic.Info].Choices.
type Choice struct {
	Name    string
	Title   string
	Options []string // the first is the default
	Source  string
}

// Limits lists every limit with its default in a 12 V system.
func Limits() []Limit {
	out := make([]Limit, len(limits))
	for i, l := range limits {
		v, src := l.value(12)
		l.Default, l.Source = schematic.Some(v), src.String()
		out[i] = l
	}
	return out
}

// Choices lists every choice.
func Choices() []Choice {
	src := tables.Source{}
	c := Choice{Name: netlist.BundleChoice, Title: "factors for wires lying together"}
	for _, set := range netlist.BundleSets {
		c.Options = append(c.Options, set.Source().Title)
		src = src.And(set.Source())
	}
	c.Source = src.String()
	warm := Choice{Name: netlist.WarmingChoice, Title: "what warms the conductor of a wire",
		Options: []string{netlist.WarmingOn, netlist.WarmingOff}, Source: "heat balance of a wire between air and rating list"}
	return []Choice{c, warm, dropChoices()}
}

// The names of the limits.
const (
	limitLoaded       = netlist.LoadedLimit
	limitAltitude     = netlist.AltitudeLimit
	limitCrank        = netlist.CrankLimit
	limitUnfused      = "unfused_mm"
	limitUnfusedTube  = "unfused_sheathed_mm"
	limitFuseShare    = "fuse_continuous_ratio"
	limitGround       = "ground_volt"
	limitGroundStart  = "ground_starter_volt"
	limitGroundJoint  = "ground_joint_ohm"
	limitCharge       = "drop_charging_line_volt"
	limitChargeGround = "drop_charging_ground_volt"
	limitScope        = "scope_volt"
)

var limits = append([]Limit{
	{Name: limitLoaded, Title: "current from which a wire counts as loaded in a bundle", Unit: "A",
		value: fixed(netlist.DefaultLoadedAmp, practice("less hardly warms a wire"))},
	{Name: limitAltitude, Title: "height above the sea that wires are rated for; 0 leaves thin air out", Unit: "m",
		value: fixed(0, tables.AltitudeDerating().Source)},
	{Name: limitCrank, Title: "longest time the starter turns in one go", Unit: "s",
		value: fixed(netlist.DefaultCrankSecond, tables.Source{Title: "cold cranking test", Place: "30 s at −18 °C, seen second-hand"})},
	{Name: limitUnfused, Title: "longest wire from a source to its fuse", Unit: "mm", value: rule(tables.FuseToSourceMM(false))},
	{Name: limitUnfusedTube, Title: "the same where the wire lies in a sleeve", Unit: "mm", value: rule(tables.FuseToSourceMM(true))},
	{Name: limitFuseShare, Title: "part of its rating a fuse may carry for good", Unit: "ratio", value: rule(tables.FuseContinuous())},
	{Name: limitGround, Title: "rise of a load's ground", Unit: "V", value: drop(tables.GroundConnection)},
	{Name: limitGroundStart, Title: "rise of the starter's ground", Unit: "V", value: drop(tables.StarterNegative)},
	{Name: limitGroundJoint, Title: "resistance of a ground joint", Unit: "ohm", value: groundJoint},
	{Name: limitCharge, Title: "drop from the alternator to battery positive", Unit: "V", value: drop(tables.ChargingPositive)},
	{Name: limitChargeGround, Title: "drop from battery negative to the alternator", Unit: "V", value: drop(tables.ChargingNegative)},
	{Name: limitScope, Title: "voltage above which a circuit is out of scope", Unit: "V",
		value: fixed(60, tables.Source{Title: "scope of this program", Place: "direct current up to 60 V"})},
}, slices.Concat(inrushLimits(), dropLimits(), chargeLimits(), sensorLimits(), busLimits(), crankLimits(), sensorLiftLimits(), ledLimits(), relayLimits(), pairLimits())...)

func fixed(v float64, src tables.Source) func(float64) (float64, tables.Source) {
	return func(float64) (float64, tables.Source) { return v, src }
}

func rule(r tables.Rule) func(float64) (float64, tables.Source) { return fixed(r.Value, r.Source) }

func practice(what string) tables.Source {
	return tables.Source{Title: "common practice, no source", Place: what}
}

func groundJoint(float64) (float64, tables.Source) {
	j, _ := tables.Joint(tables.BondToStructure)
	return j.Max, j.Source
}

// drop takes a published voltage. Where a list has none for the system's
// voltage, its volts for 12 V systems are kept, in smaller systems as a share.
func drop(k tables.DropKind) func(float64) (float64, tables.Source) {
	return func(volts float64) (float64, tables.Source) {
		if v, src, ok := tables.DropLimitV(k, volts); ok {
			return v, src
		}
		v, src, _ := tables.DropLimitV(k, 12)
		return v * math.Min(1, math.Max(0, volts)/12), src
	}
}

// limit returns a limit as this document has it.
func (r *run) limit(name string) (float64, tables.Source) {
	l, ok := r.limits[name]
	if !ok {
		l.value, l.source = r.findLimit(name)
		if r.limits == nil {
			r.limits = map[string]found{}
		}
		r.limits[name] = l
	}
	return l.value, l.source
}

// found is a limit looked up.
type found struct {
	value  float64
	source tables.Source
}

func (r *run) findLimit(name string) (float64, tables.Source) {
	if v, ok := r.doc.Info().Limits[name]; ok {
		return v, tables.Source{Title: "limit " + name + " of this document"}
	}
	for i := range limits {
		if limits[i].Name == name {
			return limits[i].value(r.doc.Info().Volts())
		}
	}
	panic("check: no limit is called " + name)
}
