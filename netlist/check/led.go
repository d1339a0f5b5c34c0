package check

import (
	"fmt"
	"maps"
	"math"

	"loomwright/calc/tables"
	"loomwright/netlist"
	"loomwright/schematic"
)

const limitLED = "led_amp"

func ledLimits() []Limit {
	return []Limit{{Name: limitLED, Title: "current an indicator LED bears for good", Unit: "A", value: fixed(0.020, practice("5 mm LEDs are rated for 20 mA"))}}
}

var ledRule = Rule{
	ID:    "indicator badly fed",
	Title: "Series resistor and polarity of indicator LEDs",
	Help: "The largest current through an LED of all states against what it bears, and whether its plus ever is at plus. LEDs built into switches count too; " +
		"those with a driver of their own do not.",
	Source: "common practice, no source",
	run: func(r *run) {
		for i := range r.n.Branches {
			br := &r.n.Branches[i]
			if br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemDiode && br.Element.Load == "indicator" {
				r.led(i, br)
			}
		}
	},
}

func (r *run) led(i int, br *netlist.Branch) {
	resistor := r.seriesResistor(br)
	plus := br.A
	if resistor >= 0 {
		plus = r.n.Branches[resistor].Other(br.A)
	}
	var at, back *netlist.Solution
	most, reverse := 0.0, float64(liveVolt)
	for _, s := range r.usable() {
		if s.Amp[i] > most {
			at, most = s, s.Amp[i]
		}
		a, okA := s.VoltAt(plus)
		b, okB := s.VoltAt(br.B)
		if okA && okB && b-a > reverse {
			back, reverse = s, b-a
		}
	}
	limit, src := r.limit(limitLED)
	f := Finding{Severity: Warning, Items: []schematic.Key{br.Key()}}
	switch {
	case most > limit:
		f.Unit, f.Value, f.Limit, f.Margin, f.Source = "A", schematic.Some(most), schematic.Some(limit), schematic.Some(limit-most), src.String()
		f.Text = fmt.Sprintf("The LED of %s carries %s and bears %s.", br.Part.Name, amps(most), amps(limit))
		if resistor >= 0 {
			f.Formula, f.Fixes = r.ledResistor(at, i, resistor, plus, limit)
		} else {
			f.Fixes = r.resistorBefore(at, i, limit)
		}
		r.add(of(at, f), br.Element.Name)
	case back != nil && most < quiet:
		f.Severity = Error
		f.Unit, f.Value, f.Limit, f.Margin = "V", schematic.Some(reverse), schematic.Some(0), schematic.Some(-reverse)
		f.Text = fmt.Sprintf("The LED of %s is the wrong way round: its minus stands %s above its plus, and it never lights.", br.Part.Name, volts(reverse))
		f.Formula = fmt.Sprintf("%s between minus and plus", volts(reverse))
		f.Fixes = r.swapped(r.n.Nodes[plus].Pin, r.n.Nodes[br.B].Pin, "its plus is then at plus")
		r.add(of(back, f), br.Element.Name)
	}
}

// seriesResistor returns the resistor in the part of an LED that feeds its
// anode, -1 without one.
func (r *run) seriesResistor(led *netlist.Branch) int {
	for _, j := range r.n.PartBranches(led.Part.ID) {
		if br := &r.n.Branches[j]; br.Element.Type == schematic.ElemResistor && (br.A == led.A || br.B == led.A) {
			return j
		}
	}
	return -1
}

// ledResistor works out the next larger standard resistor that keeps an LED
// within its limit at the present voltage.
func (r *run) ledResistor(s *netlist.Solution, led, resistor, plus int, limit float64) (formula string, fixes []Fix) {
	br := &r.n.Branches[resistor]
	a, _ := s.VoltAt(plus)
	b, _ := s.VoltAt(r.n.Branches[led].B)
	across, _ := s.Across(resistor)
	drop := a - b - math.Abs(across) // stays in the LED
	formula = fmt.Sprintf("(%s − %s) / %s = %s", volts(a-b), volts(drop), ohms(br.Ohm), amps(s.Amp[led]))
	ohm, ok := tables.NextE12((a - b - drop) / (limit * surely))
	name := br.Element.Args["ohm"].Param
	if !ok || name == "" || br.Pin != nil {
		return formula, nil
	}
	p := *br.Part
	if p.Values = maps.Clone(p.Values); p.Values == nil {
		p.Values = map[string]float64{}
	}
	p.Values[name] = ohm
	return formula, []Fix{{Label: fmt.Sprintf("use %s for the LED of %s", ohms(ohm), p.Name), Items: []schematic.Item{&p},
		Effect: fmt.Sprintf("it then carries about %s", amps((a-b-drop)/ohm))}}
}
