package unit

import (
	"math"
	"strconv"
	"strings"
)

// Unknown is what [Format] prints for a number that is not finite.
const Unknown = "unknown"

// Format prints v, given in the held unit, with the digits a workshop reads:
// three significant ones as a rule, a millimetre of length, a hundredth of a
// volt on a battery. Trailing zeros are dropped and zero has no sign. Use
// [Exact] where the text will be read back as the same number.
func Format(q Quantity, v float64, sys System) string {
	if !finite(v) {
		return Unknown
	}
	switch q {
	case Volt:
		return engineering(v, voltDigits(v), "V", steps)
	case Amp:
		return engineering(v, digits(v), "A", steps)
	case Watt:
		return engineering(v, digits(v), "W", steps)
	case Ohm:
		return engineering(v, 3, "Ω", ohmSteps)
	case AmpHour:
		return engineering(v, digits(v), "Ah", chargeSteps)
	case Length:
		if sys == Imperial {
			return feetInches(v)
		}
		return engineering(v, lengthDigits(v), "m", lengthSteps)
	case Area:
		return plain(v, digits(v)) + " mm²"
	case Temp:
		if sys == Imperial {
			return fixed(v*9/5+32, 1) + " °F"
		}
		return fixed(v, 1) + " °C"
	case Percent:
		return plain(shift(v, 2), digits(shift(v, 2))) + " %"
	case Ratio:
		return plain(v, digits(v))
	case Count:
		return fixed(v, 0)
	}
	return Unknown
}

// Exact prints v in the held unit with every digit, so that [Parse] gives v
// back. It is for input fields; not finite prints as [Unknown].
func Exact(q Quantity, v float64) string {
	if !finite(v) {
		return Unknown
	}
	s := trim(strconv.FormatFloat(v, 'f', -1, 64))
	if q == Percent {
		s = hundredfold(s)
	}
	if u := heldUnit(q); u != "" {
		s += " " + u
	}
	return s
}

// hundredfold moves the point of a decimal text two places. Multiplying the
// float64 instead could change its last bit.
func hundredfold(s string) string {
	whole, frac, _ := strings.Cut(s, ".")
	frac += strings.Repeat("0", max(0, 2-len(frac)))
	sign := ""
	if rest, ok := strings.CutPrefix(whole, "-"); ok {
		sign, whole = "-", rest
	}
	whole = strings.TrimLeft(whole+frac[:2], "0")
	if whole == "" {
		whole = "0"
	}
	if frac = frac[2:]; frac != "" {
		frac = "." + frac
	}
	return sign + whole + frac
}

func heldUnit(q Quantity) string {
	switch q {
	case Volt:
		return "V"
	case Amp:
		return "A"
	case Ohm:
		return "Ω"
	case Watt:
		return "W"
	case Length:
		return "mm"
	case Area:
		return "mm²"
	case Temp:
		return "°C"
	case AmpHour:
		return "Ah"
	case Percent:
		return "%"
	}
	return ""
}

// step is one line of a prefix ladder: from this size up, print with that prefix.
type step struct {
	from   float64
	prefix string
	exp10  int // of the printed unit against the held one
}

// The ladders stay in the unit a meter shows: 0.312 V rather than 312 mV,
// 1500 A rather than 1.5 kA. The last line's from is the smallest value shown.
var (
	steps       = []step{{1e4, "k", 3}, {0.1, "", 0}, {1e-4, "m", -3}, {1e-9, "µ", -6}}
	ohmSteps    = []step{{1e6, "M", 6}, {1e3, "k", 3}, {0.1, "", 0}, {1e-4, "m", -3}, {1e-9, "µ", -6}}
	chargeSteps = []step{{0.1, "", 0}, {1e-7, "m", -3}}
	lengthSteps = []step{{1e3, "", 3}, {1e-3, "m", 0}} // held in mm, printed as m or mm
)

func engineering(v float64, sig int, unit string, ladder []step) string {
	v = round(v, sig)
	for _, s := range ladder {
		if math.Abs(v) >= s.from {
			return trim(strconv.FormatFloat(shift(v, -s.exp10), 'f', -1, 64)) + " " + s.prefix + unit
		}
	}
	if unit == "m" {
		unit = "mm"
	}
	return "0 " + unit
}

// plain prints without prefixes; what is below a millionth shows as zero.
func plain(v float64, sig int) string {
	if math.Abs(v) < 1e-6 {
		return "0"
	}
	return trim(strconv.FormatFloat(round(v, sig), 'f', -1, 64))
}

// fixed prints at most the given number of decimals.
func fixed(v float64, decimals int) string {
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	r, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return Unknown
	}
	return trim(strconv.FormatFloat(r, 'f', -1, 64))
}

// feetInches prints inches below a foot, feet and inches above.
func feetInches(mm float64) string {
	in := mm / mmPerInch
	sign := ""
	if in < 0 {
		sign, in = "-", -in
	}
	if in < 5e-5 {
		return "0 in"
	}
	if round(in, 3) < 12 {
		return sign + trim(strconv.FormatFloat(round(in, 3), 'f', -1, 64)) + " in"
	}
	tenths := math.Round(in * 10) // a tenth of an inch is finer than any cut
	feet := math.Floor(tenths / 120)
	s := sign + strconv.FormatFloat(feet, 'f', 0, 64) + " ft"
	if rest := tenths - feet*120; rest > 0 {
		s += " " + strconv.FormatFloat(rest/10, 'f', -1, 64) + " in"
	}
	return s
}

// digits keeps every digit before the point and at least three in all.
func digits(v float64) int {
	switch a := math.Abs(v); {
	case a >= 1e4 || a < 1e3:
		return 3
	default:
		return 4
	}
}

// voltDigits shows a hundredth of a volt up to 100 V, as a meter does.
func voltDigits(v float64) int {
	if a := math.Abs(v); a >= 10 && a < 100 {
		return 4
	}
	return digits(v)
}

// lengthDigits shows the millimetre up to 10 m.
func lengthDigits(mm float64) int {
	if math.Abs(mm) >= 1e3 {
		return 4
	}
	return 3
}

// round keeps sig significant digits.
func round(v float64, sig int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', sig-1, 64), 64)
	if err != nil {
		return v // only beyond the largest float64
	}
	return r
}

// shift multiplies by a power of ten in decimal, so 0.07 becomes 7 and not
// 7.000000000000001.
func shift(v float64, exp10 int) float64 {
	if exp10 == 0 {
		return v
	}
	s := strconv.FormatFloat(v, 'e', -1, 64)
	for i := len(s) - 1; i >= 0; i-- {
		if s[i] != 'e' {
			continue
		}
		e, err := strconv.Atoi(s[i+1:])
		if err != nil {
			break
		}
		if r, err := strconv.ParseFloat(s[:i+1]+strconv.Itoa(e+exp10), 64); err == nil {
			return r
		}
	}
	return v
}

// trim takes the sign off zero.
func trim(s string) string {
	if s == "-0" {
		return "0"
	}
	return s
}
