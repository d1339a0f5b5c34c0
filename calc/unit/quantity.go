// Package unit reads and prints the quantities of a vehicle loom the way a
// builder types them, and names conductor sizes in their three systems.
//
// Every value is held in one unit per quantity: V, A, ohm, W, mm, mm2, degC,
// Ah, and a plain fraction for percentages. Start with [Parse] and [Format];
// conductor sizes are [Size], read with [ParseSize].
package unit

import (
	"math"
	"strings"
)

// Quantity says what a number measures and so which units may follow it.
type Quantity uint8

// The quantities, each with the unit its float64 is held in.
const (
	Volt     Quantity = iota // V
	Amp                      // A
	Ohm                      // ohm
	Watt                     // W
	Length                   // mm
	Area                     // mm2
	Temp                     // degC
	AmpHour                  // Ah
	Percent                  // fraction; a bare number is read as percent: "3" is 0.03
	Ratio                    // fraction; a bare number is read as it stands: "0.03" is 0.03
	Count                    // whole number of things
	quantity                 // number of quantities, not one of them
)

// System chooses the units that [Format] prints where inch countries differ.
type System uint8

// SI prints mm, m and degrees Celsius; Imperial prints in, ft and Fahrenheit.
// Electrical quantities and conductor areas are the same in both.
const (
	SI System = iota
	Imperial
)

// trait is what parsing and error texts need to know of a quantity.
type trait struct {
	noun     string  // "a current"
	expected string  // the units that are understood
	example  string  // something that parses
	min, max float64 // accepted range in held units; beyond it is a slip of the finger
}

func (q Quantity) trait() (trait, bool) {
	switch q {
	case Volt:
		return trait{"a voltage", "a number with V, mV, µV or kV", "12.6 V", -1e6, 1e6}, true
	case Amp:
		return trait{"a current", "a number with A, mA, µA or kA", "2.5 A", -1e6, 1e6}, true
	case Ohm:
		return trait{"a resistance", "a number with Ω, mΩ, µΩ, kΩ or MΩ (ohm works too)", "3.4 mΩ", 0, 1e12}, true
	case Watt:
		return trait{"a power", "a number with W, mW or kW", "55 W", -1e9, 1e9}, true
	case Length:
		return trait{"a length", "a number with mm, cm, m, in or ft", "1.2 m or 4'6\"", 0, 1e7}, true
	case Area:
		return trait{"an area", "a number with mm², cmil or kcmil", "0.75 mm²", 0, 1e5}, true
	case Temp:
		return trait{"a temperature", "a number with °C, °F or K", "85 °C", -273.15, 5000}, true
	case AmpHour:
		return trait{"a charge", "a number with Ah or mAh", "60 Ah", 0, 1e6}, true
	case Percent:
		return trait{"a percentage", "a number with or without %", "3 %", -100, 100}, true
	case Ratio:
		return trait{"a ratio", "a plain number, or one with %", "0.85", -1e6, 1e6}, true
	case Count:
		return trait{"a count", "a whole number", "12", 0, 1e9}, true
	}
	return trait{}, false
}

// String gives the quantity's name in lower case, for messages.
func (q Quantity) String() string {
	t, ok := q.trait()
	if !ok {
		return "unknown quantity"
	}
	_, name, _ := strings.Cut(t.noun, " ") // without the article
	return name
}

// finite reports whether v is a usable number.
func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
