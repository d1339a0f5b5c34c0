package tables

// AltitudePoint is the part of its current a wire keeps in thin air.
type AltitudePoint struct {
	M          float64 // above sea level, m
	Factor     float64
	FromMemory bool
}

// 0, 20 000 and 60 000 ft.
var altitudes = [...]AltitudePoint{{0, 1, false}, {6096, 0.91, false}, {18288, 0.79, true}}

// AltitudeDerating lists the points of the curve that were on record.
func AltitudeDerating() Table[AltitudePoint] {
	return Table[AltitudePoint]{Source{Title: "FAA AC 43.13-1B", Place: "altitude derating, 0.91 at 20 000 ft, seen second-hand, straight between points"}, altitudes[:]}
}

// AltitudeFactor gives the factor at an altitude in m, on straight lines
// between the points; false above the highest. Below the sea it is 1.
func AltitudeFactor(m float64) (float64, Source, bool) {
	src := AltitudeDerating().Source
	if !(m > 0) {
		return 1, src, m <= 0
	}
	for i := 1; i < len(altitudes); i++ {
		a, b := altitudes[i-1], altitudes[i]
		if m <= b.M {
			src.FromMemory = b.FromMemory
			return a.Factor + (b.Factor-a.Factor)*(m-a.M)/(b.M-a.M), src, true
		}
	}
	return 0, Source{}, false
}
