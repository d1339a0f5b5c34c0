package check

import (
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

// Figure prints a number of a finding in its unit, "" when it is not known.
func Figure(n schematic.Num, u string) string {
	v, ok := n.Get()
	if !ok {
		return ""
	}
	q, known := map[string]unit.Quantity{
		"V": unit.Volt, "A": unit.Amp, "ohm": unit.Ohm, "W": unit.Watt, "mm": unit.Length, "mm2": unit.Area, "degC": unit.Temp, "Ah": unit.AmpHour,
	}[u]
	if !known {
		return strings.TrimSpace(num(v) + " " + u)
	}
	return unit.Format(q, v, unit.SI)
}

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

// parts lists the parts of the document in the order of their names.
func (r *run) parts() []*schematic.Part {
	if r.named == nil {
		r.named = slices.SortedFunc(r.doc.Parts(), schematic.CompareItems)
	}
	return r.named
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

// verb is a verb after a list of n names: "F1 lets", "F1 and F2 let".
func verb(n int, plural string) string {
	if n == 1 {
		return plural + "s"
	}
	return plural
}

// its says of a list of n names what each has: "the rating is", "their ratings are".
func its(n int, what string) string {
	if n == 1 {
		return "the " + what + " is"
	}
	return "their " + what + "s are"
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

// lacking takes what is missing out of an error of package calc, as a name:
// "the conductor size".
func lacking(err error) string { return strings.TrimSuffix(reason(err), " is missing") }
