package ui

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc"
	"loomwright/calc/tables"
	"loomwright/calc/unit"
	"loomwright/netlist"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// sizer is the box that answers what wire and fuse a load needs, while the
// question is typed.
type sizer struct {
	ed     *Editor
	wires  []*schematic.Wire // selected; the answer can be used for them
	input  map[string]*entry
	load   *pick
	back   *pick
	family *pick
	loads  []check.LoadDrop
	note   *widget.Label
	answer *fyne.Container
	scroll *container.Scroll
	box    *box
}

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

// sizeAdviser opens the box, filled in from the selected wires.
func (ed *Editor) sizeAdviser() { ed.openSizer() }

func (ed *Editor) openSizer() *sizer {
	s := &sizer{ed: ed, wires: ed.details.selectedWires(), input: map[string]*entry{}, note: complaint(), answer: container.NewVBox()}
	keys := func(k fyne.KeyName, _ fyne.KeyModifier) { s.box.key(k) }
	form := container.NewVBox()
	s.back = newPick(keys, []string{backByBody, backByWire}, func(string) { s.follow() })
	s.back.Selected = backByBody
	s.loads = check.LoadDrops(ed.doc())
	var titles []string
	for _, l := range s.loads {
		titles = append(titles, sentence(l.Title))
	}
	s.load = newPick(keys, titles, func(string) { s.follow() })
	s.load.Selected = titles[len(titles)-1]
	s.family = newPick(keys, insulationChoices(), func(string) { s.takeFamily() })
	s.family.PlaceHolder = "by temperature"
	for _, f := range sizerFields {
		e := newEntry(nil)
		e.SetPlaceHolder(f.hint)
		s.input[f.name] = e
		switch f.name {
		case "insulation":
			form.Add(row("Insulation", s.family))
		case "drop":
			form.Add(row("Kind of load", s.load))
		}
		form.Add(row(f.title, e))
		if f.name == "length" {
			form.Add(row("The way back", s.back))
		}
	}
	form.Add(s.note)
	said := s.prefill()
	for _, e := range s.input {
		e.changed = func(string) { s.follow() }
	}
	s.scroll = container.NewVScroll(container.New(padded{8, 0}, s.answer))
	left := container.NewVBox(remark(said).CanvasObject, form)
	s.box = &box{title: "Size of wire and fuse", about: "size", size: fyne.NewSize(980, 640), first: s.input["amp"],
		content: container.New(fillLayout{390}, container.NewVScroll(left), s.scroll), answers: []answer{{text: "Close"}}}
	for _, e := range s.input {
		s.box.field(e)
	}
	s.box.ready = func() { s.input["amp"].TypedShortcut(&fyne.ShortcutSelectAll{}) }
	s.follow()
	ed.openBox(s.box)
	return s
}

// fillLayout gives the first object a fixed width, the second the rest, and
// both the whole height.
type fillLayout struct{ first float32 }

func (f fillLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	o[0].Resize(fyne.NewSize(f.first, size.Height))
	o[0].Move(fyne.NewPos(0, 0))
	o[1].Resize(fyne.NewSize(max(0, size.Width-f.first), size.Height))
	o[1].Move(fyne.NewPos(f.first, 0))
}

func (f fillLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.NewSize(f.first+240, 320) }

// insulationChoices lists the families with what they bear.
func insulationChoices() []string {
	var out []string
	for _, r := range tables.Insulations().All() {
		out = append(out, fmt.Sprintf("%s, %s", r.Code, unit.Format(unit.Temp, r.MaxC, unit.SI)))
	}
	return out
}

// takeFamily writes what the chosen insulation bears.
func (s *sizer) takeFamily() {
	code, _, _ := strings.Cut(s.family.Selected, ",")
	if r, ok := tables.InsulationByCode(code); ok {
		s.input["insulation"].SetText(unit.Format(unit.Temp, r.MaxC, s.ed.system()))
	}
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

// question reads the fields; the error says what is wrong with one.
func (s *sizer) question() (calc.SizeQuestion, check.LoadDrop, float64, error) {
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
				return q, check.LoadDrop{}, 0, fmt.Errorf("%s: give a value", s.title(x.name))
			}
			*x.to = x.empty
			continue
		}
		v, err := unit.Parse(x.q, text)
		if err != nil {
			return q, check.LoadDrop{}, 0, fmt.Errorf("%s: %w", s.title(x.name), err)
		}
		if v <= 0 && x.name != "ambient" {
			return q, check.LoadDrop{}, 0, fmt.Errorf("%s: give more than 0", s.title(x.name))
		}
		*x.to = v
	}
	if q.Bundled = int(count); float64(q.Bundled) != count || count < 1 {
		return q, check.LoadDrop{}, 0, fmt.Errorf("%s: give a whole number from 1", s.title("bundle"))
	}
	if math.IsInf(q.LengthMM, 1) {
		q.LengthMM = math.NaN()
	} else if s.back.Selected == backByWire {
		q.LengthMM *= 2
	}
	load, err := s.dropAllowed(&q, volt)
	return q, load, volt, err
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

// follow answers the question as it stands.
func (s *sizer) follow() {
	if s.box == nil {
		return // still being filled in
	}
	q, load, _, err := s.question()
	var advice calc.SizeAdvice
	if err == nil {
		advice, err = calc.Advise(q)
	}
	s.answer.Objects = nil
	if err != nil {
		// Nothing is wrong yet in a form that has just been opened.
		show(s.note, strings.TrimSpace(s.input["amp"].Text) != "")
		s.note.SetText(sentence(err.Error()))
		s.answer.Add(remark("Write what current the wire shall carry: its size and fuse, and how they come about, then stand here.").CanvasObject)
		s.answer.Refresh()
		return
	}
	s.note.Hide()
	s.show(q, load, advice)
	s.answer.Refresh()
}

// show writes the answer: sizes and fuse first, then how they came about.
func (s *sizer) show(q calc.SizeQuestion, load check.LoadDrop, advice calc.SizeAdvice) {
	sys := s.ed.system()
	for _, step := range advice.Sizes {
		s.answer.Add(s.stepRow(q, step, sys))
	}
	if f := advice.Fuse; f != nil {
		s.answer.Add(big(unit.Format(unit.Amp, f.Value, sys) + " fuse"))
		s.answer.Add(wrapped(sentence(f.Family.String()) + ": the smallest standard rating that carries the load."))
	}
	for _, m := range advice.Missing {
		s.answer.Add(wrapped("Not assessed: " + m + "."))
	}
	s.answer.Add(heading("How").CanvasObject)
	why := func(name string, r calc.Result) {
		s.answer.Add(row(name, container.New(stackTight{}, wrapped(r.Formula), remark(r.Source.String()).CanvasObject)))
	}
	if f := advice.Fuse; f != nil {
		why("Fuse", f.Result)
	}
	if !math.IsNaN(q.LengthMM) {
		s.answer.Add(row("Drop allowed", container.New(stackTight{}, wrapped(unit.Format(unit.Volt, q.DropV, sys)+" over "+unit.Format(unit.Length, q.LengthMM, sys)+" of conductor"),
			remark(load.CircuitSource).CanvasObject)))
	}
	for _, step := range advice.Sizes {
		if !step.Size.Known() {
			continue
		}
		for i, r := range step.Reasons() {
			name := ""
			if i == 0 {
				name = step.Size.String()
			}
			why(name, r)
		}
	}
	s.answer.Add(remark("Copper; rating lists say nothing of joints, of heat beside the wire or of a fault's length. " + shortCaution).CanvasObject)
}

// shortCaution is the caution in one line.
const shortCaution = "Calculation aid only: follow the vehicle maker's data and local codes."

// stepRow is the answer in one system of sizes, with a button to use it.
func (s *sizer) stepRow(q calc.SizeQuestion, step calc.SizeStep, sys unit.System) fyne.CanvasObject {
	if !step.Size.Known() {
		name := "mm²"
		if step.System == unit.AWG {
			name = "AWG"
		}
		return wrapped("No size of the list in " + name + " is enough.")
	}
	text := fmt.Sprintf("Bears %s, the load warms it to %s", unit.Format(unit.Amp, step.Ampacity.Value, sys), unit.Format(unit.Temp, step.Warm.Value, sys))
	if step.Drop.Formula != "" {
		text += fmt.Sprintf(", loses %s of the %s allowed", unit.Format(unit.Volt, step.Drop.Value, sys), unit.Format(unit.Volt, q.DropV, sys))
	}
	text += "; the " + step.DecidedBy + " decides."
	if step.DecidedBy == "drop" && step.NextDrop > 0 {
		text += fmt.Sprintf(" The next thinner one loses %s.", unit.Format(unit.Volt, step.NextDrop, sys))
	}
	head := fyne.CanvasObject(big(step.Size.String()))
	if n := len(s.wires); n > 0 {
		whom := s.wires[0].Name
		if n > 1 {
			whom = count(n, "wire")
		}
		use := widget.NewButton("Use "+step.Size.String()+" for "+whom, func() { s.use(step.Size, whom) })
		if step.System == s.wires[0].Size.System || !s.wires[0].Size.Known() && step.System == unit.Metric {
			use.Importance = widget.HighImportance
		}
		head = container.NewBorder(nil, nil, nil, use, head)
	}
	return container.NewVBox(head, wrapped(text))
}

// big is a line of the answer that is seen first.
func big(text string) *widget.Label {
	l := widget.NewLabel(text)
	l.TextStyle.Bold = true
	l.SizeName = theme.SizeNameSubHeadingText
	return l
}

// use gives the selected wires the size, in one step.
func (s *sizer) use(size unit.Size, whom string) {
	ok := s.ed.do("use "+size.String()+" for "+whom, func(tx *edit.Tx) error {
		for _, w := range s.wires {
			if err := edit.SetWire(tx, w.ID, func(c *schematic.Wire) { c.Size = size }); err != nil {
				return err
			}
		}
		return nil
	})
	if ok {
		s.box.close()
		s.ed.status.tell(whom + " now " + map[bool]string{true: "is ", false: "are "}[len(s.wires) == 1] + size.String())
	}
}
