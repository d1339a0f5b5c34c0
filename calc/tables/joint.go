package tables

// JointKind is a place where metal meets metal.
type JointKind uint8

// Kinds of joint.
const (
	BondToStructure JointKind = iota + 1
	BondingJumper
	ShockBond
	GroundStud
	PaintedGroundStud
	RingOnStud
	Splice
	SpliceDesign
)

// JointRow is a joint's resistance in ohm.
type JointRow struct {
	Kind     JointKind
	Name     string
	Min, Max float64 // typical range; Min 0 where only a limit is given
	Limit    bool    // Max is an acceptance limit, not a typical value
	Source   Source
}

var joints = [...]JointRow{
	{BondToStructure, "bond from equipment to structure", 0, 2.5e-3, true, Source{Title: ac43, Place: "page 11-74, also MIL-B-5087 class R"}},
	{BondingJumper, "bonding-jumper connection", 0, 3e-3, true, Source{Title: ac43, Place: "paragraph 11-189"}},
	{ShockBond, "bond against shock", 0, 0.1, true, Source{Title: "MIL-B-5087", Place: "class H", FromMemory: true}},
	{GroundStud, "clean M6 or M8 body stud with ring", 0.1e-3, 0.5e-3, false, practiceM("body stud ring joint")},
	{PaintedGroundStud, "painted or corroded body stud", 5e-3, 0, false, practiceM("more than 5 mΩ")},
	{RingOnStud, "ring terminal on stud", 0.1e-3, 0.1e-3, false, practiceM("low confidence")},
	{Splice, "splice, welded or crimped", 0.1e-3, 0.3e-3, false, practiceM("low confidence")},
	{SpliceDesign, "splice, value to design with", 0, 1e-3, true, practiceM("low confidence")},
}

// Joints lists ground and splice resistances. A Max of 0 has no upper end.
func Joints() Table[JointRow] {
	return Table[JointRow]{Source{Title: "joint resistances", Place: "see each row"}, joints[:]}
}

// Joint finds a kind of joint.
func Joint(k JointKind) (JointRow, bool) {
	return Joints().Find(func(r JointRow) bool { return r.Kind == k })
}

// ContactRow is a plug contact by tab width.
type ContactRow struct {
	TabMM float64
	MaxA  float64 // current as commonly used
}

var contacts = [...]ContactRow{
	{0.64, 5}, {1.5, 14}, {2.8, 10}, {4.8, 16}, {6.3, 25}, {9.5, 60},
}

// Contacts lists plug contacts. The 2.8 mm blade is rated for its open form,
// so it carries less than the 1.5 mm sealed contact.
func Contacts() Table[ContactRow] {
	return Table[ContactRow]{practiceM("plug contacts by tab width"), contacts[:]}
}

// ContactWireRow is the range of conductor areas that contacts of one width
// are sold for.
type ContactWireRow struct {
	TabMM          float64
	MinMM2, MaxMM2 float64
}

var contactWires = [...]ContactWireRow{{0.64, 0.13, 0.75}, {1.5, 0.35, 2.5}, {2.8, 0.35, 4}, {4.8, 0.5, 6}, {6.3, 0.5, 6}, {9.5, 2.5, 16}}

// ContactWires lists the wire sizes plug contacts take, over all makes: the one
// bought takes less.
func ContactWires() Table[ContactWireRow] {
	return Table[ContactWireRow]{practiceM("wire sizes of plug contacts by tab width, low confidence"), contactWires[:]}
}

// CrimpRow is the resistance of a new crimp.
type CrimpRow struct {
	AreaMM2 float64
	MaxOhm  float64
}

var crimps = [...]CrimpRow{{0.5, 0.5e-3}, {1, 0.3e-3}, {2.5, 0.15e-3}, {6, 0.08e-3}}

// Crimps lists crimp resistances by conductor area.
func Crimps() Table[CrimpRow] {
	return Table[CrimpRow]{practiceM("new crimp, typical, low confidence"), crimps[:]}
}
