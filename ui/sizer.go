package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc"
	"loomwright/netlist/check"
	"loomwright/schematic"
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

// openSizer opens the box, filled in from the selected wires.
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
	s.scroll = container.NewVScroll(container.New(clearOfBar{}, container.New(padded{8, 0}, s.answer)))
	left := container.NewVBox(remark(said).CanvasObject, form)
	s.box = &box{title: "Size of wire and fuse", about: "size", size: fyne.NewSize(980, 640), first: s.input["amp"],
		content: container.New(fillLayout{390}, newPage(container.New(clearOfBar{}, left)), s.scroll), answers: []answer{{text: "Close"}}}
	for _, e := range s.input {
		s.box.field(e)
	}
	s.box.ready = func() { s.input["amp"].TypedShortcut(&fyne.ShortcutSelectAll{}) }
	s.follow()
	ed.openBox(s.box)
	return s
}

// follow answers the question as it stands.
func (s *sizer) follow() {
	if s.box == nil {
		return // still being filled in
	}
	q, load, err := s.question()
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
