package tables

// FuseFamily is a shape of fuse with its own operating times.
type FuseFamily uint8

// The families, by the type letters of ISO 8820. The zero value is unknown.
const (
	NoFuseFamily FuseFamily = iota
	MiniBlade               // ISO 8820-3 type F
	Blade                   // ISO 8820-3 type C
	MaxiBlade               // ISO 8820-3 type E
	BoltSF30                // ISO 8820-5 type SF30, M5
	BoltSF51                // ISO 8820-5 type SF51, M8
	Torpedo                 // DIN 72581-1, 6 × 25
)

// FuseRow describes a family.
type FuseRow struct {
	Family  FuseFamily
	Name    string
	RatedV  float64 // the lower of the ratings sold; 0 is not on record
	BreakA  float64 // breaking capacity, A; 0 is not on record
	Source  Source
	ratings []float64
}

// Ratings is the number of standard ratings.
func (r FuseRow) Ratings() int { return len(r.ratings) }

// RatingA is standard rating i in A, rising with i.
func (r FuseRow) RatingA(i int) float64 { return r.ratings[i] }

var fuses = [...]FuseRow{
	{MiniBlade, "mini blade fuse (type F)", 32, 1000,
		Source{Title: "ISO 8820-3", Place: "type F, seen second-hand"}, []float64{2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30}},
	{Blade, "blade fuse (type C)", 32, 1000,
		Source{Title: "ISO 8820-3", Place: "type C, seen second-hand"}, []float64{1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 40}},
	{MaxiBlade, "maxi blade fuse (type E)", 32, 1000,
		Source{Title: "ISO 8820-3", Place: "type E, seen second-hand"}, []float64{20, 30, 40, 50, 60, 70, 80}},
	{BoltSF30, "bolted fuse SF30", 32, 2000,
		Source{Title: "ISO 8820-5", Place: "type SF30", FromMemory: true}, []float64{30, 40, 50, 60, 70, 80, 100, 125, 150, 200}},
	{BoltSF51, "bolted fuse SF51", 32, 2000,
		Source{Title: "ISO 8820-5", Place: "type SF51", FromMemory: true}, []float64{60, 80, 100, 125, 150, 175, 200, 225, 250, 300}},
	{Torpedo, "torpedo fuse 6 × 25", 0, 0,
		Source{Title: "DIN 72581-1", Place: "seen second-hand"}, []float64{5, 8, 16, 25}},
}

// Fuses lists the families.
func Fuses() Table[FuseRow] {
	return Table[FuseRow]{Source{Title: "ISO 8820 and DIN 72581-1", Place: "see each row"}, fuses[:]}
}

// FuseData gives the row of a family; false if it is unknown.
func FuseData(f FuseFamily) (FuseRow, bool) {
	return Fuses().Find(func(r FuseRow) bool { return r.Family == f })
}

// String is the family's name.
func (f FuseFamily) String() string {
	if r, ok := FuseData(f); ok {
		return r.Name
	}
	return "unknown fuse family"
}
