package calc

import (
	"fmt"

	"loomwright/calc/tables"
	"loomwright/calc/unit"
)

// Conductor is the stranded metal of one wire.
type Conductor struct {
	Metal  tables.Metal // Copper or Aluminium
	Size   unit.Size
	Tinned bool
}

// tempFactor is R(T)/R20 and its text for a formula, empty at 20 degC.
func tempFactor(d tables.MetalRow, tempC float64) (float64, string, error) {
	if err := celsius(quantity{"the conductor temperature", tempC}); err != nil {
		return 0, "", err
	}
	if tempC == 20 {
		return 1, "", nil
	}
	f := (d.Beta + tempC) / (d.Beta + 20)
	return f, fmt.Sprintf(" · (%g + %s)/%g", d.Beta, degC(tempC), d.Beta+20), nil
}

// PerMetre gives the resistance of c in ohm per metre at 20 degC: by ISO 6722
// for metric sizes (IEC 60228 where it has no row), ASTM B258 for AWG and the
// minimum area for SAE.
func PerMetre(c Conductor) (Result, error) {
	if _, ok := tables.MetalData(c.Metal); !ok {
		return Result{}, missing("the conductor metal")
	}
	if !c.Size.Known() {
		return Result{}, missing("the conductor size")
	}
	r, err := copperPerMetre(c)
	if err != nil || c.Metal == tables.Copper {
		return r, err
	}
	// Lists for aluminium vehicle wire were not found: the copper value of the
	// same construction, in the ratio of the resistivities.
	cu, _ := tables.MetalData(tables.Copper)
	al, _ := tables.MetalData(tables.Aluminium)
	v := r.Value * al.Rho20 / cu.Rho20
	return Result{v, fmt.Sprintf("%s; aluminium · %s / %s = %s/m", r.Formula, num(al.Rho20), num(cu.Rho20), ohms(v)), r.Source.And(al.Source)}, nil
}

func copperPerMetre(c Conductor) (Result, error) {
	switch c.Size.System {
	case unit.Metric:
		return metricPerMetre(c)
	case unit.AWG:
		area, _ := c.Size.AreaMM2()
		cu, _ := tables.MetalData(tables.Copper)
		lay := tables.Stranding()
		v := cu.Rho20 / area * lay.Value
		return Result{v, fmt.Sprintf("%s: 1/58 / %s · %s for the lay of strands = %s/m", c.Size, mm2(area), num(lay.Value), ohms(v)),
			tables.ASTMB258().And(lay.Source)}, nil
	default:
		return saePerMetre(c.Size)
	}
}

// saePerMetre takes the smallest area the gauge allows, and the usual
// stranding where that is not on record.
func saePerMetre(s unit.Size) (Result, error) {
	if area, ok := s.AreaMM2(); ok {
		cu, _ := tables.MetalData(tables.Copper)
		v := cu.Rho20 / area
		return Result{v, fmt.Sprintf("%s: 1/58 / %s = %s/m", s, mm2(area), ohms(v)), tables.SAEMinimumArea()}, nil
	}
	list := tables.SAEConductors()
	r, ok := list.Find(func(r tables.SAERow) bool { return float64(r.Gauge) == s.N })
	if !ok || r.OhmPerKM == 0 {
		return Result{}, missing("the resistance of " + s.String())
	}
	return listed(s, r.OhmPerKM/1000, list.Source), nil
}

func metricPerMetre(c Conductor) (Result, error) {
	lists := []tables.Table[tables.ConductorRow]{tables.ISO6722(), tables.IEC60228Class5()}
	column := func(r tables.ConductorRow) float64 {
		if c.Tinned {
			return r.Tinned
		}
		return r.Plain
	}
	for _, l := range lists {
		r, ok := l.Find(func(r tables.ConductorRow) bool { return r.AreaMM2 == c.Size.N && column(r) > 0 })
		if ok {
			return listed(c.Size, column(r)/1000, l.Source), nil
		}
	}
	for _, l := range lists {
		var below tables.ConductorRow
		for _, r := range l.All() {
			if column(r) == 0 {
				continue
			}
			if r.AreaMM2 > c.Size.N && below.AreaMM2 > 0 {
				v := logLog(c.Size.N, below.AreaMM2, column(below), r.AreaMM2, column(r)) / 1000
				return Result{v, fmt.Sprintf("%s: between %s (%s/m) and %s (%s/m), %s/m", c.Size, mm2(below.AreaMM2),
					ohms(column(below)/1000), mm2(r.AreaMM2), ohms(column(r)/1000), ohms(v)), l.Source}, nil
			}
			if r.AreaMM2 < c.Size.N {
				below = r
			}
		}
	}
	return Result{}, outside("%s is outside the conductor lists", c.Size)
}

func listed(s unit.Size, ohmPerM float64, src tables.Source) Result {
	return Result{ohmPerM, fmt.Sprintf("%s: %s/m", s, ohms(ohmPerM)), src}
}

// WireResistance gives the resistance in ohm of lengthMM of wire whose
// conductor is at tempC.
func WireResistance(c Conductor, lengthMM, tempC float64) (Result, error) {
	per, err := PerMetre(c)
	if err != nil {
		return Result{}, err
	}
	if err := positive(quantity{"the wire length", lengthMM}); err != nil {
		return Result{}, err
	}
	return perMetreAt(per, c.Metal, lengthMM, tempC)
}

func perMetreAt(per Result, m tables.Metal, lengthMM, tempC float64) (Result, error) {
	d, ok := tables.MetalData(m)
	if !ok {
		return Result{}, missing("the conductor metal")
	}
	f, factor, err := tempFactor(d, tempC)
	if err != nil {
		return Result{}, err
	}
	src := per.Source
	if f != 1 {
		src = src.And(d.Source)
	}
	v := per.Value * lengthMM / 1000 * f
	return Result{v, fmt.Sprintf("R = %s/m · %s%s = %s", ohms(per.Value), mm(lengthMM), factor, ohms(v)), src}, nil
}
