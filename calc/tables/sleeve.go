package tables

var tubes = [...]float64{4.5, 6, 7.5, 8.5, 10, 13, 17, 22, 26, 29, 37, 50}

// CorrugatedTubes lists nominal inside diameters in mm.
func CorrugatedTubes() Table[float64] {
	return Table[float64]{practiceM("corrugated tube sizes"), tubes[:]}
}

// TubeFill is the part of a tube's inside diameter that the bundle may take.
func TubeFill() Rule {
	return Rule{0.8, practiceM("bundle at most 0.80 to 0.85 of the inside diameter")}
}

// TapeAddMM is what one layer of half-lapped PVC tape adds to the diameter.
func TapeAddMM() Rule { return Rule{0.6, practiceM("PVC tape, half-lapped")} }

// TwistGrowth is the growth of a twisted bundle that is not taped.
func TwistGrowth() Rule { return Rule{1.05, practiceM("untaped twisted bundle")} }

// BundleFactor is k of the practice formula D = k·√Σd².
func BundleFactor() Rule {
	return Rule{1.2, Source{Title: "bundle calculators", Place: "D = 1.2·√Σd², seen second-hand"}}
}

// BendRow is a smallest bend radius as a multiple of the outside diameter.
type BendRow struct {
	Name     string
	Multiple float64
	Source   Source
}

var bends = [...]BendRow{
	{"bundle, by its largest wire", 10, Source{Title: ac43, Place: "paragraph 11-96", FromMemory: true}},
	{"cable, short term", 6, Source{Title: "NASA-STD-8739.4", Place: "7.3.21, seen second-hand"}},
	{"cable, long term", 10, Source{Title: "NASA-STD-8739.4", Place: "7.3.21, seen second-hand"}},
	{"polyimide cable, short term", 10, Source{Title: "NASA-STD-8739.4", Place: "7.3.21, seen second-hand"}},
	{"polyimide cable, long term", 15, Source{Title: "NASA-STD-8739.4", Place: "7.3.21, seen second-hand"}},
	{"vehicle thin-wall cable up to 6 mm, fixed", 4, practiceM("fixed laying")},
	{"vehicle thin-wall cable above 6 mm, fixed", 6, practiceM("fixed laying")},
}

// Bends lists smallest bend radii.
func Bends() Table[BendRow] {
	return Table[BendRow]{Source{Title: "bend radii", Place: "see each row"}, bends[:]}
}

// ClearanceMM is how far wires stay from an edge of a hole without grommet.
func ClearanceMM() Rule {
	return Rule{9.5, Source{Title: ac43, Place: "chapter 11, 3/8 in at penetrations"}}
}
