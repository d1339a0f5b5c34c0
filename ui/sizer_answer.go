package ui

import (
	"fmt"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc"
	"loomwright/calc/unit"
	"loomwright/netlist/check"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

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
		use := newButton(s.ed.tips, "Use "+step.Size.String()+" for "+whom, "", "Give the selected wires this size", func() { s.use(step.Size, whom) })
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
