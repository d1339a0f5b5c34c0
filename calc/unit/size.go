package unit

import (
	"fmt"
	"math"
	"strconv"
)

// SizeSystem says in which system a conductor size is named.
type SizeSystem uint8

// The systems. SAE gauges are 4 to 12 % smaller in area than the AWG of the
// same number, so the two are never exchanged.
const (
	NoSize SizeSystem = iota // the size is not known
	Metric                   // nominal cross-section in mm2 (ISO 6722, IEC 60228)
	AWG                      // American wire gauge (ASTM B258)
	SAE                      // vehicle cable gauge (SAE J1128, J1127)
)

// Size is a conductor size as it is ordered. The zero value is an unknown
// size. Sizes compare with == and may be map keys.
type Size struct {
	System SizeSystem
	// N is mm2 for Metric. For AWG and SAE it is the gauge number, with
	// 0 for 1/0, -1 for 2/0, -2 for 3/0 and -3 for 4/0.
	N float64
}

// Limits of what is taken for a conductor size.
const (
	minMM2, maxMM2     = 0.01, 1000
	minGauge, maxGauge = -3, 40
)

// MM2 is the metric size of that nominal cross-section in mm2.
func MM2(area float64) Size { return Size{Metric, area} }

// GaugeAWG is the AWG size with number n: 18, or 0, -1, -2, -3 for 1/0 to 4/0.
func GaugeAWG(n int) Size { return Size{AWG, float64(n)} }

// GaugeSAE is the SAE size with number n, counted as in [GaugeAWG].
func GaugeSAE(n int) Size { return Size{SAE, float64(n)} }

// Known reports whether s names a size that exists: a metric area within
// limits, an AWG number from 4/0 to 40, or a number of the SAE list.
func (s Size) Known() bool {
	switch s.System {
	case Metric:
		return s.N >= minMM2 && s.N <= maxMM2
	case AWG:
		return s.N >= minGauge && s.N <= maxGauge && s.N == math.Trunc(s.N)
	case SAE:
		_, ok := saeRow(s.N)
		return ok
	}
	return false
}

// String gives the size as printed on drawings: "0.75 mm²", "AWG 18",
// "AWG 2/0", "SAE 14"; [Unknown] if it is not a size.
func (s Size) String() string { return s.text(" mm²", Unknown) }

// Key gives the canonical ASCII form for files and sorting keys: "0.75 mm2",
// "AWG 2/0"; empty if it is not a size.
func (s Size) Key() string { return s.text(" mm2", "") }

func (s Size) text(mm2, unknown string) string {
	if !s.Known() {
		return unknown
	}
	switch s.System {
	case Metric:
		return strconv.FormatFloat(s.N, 'f', -1, 64) + mm2
	case AWG:
		return "AWG " + gaugeText(int(s.N))
	default:
		return "SAE " + gaugeText(int(s.N))
	}
}

func gaugeText(n int) string {
	if n <= 0 {
		return strconv.Itoa(1-n) + "/0"
	}
	return strconv.Itoa(n)
}

// MarshalText writes [Size.Key]. The unknown zero value writes nothing; a
// value that is neither unknown nor a size is an error.
func (s Size) MarshalText() ([]byte, error) {
	if s != (Size{}) && !s.Known() {
		return nil, fmt.Errorf("conductor size (system %d, number %v) does not exist", s.System, s.N)
	}
	return []byte(s.Key()), nil
}

// UnmarshalText reads what [ParseSize] reads; empty text is the unknown size.
func (s *Size) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*s = Size{}
		return nil
	}
	v, err := ParseSize(string(text))
	if err != nil {
		return err
	}
	*s = v
	return nil
}

// AreaMM2 gives the cross-section of metal in mm2: nominal for metric sizes,
// the solid wire of ASTM B258 for AWG, the minimum area for SAE. It is false
// for an unknown size and for SAE 22, whose minimum is not on record.
func (s Size) AreaMM2() (float64, bool) {
	if !s.Known() {
		return 0, false
	}
	switch s.System {
	case Metric:
		return s.N, true
	case AWG:
		d := AWGDiameterMM(int(s.N))
		return math.Pi / 4 * d * d, true
	default:
		row, _ := saeRow(s.N)
		return row.minCmil * MM2PerCmil, row.minCmil > 0
	}
}

// AWGDiameterMM is the diameter in mm of solid wire of gauge n (0 for 1/0, -3
// for 4/0): 0.127 mm · 92^((36-n)/39), ASTM B258.
func AWGDiameterMM(n int) float64 {
	return 0.127 * math.Pow(92, float64(36-n)/39)
}

// saeSize is the smallest conductor an SAE gauge may have.
type saeSize struct {
	gauge   float64
	minCmil float64 // circular mils; 0 is not on record
}

// saeSizes are the gauges of SAE J1128 and J1127. Minimum areas: 10, 8, 6, 4,
// 2, 1/0, 2/0 and 4/0 seen second-hand, the others from memory.
var saeSizes = [...]saeSize{
	{22, 0}, {20, 1072}, {18, 1537}, {16, 2336}, {14, 3702}, {12, 5833}, {10, 9343}, {8, 14810},
	{6, 24538}, {4, 37360}, {2, 62450}, {1, 77790}, {0, 98980}, {-1, 125100}, {-2, 158600}, {-3, 205500},
}

func saeRow(n float64) (saeSize, bool) {
	for _, r := range saeSizes {
		if r.gauge == n {
			return r, true
		}
	}
	return saeSize{}, false
}
