package tables

// Rule is one number of a sizing rule.
type Rule struct {
	Value  float64
	Source Source
}

// FuseContinuous is the part of a fuse's rating that may flow for good at 25 degC.
func FuseContinuous() Rule {
	return Rule{0.75, Source{Title: "fuse selection guide of a protection maker", Place: "at most 75 % at 25 °C, seen second-hand"}}
}

// FuseWithinAmpacity is the source of the rule that a fuse protects its wire:
// the rating is not above the wire's ampacity.
func FuseWithinAmpacity() Source {
	return Source{Title: ac43, Place: "paragraph 11-48"}
}

// FuseAboveAmpacity is how far 33 CFR 183.455 lets the next standard size
// exceed the ampacity of the wire.
func FuseAboveAmpacity() Rule {
	return Rule{1.5, Source{Title: "33 CFR 183.455", Place: "next standard size up to 150 %", FromMemory: true}}
}

// FuseAmbient is the loss of rating per kelvin above 25 degC. Remembered as
// 0.10 to 0.20 % with low confidence; the larger is kept, which asks for more
// reserve. Valid from -40 to 125 degC.
func FuseAmbient() Rule {
	return Rule{0.0020, Source{Title: "zinc-element blade fuses", Place: "0.10 to 0.20 % per K from 25 °C, low confidence", FromMemory: true}}
}

// FuseToSourceMM is how near to the supply the fuse belongs, in mm along the
// wire: 7 in, or 72 in for a sheathed wire from the battery.
func FuseToSourceMM(sheathed bool) Rule {
	src := Source{Title: "33 CFR 183.455", Place: "distance of the fuse from the source", FromMemory: true}
	if sheathed {
		return Rule{72 * 25.4, src}
	}
	return Rule{7 * 25.4, src}
}

// LinkRow pairs a fusible link with the wire it protects, AWG numbers.
type LinkRow struct{ Link, Wire int }

var links = [...]LinkRow{{18, 14}, {16, 12}, {14, 10}, {12, 8}}

// FusibleLinks gives the rule "four gauge numbers smaller than the wire".
// A link is at most 9 in long, usually 6.
func FusibleLinks() Table[LinkRow] {
	return Table[LinkRow]{practice("fusible link four gauge numbers smaller than the wire"), links[:]}
}

// PulseRow is the part of the melting I²t that pulses may reach.
type PulseRow struct {
	Pulses int
	Part   float64
}

var pulses = [...]PulseRow{{100, 0.48}, {1000, 0.38}, {10000, 0.29}, {100000, 0.22}}

// FusePulses lists how much pulse I²t a fuse stands how often.
func FusePulses() Table[PulseRow] {
	return Table[PulseRow]{Source{Title: "fuse selection guide of a protection maker", Place: "pulse endurance, seen second-hand"}, pulses[:]}
}
