package calc

import (
	"loomwright/calc/tables"
	"loomwright/calc/unit"
)

// StandardSizes lists the sizes of a system that are sold as vehicle wire,
// thinnest first: those of ISO 6722-1, those of SAE J1128 and J1127, and the
// same gauge numbers and AWG 24 for AWG (common practice, no source).
func StandardSizes(sys unit.SizeSystem) []unit.Size {
	var out []unit.Size
	switch sys {
	case unit.Metric:
		for _, row := range tables.ISO6722().All() {
			out = append(out, unit.MM2(row.AreaMM2))
		}
	case unit.AWG:
		out = append(out, unit.GaugeAWG(24))
		for _, row := range tables.SAEConductors().All() {
			out = append(out, unit.GaugeAWG(row.Gauge))
		}
	case unit.SAE:
		for _, row := range tables.SAEConductors().All() {
			out = append(out, unit.GaugeSAE(row.Gauge))
		}
	}
	return out
}
