package tables

// BundleSet chooses one of four published sets of factors for conductors
// that heat each other. They disagree; none is right for every loom.
type BundleSet uint8

// The sets. The zero value is no choice.
const (
	NoBundleSet      BundleSet = iota
	BundleCFR183               // 33 CFR 183.425 note 2
	BundleISO13297             // small-craft alternating-current standard
	BundleIEC60364             // IEC 60364-5-52 B.52.17 item 1, all fully loaded
	BundleUSBuilding           // US building code, 310.15
)

// bundleStep holds from its count up to the next one's.
type bundleStep struct {
	from   int
	factor float64
}

var (
	bundleCFR = [...]bundleStep{{1, 1}, {3, 0.70}, {4, 0.60}, {7, 0.50}, {25, 0.40}}
	bundleUS  = [...]bundleStep{{1, 1}, {4, 0.80}, {7, 0.70}, {10, 0.50}, {21, 0.45}, {31, 0.40}, {41, 0.35}}
	bundleISO = [...]bundleStep{{1, 1}, {4, 0.7}, {7, 0.6}, {25, 0.5}}
	// Between its published counts (11, 13, 15, 17, 19) the next larger one's
	// factor is used. Nothing is published beyond 20.
	bundleIEC = [...]bundleStep{{1, 1}, {2, 0.80}, {3, 0.70}, {4, 0.65}, {5, 0.60}, {6, 0.57}, {7, 0.54}, {8, 0.52},
		{9, 0.50}, {10, 0.48}, {11, 0.45}, {13, 0.43}, {15, 0.41}, {17, 0.39}, {19, 0.38}, {21, 0}}
)

// Source of the set.
func (s BundleSet) Source() Source {
	switch s {
	case BundleCFR183:
		return Source{Title: "33 CFR 183.425", Place: "note 2, bundled conductors", FromMemory: true}
	case BundleISO13297:
		return Source{Title: "ISO 13297", Place: "bunched cables", FromMemory: true}
	case BundleIEC60364:
		return Source{Title: "IEC 60364-5-52", Place: "Table B.52.17 item 1", FromMemory: true}
	case BundleUSBuilding:
		return Source{Title: "US building code, 310.15", Place: "more than three loaded conductors, seen second-hand"}
	}
	return Source{}
}

// Factor gives the part of the single rating that each of n loaded conductors
// keeps; false if the set or the count is not published.
func (s BundleSet) Factor(n int) (float64, bool) {
	var steps []bundleStep
	switch s {
	case BundleCFR183:
		steps = bundleCFR[:]
	case BundleISO13297:
		steps = bundleISO[:]
	case BundleIEC60364:
		steps = bundleIEC[:]
	case BundleUSBuilding:
		steps = bundleUS[:]
	}
	for i := len(steps) - 1; i >= 0; i-- {
		if n >= steps[i].from {
			return steps[i].factor, steps[i].factor > 0
		}
	}
	return 0, false
}
