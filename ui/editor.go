package ui

import (
	"fmt"
	"time"

	"fyne.io/fyne/v2"

	"loomwright/schematic"
	"loomwright/schematic/catalog"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/ui/action"
	"loomwright/ui/tool"
	"loomwright/ui/view"
)

// Editor is one window with one document. All its methods belong to the
// window's goroutine.
type Editor struct {
	prog  *program
	app   fyne.App
	win   fyne.Window
	crew  crew
	now   func() time.Time
	store *settingsStore
	greet bool // opened without a file: the welcome is due
	lib   *schematic.Library

	sess   *edit.Session
	file   openFile
	saving *saving                      // nil when no save is under way
	sheet  schematic.ID                 // in sight
	seen   map[schematic.ID]view.Camera // where the others were left
	drawn  *schematic.Wire              // the wire drawn last, as it was when it was last there

	tools    tool.Machine
	preview  *schematic.Doc // what the edit in hand would make, or nil
	pictures pictures
	study    study
	compare  comparison

	actions   action.Set
	menu      *menuBar
	tips      *tips
	sheetView *sheetView
	strip     *strip
	tabs      *sheetTabs
	tray      *tray
	details   *details
	drawer    *drawer
	status    *statusLine
	frame     *frame
	boxes     []*box // the first is shown, the others wait
	pasted    pasted
	keyCatch  func(action.Key) // gets the next key while a command waits for its own
	menuAt    *geom.Point      // where the menu of the sheet was opened, while it is
}

// Options say how a window starts.
type Options struct {
	// Library is where part kinds come from; nil is the one that comes with
	// the program.
	Library *schematic.Library
	// Path is a file to open. Empty begins an empty drawing, or the first
	// example.
	Path    string
	Example bool
	// SettingsFolder keeps settings and recovery journals; "-" keeps nothing,
	// empty is the folder under the user's configuration.
	SettingsFolder string
	// Frames shows how long each picture of the drawing took to paint.
	Frames bool
	// Ended, when not nil, is called when the last window is given up; by then
	// everything is on disk.
	Ended func()
}

// New opens an editor window. It is shown by [Editor.Show]. The error says that
// the program's own part kinds cannot be read.
func New(app fyne.App, o Options) (*Editor, error) {
	if o.Library == nil {
		lib, err := catalog.Default()
		if err != nil {
			return nil, fmt.Errorf("part kinds: %w", err)
		}
		o.Library = lib
	}
	folder := o.SettingsFolder
	switch folder {
	case "":
		folder = settingsFolder()
	case "-":
		folder = ""
	}
	p, trouble := newProgram(app, o.Library, folder, liveCrew(), time.Now)
	p.frames, p.ended = o.Frames, o.Ended
	ed := newEditor(p, o)
	if trouble != nil {
		ed.report(trouble)
	}
	return ed, nil
}

func newEditor(p *program, o Options) *Editor {
	ed := &Editor{prog: p, app: p.app, crew: p.crew, now: p.now, store: p.store, lib: p.lib, seen: map[schematic.ID]view.Camera{}}
	first := len(p.windows) == 0
	p.windows = append(p.windows, ed)
	ed.pictures.job.crew = p.crew
	ed.study.job.crew, ed.study.after.job.crew = p.crew, p.crew
	if first {
		p.startLook()
	}
	ed.win = ed.app.NewWindow(appName)
	ed.begin(emptyDocument(p.lib), openFile{})
	ed.build()
	ed.start(o, first)
	return ed
}

// Window returns the editor's window.
func (ed *Editor) Window() fyne.Window { return ed.win }

// Show shows the window and, on the first start, the caution.
func (ed *Editor) Show() {
	ed.win.Show()
	ed.win.Canvas().Focus(ed.sheetView)
	if !ed.store.CautionRead {
		ed.showCaution()
	}
	if ed.greet && !ed.store.SkipWelcome && len(ed.boxes) <= 1 {
		ed.showWelcome()
	}
}

// doc returns the committed document.
func (ed *Editor) doc() *schematic.Doc { return ed.sess.Doc() }

// shownDoc returns the document as drawn: with the edit in hand, if any.
func (ed *Editor) shownDoc() *schematic.Doc {
	if ed.preview != nil {
		return ed.preview
	}
	return ed.doc()
}

// begin starts a session on a document.
func (ed *Editor) begin(d *schematic.Doc, f openFile) {
	ed.file.close()
	ed.endComparison()
	ed.sess = edit.NewSession(d, ed.now, nil)
	ed.file = f
	ed.preview = nil
	ed.seen = map[schematic.ID]view.Camera{}
	ed.drawn = nil
	ed.sheet = schematic.ID{}
	if s := d.Sheets(); len(s) > 0 {
		ed.sheet = s[0].ID
	}
	ed.sess.Watch(ed.changed)
}

// changed follows every change of the document.
func (ed *Editor) changed(was, d *schematic.Doc, _ edit.Change) {
	ed.preview = nil
	if ed.drawn != nil {
		if w := d.Wire(ed.drawn.ID); w != nil {
			ed.drawn = w // with the size it has been given since
		}
	}
	if from, to := was.Sheet(ed.sheet), d.Sheet(ed.sheet); from != nil && to != nil && from.Area() != to.Area() && ed.sheetView.whole {
		ed.sheetView.fit() // all of it was in sight, and is with other paper too
	}
	if d.Sheet(ed.sheet) == nil {
		ed.sheet = schematic.ID{}
		if s := d.Sheets(); len(s) > 0 {
			ed.sheet = s[0].ID
		}
		ed.sheetView.fitted = false
		ed.sheetView.fit()
	}
	if near := ed.sheetView.over.near; near.Ok && d.Get(near.Key) == nil {
		ed.sheetView.showNear(tool.Hit{})
	}
	ed.perform(ed.tools.Handle(tool.DocChanged{}, ed.sheetView.scene()))
	ed.follow()
}

// follow brings everything on screen up to date with document and selection.
func (ed *Editor) follow() {
	ed.study.drop(ed.doc())
	ed.ask()
	ed.sheetView.repaint()
	ed.sheetView.refreshOverlay()
	ed.tabs.refresh()
	ed.details.refresh()
	ed.drawer.follow()
	ed.tray.followKinds()
	ed.followComparison()
	ed.strip.refresh()
	ed.status.refresh()
	ed.retitle()
	ed.menu.refresh()
}

// choose changes the selection and what shows it.
func (ed *Editor) choose(keys ...schematic.Key) {
	ed.sess.Select(keys...)
	ed.chosen()
}

// chosen follows a changed selection.
func (ed *Editor) chosen() {
	ed.sheetView.refreshOverlay()
	ed.details.refresh()
	ed.drawer.selectionChanged()
	ed.strip.followSelection()
	ed.status.refresh()
	ed.menu.refresh()
}

// show brings a sheet in sight.
func (ed *Editor) show(sheet schematic.ID) {
	if sheet == ed.sheet || ed.doc().Sheet(sheet) == nil {
		return
	}
	v := ed.sheetView
	ed.perform(ed.tools.Leave(v.scene()))
	ed.seen[ed.sheet] = v.cam
	ed.sheet = sheet
	if cam, ok := ed.seen[sheet]; ok {
		v.cam = cam.Resize(v.cam.W, v.cam.H)
	} else {
		v.fitted = false
		v.fit()
	}
	v.repaint()
	ed.tabs.refresh()
	ed.chosen()
	v.underPointer() // what is in hand comes along
}

// jump brings items in sight and selects them.
func (ed *Editor) jump(keys ...schematic.Key) {
	var live []schematic.Key
	for _, k := range keys {
		if ed.doc().Get(k) != nil {
			live = append(live, k)
		}
	}
	if len(live) == 0 {
		return
	}
	if p, ok := view.PlaceOf(ed.doc(), live[0], ed.sheet); ok {
		ed.show(p.Sheet)
		ed.sheetView.bring(view.Bounds(ed.doc(), live, ed.sheet))
	}
	ed.choose(live...)
}

// bringItem brings one item in sight and leaves the selection as it is.
func (ed *Editor) bringItem(k schematic.Key) {
	if p, ok := view.PlaceOf(ed.doc(), k, ed.sheet); ok {
		ed.show(p.Sheet)
		ed.sheetView.bring(p.Area)
	}
}

// do makes an edit and reports what stood in its way.
func (ed *Editor) do(label string, f func(*edit.Tx) error) bool {
	before := ed.doc()
	if err := ed.sess.Do(label, f); err != nil {
		ed.report(err)
		return false
	}
	ed.edited(before)
	return true
}

// try makes an edit and returns what stood in its way, in the words of the
// edit alone: the field it is shown at says the rest.
func (ed *Editor) try(label string, f func(*edit.Tx) error) error {
	var cause error
	err := ed.sess.Do(label, func(tx *edit.Tx) error {
		cause = f(tx)
		return cause
	})
	if cause != nil {
		return cause
	}
	return err
}

// edited follows an edit that may have changed the selection too. Where it has
// changed the document, nearly all is up to date with both: see [Editor.changed].
func (ed *Editor) edited(before *schematic.Doc) {
	if ed.doc() == before {
		ed.chosen()
		return
	}
	ed.drawer.selectionChanged()
}
