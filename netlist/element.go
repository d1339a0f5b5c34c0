package netlist

import (
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
	duty   float64 // share of the time it draws
	engine schematic.Engine
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

// isPower reports whether a load draws more the lower its voltage.
func (b *Branch) isPower() bool {
	return b.Role == RoleElement && b.Element.Type == schematic.ElemPower
}
