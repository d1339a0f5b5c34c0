package tables

import "loomwright/calc/unit"

// metricOD are the largest outside diameters of ISO 6722 cables, mm.
type metricOD struct {
	areaMM2     float64
	thin, thick float64 // 0 is not on record
	thinSeen    bool    // thin seen second-hand, otherwise from memory
}

var metricODs = [...]metricOD{
	{0.13, 1.05, 0, false}, {0.22, 1.20, 0, false}, {0.35, 1.40, 0, false},
	{0.5, 1.70, 2.30, true}, // 1.60 remembered, 1.70 seen
	{0.75, 1.90, 2.50, true}, {1, 2.10, 2.70, true}, {1.25, 2.30, 2.95, false},
	{1.5, 2.40, 3.00, true}, {2, 2.80, 3.30, true}, {2.5, 3.00, 3.60, true},
	{3, 3.40, 4.10, true}, {4, 3.70, 4.40, true}, {5, 4.20, 4.90, false},
	{6, 4.30, 5.00, true}, {8, 5.00, 5.90, false}, {10, 6.00, 6.50, true},
	{12, 6.50, 7.40, false}, {16, 7.20, 8.30, false}, {20, 7.80, 9.10, false},
	{25, 8.70, 10.40, false}, {30, 9.60, 10.90, false}, {35, 10.40, 11.60, false},
	{40, 11.10, 12.40, false}, {50, 12.20, 13.50, false}, {60, 13.30, 14.60, false},
	{70, 14.40, 15.50, false}, {95, 16.70, 18.00, false}, {120, 18.70, 19.70, false},
}

// gaugeOD are nominal outside diameters of American families, mm; 0 is not on record.
type gaugeOD struct {
	gauge              int
	txl, gxl, sxl, gpt float64
}

var gaugeODs = [...]gaugeOD{
	{22, 1.57, 0, 0, 0}, {20, 1.75, 2.4, 2.7, 2.2}, {18, 2.0, 2.6, 2.9, 2.4}, {16, 2.25, 3.0, 3.2, 2.6},
	{14, 2.65, 3.5, 3.8, 3.0}, {12, 3.2, 4.1, 4.4, 3.5}, {10, 3.9, 4.8, 5.2, 4.2}, {8, 0, 5.9, 6.4, 5.4},
}

// OutsideDiameterMM gives the outside diameter in mm of one size of a family:
// the largest allowed for metric thin and thick wall, nominal for the American
// families, whose gauge number may be written as SAE or AWG. It is false where
// nothing is on record.
func OutsideDiameterMM(w Wall, size unit.Size) (float64, Source, bool) {
	if !size.Known() {
		return 0, Source{}, false
	}
	metric := w == ThinWall || w == ThickWall
	if metric != (size.System == unit.Metric) {
		return 0, Source{}, false
	}
	if metric {
		for _, r := range metricODs {
			if r.areaMM2 != size.N {
				continue
			}
			src := Source{Title: "ISO 6722-1", Place: "largest outside diameter, thin wall", FromMemory: !r.thinSeen}
			d := r.thin
			if w == ThickWall {
				src = Source{Title: "ISO 6722-1", Place: "largest outside diameter, thick wall", FromMemory: true}
				d = r.thick
			}
			return d, src, d > 0
		}
		return 0, Source{}, false
	}
	for _, r := range gaugeODs {
		if float64(r.gauge) != size.N {
			continue
		}
		src := Source{Title: "SAE J1128", Place: "nominal outside diameter", FromMemory: true}
		var d float64
		switch w {
		case TXLWall:
			d = r.txl
		case GXLWall:
			d = r.gxl
			src = Source{Title: "cable maker's data sheet", Place: "medium wall, nominal outside diameter"}
		case SXLWall:
			d = r.sxl
		case GPTWall:
			d = r.gpt
		}
		return d, src, d > 0
	}
	return 0, Source{}, false
}
