package tables

import "strings"

// ClassRow is a temperature class of road-vehicle cables, degC.
type ClassRow struct {
	Class      string  // A to H
	MaxC       float64 // 3000 h
	ShortTermC float64 // 240 h
	OverloadC  float64 // 6 h
}

var classes = [...]ClassRow{
	{"A", 85, 110, 135}, {"B", 100, 125, 150}, {"C", 125, 150, 175}, {"D", 150, 175, 200},
	{"E", 175, 200, 225}, {"F", 200, 225, 250}, {"G", 225, 250, 275}, {"H", 250, 275, 300},
}

// Classes lists the temperature classes.
func Classes() Table[ClassRow] {
	return Table[ClassRow]{Source{Title: "ISO 6722-1 and ISO 19642", Place: "temperature classes", FromMemory: true}, classes[:]}
}

// Insulation is a family of insulated vehicle cable. The short-circuit limit
// is the final temperature the adiabatic equation may use.
type Insulation struct {
	Code          string // trade code, unique
	Material      string
	MaxC          float64 // long-term limit of the conductor, degC
	ShortCircuitC float64 // degC; 0 is not on record
	Wall          Wall
	Source        Source
}

// Wall says which list of outside diameters a family follows.
type Wall uint8

// Lists of outside diameters. NoWall has none on record.
const (
	NoWall Wall = iota
	ThinWall
	ThickWall
	TXLWall
	GXLWall
	SXLWall
	GPTWall
)

var (
	saeTemp  = Source{Title: "SAE J1128 cable types", Place: "seen second-hand"}
	saeTempM = Source{Title: "SAE J1128 and J1127 cable types"}.memory()
	isoTypes = Source{Title: "trade code letters of road-vehicle cables", Place: "material mapping"}.memory()
)

// The short-circuit limits are those of IEC 60364-5-54 for the material: PVC
// 160, cross-linked 250, silicone 350 degC (from memory).
var insulations = [...]Insulation{
	{"GPT", "PVC", 80, 160, GPTWall, saeTemp},
	{"TWP", "thin PVC", 105, 160, NoWall, saeTempM},
	{"HDT", "heavy PVC", 80, 160, NoWall, saeTempM},
	{"TXL", "thin cross-linked polyethylene", 125, 250, TXLWall, saeTemp},
	{"GXL", "medium cross-linked polyethylene", 125, 250, GXLWall, saeTemp},
	{"SXL", "thick cross-linked polyethylene", 125, 250, SXLWall, saeTemp},
	{"SGT", "battery cable, PVC", 80, 160, NoWall, saeTempM},
	{"SGX", "battery cable, cross-linked", 125, 250, NoWall, saeTempM},
	{"STX", "battery cable, thin cross-linked", 125, 250, NoWall, saeTempM},
	{"FLY", "PVC", 105, 160, ThickWall, isoTypes},
	{"FLRY", "thin PVC", 105, 160, ThinWall, isoTypes},
	{"FLR2X", "thin cross-linked polyethylene", 125, 250, ThinWall, isoTypes},
	{"FLR7Y", "thin ETFE", 150, 0, ThinWall, isoTypes}, // classes D and E are both quoted
	{"FLR6Y", "thin FEP", 200, 0, ThinWall, isoTypes},
	{"FL2G", "silicone", 200, 350, ThickWall, isoTypes},
	{"AV", "PVC", 80, 160, NoWall, Source{Title: "trade code letters of road-vehicle cables", Place: "80 °C vinyl"}},
	{"AVS", "thin PVC", 80, 160, NoWall, Source{Title: "trade code letters of road-vehicle cables", Place: "80 °C vinyl"}},
	{"AVSS", "extra thin PVC", 80, 160, NoWall, Source{Title: "trade code letters of road-vehicle cables", Place: "80 °C vinyl"}},
}

// Insulations lists the cable families.
func Insulations() Table[Insulation] {
	return Table[Insulation]{Source{Title: "vehicle cable families", Place: "see each row"}, insulations[:]}
}

// InsulationByCode finds a family by its code, such as "TXL" or "FLRY", in
// small letters or capitals. Codes of the FL families may end in the letter of
// the stranding, symmetrical or not: "FLRY-B" is FLRY (common practice, no
// source).
func InsulationByCode(code string) (Insulation, bool) {
	code = strings.ToUpper(strings.TrimSpace(code))
	if family, stranding, _ := strings.Cut(code, "-"); strings.HasPrefix(family, "FL") && (stranding == "A" || stranding == "B") {
		code = family
	}
	for i := range insulations { // asked for every wire: no rows are copied
		if insulations[i].Code == code {
			return insulations[i], true
		}
	}
	return Insulation{}, false
}
