package tables

// FusingPower is the constant of the power law of melting wires, I = C·d^1.5
// with d in mm: the current that just melts a bare copper wire in open air.
func FusingPower() Rule {
	return Rule{80.02, Source{Title: "fusing current of bare wires", Place: "I = 80.02·d^1.5 for copper in open air, seen second-hand"}}
}

// LinkStep is the least ratio of areas of a wire to the fusible link before it:
// four gauge numbers, 92^(8/39).
func LinkStep() Rule {
	return Rule{2.5283, FusibleLinks().Source}
}

// BreakerTimes gives the operating-time limits of a thermal breaker, rising in
// current.
func BreakerTimes() Table[FusePoint] {
	return Table[FusePoint]{Source{Title: "SAE J553", Place: "trip times of thermal breakers, low confidence", FromMemory: true}, breakerTimes[:]}
}

// The early edge is not on record; it is set low, so that what must not trip a
// breaker is judged hard.
var breakerTimes = [...]FusePoint{{1.00, 3600, inf}, {1.35, 5, 1800}, {2.00, 1, 60}}
