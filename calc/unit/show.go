package unit

import (
	"math"
	"strconv"
	"strings"
)

// Show is how lengths, temperatures and conductor sizes are shown. It never
// changes what is stored or ordered. The zero value shows SI and every size as
// it is ordered. Shows compare with ==.
type Show struct {
	System System
	// Sizes is [Metric] or [AWG] to show all conductor sizes in that system.
	Sizes SizeSystem
}

// Size prints a conductor size. One that is shown in another system than it is
// ordered in is marked as about so much: "≈ AWG 16".
func (w Show) Size(s Size) string {
	to, ok := w.Near(s)
	if !ok {
		return s.String()
	}
	return "≈ " + to.String()
}

// Near returns the size that stands for s in the system shown: the area in mm²
// with two digits, or the gauge nearest in area. It is false where s is shown
// as it is.
func (w Show) Near(s Size) (Size, bool) {
	area, known := s.AreaMM2()
	switch {
	case !known || area <= 0:
	case w.Sizes == Metric && s.System != Metric:
		return MM2(round(area, 2)), true
	case w.Sizes == AWG && s.System == Metric:
		// 36 gauges are a factor of 92 in diameter (ASTM B258).
		d := math.Sqrt(area * 4 / math.Pi)
		n := math.Round(36 - 39*math.Log(d/0.127)/math.Log(92))
		return GaugeAWG(int(min(maxGauge, max(minGauge, n)))), true
	}
	return Size{}, false
}

// Format is [Format] in the system shown. Areas that are conductor sizes go
// through [Show.Size].
func (w Show) Format(q Quantity, v float64) string { return Format(q, v, w.System) }

// Text rewrites the quantities in a sentence as they are shown: "950 mm of
// 1 mm²" becomes "3 ft 1.4 in of ≈ AWG 17". Only a number, a space and mm, m, mm²,
// °C, AWG or SAE are touched. It is not for formulas, whose other figures would
// no longer fit, nor for differences of temperature.
func (w Show) Text(s string) string {
	if w == (Show{}) || s == "" {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); {
		if from, to, text, ok := w.quantityAt(s, i); ok {
			b.WriteString(s[i:from])
			b.WriteString(text)
			i = to
			continue
		}
		b.WriteByte(s[i])
		i++
	}
	return b.String()
}

// quantityAt reads a quantity that begins at a place of a text.
func (w Show) quantityAt(s string, i int) (from, to int, text string, ok bool) {
	if i > 0 && (isDigit(s[i-1]) || s[i-1] == '.' || isLetter(s[i-1])) {
		return 0, 0, "", false // in the middle of a number or a name
	}
	for _, system := range []string{"AWG ", "SAE "} {
		if strings.HasPrefix(s[i:], system) {
			end := i + len(system)
			for end < len(s) && (isDigit(s[end]) || s[end] == '/' && end+1 < len(s) && isDigit(s[end+1])) {
				end++
			}
			size, err := ParseSize(s[i:end])
			if err != nil {
				return 0, 0, "", false
			}
			if _, other := w.Near(size); !other {
				return 0, 0, "", false
			}
			return i, end, w.Size(size), true
		}
	}
	end := i
	for end < len(s) && (isDigit(s[end]) || s[end] == '.' && end+1 < len(s) && isDigit(s[end+1]) || end == i && s[end] == '-') {
		end++
	}
	v, err := strconv.ParseFloat(s[i:end], 64)
	if err != nil || end >= len(s) || s[end] != ' ' {
		return 0, 0, "", false
	}
	unit, rest := s[end+1:], ""
	for _, u := range []string{"mm²", "mm", "m", "°C"} {
		if strings.HasPrefix(unit, u) {
			unit, rest = u, unit[len(u):]
			break
		}
	}
	if len(rest) > 0 && !strings.ContainsRune(" ,.;:)!?\n", rune(rest[0])) {
		return 0, 0, "", false // another unit that begins alike: mV, m/s
	}
	end += 1 + len(unit)
	switch {
	case unit == "mm²":
		if _, other := w.Near(MM2(v)); other {
			return i, end, w.Size(MM2(v)), true
		}
	case w.System != Imperial:
	case unit == "mm":
		return i, end, Format(Length, v, Imperial), true
	case unit == "m":
		return i, end, Format(Length, v*1000, Imperial), true
	case unit == "°C":
		return i, end, Format(Temp, v, Imperial), true
	}
	return 0, 0, "", false
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func isLetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }
