package check

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"loomwright/calc"
	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/schematic"
)

func volts(v float64) string { return unit.Format(unit.Volt, v, unit.SI) }
func amps(v float64) string  { return unit.Format(unit.Amp, v, unit.SI) }
func ohms(v float64) string  { return unit.Format(unit.Ohm, v, unit.SI) }
func watts(v float64) string { return unit.Format(unit.Watt, v, unit.SI) }
func mm(v float64) string    { return unit.Format(unit.Length, v, unit.SI) }
func degC(v float64) string  { return unit.Format(unit.Temp, v, unit.SI) }
func num(v float64) string   { return unit.Format(unit.Ratio, v, unit.SI) }

// longestList is how many names a sentence holds.
const longestList = 6

func percent(v float64) string { return unit.Format(unit.Percent, v, unit.SI) }

// pinsOf returns the own pin an element belongs to.
func pinsOf(br *netlist.Branch) []schematic.PinRef {
	if br.Pin == nil {
		return nil
	}
	return []schematic.PinRef{{Part: br.Part.ID, Pin: br.Pin.Name}}
}

// parts and wires of the document in the order of their names.
func (r *run) parts() []*schematic.Part { return slices.SortedFunc(r.doc.Parts(), byName) }
func (r *run) wires() []*schematic.Wire { return slices.SortedFunc(r.doc.Wires(), byName) }

func byName[T schematic.Item](x, y T) int {
	return cmp.Or(schematic.CompareNames(schematic.NameOf(x), schematic.NameOf(y)), x.Key().Compare(y.Key()))
}

// list joins names as a sentence does: "W1, W2 and W3".
func list(names []string) string {
	if more := len(names) - longestList; more > 1 {
		return fmt.Sprintf("%s and %d more", strings.Join(names[:longestList], ", "), more)
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

// is is the verb after a list of n names.
func is(n int) string {
	if n == 1 {
		return "is"
	}
	return "are"
}

// reason takes what is missing out of an error of package calc: "the conductor
// size is missing".
func reason(err error) string {
	return strings.TrimPrefix(err.Error(), calc.ErrUnknown.Error()+": ")
}

// unknown reports whether calc could not answer for want of data.
func unknown(err error) bool { return errors.Is(err, calc.ErrUnknown) }
