package netlist

import (
	"strings"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/calc/unit"
	"loomwright/schematic"
)

// DefaultAmbientC stands in where neither a loom segment nor the document says
// how warm it is: the air temperature the rating lists of 33 CFR 183.425 hold
// for.
const DefaultAmbientC = 30

// Conductor is how a wire's resistance came about.
type Conductor struct {
	AreaMM2  float64
	LengthMM float64
	Derived  bool       // the length comes from the route
	AmbientC float64    // hottest place along the route
	Assumed  bool       // nobody gave a temperature: DefaultAmbientC
	WireOhm  float64    // the conductor at AmbientC, Ω
	JointOhm [2]float64 // crimp and contact at end A and B, Ω
	Ohm      float64    // all together; of the joints alone while Missing is not empty
	Missing  []string   // "size", "length"
	Formula  string     // of WireOhm
	Source   tables.Source
}

// metres keeps what a metre of each sort of conductor has at each temperature:
// a harness has many wires of few sorts, and writing out formulas takes longer
// than anything else in Build.
type metres map[metre]metreOhm

type metre struct {
	calc.Conductor
	ambientC float64
}

type metreOhm struct {
	ohm        float64
	head, tail string // of the formula, before and after the length
	source     tables.Source
	err        error
}

// of returns the resistance of a length of a conductor, as calc.WireResistance
// does.
func (m metres) of(c calc.Conductor, mm, ambientC float64) (calc.Result, error) {
	key := metre{c, ambientC}
	v, ok := m[key]
	if !ok {
		r, err := calc.WireResistance(c, 1000, ambientC)
		v = metreOhm{ohm: r.Value, source: r.Source, err: err}
		v.head, v.tail, _ = strings.Cut(r.Formula, " · "+unit.Format(unit.Length, 1000, unit.SI))
		v.tail = v.tail[:max(0, strings.LastIndex(v.tail, "= "))]
		m[key] = v
	}
	if v.err != nil {
		return calc.Result{}, v.err
	}
	ohm := v.ohm * mm / 1000
	return calc.Result{Value: ohm, Source: v.source,
		Formula: v.head + " · " + unit.Format(unit.Length, mm, unit.SI) + v.tail + "= " + unit.Format(unit.Ohm, ohm, unit.SI)}, nil
}

// MetalOf returns the table entry of a wire's conductor metal.
func MetalOf(w *schematic.Wire) tables.Metal {
	if w.Metal == schematic.Aluminium {
		return tables.Aluminium
	}
	return tables.Copper
}

// LengthOf returns the length of a wire in mm: as given, else along its route
// with the slack; unknown when neither can be told. Derived says which.
func LengthOf(d *schematic.Doc, w *schematic.Wire) (length schematic.Num, derived bool) {
	if w.LengthMM.Known() {
		return w.LengthMM, false
	}
	l := d.Loom(w.Loom)
	if l == nil || len(w.Route) == 0 {
		return schematic.Num{}, false
	}
	sum := w.SlackMM.Or(0)
	for _, id := range w.Route {
		s, ok := l.Segment(id)
		mm, known := s.LengthMM.Get()
		if !ok || !known {
			return schematic.Num{}, false
		}
		sum += mm
	}
	return schematic.Some(sum), true
}

// AmbientOf returns the air temperature at the hottest place along a wire in
// °C, and whether anybody gave one. A segment that gives none has that of the
// document.
func AmbientOf(d *schematic.Doc, w *schematic.Wire) (ambientC float64, given bool) {
	ambientC, given = d.Info().AmbientC.Get()
	if l := d.Loom(w.Loom); l != nil {
		first := true
		for _, id := range w.Route {
			s, ok := l.Segment(id)
			c, known := s.AmbientC.Get()
			if !known {
				c, known = d.Info().AmbientC.Get()
			}
			if !ok || !known {
				continue
			}
			if first || c > ambientC {
				ambientC = c
			}
			first, given = false, true
		}
	}
	if !given {
		return DefaultAmbientC, false
	}
	return ambientC, true
}

// ConductorOf returns the resistance of a wire in the surroundings the document
// gives it; the wire need not be part of the document yet.
func ConductorOf(d *schematic.Doc, w *schematic.Wire) Conductor {
	return conductorOf(d, w, metres{}, d.KindOf)
}

func conductorOf(d *schematic.Doc, w *schematic.Wire, m metres, kind func(*schematic.Part) *schematic.Kind) Conductor {
	var c Conductor
	area, _ := w.Size.AreaMM2() // unknown for SAE 22, whose resistance is on record
	c.AreaMM2 = area
	length, derived := LengthOf(d, w)
	mm, long := length.Get()
	c.LengthMM, c.Derived = mm, derived
	ambient, given := AmbientOf(d, w)
	c.AmbientC, c.Assumed = ambient, !given
	for i, e := range []schematic.End{w.A, w.B} {
		switch ohm, ok := e.JointOhm.Get(); {
		case ok && ohm >= 0:
			c.JointOhm[i] = ohm
		case !e.Loose():
			c.JointOhm[i] = jointOhm(d.Part(e.Part), area, kind)
		}
	}
	c.Ohm = c.JointOhm[0] + c.JointOhm[1]
	if !w.Size.Known() {
		c.Missing = append(c.Missing, "size")
	}
	if !long || mm <= 0 {
		c.Missing = append(c.Missing, "length")
	}
	if len(c.Missing) > 0 {
		return c
	}
	r, err := m.of(calc.Conductor{Metal: MetalOf(w), Size: w.Size, Tinned: w.Metal == schematic.Tinned}, mm, ambient)
	if err != nil {
		c.Missing = append(c.Missing, "resistance ("+strings.TrimPrefix(err.Error(), calc.ErrUnknown.Error()+": ")+")")
		return c
	}
	c.WireOhm, c.Formula, c.Source = r.Value, r.Formula, r.Source
	c.Ohm += r.Value
	return c
}

// jointOhm is the usual resistance of a wire's end: of half a splice, else of a
// new crimp.
func jointOhm(p *schematic.Part, areaMM2 float64, kind func(*schematic.Part) *schematic.Kind) float64 {
	if p != nil {
		if k := kind(p); k != nil {
			if v, ok := k.ParamValue(p, nil, "splice_ohm").Get(); ok && v >= 0 {
				return v / 2
			}
		}
	}
	return crimpOhm(areaMM2)
}

// crimpOhm is the usual resistance of a new crimp on a conductor, by the next
// larger size on record.
func crimpOhm(areaMM2 float64) float64 {
	rows := tables.Crimps()
	for _, row := range rows.All() {
		if row.AreaMM2 >= areaMM2 {
			return row.MaxOhm
		}
	}
	return rows.At(rows.Len() - 1).MaxOhm
}
