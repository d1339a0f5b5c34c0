package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
)

// band is the span in which a fuse opens at a steady current.
type band struct {
	MinS float64 // never sooner, s; +Inf where it must not open
	MaxS float64 // by then, s; +Inf where it need not open
}

// bandAt gives the band of a fuse at a multiple of its rating, between the
// published ones on double logarithmic paper. Above the last one it opens no
// later than there.
func bandAt(t tables.Table[tables.FusePoint], m float64) band {
	first, last := t.At(0), t.At(t.Len()-1)
	// 4.5/3 and the like must not miss the published multiple by a last bit.
	const slack = 1e-9
	switch {
	case m < first.Multiple-slack && m <= 1+slack:
		return band{MinS: math.Inf(1), MaxS: math.Inf(1)}
	case m <= first.Multiple+slack:
		return band{MinS: first.MinS, MaxS: first.MaxS}
	case m > last.Multiple+slack:
		return band{MinS: 0, MaxS: last.MaxS}
	}
	for i := 1; i < t.Len(); i++ {
		p, q := t.At(i-1), t.At(i)
		if m > q.Multiple+slack {
			continue
		}
		m = math.Min(m, q.Multiple)
		b := band{MinS: logLog(m, p.Multiple, p.MinS, q.Multiple, q.MinS), MaxS: q.MaxS}
		switch {
		case m >= q.Multiple-slack:
		case math.IsInf(p.MaxS, 1):
			b.MaxS = p.MaxS
		default:
			b.MaxS = logLog(m, p.Multiple, p.MaxS, q.Multiple, q.MaxS)
		}
		return b
	}
	return band{MinS: 0, MaxS: last.MaxS} // not reached: m <= last.Multiple
}

// FuseAtAmbient gives in A what the rating of a blade fuse amounts to in air
// of ambientC, -40 to 125 degC. It shrinks with heat and grows with cold.
func FuseAtAmbient(ratingA, ambientC float64) (Result, error) {
	if err := positive(quantity{"the fuse rating", ratingA}); err != nil {
		return Result{}, err
	}
	switch {
	case math.IsNaN(ambientC):
		return Result{}, missing("the ambient temperature")
	case ambientC < -40 || ambientC > 125:
		return Result{}, outside("the ambient temperature %s is outside -40 to 125 °C", degC(ambientC))
	}
	rule := tables.FuseAmbient()
	v := ratingA * (1 - rule.Value*(ambientC-25))
	return Result{v, fmt.Sprintf("%s · (1 − %s · (%s − 25)) = %s", amps(ratingA), num(rule.Value), num(ambientC), amps(v)), rule.Source}, nil
}

// FuseForLoad gives the smallest standard rating in A of a family that may
// carry a amps for good at 25 degC: In >= I/0.75.
func FuseForLoad(f tables.FuseFamily, a float64) (Result, error) {
	row, ok := tables.FuseData(f)
	if !ok {
		return Result{}, missing("the fuse family")
	}
	if err := positive(quantity{"the load current", a}); err != nil {
		return Result{}, err
	}
	rule := tables.FuseContinuous()
	need := a / rule.Value
	in, ok := nextRating(row, need)
	if !ok {
		return Result{}, outside("no %s is large enough for %s / %s = %s", row.Name, amps(a), num(rule.Value), amps(need))
	}
	return Result{in, fmt.Sprintf("%s / %s = %s, next rating %s", amps(a), num(rule.Value), amps(need), amps(in)), rule.Source.And(row.Source)}, nil
}

func nextRating(row tables.FuseRow, need float64) (float64, bool) {
	for i := range row.Ratings() {
		if row.RatingA(i) >= need*(1-1e-12) {
			return row.RatingA(i), true
		}
	}
	return 0, false
}
