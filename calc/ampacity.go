package calc

import (
	"fmt"
	"math"

	"loomwright/calc/tables"
	"loomwright/calc/unit"
)

// AmpacityInput is what a wire's continuous current depends on.
type AmpacityInput struct {
	Metal       tables.Metal // the lists are for copper
	Size        unit.Size
	InsulationC float64 // long-term conductor temperature of the insulation, degC; 0 or NaN is unknown
	AmbientC    float64 // air round the wire, degC; NaN is unknown
	// Bundled counts the loaded conductors lying together, this one included;
	// 1 is alone in air, 0 is unknown.
	Bundled int
	Set     tables.BundleSet // needed when Bundled > 1
	// AltitudeM is the height above sea level in m; 0 leaves thin air out.
	AltitudeM float64
}

// Rated is an ampacity with what it was built from.
type Rated struct {
	Result                // A, continuous
	ListedA       float64 // from the list, before the factors
	AmbientFactor float64
	BundleFactor  float64
	// ConductorC is the conductor temperature the current leads to at
	// AmbientC; with Value it feeds [WireTemperature].
	ConductorC float64
	AmbientC   float64
}

// creditBelowC: lists are not raised for air colder than this.
const creditBelowC = 30

// Ampacity gives the continuous current in A that heats the conductor to what
// its insulation bears: the list's amps, between two rows on double
// logarithmic paper over area, times √((Tc−Ta)/(Tlist−Talist)) for the air and
// the set's factor for the bundle. It is 0 when the air alone is too hot.
//
// The list is ISO 10133 for metric sizes and 33 CFR 183.425 for gauges; what is
// too thin for them is looked up in the thin-wall PVC list and then in AC
// 43.13-1B Table 11-9, and never gets more than the thinnest size of the lists
// before. A size outside them all is not assessed.
func Ampacity(in AmpacityInput) (Rated, error) {
	if err := in.check(); err != nil {
		return Rated{}, err
	}
	lists := in.lists()
	var limit *Rated // of the thinnest size in the lists passed over
	for _, l := range lists {
		a, low, ok, err := lookup(l, in)
		if err != nil {
			return Rated{}, err
		}
		r, err := rate(l, in, a)
		if err != nil {
			return Rated{}, err
		}
		if ok {
			if limit != nil && limit.Value < r.Value {
				limit.Formula += fmt.Sprintf(", not exceeded by the thinner %s", in.Size)
				return *limit, nil
			}
			return r, nil
		}
		if !low {
			break // too thick, the next lists are for thin wires
		}
		if limit == nil || r.Value < limit.Value {
			limit = &r
		}
	}
	first, last := lists[0], lists[len(lists)-1]
	return Rated{}, outside("%s is outside the rating lists, %s to %s", in.Size,
		last.At(0).Size, first.At(first.Len()-1).Size)
}

func (in AmpacityInput) check() error {
	switch {
	case in.Metal == tables.NoMetal:
		return missing("the conductor metal")
	case in.Metal != tables.Copper:
		return missing(fmt.Sprintf("a rating list for %s wire", in.Metal))
	case !in.Size.Known():
		return missing("the conductor size")
	case in.Bundled == 0:
		return missing("the number of loaded conductors in the bundle")
	case in.Bundled < 0:
		return outside("the number of loaded conductors is %d", in.Bundled)
	case math.IsNaN(in.AltitudeM):
		return missing("the altitude")
	case in.Bundled > 1 && in.Set == tables.NoBundleSet:
		return missing("the choice of bundle factors")
	}
	if err := positive(quantity{"the insulation temperature", in.InsulationC}); err != nil {
		return err
	}
	return celsius(quantity{"the ambient temperature", in.AmbientC}, quantity{"the insulation temperature", in.InsulationC})
}

// lists are the rating lists in the order they are asked.
func (in AmpacityInput) lists() []tables.AmpacityTable {
	first := tables.CFR183()
	if in.Size.System == unit.Metric {
		first = tables.ISO10133()
	}
	return []tables.AmpacityTable{first, tables.ThinPVC(), tables.AircraftAmpacity()}
}

// column is the hottest one the insulation bears, else the coolest.
func column(l tables.AmpacityTable, insulationC float64) int {
	c := 0
	for i := 1; i < l.Columns() && l.ColumnC(i) <= insulationC; i++ {
		c = i
	}
	return c
}

// lookup finds the listed amps and says how. When the size is thinner than
// the list, it gives the thinnest row, low and not ok.
func lookup(l tables.AmpacityTable, in AmpacityInput) (a listedAmps, low, ok bool, err error) {
	c := column(l, in.InsulationC)
	for _, r := range l.All() {
		if r.Size == in.Size {
			return listedAmps{r.Amps[c], fmt.Sprintf("%s: %s", r.Size, amps(r.Amps[c])), c}, false, true, nil
		}
	}
	area, known := in.Size.AreaMM2()
	if !known {
		return a, false, false, missing("the conductor area of " + in.Size.String())
	}
	for i, r := range l.All() {
		if area > r.AreaMM2 {
			continue
		}
		if area == r.AreaMM2 {
			return listedAmps{r.Amps[c], fmt.Sprintf("%s as %s: %s", in.Size, r.Size, amps(r.Amps[c])), c}, false, true, nil
		}
		if i == 0 {
			return listedAmps{r.Amps[c], fmt.Sprintf("%s: %s", r.Size, amps(r.Amps[c])), c}, true, false, nil
		}
		b := l.At(i - 1)
		v := logLog(area, b.AreaMM2, b.Amps[c], r.AreaMM2, r.Amps[c])
		name := in.Size.String()
		if in.Size.System != unit.Metric {
			name += " (" + mm2(area) + ")"
		}
		return listedAmps{v, fmt.Sprintf("%s between %s %s and %s %s: %s", name,
			b.Size, amps(b.Amps[c]), r.Size, amps(r.Amps[c]), amps(v)), c}, false, true, nil
	}
	last := l.At(l.Len() - 1)
	return listedAmps{last.Amps[c], last.Size.String(), c}, false, false, nil
}

type listedAmps struct {
	value  float64
	text   string
	column int
}

// rate applies the factors for air and bundle.
func rate(l tables.AmpacityTable, in AmpacityInput, a listedAmps) (Rated, error) {
	listC := l.ColumnC(a.column)
	hot := math.Min(listC, in.InsulationC) // a cooler class than the coolest column is scaled down
	air := math.Max(in.AmbientC, creditBelowC)
	f := math.Sqrt(math.Max(0, hot-air) / (listC - l.AmbientC))
	text := fmt.Sprintf("√((%s − %s)/(%s − %s))", num(hot), num(air), num(listC), num(l.AmbientC))
	if engine, ok := l.EngineFactor(a.column); ok && hot == listC && air >= 50 && engine < f {
		f, text = engine, num(engine)+" (engine space)"
	}
	r := Rated{ListedA: a.value, AmbientFactor: f, BundleFactor: 1, ConductorC: hot, AmbientC: in.AmbientC}
	r.Source = l.Source
	if in.Bundled > l.Bundled {
		g, ok := in.Set.Factor(in.Bundled)
		if !ok {
			return Rated{}, outside("no bundle factor for %d conductors in %s", in.Bundled, in.Set.Source())
		}
		r.BundleFactor = g
		r.Source = r.Source.And(in.Set.Source())
	}
	thin, altitude := 1.0, ""
	if in.AltitudeM > l.AltitudeM {
		v, src, ok := tables.AltitudeFactor(in.AltitudeM)
		if !ok {
			return Rated{}, outside("no factor for air at %s m above the sea", num(in.AltitudeM))
		}
		thin, altitude = v, fmt.Sprintf(" · %s at %s m", num(v), num(in.AltitudeM))
		r.Source = r.Source.And(src)
	}
	r.Value = a.value * f * r.BundleFactor * thin
	bundle := fmt.Sprintf("%s for %d loaded", num(r.BundleFactor), in.Bundled)
	if l.Bundled > 1 {
		bundle += fmt.Sprintf(" (the list allows for %d)", l.Bundled)
	}
	r.Formula = fmt.Sprintf("%s at %s · %s · %s%s = %s", a.text, degC(listC), text, bundle, altitude, amps(r.Value))
	return r, nil
}
