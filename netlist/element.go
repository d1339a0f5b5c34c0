package netlist

import (
	"math"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/netlist/dc"
	"loomwright/schematic"
)

const (
	diodeOhm       = 0.05 // dynamic resistance of a small power diode, Ω (from memory)
	diodeKnee      = 0.03 // V, sharpness of the corner (from memory)
	lampExponent   = 0.5  // R ∝ V^0.45…0.58 for tungsten lamps (from memory)
	lampColdFactor = 0.1  // cold resistance ≈ 10 % of hot (lamp driver papers)
	bigFuseVolt    = 0.1  // drop at the rating of fuses above the published list, V (from memory)

	ratedC = 25 // air temperature for which batteries and alternators are rated here, degC
)

// point is what an operating state asks of an element.
type point struct {
	duty     float64 // share of the time it draws
	engine   schematic.Engine
	starting bool // the first moment: filament cold, motor at a standstill
}

// rated is an element as it stands in the drawing.
var rated = point{duty: 1}

// isDevice reports whether the branch follows a curve of its own.
func (b *Branch) isDevice() bool {
	switch b.Element.Type {
	case schematic.ElemMotor, schematic.ElemCurrent, schematic.ElemPower, schematic.ElemLamp,
		schematic.ElemAlternator, schematic.ElemDiode, schematic.ElemRegulator:
		return b.Role == RoleElement
	}
	return false
}

// law returns the current law of a branch, or nil when it draws nothing or a
// value it needs is missing or makes no sense.
func (b *Branch) law(p point) dc.Device {
	if len(b.Missing) > 0 || p.duty <= 0 {
		return nil
	}
	v := func(arg string, def float64) float64 { return b.Value(arg).Or(def) }
	var law dc.Device
	switch b.Element.Type {
	case schematic.ElemMotor, schematic.ElemLamp:
		volt, ohm := max(v("volt", 0), wakeVolt), b.runOhm()
		cold, exponent := ohm, 0.0
		if b.Element.Type == schematic.ElemLamp {
			cold, exponent = min(b.startOhm().Or(ohm), ohm), lampExponent
		}
		if p.starting {
			ohm, exponent = b.startOhm().Or(ohm), 0
			cold = ohm
		}
		if ohm <= 0 {
			return nil
		}
		law = dc.Filament{NominalVolt: volt, NominalOhm: bounded(ohm / p.duty), ColdOhm: bounded(cold / p.duty), Exponent: exponent}
	case schematic.ElemCurrent:
		law = dc.ConstantCurrent{Amp: v("amp", 0) * p.duty, KneeVolt: max(v("min_volt", wakeVolt), 0.1)}
	case schematic.ElemPower:
		law = dc.ConstantPower{Watt: v("watt", 0) * p.duty, MinVolt: max(v("min_volt", wakeVolt), 0.1)}
	case schematic.ElemAlternator:
		law = dc.LimitedSource{Volt: v("volt", 0), Ohm: bounded(v("ohm", 0)), LimitAmp: b.outputLimit(p.engine)}
	case schematic.ElemRegulator:
		law = dc.LimitedSource{Volt: v("volt", 0), Ohm: bounded(v("ohm", 0)), LimitAmp: v("limit_amp", assumedLimit)}
	case schematic.ElemDiode:
		law = dc.Diode{ForwardVolt: v("volt", 0), OnOhm: bounded(v("ohm", diodeOhm)), KneeVolt: diodeKnee}
	default:
		return nil
	}
	if law.Check() != nil {
		return nil // a senseless value such as a negative limit
	}
	return law
}

// runOhm is the resistance of a lamp or motor at its rating, 0 without one.
func (b *Branch) runOhm() float64 {
	volt := b.Value("volt").Or(0)
	amp := b.Value("amp").Or(0)
	if b.Element.Type == schematic.ElemLamp && volt > 0 {
		amp = b.Value("watt").Or(0) / volt
	}
	if volt <= 0 || amp <= 0 {
		return 0
	}
	return volt / amp
}

// startOhm is the resistance of a cold filament or a motor at a standstill.
func (b *Branch) startOhm() schematic.Num {
	if b.Role != RoleElement {
		return schematic.Num{}
	}
	switch b.Element.Type {
	case schematic.ElemLamp:
		if v, ok := b.Value("cold_ohm").Get(); ok && v > 0 {
			return schematic.Some(v)
		}
		if ohm := b.runOhm(); ohm > 0 {
			return schematic.Some(ohm * lampColdFactor)
		}
	case schematic.ElemMotor:
		volt, stall := b.Value("volt").Or(0), b.Value("stall_amp").Or(0)
		if volt > 0 && stall > 0 {
			return schematic.Some(volt / stall)
		}
	}
	return schematic.Num{}
}

// outputLimit is the most an alternator gives: its rated output, less in idle
// and less when it is hot, as far as the part says how much.
func (b *Branch) outputLimit(engine schematic.Engine) float64 {
	limit, ok := b.Value("limit_amp").Get()
	if !ok {
		limit = assumedLimit
	}
	full := limit
	if idle, ok := b.Value("idle_limit_amp").Get(); ok && engine == schematic.EngineIdle {
		limit = min(limit, idle)
	}
	hot, okHot := b.Value("hot_limit_amp").Get()
	at, okAt := b.Value("hot_degc").Get()
	now, okNow := b.Value("temp_degc").Get()
	if ok && okHot && okAt && okNow && full > 0 && at > ratedC && now > ratedC {
		share := min(now-ratedC, at-ratedC) / (at - ratedC)
		limit *= 1 + share*(min(hot/full, 1)-1)
	}
	return limit
}

// Cells is what a battery counts as: Volt behind Ohm.
type Cells struct {
	Volt, Ohm               float64
	VoltFormula, OhmFormula string // empty where the value is the part's own or its kind's default
	Source                  tables.Source
}

// Cells returns the open-circuit voltage and inner resistance of a battery.
// What the part itself says goes first; then the voltage by its state of charge
// and the resistance by its cold cranking current and temperature; then the
// defaults of the kind. Charge counts as that of a rested battery at 25 degC.
func (b *Branch) Cells() Cells {
	c := Cells{Volt: b.Value("volt").Or(0), Ohm: b.Value("ohm").Or(0)}
	nominal := 12.0
	if c.Volt > 18 {
		nominal = 24
	}
	if charge, ok := b.Value("charge").Get(); ok && !b.given("volt") {
		if r, err := calc.RestVoltage(charge, nominal); err == nil {
			c.Volt, c.VoltFormula, c.Source = r.Value, r.Formula, c.Source.And(r.Source)
		}
	}
	amp, ok := b.Value("cold_crank_amp").Get()
	if !ok || b.given("ohm") {
		return c
	}
	full, err := calc.RestVoltage(1, nominal)
	if err != nil {
		return c
	}
	cold, err := calc.BatteryCold(full.Value, amp, nominal)
	if err != nil {
		return c
	}
	warm, err := calc.BatteryWarm(cold.Value)
	if err != nil {
		return c
	}
	// Between the two temperatures on record the value runs straight.
	const coldC, warmC = -18, ratedC
	share := (min(max(b.Value("temp_degc").Or(warmC), coldC), warmC) - coldC) / (warmC - coldC)
	c.Ohm = cold.Value + share*(warm.Value-cold.Value)
	c.OhmFormula, c.Source = cold.Formula, c.Source.And(cold.Source)
	if share > 0 {
		c.OhmFormula, c.Source = c.OhmFormula+"; warm "+warm.Formula, c.Source.And(warm.Source)
	}
	return c
}

// given reports whether an argument's value is the part's own or fixed in its
// kind, not a default.
func (b *Branch) given(arg string) bool {
	a, ok := b.Element.Args[arg]
	if !ok || a.Param == "" {
		return ok
	}
	if b.Pin != nil {
		if _, ok := b.Pin.Values[a.Param]; ok {
			return true
		}
	}
	_, ok = b.Part.Values[a.Param]
	return ok
}

// fuseWire is a fuse's resistance between cold and at its rating.
type fuseWire struct {
	amp       float64 // rating
	cold, hot float64 // Ω
}

// fuse returns the resistance of a fuse: as given, else between the published
// cold value and the published drop at its rating, else by a usual drop.
func (b *Branch) fuse() fuseWire {
	if b.OhmKnown {
		return fuseWire{cold: b.Ohm, hot: b.Ohm}
	}
	amp := b.Value("amp").Or(0)
	if row, _, ok := tables.FuseElement(amp); ok {
		return fuseWire{amp, row.ColdOhm, row.DropV / amp}
	}
	if amp > 0 {
		return fuseWire{amp, bigFuseVolt / amp, bigFuseVolt / amp}
	}
	return fuseWire{cold: assumedOhm, hot: assumedOhm}
}

// ohm is the resistance with a settled current: the element warms with the
// square of the current, up to the value at the rating.
func (f fuseWire) ohm(amp float64) float64 {
	if f.hot == f.cold {
		return f.cold
	}
	share := math.Min(math.Abs(amp)/f.amp, 1)
	return f.cold + (f.hot-f.cold)*share*share
}

// isPower reports whether a load draws more the lower its voltage.
func (b *Branch) isPower() bool {
	return b.Role == RoleElement && b.Element.Type == schematic.ElemPower
}
