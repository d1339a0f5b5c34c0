package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
)

// Protection compares a fuse with the wire behind it. Value is the wire's
// limit over the fuse's; below 1 the wire is not covered. It says nothing of
// what else the wire feeds.
type Protection struct {
	Result
	Within bool // Value >= 1
}

// FuseAgainstAmpacity compares the rating with the wire's ampacity for
// overloads that last.
func FuseAgainstAmpacity(ratingA, ampacityA float64, ampacity tables.Source) (Protection, error) {
	if math.IsNaN(ampacityA) || ampacityA < 0 {
		return Protection{}, missing("the ampacity of the wire")
	}
	if err := positive(quantity{"the fuse rating", ratingA}); err != nil {
		return Protection{}, err
	}
	v := ampacityA / ratingA
	sign := "≥"
	if v < 1 {
		sign = "<"
	}
	return Protection{Result{v, fmt.Sprintf("wire %s %s fuse %s", amps(ampacityA), sign, amps(ratingA)),
		tables.FuseWithinAmpacity().And(ampacity)}, v >= 1}, nil
}

// NextSizeAllowed reports whether a rating above the ampacity is still the
// next standard size of its family and at most 150 % of the ampacity, which 33
// CFR 183.455 lets pass.
func NextSizeAllowed(f tables.FuseFamily, ratingA, ampacityA float64) (Protection, error) {
	row, ok := tables.FuseData(f)
	if !ok {
		return Protection{}, missing("the fuse family")
	}
	if err := positive(quantity{"the fuse rating", ratingA}, quantity{"the ampacity of the wire", ampacityA}); err != nil {
		return Protection{}, err
	}
	rule := tables.FuseAboveAmpacity()
	next, ok := nextRating(row, ampacityA)
	v := rule.Value * ampacityA / ratingA
	size := "there is no standard size from " + amps(ampacityA) + " up"
	if ok {
		size = fmt.Sprintf("next standard size from %s up is %s", amps(ampacityA), amps(next))
	}
	text := fmt.Sprintf("fuse %s, %s, %s · %s = %s", amps(ratingA), size, num(rule.Value), amps(ampacityA), amps(rule.Value*ampacityA))
	return Protection{Result{v, text, rule.Source}, ok && ratingA <= next && v >= 1}, nil
}

// SwitchRating gives the nominal rating in A a switch needs for a load of a
// amps in a 12, 24 or 28 V system.
func SwitchRating(load tables.SwitchLoad, a, nominalV float64) (Result, error) {
	list := tables.Switches()
	row, ok := list.Find(func(r tables.SwitchRow) bool { return r.Load == load })
	if !ok {
		return Result{}, missing("the kind of load")
	}
	if err := positive(quantity{"the load current", a}); err != nil {
		return Result{}, err
	}
	var f float64
	switch nominalV {
	case 12:
		f = row.At12V
	case 24, 28:
		f = row.At28V
	default:
		return Result{}, outside("switch factors are given for 12 and 24 V, not for %s", volts(nominalV))
	}
	v := a * f
	return Result{v, fmt.Sprintf("%s · %g (%s) = %s", amps(a), f, row.Name, amps(v)), list.Source}, nil
}
