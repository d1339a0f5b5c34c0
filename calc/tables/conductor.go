package tables

// ConductorRow is the largest allowed resistance of one metric size at 20 degC.
type ConductorRow struct {
	AreaMM2 float64
	Plain   float64 // ohm/km, plain copper; 0 is not published
	Tinned  float64 // ohm/km, tinned copper; 0 is not published
}

var iso6722 = [...]ConductorRow{
	{0.13, 136, 140}, {0.22, 84.8, 86.5},
	{0.35, 54.4, 55.5}, // 52.0 in several makers' lists; the larger is kept
	{0.5, 37.1, 38.2}, {0.75, 24.7, 25.4}, {1, 18.5, 19.1}, {1.25, 14.9, 15.9},
	{1.5, 12.7, 13.0}, {2, 9.42, 9.69}, {2.5, 7.60, 7.82}, {3, 6.15, 6.36},
	{4, 4.71, 4.85}, {5, 3.94, 4.02}, {6, 3.14, 3.23}, {8, 2.38, 2.52},
	{10, 1.82, 1.85}, {12, 1.52, 1.60}, {16, 1.16, 1.18}, {20, 0.955, 0.999},
	{25, 0.743, 0.757}, {30, 0.647, 0.684}, {35, 0.527, 0.538}, {40, 0.473, 0.500},
	{50, 0.368, 0.375}, {60, 0.315, 0.333}, {70, 0.259, 0.264}, {95, 0.196, 0.200},
	{120, 0.153, 0.156},
}

// ISO6722 is the road-vehicle cable list, the default for metric sizes.
func ISO6722() Table[ConductorRow] {
	return Table[ConductorRow]{Source{Title: "ISO 6722-1", Place: "maximum conductor resistance at 20 °C", FromMemory: true}, iso6722[:]}
}

var iec60228 = [...]ConductorRow{
	{0.05, 380, 0}, {0.08, 237, 0}, {0.11, 170, 0}, {0.12, 150, 0}, {0.14, 134, 138},
	{0.22, 96, 99}, {0.25, 76, 0}, {0.34, 53, 56}, // up to here VDE 0295 sizes
	{0.5, 39.0, 40.1}, {0.75, 26.0, 26.7}, {1, 19.5, 20.0}, {1.5, 13.3, 13.7},
	{2.5, 7.98, 8.21}, {4, 4.95, 5.09}, {6, 3.30, 3.39}, {10, 1.91, 1.95},
	{16, 1.21, 1.24}, {25, 0.780, 0.795}, {35, 0.554, 0.565}, {50, 0.386, 0.393},
	{70, 0.272, 0.277}, {95, 0.206, 0.210}, {120, 0.161, 0.164}, {150, 0.129, 0.132},
}

// IEC60228Class5 is the fine-stranded class of general cables, with the small
// sizes of VDE 0295.
func IEC60228Class5() Table[ConductorRow] {
	return Table[ConductorRow]{Source{Title: "IEC 60228 class 5 and VDE 0295", Place: "maximum conductor resistance at 20 °C"}, iec60228[:]}
}

// SAERow is the usual make-up of one SAE gauge. Minimum areas are in
// [loomwright/calc/unit.Size.AreaMM2].
type SAERow struct {
	Gauge     int // 0 for 1/0, -3 for 4/0
	Strands   int // usual stranding; 0 is not on record
	StrandAWG int
	OhmPerKM  float64 // of that stranding at 20 degC, 100 % IACS; 0 is not on record
}

var saeRows = [...]SAERow{
	{22, 7, 30, 48.365}, {20, 7, 28, 30.417}, {18, 16, 30, 21.160}, {16, 19, 29, 14.131},
	{14, 19, 27, 8.887}, {12, 19, 25, 5.589}, {10, 19, 23, 3.515}, {8, 19, 21, 2.211},
	{6, 37, 21, 1.135}, {4, 0, 0, 0}, {2, 0, 0, 0}, {1, 0, 0, 0},
	{0, 0, 0, 0}, {-1, 0, 0, 0}, {-2, 0, 0, 0}, {-3, 0, 0, 0},
}

// SAEConductors lists the gauges of SAE J1128 and J1127.
func SAEConductors() Table[SAERow] {
	return Table[SAERow]{Source{Title: "SAE J1128 gauges", Place: "usual strandings (seen second-hand), resistance computed from them"}, saeRows[:]}
}

// SAEMinimumArea is the source of the smallest areas of the SAE gauges.
func SAEMinimumArea() Source {
	return Source{Title: "SAE J1128 and J1127", Place: "minimum conductor area", FromMemory: true}
}

// ASTMB258 is the source of everything computed from an AWG number.
func ASTMB258() Source {
	return Source{Title: "ASTM B258", Place: "solid wire at 100 % IACS, computed from the gauge formula"}
}

// Stranding is how much longer the strands are than the wire: the upper end of
// 1.02 to 1.04 for stranded conductors.
func Stranding() Rule {
	return Rule{1.04, Source{Title: "lay factor guide", Place: "1.02 to 1.04 for stranded conductors, seen second-hand"}}
}
