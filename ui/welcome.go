package ui

import (
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/loomfile"
	"loomwright/testdata"
	"loomwright/ui/action"
)

// sampleHarness is an example that comes with the program.
type sampleHarness struct {
	id, title, about string
	file             string // in package testdata
}

// sampleHarnesses lists the examples; the program starts with the first.
func sampleHarnesses() []sampleHarness {
	return []sampleHarness{
		{"help.fan", "One fan", "A radiator fan with fuses, relay and a dash switch: a first circuit to change.", "fan.loom.json"},
		{"help.lamp", "The lamp that stays dark", "A work lamp with faults: find them with the findings and the trace.", "lamp-faulty.loom.json"},
		{"help.pickup", "The pickup", "Engine, charging, lights and dash of a pickup on three sheets, with a few faults to find.", "pickup.loom.json"},
	}
}

// showSample shows an example as a drawing without a file.
func (ed *Editor) showSample(s sampleHarness) {
	ed.unlessUnsaved("Open an example", func() { ed.takeSample(s) })
}

// load reads the example.
func (s sampleHarness) load(lib *schematic.Library) (*schematic.Doc, error) {
	data, err := testdata.Files.ReadFile(s.file)
	if err != nil {
		return nil, err
	}
	return loomfile.Decode(data, lib)
}

// takeSample shows an example in place of the present drawing.
func (ed *Editor) takeSample(s sampleHarness) {
	doc, err := s.load(ed.lib)
	if err != nil {
		ed.reportAs("The example cannot be shown with these part kinds", err)
		ed.freshView()
		return
	}
	ed.take(doc, openFile{example: true})
}

func (ed *Editor) sampleActions() {
	for _, s := range sampleHarnesses() {
		ed.actions.Add(&action.Action{ID: s.id, Title: s.title, Menu: "Help/Examples", Words: "demo sample tutorial open example learn", Help: s.about,
			Run: func() { ed.showSample(s) }})
	}
}

// firstSteps are what to try first, in the order of a first quarter of an hour.
func firstSteps() string {
	return "Press a finding below the drawing: it shows what is wrong, by how much, and often a remedy.\n" +
		"L writes the currents on the wires; choose another operating state above the drawing.\n" +
		"T and a press on a pin or wire follow a circuit from the battery to ground, volt by volt.\n" +
		"P finds a part to place, W draws a wire from pin to pin.\n" +
		"Ctrl+Space finds any command by its name, F1 shows all keys. Ctrl+Z takes anything back."
}

// showWelcome offers the examples, the files used last and a first way in.
func (ed *Editor) showWelcome() {
	b := &box{title: "Welcome to " + appName, about: "welcome", size: fyne.NewSize(760, 0)}
	intro := wrapped("Draw the wiring of a vehicle a piece at a time. While you draw, every wire is computed: what it carries, what it may carry, what protects it.")
	list := container.NewVBox(intro, heading("Look at an example").CanvasObject)
	cards := container.New(evenly{})
	for _, s := range sampleHarnesses() {
		cards.Add(container.New(padded{4, 0}, ed.card(b, s)))
	}
	list.Add(cards)
	if recent := ed.store.Recent; len(recent) > 0 {
		list.Add(heading("Or go on where you were").CanvasObject)
		for _, path := range recent[:min(3, len(recent))] {
			open := newBoxButton(b, answer{text: filepath.Base(path), deed: func() { ed.askThenOpen(path) }})
			where := widget.NewLabel(filepath.Dir(path))
			where.Truncation = fyne.TextTruncateEllipsis
			list.Add(container.New(rowLayout{190}, open, where))
		}
	}
	list.Add(heading("What to try first").CanvasObject)
	list.Add(wrapped(firstSteps()))
	list.Add(remark("A calculation aid, not a substitute for the vehicle maker's data, local codes and a qualified person. Disconnect the battery before work. Help › Caution says more.").CanvasObject)
	skip := newTicked(ed.typedKey, "Do not show this at the start", func(on bool) {
		ed.store.SkipWelcome = on
		ed.keepSettings()
	})
	skip.Checked = ed.store.SkipWelcome
	list.Add(skip)
	b.content = container.New(padded{6, 2}, list)
	b.answers = []answer{
		{text: "Open a file…", deed: ed.askOpen},
		{text: "Begin an empty drawing", deed: ed.newDrawing},
		{text: "Close", main: true},
	}
	ed.openBox(b)
}
