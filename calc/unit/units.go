package unit

import "strings"

// scale turns a typed number into the held unit: number·10^exp10·mul + add.
// Powers of ten are kept apart so that "3.4 mΩ" becomes exactly 0.0034.
type scale struct {
	exp10 int
	mul   float64 // 0 stands for 1
	add   float64
}

func (s scale) apply(v float64) float64 {
	if s.mul != 0 {
		v *= s.mul
	}
	return v + s.add
}

const (
	mmPerInch = 25.4
	mmPerFoot = 304.8
	// MM2PerCmil is one circular mil in mm2: a circle of a thousandth of an inch.
	MM2PerCmil = 5.067074790974977e-4
)

// spelling folds the ways one unit is typed: spaces, the two micro signs, the
// two ohm signs, superscripts and typographic quotes.
var spelling = strings.NewReplacer(
	" ", "", "\t", "", "\u00a0", "", "\u202f", "", "\u2009", "",
	"µ", "u", "μ", "u", "\u2126", "Ω", "²", "2", "^2", "2", "·", "", ".", "",
	"″", `"`, "”", `"`, "“", `"`, "''", `"`, "′", "'", "’", "'", "℃", "°C", "℉", "°F", "º", "°",
)

// scaleOf finds the unit s of quantity q. An empty s is the bare number.
func scaleOf(q Quantity, s string) (scale, bool) {
	s = spelling.Replace(s)
	switch q {
	case Volt:
		return prefixed(s, "V", "volt", "volts", "vdc")
	case Amp:
		return prefixed(s, "A", "amp", "amps", "ampere", "amperes")
	case Ohm:
		if sc, ok := prefixed(s, "Ω", "ω", "ohm", "ohms"); ok {
			return sc, true
		}
		// Only resistance takes mega: "MA" typed with shift held down must
		// not become a million amps.
		if rest, ok := strings.CutPrefix(s, "M"); ok && rest != "" {
			sc, ok := prefixed(rest, "Ω", "ω", "ohm", "ohms")
			return scale{exp10: 6}, ok && sc.exp10 == 0
		}
		return scale{}, false
	case Watt:
		return prefixed(s, "W", "watt", "watts")
	case AmpHour:
		return prefixed(s, "Ah", "amphour", "amphours")
	case Length:
		switch strings.ToLower(s) {
		case "", "mm":
			return scale{}, true
		case "cm":
			return scale{exp10: 1}, true
		case "m", "metre", "metres", "meter", "meters":
			return scale{exp10: 3}, s != "M"
		case "in", "inch", "inches", `"`:
			return scale{mul: mmPerInch}, true
		case "ft", "foot", "feet", "'":
			return scale{mul: mmPerFoot}, true
		}
	case Area:
		switch strings.ToLower(s) {
		case "", "mm2", "sqmm":
			return scale{}, true
		case "cmil":
			return scale{mul: MM2PerCmil}, true
		case "kcmil", "mcm":
			return scale{exp10: 3, mul: MM2PerCmil}, true
		}
	case Temp:
		switch strings.TrimPrefix(strings.TrimPrefix(s, "°"), "deg") {
		case "C", "c":
			return scale{}, true
		case "F", "f":
			return scale{mul: 5.0 / 9, add: -160.0 / 9}, true
		case "K":
			return scale{add: -273.15}, true
		case "":
			return scale{}, s == "" // "85°" leaves the scale open
		}
	case Percent:
		if s == "" || s == "%" {
			return scale{exp10: -2}, true
		}
	case Ratio:
		switch s {
		case "":
			return scale{}, true
		case "%":
			return scale{exp10: -2}, true
		}
	case Count:
		return scale{}, s == ""
	}
	return scale{}, false
}

// prefixed matches an optional SI prefix (u, m, k) and one of the names, the
// names without regard to case. Empty s is the bare base unit.
func prefixed(s string, names ...string) (scale, bool) {
	if s == "" {
		return scale{}, true
	}
	for _, n := range names {
		if len(s) < len(n) || !strings.EqualFold(s[len(s)-len(n):], n) {
			continue
		}
		switch s[:len(s)-len(n)] {
		case "":
			return scale{}, true
		case "u":
			return scale{exp10: -6}, true
		case "m":
			return scale{exp10: -3}, true
		case "k", "K":
			return scale{exp10: 3}, true
		}
	}
	return scale{}, false
}
