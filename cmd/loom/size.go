package main

import (
	"errors"
	"flag"
	"fmt"
	"math"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/calc/unit"
	"loomwright/netlist"
)

// sizeOptions are the flags of size, as typed.
type sizeOptions struct {
	amps, length, ambient, drop, insulation string
	bundle                                  int
}

func sizeFlags(o *options, f *flag.FlagSet) {
	f.StringVar(&o.size.amps, "amps", "", "`current` that flows for good: 18, 18A")
	f.StringVar(&o.size.length, "length", "", "conductor `length`, there and back if the return is wire: 4200, 4.2m")
	f.StringVar(&o.size.ambient, "ambient", "", "air `temperature` round the wire: 80, 80C")
	f.IntVar(&o.size.bundle, "bundle", 1, "`count` of loaded wires lying together, this one included")
	f.StringVar(&o.size.drop, "drop", "", "most `volts` that may be lost over the length: 0.5")
	f.StringVar(&o.size.insulation, "insulation", "105", "`temperature` the insulation bears for good")
}

type sizeJSON struct {
	head
	Amps       float64    `json:"amps"`
	LengthMM   *float64   `json:"length_mm"`
	AmbientC   float64    `json:"ambient_c"`
	Insulation float64    `json:"insulation_c"`
	Bundled    int        `json:"bundled"`
	DropLimit  *float64   `json:"drop_limit_volts"`
	Fuse       *fuseJSON  `json:"fuse"`
	Sizes      []sizeStep `json:"sizes"`
	Missing    []string   `json:"missing"`
	Caution    string     `json:"caution"`
}

type fuseJSON struct {
	Family  string  `json:"family"`
	Rating  float64 `json:"rating_amps"`
	Formula string  `json:"formula"`
	Source  string  `json:"source"`
}

// sizeStep is the smallest size of one system that does, and why.
type sizeStep struct {
	System     string       `json:"system"`
	Size       *string      `json:"size"`
	AreaMM2    *float64     `json:"area_mm2"`
	Ampacity   *float64     `json:"ampacity_amps"`
	DropVolts  *float64     `json:"drop_volts"`
	ConductorC *float64     `json:"conductor_c"`
	DecidedBy  string       `json:"decided_by,omitempty"`
	Formulas   []sizeReason `json:"formulas"`
}

type sizeReason struct {
	Formula string `json:"formula"`
	Source  string `json:"source"`
}

func runSize(a *app, args []string) (int, error) {
	if len(args) > 0 {
		return 0, fmt.Errorf("size takes options only, found %q: write  loom size -amps 18 -ambient 80", args[0])
	}
	q, err := a.opt.size.read()
	if err != nil {
		return 0, err
	}
	out := q.answer()
	code := exitClean
	for _, s := range out.Sizes {
		if s.Size == nil {
			code = exitFindings
		}
	}
	if out.Fuse == nil {
		code = exitFindings
	}
	if a.opt.json {
		return code, printJSON(a.out, out)
	}
	a.printSize(out)
	return code, nil
}

// sizeQuestion is what a wire must do.
type sizeQuestion struct {
	amp, lengthMM, ambientC, dropV, insulationC float64 // length and drop NaN: not asked
	bundled                                     int
}

func (o sizeOptions) read() (sizeQuestion, error) {
	q := sizeQuestion{lengthMM: math.NaN(), dropV: math.NaN(), bundled: o.bundle}
	if o.amps == "" || o.ambient == "" {
		return q, errors.New("give the current and the air temperature: loom size -amps 18 -ambient 80")
	}
	if (o.length == "") != (o.drop == "") {
		return q, errors.New("give -length and -drop together, or neither: the drop needs both")
	}
	if o.bundle < 1 {
		return q, fmt.Errorf("-bundle %d: the wire itself counts, so give 1 or more", o.bundle)
	}
	for _, x := range []struct {
		flag, text string
		q          unit.Quantity
		positive   bool
		to         *float64
	}{
		{"amps", o.amps, unit.Amp, true, &q.amp}, {"ambient", o.ambient, unit.Temp, false, &q.ambientC},
		{"insulation", o.insulation, unit.Temp, true, &q.insulationC},
		{"length", o.length, unit.Length, true, &q.lengthMM}, {"drop", o.drop, unit.Volt, true, &q.dropV},
	} {
		if x.text == "" && (x.flag == "length" || x.flag == "drop") {
			continue
		}
		v, err := unit.Parse(x.q, x.text)
		if err != nil {
			return q, fmt.Errorf("-%s: %w", x.flag, err)
		}
		if x.positive && v <= 0 {
			return q, fmt.Errorf("-%s %s: give more than 0", x.flag, x.text)
		}
		*x.to = v
	}
	return q, nil
}

// answer finds the fuse for the load, then in each system the smallest size
// that carries the load, is protected by the fuse and keeps the drop.
func (q sizeQuestion) answer() sizeJSON {
	out := sizeJSON{head: headOf("size"), Amps: q.amp, AmbientC: q.ambientC, Insulation: q.insulationC, Bundled: q.bundled,
		LengthMM: number(q.lengthMM, !math.IsNaN(q.lengthMM)), DropLimit: number(q.dropV, !math.IsNaN(q.dropV)), Missing: []string{}, Caution: caution}
	need := q.amp
	for _, family := range []tables.FuseFamily{tables.Blade, tables.MaxiBlade, tables.BoltSF30, tables.BoltSF51} {
		if fit, err := calc.FuseForLoad(family, q.amp); err == nil {
			out.Fuse = &fuseJSON{family.String(), fit.Value, fit.Formula, fit.Source.String()}
			need = fit.Value
			break
		}
	}
	if out.Fuse == nil {
		out.Missing = append(out.Missing, "a fuse: no rating on record is large enough")
	}
	if math.IsNaN(q.dropV) {
		out.Missing = append(out.Missing, "the voltage drop: give -length and -drop")
	}
	var metric, gauges []unit.Size
	for _, row := range tables.ISO6722().All() {
		metric = append(metric, unit.MM2(row.AreaMM2))
	}
	for _, n := range []int{24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3} {
		gauges = append(gauges, unit.GaugeAWG(n))
	}
	out.Sizes = []sizeStep{q.smallest("mm²", metric, need), q.smallest("AWG", gauges, need)}
	return out
}

// smallest tries the sizes of a system, thinnest first.
func (q sizeQuestion) smallest(system string, sizes []unit.Size, need float64) sizeStep {
	decided := "current"
	for _, size := range sizes {
		rated, err := calc.Ampacity(calc.AmpacityInput{Metal: tables.Copper, Size: size, InsulationC: q.insulationC, AmbientC: q.ambientC,
			Bundled: q.bundled, Set: netlist.BundleSets[0]})
		switch {
		case err != nil || rated.Value < q.amp:
			continue
		case rated.Value < need:
			decided = "fuse"
			continue
		}
		step := sizeStep{System: system, DecidedBy: decided, Formulas: []sizeReason{{rated.Formula, rated.Source.String()}}}
		text := size.String()
		area, ok := size.AreaMM2()
		step.Size, step.AreaMM2, step.Ampacity = &text, number(area, ok), &rated.Value
		// The drop counts with the conductor as warm as the load makes it.
		warm, err := calc.WireTemperature(rated.Value, rated.ConductorC, rated.AmbientC, q.amp, q.ambientC)
		if err != nil {
			continue
		}
		step.ConductorC = &warm.Value
		step.Formulas = append(step.Formulas, sizeReason{warm.Formula, warm.Source.String()})
		if math.IsNaN(q.dropV) {
			return step
		}
		ohm, err := calc.WireResistance(calc.Conductor{Metal: tables.Copper, Size: size}, q.lengthMM, warm.Value)
		if err != nil {
			continue
		}
		drop, err := calc.VoltageDrop(q.amp, ohm.Value)
		if err != nil || drop.Value > q.dropV {
			decided = "drop"
			continue
		}
		step.DropVolts = &drop.Value
		step.Formulas = append(step.Formulas, sizeReason{ohm.Formula, ohm.Source.String()}, sizeReason{drop.Formula, drop.Source.String()})
		return step
	}
	return sizeStep{System: system, Formulas: []sizeReason{}}
}

func (a *app) printSize(j sizeJSON) {
	text := func(q unit.Quantity, v float64) string { return unit.Format(q, v, unit.SI) }
	fmt.Fprintf(a.out, "%s in air of %s, %d loaded together, copper, insulation for %s\n", text(unit.Amp, j.Amps), text(unit.Temp, j.AmbientC), j.Bundled, text(unit.Temp, j.Insulation))
	if j.Fuse != nil {
		fmt.Fprintf(a.out, "\n  fuse  %s, %s\n      how      %s\n      source   %s\n", text(unit.Amp, j.Fuse.Rating), j.Fuse.Family, j.Fuse.Formula, j.Fuse.Source)
	}
	for _, s := range j.Sizes {
		if s.Size == nil {
			fmt.Fprintf(a.out, "\n  wire  no size of the list in %s is enough\n", s.System)
			continue
		}
		fmt.Fprintf(a.out, "\n  wire  %s: bears %s, conductor at %s", *s.Size, text(unit.Amp, *s.Ampacity), text(unit.Temp, *s.ConductorC))
		if s.DropVolts != nil {
			fmt.Fprintf(a.out, ", drops %s", text(unit.Volt, *s.DropVolts))
		}
		fmt.Fprintf(a.out, "; the %s decides\n", s.DecidedBy)
		for _, f := range s.Formulas {
			fmt.Fprintf(a.out, "      how      %s\n      source   %s\n", f.Formula, f.Source)
		}
	}
	for _, m := range j.Missing {
		fmt.Fprintf(a.out, "\n  not assessed: %s\n", m)
	}
	fmt.Fprintf(a.out, "\n%s\n", caution)
}
