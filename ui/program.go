package ui

import (
	"errors"
	"slices"
	"time"

	"fyne.io/fyne/v2"

	"loomwright/schematic"
	"loomwright/ui/action"
)

// program is one run of the editor: its windows, each with a session of its
// own, and what they share.
type program struct {
	app     fyne.App
	crew    crew
	now     func() time.Time
	store   *settingsStore
	lib     *schematic.Library
	windows []*Editor
	frames  bool    // show how long pictures take
	dark    bool    // the colours shown
	scale   float64 // of the toolkit, without ours
	ended   func()  // called when the last window is gone; may be nil
}

func newProgram(app fyne.App, lib *schematic.Library, folder string, c crew, now func() time.Time) (*program, error) {
	store, trouble := openSettings(folder)
	lib, bad := readOwnKinds(lib, folder)
	trouble = errors.Join(trouble, bad)
	p := &program{app: app, crew: c, now: now, store: store, lib: lib}
	app.Lifecycle().SetOnEnteredForeground(func() {
		for _, ed := range slices.Clone(p.windows) {
			ed.lookAtDisk()
		}
	})
	return p, trouble
}

// at returns the window that shows a file, or nil.
func (p *program) at(path string) *Editor {
	for _, ed := range p.windows {
		if ed.file.path == path && path != "" {
			return ed
		}
	}
	return nil
}

// forget takes a closed window out.
func (p *program) forget(ed *Editor) {
	p.windows = slices.DeleteFunc(p.windows, func(o *Editor) bool { return o == ed })
	if len(p.windows) == 0 && p.ended != nil {
		p.ended()
	}
}

// each does something in every window.
func (p *program) each(f func(*Editor)) {
	for _, ed := range slices.Clone(p.windows) {
		f(ed)
	}
}

// newWindow opens a second window on an empty drawing, or on a file.
func (ed *Editor) newWindow(path string) *Editor {
	other := newEditor(ed.prog, Options{})
	other.win.Show()
	other.win.Canvas().Focus(other.sheetView)
	if path != "" {
		other.open(path)
	}
	return other
}

// openBeside opens a file in a window of its own, or brings the window to the
// front that has it.
func (ed *Editor) openBeside(path string) {
	path = absolute(path)
	if other := ed.prog.at(path); other != nil {
		other.win.RequestFocus()
		return
	}
	ed.newWindow(path)
}

func (ed *Editor) windowActions() {
	ed.actions.Add(
		&action.Action{ID: "window.new", Title: "New window", Menu: "File", Keys: []action.Key{action.CS("N")}, Words: "second another drawing beside",
			Help: "Open a second window with an empty drawing", Run: func() { ed.newWindow("") }},
		&action.Action{ID: "window.open", Title: "Open in a new window…", Menu: "File", Keys: []action.Key{action.CS("O")}, Words: "second another drawing beside load file",
			Help: "Open a harness file in a window of its own", Run: func() { ed.askPathToOpen("Open in a new window", ed.openBeside) }},
	)
}
