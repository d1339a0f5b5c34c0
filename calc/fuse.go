package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
)

// Band is the span in which a fuse opens at a steady current.
type Band struct {
	MinS    float64 // never sooner, s; +Inf where it must not open
	MaxS    float64 // by then, s; +Inf where it need not open
	Formula string
	Source  tables.Source
}

// FuseOpening gives the opening band of a fuse at a amps and 25 degC, between
// the published multiples on double logarithmic paper. Above the last multiple
// the fuse opens no later than there.
func FuseOpening(f tables.FuseFamily, ratingA, a float64) (Band, error) {
	if f == tables.NoFuseFamily {
		return Band{}, missing("the fuse family")
	}
	if err := positive(quantity{"the fuse rating", ratingA}, quantity{"the current", a}); err != nil {
		return Band{}, err
	}
	t := tables.FuseTimes(f, ratingA)
	if t.Len() == 0 {
		return Band{}, outside("no operating times on record for %s", f)
	}
	m := a / ratingA
	b := bandAt(t, m)
	b.Source = t.Source
	b.Formula = fmt.Sprintf("%s/%s = %s times the rating: opens after %s to %s", amps(a), amps(ratingA), num(m), seconds(b.MinS), seconds(b.MaxS))
	if math.IsInf(b.MaxS, 1) {
		b.Formula = fmt.Sprintf("%s/%s = %s times the rating: need not open", amps(a), amps(ratingA), num(m))
		if !math.IsInf(b.MinS, 1) {
			b.Formula += fmt.Sprintf(", not within %s", seconds(b.MinS))
		}
	}
	return b, nil
}

func bandAt(t tables.Table[tables.FusePoint], m float64) Band {
	first, last := t.At(0), t.At(t.Len()-1)
	// 4.5/3 and the like must not miss the published multiple by a last bit.
	const slack = 1e-9
	switch {
	case m < first.Multiple-slack && m <= 1+slack:
		return Band{MinS: math.Inf(1), MaxS: math.Inf(1)}
	case m <= first.Multiple+slack:
		return Band{MinS: first.MinS, MaxS: first.MaxS}
	case m > last.Multiple+slack:
		return Band{MinS: 0, MaxS: last.MaxS}
	}
	for i := 1; i < t.Len(); i++ {
		p, q := t.At(i-1), t.At(i)
		if m > q.Multiple+slack {
			continue
		}
		m = math.Min(m, q.Multiple)
		b := Band{MinS: logLog(m, p.Multiple, p.MinS, q.Multiple, q.MinS), MaxS: q.MaxS}
		switch {
		case m >= q.Multiple-slack:
		case math.IsInf(p.MaxS, 1):
			b.MaxS = p.MaxS
		default:
			b.MaxS = logLog(m, p.Multiple, p.MaxS, q.Multiple, q.MaxS)
		}
		return b
	}
	return Band{MinS: 0, MaxS: last.MaxS} // not reached: m <= last.Multiple
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
