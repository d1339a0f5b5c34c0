package tables

import "loomwright/calc/unit"

// AmpacityRow is the current of one conductor size in each column.
type AmpacityRow struct {
	Size unit.Size
	// AreaMM2 is the metal the row was published for; it orders the rows.
	AreaMM2 float64
	Amps    [7]float64
}

// AmpacityTable is a published rating list with its conditions.
type AmpacityTable struct {
	Table[AmpacityRow]
	AmbientC float64 // the air temperature the amps hold for
	// Bundled is the number of loaded conductors the amps already allow for;
	// 1 is a single cable.
	Bundled int
	// AltitudeM is the altitude up to which the amps hold, m.
	AltitudeM float64
	columns   []float64
	engine    []float64
}

// Columns is the number of insulation temperatures.
func (t AmpacityTable) Columns() int { return len(t.columns) }

// ColumnC is the conductor temperature of column i in degC, rising with i.
func (t AmpacityTable) ColumnC(i int) float64 { return t.columns[i] }

// EngineFactor is the published factor of column i for 50 degC ambient; false
// if the source gives none.
func (t AmpacityTable) EngineFactor(i int) (float64, bool) {
	if i < 0 || i >= len(t.engine) {
		return 0, false
	}
	return t.engine[i], true
}

func awgRow(gauge int, amps ...float64) AmpacityRow {
	s := unit.GaugeAWG(gauge)
	area, _ := s.AreaMM2()
	return ampacityRow(s, area, amps)
}

func mm2Row(area float64, amps ...float64) AmpacityRow {
	return ampacityRow(unit.MM2(area), area, amps)
}

func ampacityRow(s unit.Size, area float64, amps []float64) AmpacityRow {
	r := AmpacityRow{Size: s, AreaMM2: area}
	copy(r.Amps[:], amps)
	return r
}

var cfr183 = [...]AmpacityRow{
	awgRow(18, 10, 10, 15, 20, 20, 25, 25),
	awgRow(16, 15, 15, 20, 25, 25, 30, 35),
	awgRow(14, 20, 20, 25, 30, 35, 40, 45),
	awgRow(12, 25, 25, 35, 40, 45, 50, 55),
	awgRow(10, 40, 40, 50, 55, 60, 70, 70),
	awgRow(8, 55, 65, 70, 70, 80, 90, 100),
	awgRow(6, 80, 95, 100, 100, 120, 125, 135),
	awgRow(4, 105, 125, 130, 135, 160, 170, 180),
	awgRow(3, 120, 145, 150, 155, 180, 195, 210),
	awgRow(2, 140, 170, 175, 180, 210, 225, 240),
	awgRow(1, 165, 195, 210, 210, 245, 265, 280),
	awgRow(0, 195, 230, 245, 245, 285, 305, 325),
	awgRow(-1, 225, 265, 285, 285, 330, 355, 370),
	awgRow(-2, 260, 310, 330, 330, 385, 410, 430),
	awgRow(-3, 300, 360, 385, 385, 445, 475, 510),
}

// CFR183 is 33 CFR 183.425 Table 5 with the engine-space factors of its note 1
// (0.85 at 105 degC seen, the others from memory).
func CFR183() AmpacityTable {
	return AmpacityTable{
		Table:    Table[AmpacityRow]{Source{Title: "33 CFR 183.425", Place: "Table 5"}, cfr183[:]},
		AmbientC: 30, Bundled: 1,
		columns: []float64{60, 75, 80, 90, 105, 125, 200},
		engine:  []float64{0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1.00},
	}
}

var iso10133 = [...]AmpacityRow{
	mm2Row(0.75, 6, 10, 12, 16, 20, 25),
	mm2Row(1, 8, 14, 18, 20, 25, 35),
	mm2Row(1.5, 12, 18, 21, 25, 30, 40),
	mm2Row(2.5, 17, 25, 30, 35, 40, 45),
	mm2Row(4, 22, 35, 40, 45, 50, 55),
	mm2Row(6, 29, 45, 50, 60, 70, 75),
	mm2Row(10, 40, 65, 70, 90, 100, 120),
	mm2Row(16, 54, 90, 100, 130, 150, 170),
	mm2Row(25, 71, 120, 140, 170, 185, 200),
	mm2Row(35, 87, 160, 185, 210, 225, 240),
	mm2Row(50, 105, 210, 230, 270, 300, 325),
	mm2Row(70, 135, 265, 285, 330, 360, 375),
	mm2Row(95, 165, 310, 330, 390, 410, 430),
	mm2Row(120, 190, 360, 400, 450, 480, 520),
}

// ISO10133 is the small-craft direct-current list in metric sizes. Its third
// column is printed for 85 to 90 degC.
func ISO10133() AmpacityTable {
	return AmpacityTable{
		Table:    Table[AmpacityRow]{Source{Title: "ISO 10133", Place: "single conductors", FromMemory: true}, iso10133[:]},
		AmbientC: 30, Bundled: 1,
		columns: []float64{60, 70, 85, 105, 125, 200},
	}
}

var thinPVC = [...]AmpacityRow{
	mm2Row(0.5, 11), mm2Row(0.75, 14), mm2Row(1, 16.5), mm2Row(1.5, 21), mm2Row(2, 25), mm2Row(2.5, 29),
	mm2Row(3, 33), mm2Row(4, 39), mm2Row(4.5, 42), mm2Row(6, 50), mm2Row(8.5, 63), mm2Row(10, 70),
}

// ThinPVC is a cable maker's list for thin-wall 105 degC PVC, a single cable
// in air.
func ThinPVC() AmpacityTable {
	return AmpacityTable{
		Table:    Table[AmpacityRow]{Source{Title: "cable maker's list", Place: "thin-wall PVC, single cable at 30 °C"}, thinPVC[:]},
		AmbientC: 30, Bundled: 1,
		columns: []float64{105},
	}
}

// AircraftAmpacity is AC 43.13-1B Table 11-9 in ascending size. A bundle of 33
// wires at a fifth of its load is taken as 7 loaded conductors.
func AircraftAmpacity() AmpacityTable {
	rows := make([]AmpacityRow, len(aircraft))
	for i, r := range aircraft {
		rows[i] = ampacityRow(unit.GaugeAWG(r.Gauge), r.CircMils*unit.MM2PerCmil, r.Amps[:])
	}
	return AmpacityTable{
		Table:    Table[AmpacityRow]{AircraftWire().Source, rows},
		AmbientC: 70, Bundled: 7, AltitudeM: 18288, // 60 000 ft
		columns: []float64{105, 150, 200},
	}
}
