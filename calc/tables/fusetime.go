package tables

import "math"

// FusePoint bounds the opening time at one multiple of the rating.
type FusePoint struct {
	Multiple float64 // current over rating
	MinS     float64 // never opens sooner, s
	MaxS     float64 // opens by then, s; +Inf where it need not open
}

var inf = math.Inf(1)

// Copies of the limits differ. At 1.35 some give 1800 s for blades instead of
// 600; for the bolted SF30 at 2.00, remembered least, the wider band is kept.
var (
	miniTimes  = [...]FusePoint{{1.10, 360000, inf}, {1.35, 0.75, 600}, {1.60, 0.25, 50}, {2.00, 0.15, 5}, {3.50, 0.04, 0.25}, {6.00, 0.02, 0.1}}
	bladeTimes = [...]FusePoint{{1.10, 360000, inf}, {1.35, 0.75, 600}, {1.60, 0.25, 50}, {2.00, 0.15, 5}, {3.50, 0.04, 0.5}, {6.00, 0.02, 0.1}}
	// Blades of 2 A and less open sooner at 1.35.
	miniSmall  = [...]FusePoint{{1.10, 360000, inf}, {1.35, 0.35, 120}, {1.60, 0.25, 50}, {2.00, 0.15, 5}, {3.50, 0.04, 0.25}, {6.00, 0.02, 0.1}}
	bladeSmall = [...]FusePoint{{1.10, 360000, inf}, {1.35, 0.35, 120}, {1.60, 0.25, 50}, {2.00, 0.15, 5}, {3.50, 0.04, 0.5}, {6.00, 0.02, 0.1}}
	maxiTimes  = [...]FusePoint{{1.10, 360000, inf}, {1.35, 60, 1800}, {2.00, 2, 60}, {3.50, 0.2, 7}, {6.00, 0.04, 1}}
	sf30Times  = [...]FusePoint{{1.10, 14400, inf}, {1.35, 60, 1800}, {2.00, 1, 100}, {3.50, 0.3, 5}, {6.00, 0.1, 1}}
	sf51Times  = [...]FusePoint{{1.00, 14400, inf}, {1.35, 120, 1800}, {2.00, 1, 15}, {3.50, 0.3, 5}, {6.00, 0.1, 1}}
)

// FuseTimes gives the operating-time limits of a family, rising in current;
// empty for a family whose limits are not on record. All are from memory: use
// them as a default band, not as a promise.
func FuseTimes(f FuseFamily, ratingA float64) Table[FusePoint] {
	src := Source{Title: "ISO 8820-3, SAE J1284 and J1888", Place: "operating-time limits", FromMemory: true}
	switch f {
	case MiniBlade:
		if ratingA <= 2 {
			return Table[FusePoint]{src, miniSmall[:]}
		}
		return Table[FusePoint]{src, miniTimes[:]}
	case Blade:
		if ratingA <= 2 {
			return Table[FusePoint]{src, bladeSmall[:]}
		}
		return Table[FusePoint]{src, bladeTimes[:]}
	case MaxiBlade:
		return Table[FusePoint]{src, maxiTimes[:]}
	case BoltSF30:
		return Table[FusePoint]{Source{Title: "ISO 8820-5", Place: "operating-time limits, SF30", FromMemory: true}, sf30Times[:]}
	case BoltSF51:
		return Table[FusePoint]{Source{Title: "ISO 8820-5", Place: "operating-time limits, SF51", FromMemory: true}, sf51Times[:]}
	}
	return Table[FusePoint]{}
}

// ElementRow is the electrical data of a type C blade fuse at 25 degC.
type ElementRow struct {
	RatingA float64
	ColdOhm float64
	DropV   float64 // at the rating, warm
	MeltI2t float64 // typical melting value, A²s
	// ValueMemory and MeltMemory mark what was not seen.
	ValueMemory, MeltMemory bool
}

var elements = [...]ElementRow{
	{1, 0.12300, 0.176, 0.4, false, true}, {2, 0.05350, 0.141, 1.4, false, true}, {3, 0.03110, 0.137, 9, true, true},
	{4, 0.02280, 0.136, 14, false, true}, {5, 0.01785, 0.128, 26, true, false}, {7.5, 0.01091, 0.116, 60, true, true},
	{10, 0.00770, 0.109, 115, false, true}, {15, 0.00480, 0.102, 340, true, true}, {20, 0.00338, 0.098, 520, true, true},
	{25, 0.00252, 0.092, 1080, true, true}, {30, 0.00197, 0.084, 1510, true, true}, {35, 0.00161, 0.087, 2120, true, true},
	{40, 0.00144, 0.096, 2310, true, true},
}

// FuseElements lists resistance, drop and melting I²t of type C blade fuses.
func FuseElements() Table[ElementRow] {
	return Table[ElementRow]{Source{Title: "a fuse maker's data sheet, type C 32 V, 2025", Place: "seen second-hand; see the marks of each row"}, elements[:]}
}

// FuseElement finds the row of a rating. The source says whether resistance
// and drop were seen.
func FuseElement(ratingA float64) (ElementRow, Source, bool) {
	t := FuseElements()
	r, ok := t.Find(func(r ElementRow) bool { return r.RatingA == ratingA })
	src := Source{Title: "a fuse maker's data sheet, type C 32 V, 2025", Place: "cold resistance and drop", FromMemory: r.ValueMemory}
	return r, src, ok
}
