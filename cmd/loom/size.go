package main

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"strings"

	"loomwright/calc"
	"loomwright/calc/unit"
	"loomwright/netlist"
)

// sizeOptions are the flags of size, as typed.
type sizeOptions struct {
	amps, length, ambient, drop, insulation, duty string
	bundle                                        int
}

func sizeFlags(o *options, f *flag.FlagSet) {
	f.StringVar(&o.size.amps, "amps", "", "`current` that flows for good: 18, 18A")
	f.StringVar(&o.size.length, "length", "", "conductor `length`, there and back if the return is wire: 4200, 4.2m")
	f.StringVar(&o.size.ambient, "ambient", "", "air `temperature` round the wire: 80, 80C")
	f.IntVar(&o.size.bundle, "bundle", 1, "`count` of loaded wires lying together, this one included")
	f.StringVar(&o.size.drop, "drop", "", "most `volts` that may be lost over the length: 0.5")
	f.StringVar(&o.size.duty, "duty", "100%", "`share` of the time the current flows, in turns of some seconds: 30%")
	f.StringVar(&o.size.insulation, "insulation", "105", "`temperature` the insulation bears for good")
}

type sizeJSON struct {
	head
	Amps       float64    `json:"amps"`
	Duty       float64    `json:"duty"`
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
	advice, err := calc.Advise(q)
	if err != nil {
		return 0, err
	}
	out := adviceOf(q, advice)
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

// read takes the question from the flags.
func (o sizeOptions) read() (calc.SizeQuestion, error) {
	q := calc.SizeQuestion{LengthMM: math.NaN(), DropV: math.NaN(), Bundled: o.bundle, Set: netlist.BundleSets[0]}
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
		{"amps", o.amps, unit.Amp, true, &q.Amp}, {"ambient", o.ambient, unit.Temp, false, &q.AmbientC},
		{"insulation", o.insulation, unit.Temp, true, &q.InsulationC}, {"duty", o.duty, unit.Percent, true, &q.Duty},
		{"length", o.length, unit.Length, true, &q.LengthMM}, {"drop", o.drop, unit.Volt, true, &q.DropV},
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
	if q.Duty > 1 {
		return q, fmt.Errorf("-duty %s: the share of time is at most 100%%", o.duty)
	}
	return q, nil
}

// adviceOf brings question and answer into the form of the output.
func adviceOf(q calc.SizeQuestion, advice calc.SizeAdvice) sizeJSON {
	out := sizeJSON{head: headOf("size"), Amps: q.Amp, Duty: q.Duty, AmbientC: q.AmbientC, Insulation: q.InsulationC, Bundled: q.Bundled,
		LengthMM: number(q.LengthMM, !math.IsNaN(q.LengthMM)), DropLimit: number(q.DropV, !math.IsNaN(q.DropV)), Missing: []string{}, Caution: caution}
	if f := advice.Fuse; f != nil {
		out.Fuse = &fuseJSON{f.Family.String(), f.Value, f.Formula, f.Source.String()}
	}
	for _, m := range advice.Missing {
		if out.DropLimit == nil && strings.HasPrefix(m, "the voltage drop") {
			m = "the voltage drop: give -length and -drop"
		}
		out.Missing = append(out.Missing, m)
	}
	for _, s := range advice.Sizes {
		step := sizeStep{System: map[unit.SizeSystem]string{unit.Metric: "mm²", unit.AWG: "AWG"}[s.System], Formulas: []sizeReason{}}
		if s.Size.Known() {
			text := s.Size.String()
			area, ok := s.Size.AreaMM2()
			step.Size, step.AreaMM2, step.Ampacity, step.ConductorC, step.DecidedBy = &text, number(area, ok), &s.Ampacity.Value, &s.Warm.Value, s.DecidedBy
			step.DropVolts = number(s.Drop.Value, s.Drop.Formula != "")
			for _, r := range s.Reasons() {
				step.Formulas = append(step.Formulas, sizeReason{r.Formula, r.Source.String()})
			}
		}
		out.Sizes = append(out.Sizes, step)
	}
	return out
}

func (a *app) printSize(j sizeJSON) {
	text := func(q unit.Quantity, v float64) string { return unit.Format(q, v, unit.SI) }
	fmt.Fprintf(a.out, "%s%s in air of %s, %d loaded together, copper, insulation for %s\n", text(unit.Amp, j.Amps), turns(j.Duty), text(unit.Temp, j.AmbientC), j.Bundled, text(unit.Temp, j.Insulation))
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

// turns says for what share of time a current flows, if not always.
func turns(duty float64) string {
	if duty == 1 {
		return ""
	}
	return fmt.Sprintf(" for %s of the time", unit.Format(unit.Percent, duty, unit.SI))
}
