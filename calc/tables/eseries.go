package tables

import "math"

// e12 is the series of preferred numbers for resistors of 10 % (IEC 60063).
var e12 = [...]float64{1, 1.2, 1.5, 1.8, 2.2, 2.7, 3.3, 3.9, 4.7, 5.6, 6.8, 8.2, 10}

// NextE12 returns the smallest resistor of the E12 series of at least ohm, in
// Ω; false for what is no resistance.
func NextE12(ohm float64) (float64, bool) {
	if !(ohm > 0) || math.IsInf(ohm, 1) {
		return 0, false
	}
	decade := math.Pow(10, math.Floor(math.Log10(ohm)))
	for _, v := range e12 {
		// Full numbers of the decade, not sums of fractions: 680, not 680.0000000000001.
		if n := math.Round(v*10) * decade / 10; n >= ohm*(1-1e-12) {
			return n, true
		}
	}
	return 0, false
}
