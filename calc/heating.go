package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
)

// HeatingInput is what [NewHeating] needs of a wire.
type HeatingInput struct {
	Metal       tables.Metal
	AreaMM2     float64
	InsulationC float64 // what the insulation bears for good, degC
	ShortC      float64 // what it bears for up to 5 s, degC; 0 is not on record
	Rated       Rated   // the current it bears for good where it lies
}

// Heating says how long a wire bears a current that is too large for it: one
// body of copper that its current heats (IEC 60949, without loss) and that
// loses heat in proportion to its rise above the air, as much as makes the
// rated current lead to the rated temperature. The heat the insulation takes
// up is left out, so that wires are warm sooner than in truth. A fault begins
// at the temperature the insulation bears for good.
type Heating struct {
	AreaMM2, RatedA  float64
	AirC, StartC     float64
	OverloadC        float64 // borne for 6 h
	ShortC           float64 // borne for 5 s; OverloadC where it is not on record
	ShortKnown       bool
	Source           tables.Source
	gain, loss, beta float64 // dT/dt = gain·I²·(β+T) − loss·(T−Tair)
	i2t              float64 // withstand from StartC to ShortC, A²s
}

// How far above its class an insulation may be and for how long, ISO 6722-1
// and ISO 19642 (from memory): see [tables.Classes].
const (
	shortTermK, shortTermS = 25, 240 * 3600
	overloadK, overloadS   = 50, 6 * 3600
	longTermS              = 3000 * 3600
	adiabaticS             = 5 // up to here the adiabatic equation is meant to be used
)

// NewHeating prepares the heating of a wire.
func NewHeating(in HeatingInput) (Heating, error) {
	row, src, ok := tables.Adiabatic(in.Metal)
	if !ok {
		return Heating{}, missing("the adiabatic constant of the metal")
	}
	if err := positive(quantity{"the cross-section", in.AreaMM2}, quantity{"the insulation temperature", in.InsulationC}, quantity{"the ampacity of the wire", in.Rated.Value}); err != nil {
		return Heating{}, err
	}
	air := math.Max(in.Rated.AmbientC, creditBelowC)
	if in.Rated.ConductorC <= air {
		return Heating{}, outside("the air of %s is as hot as the wire may be", degC(air))
	}
	h := Heating{AreaMM2: in.AreaMM2, RatedA: in.Rated.Value, AirC: air, StartC: in.InsulationC, OverloadC: in.InsulationC + overloadK,
		ShortC: in.ShortC, ShortKnown: in.ShortC > in.InsulationC, beta: row.Beta,
		Source: src.And(tables.Classes().Source).And(in.Rated.Source)}
	if !h.ShortKnown {
		h.ShortC = h.OverloadC
	}
	ks := row.K * in.AreaMM2
	h.gain = 1 / (ks * ks)
	h.loss = h.gain * in.Rated.Value * in.Rated.Value * (h.beta + in.Rated.ConductorC) / (in.Rated.ConductorC - air)
	h.i2t = ks * ks * math.Log((h.ShortC+h.beta)/(h.StartC+h.beta))
	return h, nil
}

// SteadyC returns the temperature a lasting current leads to in degC; +Inf
// where there is none.
func (h Heating) SteadyC(amp float64) float64 {
	rise := h.gain * amp * amp
	if rise >= h.loss {
		return math.Inf(1)
	}
	return (rise*h.beta + h.loss*h.AirC) / (h.loss - rise)
}

// timeTo returns how long in s a current takes from StartC to a temperature;
// +Inf where it never gets there.
func (h Heating) timeTo(amp, tempC float64) float64 {
	rise := h.gain * amp * amp
	net, push := rise-h.loss, rise*h.beta+h.loss*h.AirC
	from, to := net*h.StartC+push, net*tempC+push // K/s at either temperature
	switch {
	case from <= 0 || to <= 0:
		return math.Inf(1)
	case math.Abs(net) < 1e-12*h.loss:
		return (tempC - h.StartC) / push
	}
	return math.Log(to/from) / net
}

// after returns the temperature in degC a current leads to within a time in s.
func (h Heating) after(amp, s float64) float64 {
	rise := h.gain * amp * amp
	net, push := rise-h.loss, rise*h.beta+h.loss*h.AirC
	return h.StartC + (net*h.StartC+push)*growth(net, s)
}

// growth is (e^(net·s) − 1)/net.
func growth(net, s float64) float64 {
	if math.Abs(net*s) < 1e-9 {
		return s
	}
	return math.Expm1(net*s) / net
}

// limitC is the temperature in degC borne for a time in s: ShortC for 5 s,
// OverloadC for 6 h, and between them along the logarithm of the time
// (judgement, no source).
func (h Heating) limitC(s float64) float64 {
	share := math.Log(overloadS/s) / math.Log(float64(overloadS)/adiabaticS)
	return h.OverloadC + (h.ShortC-h.OverloadC)*math.Min(math.Max(share, 0), 1)
}

// BearsS returns how long in s the wire bears a current before its insulation
// is damaged: +Inf up to its ampacity; while the current settles at no more
// than what is borne for 6 h, the time its class allows for the temperature it
// settles at; else until the temperature is above what is borne for so long.
func (h Heating) BearsS(amp float64) float64 {
	if t := h.timeTo(amp, h.ShortC); t <= adiabaticS {
		return t
	}
	if s := h.SteadyC(amp); s <= h.OverloadC {
		return h.life(s)
	}
	if !h.ShortKnown {
		return math.Min(h.timeTo(amp, h.OverloadC), overloadS)
	}
	// The temperature rises and the limit falls with time.
	from, to := math.Log(adiabaticS), math.Log(overloadS)
	for range 28 {
		mid := (from + to) / 2
		if t := math.Exp(mid); h.after(amp, t) > h.limitC(t) {
			to = mid
		} else {
			from = mid
		}
	}
	return math.Exp(to)
}

// Bears reports whether the wire bears a current for a time in s: s <= BearsS.
func (h Heating) Bears(amp, s float64) bool {
	if t := h.timeTo(amp, h.ShortC); t <= adiabaticS {
		return s <= t
	}
	if steady := h.SteadyC(amp); steady <= h.OverloadC {
		return s <= h.life(steady)
	}
	if !h.ShortKnown {
		return s <= math.Min(h.timeTo(amp, h.OverloadC), overloadS)
	}
	return s <= adiabaticS || s < overloadS && h.after(amp, s) <= h.limitC(s)
}

// life is how long the insulation bears a temperature that settles: on
// logarithmic paper between the times its class is defined by.
func (h Heating) life(tempC float64) float64 {
	over := tempC - h.StartC
	switch {
	case over <= 1e-6:
		return math.Inf(1)
	case over <= shortTermK:
		return longTermS * math.Pow(float64(shortTermS)/longTermS, over/shortTermK)
	}
	return shortTermS * math.Pow(float64(overloadS)/shortTermS, math.Min(1, (over-shortTermK)/(overloadK-shortTermK)))
}

// WithstandI2t is the heat in A²s the wire bears in a short circuit without
// any loss.
func (h Heating) WithstandI2t() float64 { return h.i2t }

// Formula says how BearsS of a current came about.
func (h Heating) Formula(amp float64) string {
	t := h.BearsS(amp)
	if s := h.SteadyC(amp); s <= h.OverloadC {
		return fmt.Sprintf("%s bears %s for good in air of %s; %s settle at %s, borne for %s", mm2(h.AreaMM2), amps(h.RatedA), degC(h.AirC), amps(amp), degC(s), seconds(t))
	}
	return fmt.Sprintf("%s with %s from %s, cooled as at %s for good in air of %s: %s, borne for so long, after %s",
		mm2(h.AreaMM2), amps(amp), degC(h.StartC), amps(h.RatedA), degC(h.AirC), degC(h.limitC(t)), seconds(t))
}
