// Package calc is the physics of a vehicle loom on plain numbers: resistance,
// ampacity, wire temperature, voltage drop, short-circuit withstand, fuses,
// grounds, bundle size and battery.
//
// Every answer is a [Result]: the value, the formula with its numbers put in,
// and the source of what decided it. What cannot be answered is an error that
// wraps [ErrUnknown] and names what is missing; it is never a pass. Start with
// [Ampacity] or [WireResistance].
package calc

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"loomwright/calc/tables"
	"loomwright/calc/unit"
)

// Result is a computed value in the unit its function names.
type Result struct {
	Value   float64
	Formula string // with numbers, as shown to the user
	Source  tables.Source
}

// ErrUnknown marks an answer that cannot be given. The text of an error that
// wraps it reads "not assessed: the conductor size is missing".
var ErrUnknown = errors.New("not assessed")

func missing(what string) error { return fmt.Errorf("%w: %s is missing", ErrUnknown, what) }

func outside(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrUnknown, fmt.Sprintf(format, args...))
}

// quantity is an input with the name it has in messages.
type quantity struct {
	name string
	v    float64
}

// positive fails on the first input that is not a number above zero: an
// unknown one is NaN or zero.
func positive(in ...quantity) error {
	for _, q := range in {
		switch {
		case math.IsNaN(q.v) || q.v == 0:
			return missing(q.name)
		case q.v < 0 || math.IsInf(q.v, 0):
			return outside("%s is %v, expected a number above zero", q.name, q.v)
		}
	}
	return nil
}

// celsius fails on a temperature that is unknown (NaN) or that no vehicle has.
func celsius(in ...quantity) error {
	for _, q := range in {
		switch {
		case math.IsNaN(q.v):
			return missing(q.name)
		case q.v < -100 || q.v > tables.CopperMeltsC:
			return outside("%s is %v °C, expected -100 to %d °C", q.name, q.v, tables.CopperMeltsC)
		}
	}
	return nil
}

// Short forms for formula texts.
func volts(v float64) string { return unit.Format(unit.Volt, v, unit.SI) }
func amps(v float64) string  { return unit.Format(unit.Amp, v, unit.SI) }
func ohms(v float64) string  { return unit.Format(unit.Ohm, v, unit.SI) }
func mm(v float64) string    { return unit.Format(unit.Length, v, unit.SI) }
func mm2(v float64) string   { return unit.Format(unit.Area, v, unit.SI) }
func degC(v float64) string  { return unit.Format(unit.Temp, v, unit.SI) }
func num(v float64) string   { return unit.Format(unit.Ratio, v, unit.SI) }

// seconds prints a time, hours where seconds are unreadable.
func seconds(v float64) string {
	switch {
	case math.IsInf(v, 1):
		return "no limit"
	case v >= 7200:
		return num(v/3600) + " h"
	}
	return num(v) + " s"
}

// a2s prints an I²t value in full A²s up to six digits.
func a2s(v float64) string {
	if v < 1000 {
		return num(v) + " A²s"
	}
	return strconv.FormatFloat(math.Round(v), 'f', 0, 64) + " A²s"
}

// logLog interpolates y at x on the straight line through two points in
// double-logarithmic paper. All arguments are positive.
func logLog(x, x0, y0, x1, y1 float64) float64 {
	if x0 == x1 {
		return y0
	}
	return y0 * math.Pow(y1/y0, math.Log(x/x0)/math.Log(x1/x0))
}
