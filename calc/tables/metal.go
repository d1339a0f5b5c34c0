package tables

// Metal is what a conductor is made of.
type Metal uint8

// The metals. The zero value is unknown.
const (
	NoMetal Metal = iota
	Copper
	Aluminium
)

// MetalRow is the direct-current data of one metal.
type MetalRow struct {
	Metal  Metal
	Name   string
	Rho20  float64 // resistivity at 20 degC, ohm·mm2/m
	Beta   float64 // K: R(T) = R20·(Beta+T)/(Beta+20)
	Source Source
}

var iec60028 = Source{Title: "IEC 60028", Place: "annealed copper, 100 % IACS; β 234.5 as in IEC 60949"}

var metals = [...]MetalRow{
	{Copper, "copper", 1. / 58, 234.5, iec60028},
	{Aluminium, "aluminium", 0.028264, 228, Source{Title: "IEC 60889", Place: "hard-drawn; β 228 as in IEC 60949"}},
}

// MetalData gives the data of m; false if m is unknown.
func MetalData(m Metal) (MetalRow, bool) {
	return Table[MetalRow]{rows: metals[:]}.Find(func(r MetalRow) bool { return r.Metal == m })
}

// String is the metal's name.
func (m Metal) String() string {
	if r, ok := MetalData(m); ok {
		return r.Name
	}
	return "unknown metal"
}

// AdiabaticRow is the data of the adiabatic equation for short circuits.
type AdiabaticRow struct {
	Metal Metal
	K     float64 // A·s^½/mm2
	Beta  float64 // K
	Qc    float64 // volumetric heat capacity at 20 degC, J/(K·mm3)
	Rho20 float64 // ohm·mm
}

var adiabatic = [...]AdiabaticRow{
	{Copper, 226, 234.5, 3.45e-3, 17.241e-6},
	{Aluminium, 148, 228, 2.5e-3, 28.264e-6},
}

// Adiabatic gives the constants of I²t = K²·S²·ln((θf+β)/(θi+β)).
func Adiabatic(m Metal) (AdiabaticRow, Source, bool) {
	src := Source{Title: "IEC 60949 and IEC 60364-5-54", Place: "adiabatic constants"}
	r, ok := Table[AdiabaticRow]{rows: adiabatic[:]}.Find(func(r AdiabaticRow) bool { return r.Metal == m })
	return r, src, ok
}

// CopperMeltsC is the melting point of copper in degC, as used by published
// fusing formulas.
const CopperMeltsC = 1083
