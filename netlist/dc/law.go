package dc

import (
	"fmt"
	"math"
)

// ConstantCurrent is a load that draws Amp at any voltage from KneeVolt up. Below, its current goes down to zero along
// a parabola, so that a dead supply draws nothing. With reversed voltage it draws the same the other way.
type ConstantCurrent struct {
	Amp      float64 // A, not negative
	KneeVolt float64 // V, above 0
}

// Current implements [Device].
func (d ConstantCurrent) Current(v float64) (amp, siemens float64) {
	x := math.Abs(v) / d.KneeVolt
	if x >= 1 {
		return math.Copysign(d.Amp, v), 0
	}
	return math.Copysign(d.Amp*x*(2-x), v), 2 * d.Amp * (1 - x) / d.KneeVolt
}

// IsDemand implements [Demand].
func (ConstantCurrent) IsDemand() {}

// State implements [Reporter].
func (d ConstantCurrent) State(v, idle float64) State {
	amp, _ := d.Current(v)
	return supplyState(v, idle, d.KneeVolt, amp)
}

// Check implements [Device].
func (d ConstantCurrent) Check() error {
	return firstError(
		checkRange("current", "A", d.Amp, 0, MaxAmp),
		checkRange("knee voltage", "V", d.KneeVolt, 1e-6, MaxVolt))
}

// ConstantPower is a load that draws Watt at any voltage from MinVolt up. Below it behaves as the resistance that
// draws Watt at MinVolt, and reports StateStarved: the supply is too weak to carry the load. With reversed voltage it
// draws the same the other way.
type ConstantPower struct {
	Watt    float64 // W, not negative
	MinVolt float64 // V, above 0
}

// Current implements [Device].
func (d ConstantPower) Current(v float64) (amp, siemens float64) {
	if math.Abs(v) < d.MinVolt {
		siemens = d.Watt / (d.MinVolt * d.MinVolt)
		return siemens * v, siemens
	}
	return d.Watt / v, -d.Watt / v / v
}

// IsDemand implements [Demand].
func (ConstantPower) IsDemand() {}

// State implements [Reporter].
func (d ConstantPower) State(v, idle float64) State {
	amp, _ := d.Current(v)
	return supplyState(v, idle, d.MinVolt, amp)
}

// Check implements [Device].
func (d ConstantPower) Check() error {
	return firstError(
		checkRange("power", "W", d.Watt, 0, MaxAmp),
		checkRange("least voltage", "V", d.MinVolt, 1e-3, MaxVolt))
}

// Diode passes current from a to b once its voltage is above ForwardVolt, with OnOhm in series. KneeVolt rounds the
// corner: the current then rises by a factor e for each KneeVolt well below ForwardVolt and nears the straight line
// well above it. With 0 the corner is sharp.
type Diode struct {
	ForwardVolt float64 // V, not negative
	OnOhm       float64 // Ω
	KneeVolt    float64 // V, not negative; 0.026 to 0.1 for silicon
}

// Current implements [Device].
func (d Diode) Current(v float64) (amp, siemens float64) {
	if d.KneeVolt == 0 {
		if v <= d.ForwardVolt {
			return 0, 0
		}
		return (v - d.ForwardVolt) / d.OnOhm, 1 / d.OnOhm
	}
	amp, siemens = d.rounded(v)
	none, _ := d.rounded(0) // without voltage there is no current
	return amp - none, siemens
}

// rounded is the current as KneeVolt/OnOhm·ln(1+exp((v-ForwardVolt)/KneeVolt)).
func (d Diode) rounded(v float64) (amp, siemens float64) {
	x := (v - d.ForwardVolt) / d.KneeVolt
	t := math.Exp(-math.Abs(x))
	amp = d.KneeVolt * (max(x, 0) + math.Log1p(t)) / d.OnOhm
	if x < 0 {
		return amp, t / (1 + t) / d.OnOhm
	}
	return amp, 1 / (1 + t) / d.OnOhm
}

// State implements [Reporter].
func (d Diode) State(v, _ float64) State {
	if v > d.ForwardVolt {
		return StateConducting
	}
	return StateBlocking
}

// Check implements [Device].
func (d Diode) Check() error {
	err := firstError(
		checkRange("forward voltage", "V", d.ForwardVolt, 0, MaxVolt),
		checkRange("on resistance", "Ω", d.OnOhm, MinOhm, MaxOhm))
	if err == nil && d.KneeVolt != 0 {
		err = checkRange("knee voltage", "V", d.KneeVolt, 1e-6, MaxVolt)
	}
	return err
}

// Filament is a lamp filament, whose resistance rises with its temperature and so with the voltage:
// NominalOhm·(v/NominalVolt)^Exponent, but never below ColdOhm. It is the settled state; the inrush while the filament
// heats up is not part of it.
type Filament struct {
	NominalVolt float64 // V, above 0
	NominalOhm  float64 // Ω at NominalVolt
	ColdOhm     float64 // Ω, at most NominalOhm
	Exponent    float64 // from 0 up to below 1; 0.45 to 0.58 for tungsten lamps (from memory)
}

// Current implements [Device].
func (d Filament) Current(v float64) (amp, siemens float64) {
	ohm := d.NominalOhm * math.Pow(math.Abs(v)/d.NominalVolt, d.Exponent)
	if ohm <= d.ColdOhm {
		return v / d.ColdOhm, 1 / d.ColdOhm
	}
	return v / ohm, (1 - d.Exponent) / ohm
}

// Check implements [Device].
func (d Filament) Check() error {
	err := firstError(
		checkRange("nominal voltage", "V", d.NominalVolt, 1e-3, MaxVolt),
		checkRange("nominal resistance", "Ω", d.NominalOhm, MinOhm, MaxOhm),
		checkRange("cold resistance", "Ω", d.ColdOhm, MinOhm, MaxOhm),
		checkRange("exponent", "", d.Exponent, 0, 0.99))
	if err == nil && d.ColdOhm > d.NominalOhm {
		err = fmt.Errorf("the cold resistance %g Ω is above the nominal resistance %g Ω", d.ColdOhm, d.NominalOhm)
	}
	return err
}

// LimitedSource is a regulated source such as a generator: it holds Volt behind Ohm, with its positive pole at a, but
// never gives more than LimitAmp and never takes current in.
type LimitedSource struct {
	Volt     float64 // V, above 0, without load
	Ohm      float64 // Ω, inside
	LimitAmp float64 // A, above 0
}

// Current implements [Device].
func (d LimitedSource) Current(v float64) (amp, siemens float64) {
	switch give := (d.Volt - v) / d.Ohm; {
	case give < 0:
		return 0, 0
	case give > d.LimitAmp:
		return -d.LimitAmp, 0
	default:
		return -give, 1 / d.Ohm
	}
}

// StartVolt implements [Starter].
func (d LimitedSource) StartVolt() float64 { return d.Volt }

// State implements [Reporter].
func (d LimitedSource) State(v, _ float64) State {
	switch give := (d.Volt - v) / d.Ohm; {
	case give < 0:
		return StateBlocking
	case give > d.LimitAmp:
		return StateLimiting
	default:
		return StateNormal
	}
}

// Check implements [Device].
func (d LimitedSource) Check() error {
	return firstError(
		checkRange("voltage", "V", d.Volt, 1e-3, MaxVolt),
		checkRange("inner resistance", "Ω", d.Ohm, MinOhm, MaxOhm),
		checkRange("current limit", "A", d.LimitAmp, 1e-6, MaxAmp))
}

// supplyState tells a load that works from one that gets too little and from one that gets nothing: with all loads off
// there was next to no voltage for it, or what reaches it could have come through the leakage of a blocked device.
func supplyState(v, idle, need, amp float64) State {
	switch idle = math.Abs(idle); {
	case math.Abs(v) >= need:
		return StateNormal
	case idle < 0.01*need || math.Abs(amp) < 100*LeakSiemens*idle:
		return StateUnpowered
	}
	return StateStarved
}

func checkRange(what, unit string, value, low, high float64) error {
	if !(value >= low && value <= high) {
		return fmt.Errorf("the %s %g %s is not a number from %g to %g", what, value, unit, low, high)
	}
	return nil
}

func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
