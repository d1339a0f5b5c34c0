package ui

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
)

// The ways a current comes back.
const (
	backByBody = "through the body"
	backByWire = "by a wire as long"
)

// sizerFields are the fields in the order they stand.
var sizerFields = []struct{ name, title, hint string }{
	{"amp", "Current", "18 A"},
	{"duty", "Share of time", "100 %, in turns of some seconds"},
	{"length", "Length, one way", "4.2 m; without it no drop"},
	{"ambient", "Air temperature", "80 °C at the hottest place"},
	{"bundle", "Loaded together", "1, with the wire itself"},
	{"insulation", "Insulation bears", "105 °C"},
	{"volt", "System voltage", "12 V"},
	{"drop", "Drop allowed", "by the kind of load"},
}

// prefill writes what the drawing knows of the selected wires; of several the
// one that carries most counts. It says where the figures come from.
func (s *sizer) prefill() string {
	ed := s.ed
	write := func(name string, q unit.Quantity, n schematic.Num) {
		if v, ok := n.Get(); ok {
			s.input[name].SetText(unit.Format(q, v, ed.system()))
		}
	}
	write("volt", unit.Volt, schematic.Some(ed.doc().Info().Volts()))
	s.input["duty"].SetText("100 %")
	s.input["bundle"].SetText("1")
	s.input["insulation"].SetText(unit.Format(unit.Temp, 105, ed.system()))
	write("ambient", unit.Temp, ed.doc().Info().AmbientC)
	have := ed.study.have
	if len(s.wires) == 0 || have == nil || have.doc != ed.doc() {
		return "Select a wire first to begin with its figures and to use the answer for it."
	}
	var most *schematic.Wire
	var use check.WireUse
	for _, w := range s.wires {
		if u, ok := check.UseOf(have.net, have.states, w.ID); ok && (most == nil || u.Amp.Or(0) > use.Amp.Or(0)) {
			most, use = w, u
		}
	}
	if most == nil {
		return "The drawing says nothing of the selected wires."
	}
	write("amp", unit.Amp, use.Amp)
	write("length", unit.Length, use.LengthMM)
	write("ambient", unit.Temp, schematic.Some(use.AmbientC))
	s.input["bundle"].SetText(fmt.Sprint(use.Bundled))
	if c := netlist.InsulationC(most); !math.IsNaN(c) {
		write("insulation", unit.Temp, schematic.Some(c))
		for _, name := range s.family.Options {
			if code, _, _ := strings.Cut(name, ","); code == most.Insulation {
				s.family.Selected = name
			}
		}
	}
	said := "As " + most.Name + " has it in the drawing"
	if use.StateName != "" {
		said += ", worst in " + use.StateName
	}
	if use.Assumed {
		said += "; the air temperature is assumed"
	}
	if !use.Amp.Known() {
		said += "; its current is not known"
	}
	return said + "."
}

// takeFamily writes what the chosen insulation bears.
func (s *sizer) takeFamily() {
	code, _, _ := strings.Cut(s.family.Selected, ",")
	if r, ok := tables.InsulationByCode(code); ok {
		s.input["insulation"].SetText(unit.Format(unit.Temp, r.MaxC, s.ed.system()))
	}
}

// insulationChoices lists the families with what they bear.
func insulationChoices() []string {
	var out []string
	for _, r := range tables.Insulations().All() {
		out = append(out, fmt.Sprintf("%s, %s", r.Code, unit.Format(unit.Temp, r.MaxC, unit.SI)))
	}
	return out
}

// question reads the fields; the error says what is wrong with one.
func (s *sizer) question() (calc.SizeQuestion, check.LoadDrop, error) {
	q := calc.SizeQuestion{LengthMM: math.NaN(), DropV: math.NaN(), Set: netlist.BundleSetOf(s.ed.doc().Info()), AltitudeM: netlist.AltitudeOf(s.ed.doc().Info())}
	var count, volt float64
	for _, x := range []struct {
		name  string
		q     unit.Quantity
		empty float64 // what an empty field stands for; NaN: it must be given
		to    *float64
	}{
		{"amp", unit.Amp, math.NaN(), &q.Amp}, {"duty", unit.Percent, 1, &q.Duty}, {"length", unit.Length, math.Inf(1), &q.LengthMM},
		{"ambient", unit.Temp, math.NaN(), &q.AmbientC}, {"bundle", unit.Ratio, 1, &count}, {"insulation", unit.Temp, math.NaN(), &q.InsulationC},
		{"volt", unit.Volt, 12, &volt},
	} {
		text := strings.TrimSpace(s.input[x.name].Text)
		if text == "" {
			if math.IsNaN(x.empty) {
				return q, check.LoadDrop{}, fmt.Errorf("%s: give a value", s.title(x.name))
			}
			*x.to = x.empty
			continue
		}
		v, err := unit.Parse(x.q, text)
		if err != nil {
			return q, check.LoadDrop{}, fmt.Errorf("%s: %w", s.title(x.name), err)
		}
		if v <= 0 && x.name != "ambient" {
			return q, check.LoadDrop{}, fmt.Errorf("%s: give more than 0", s.title(x.name))
		}
		*x.to = v
	}
	if q.Bundled = int(count); float64(q.Bundled) != count || count < 1 {
		return q, check.LoadDrop{}, fmt.Errorf("%s: give a whole number from 1", s.title("bundle"))
	}
	if math.IsInf(q.LengthMM, 1) {
		q.LengthMM = math.NaN()
	} else if s.back.Selected == backByWire {
		q.LengthMM *= 2
	}
	load, err := s.dropAllowed(&q, volt)
	return q, load, err
}

func (s *sizer) title(name string) string {
	for _, f := range sizerFields {
		if f.name == name {
			return f.title
		}
	}
	return name
}

// dropAllowed fills in the drop: as typed, in volts or as a part of the system
// voltage, else by the kind of load.
func (s *sizer) dropAllowed(q *calc.SizeQuestion, volt float64) (check.LoadDrop, error) {
	info := *s.ed.doc().Info()
	info.SystemVolt = schematic.Some(volt)
	loads := check.LoadDrops(s.ed.doc().With(schematic.Put{Key: info.Key(), Item: &info}))
	load := loads[max(0, s.load.SelectedIndex())]
	text := strings.TrimSpace(s.input["drop"].Text)
	if text == "" {
		q.DropV = load.Circuit
		if s.back.Selected == backByBody && load.Feed > 0 {
			q.DropV, load.CircuitSource = load.Feed, load.FeedSource
		}
		return load, nil
	}
	load.CircuitSource = "as you wrote"
	v, err := unit.Parse(unit.Volt, text)
	if err != nil && strings.Contains(text, "%") {
		if v, err = unit.Parse(unit.Percent, text); err == nil {
			v *= volt
		}
	}
	switch {
	case err != nil:
		return load, fmt.Errorf("%s: %w", s.title("drop"), err)
	case v <= 0:
		return load, errors.New(s.title("drop") + ": give more than 0")
	}
	q.DropV = v
	return load, nil
}
