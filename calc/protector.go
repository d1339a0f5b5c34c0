package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
)

// Protector is a fuse, a fusible link or a breaker as far as it is concerned
// when it opens. Make one with [FuseProtector], [LinkProtector] or
// [BreakerProtector].
type Protector struct {
	RatingA float64 // for a link the current that just melts it
	SureA   float64 // from here on it opens within a time on record
	Source  tables.Source

	points     tables.Table[tables.FusePoint]
	late, soon float64 // ratings by which the late and the early edge are read
	link       linkWire
}

// linkWire is a link as a bare copper wire; gain 0 is none.
type linkWire struct{ gain, loss, beta, airC float64 }

// A link is cooled by its terminals and its insulation, which the melting of a
// bare wire does not know of: the late edge takes this much longer (common
// practice, no source).
const linkLate = 2

// linkSure is how many times the current that just melts a link opens it for
// certain (judgement, no source).
const linkSure = 1.1

// FuseProtector prepares a fuse. ambientC is the air round it, NaN for that of
// the published times. Blade fuses are re-rated for it: in the cold they open
// later, in the heat sooner.
func FuseProtector(f tables.FuseFamily, ratingA, ambientC float64) (Protector, error) {
	if f == tables.NoFuseFamily {
		return Protector{}, missing("the fuse family")
	}
	if err := positive(quantity{"the fuse rating", ratingA}); err != nil {
		return Protector{}, err
	}
	t := tables.FuseTimes(f, ratingA)
	if t.Len() == 0 {
		return Protector{}, outside("no operating times on record for %s", f)
	}
	p := banded(t, ratingA)
	if f <= tables.MaxiBlade && !math.IsNaN(ambientC) && ambientC != 25 {
		r, err := FuseAtAmbient(ratingA, ambientC)
		if err != nil {
			return Protector{}, err
		}
		p.late, p.soon = math.Max(ratingA, r.Value), math.Min(ratingA, r.Value)
		p.Source = p.Source.And(r.Source)
	}
	p.SureA *= p.late / ratingA
	return p, nil
}

// BreakerProtector prepares a thermal breaker.
func BreakerProtector(ratingA float64) (Protector, error) {
	if err := positive(quantity{"the rating of the breaker", ratingA}); err != nil {
		return Protector{}, err
	}
	return banded(tables.BreakerTimes(), ratingA), nil
}

func banded(t tables.Table[tables.FusePoint], ratingA float64) Protector {
	p := Protector{RatingA: ratingA, points: t, late: ratingA, soon: ratingA, Source: t.Source}
	for _, q := range t.All() {
		if !math.IsInf(q.MaxS, 1) {
			p.SureA = q.Multiple * ratingA
			break
		}
	}
	return p
}

// LinkProtector prepares a fusible link of copper from its conductor area in
// air of ambientC, NaN for 25 degC: it melts no sooner than without any loss of
// heat and not at all below the current that just melts a bare wire in open
// air. What its maker says goes before this estimate.
func LinkProtector(areaMM2, ambientC float64) (Protector, error) {
	if err := positive(quantity{"the conductor area of the link", areaMM2}); err != nil {
		return Protector{}, err
	}
	if math.IsNaN(ambientC) {
		ambientC = 25
	}
	if err := celsius(quantity{"the ambient temperature", ambientC}); err != nil {
		return Protector{}, err
	}
	rule := tables.FusingPower()
	row, src, _ := tables.Adiabatic(tables.Copper)
	melts := rule.Value * math.Pow(4*areaMM2/math.Pi, 0.75)
	l := linkWire{gain: 1 / (row.K * row.K * areaMM2 * areaMM2), beta: row.Beta, airC: ambientC}
	l.loss = l.gain * melts * melts * (l.beta + tables.CopperMeltsC) / (tables.CopperMeltsC - ambientC)
	return Protector{RatingA: melts, SureA: linkSure * melts, link: l, Source: rule.Source.And(src)}, nil
}

// Late returns by when in s the protector has opened at a current; +Inf where
// it need not. Above the last published multiple the heat that opens it stays
// the same, I²t: it melts too fast to lose any, and the limit there has room
// for the arc.
func (p Protector) Late(amp float64) float64 {
	if p.link.gain > 0 {
		if amp < p.SureA {
			return math.Inf(1)
		}
		return linkLate * p.link.melts(amp)
	}
	return edges(p.points, amp/p.late).MaxS
}

// Early returns before when in s the protector does not open at a current; +Inf
// where it never does.
func (p Protector) Early(amp float64) float64 {
	if l := p.link; l.gain > 0 {
		if amp < p.RatingA {
			return math.Inf(1)
		}
		return math.Log((tables.CopperMeltsC+l.beta)/(l.airC+l.beta)) / (l.gain * amp * amp)
	}
	return edges(p.points, amp/p.soon).MinS
}

// melts returns when a bare wire reaches the melting point.
func (l linkWire) melts(amp float64) float64 {
	rise := l.gain * amp * amp
	net, push := rise-l.loss, rise*l.beta+l.loss*l.airC
	from, to := net*l.airC+push, net*tables.CopperMeltsC+push
	if to <= 0 {
		return math.Inf(1)
	}
	return math.Log(to/from) / net
}

// edges is the band at a multiple of the rating, beyond the last published one
// at the same heat.
func edges(t tables.Table[tables.FusePoint], m float64) band {
	last := t.At(t.Len() - 1)
	if m <= last.Multiple {
		return bandAt(t, m)
	}
	f := last.Multiple * last.Multiple / (m * m)
	return band{MinS: last.MinS * f, MaxS: last.MaxS * f}
}

// LetThroughI2t returns the most heat in A²s a protector lets through at the
// highest currents; MeltI2t the least that opens it there.
func (p Protector) LetThroughI2t() float64 { return p.i2t(p.Late, p.late) }

// MeltI2t is the least heat in A²s that opens the protector at the highest
// currents.
func (p Protector) MeltI2t() float64 { return p.i2t(p.Early, p.soon) }

func (p Protector) i2t(edge func(float64) float64, rating float64) float64 {
	amp := 100 * p.SureA
	if p.link.gain == 0 {
		amp = p.points.At(p.points.Len()-1).Multiple * rating
	}
	return edge(amp) * amp * amp
}

// knotsBetween is how finely the band is walked between two published points.
const knotsBetween = 6

// Knots returns currents in A, rising, from SureA to where the heat that opens
// the protector no longer changes, close enough to draw and to search the band
// by.
func (p Protector) Knots() []float64 {
	at := []float64{p.SureA}
	if p.link.gain > 0 {
		at = append(at, 1.5*p.SureA, 3*p.SureA, 10*p.SureA, 30*p.SureA)
	} else {
		for _, q := range p.points.All() {
			if a := q.Multiple * p.late; a > p.SureA*(1+1e-9) {
				at = append(at, a)
			}
		}
		last := at[len(at)-1]
		at = append(at, 3*last, 10*last)
	}
	out := []float64{at[0]}
	for i := 1; i < len(at); i++ {
		for k := 1; k < knotsBetween; k++ {
			out = append(out, at[i-1]*math.Pow(at[i]/at[i-1], float64(k)/knotsBetween))
		}
		out = append(out, at[i])
	}
	return out
}

// Formula says how Late of a current came about.
func (p Protector) Formula(amp float64) string {
	t := p.Late(amp)
	switch {
	case p.link.gain > 0 && math.IsInf(t, 1):
		return fmt.Sprintf("%s is too near to the %s that just melt the link in open air", amps(amp), amps(p.RatingA))
	case p.link.gain > 0:
		return fmt.Sprintf("%s/%s = %s times what just melts the link: open within %s", amps(amp), amps(p.RatingA), num(amp/p.RatingA), seconds(t))
	case math.IsInf(t, 1):
		return fmt.Sprintf("%s/%s = %s times the rating: need not open below %s", amps(amp), amps(p.RatingA), num(amp/p.RatingA), amps(p.SureA))
	case p.late != p.RatingA:
		return fmt.Sprintf("%s/%s = %s times the rating as it is in the cold: open within %s", amps(amp), amps(p.late), num(amp/p.late), seconds(t))
	}
	return fmt.Sprintf("%s/%s = %s times the rating: open within %s", amps(amp), amps(p.RatingA), num(amp/p.RatingA), seconds(t))
}
