package ui

import (
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/loomfile"
	"loomwright/ui/tool"
)

// fileEnding is how harness files end.
const fileEnding = ".loom.json"

// openFile is where the document comes from.
type openFile struct {
	path    string // "" for an untitled drawing
	example bool
	journal journal
}

func (f *openFile) close() { f.journal.end() }

// name is what the window's title calls the document.
func (f *openFile) name() string {
	if f.path == "" {
		return "untitled"
	}
	return filepath.Base(f.path)
}

// emptyDocument is what New makes: one A3 sheet and a state to compute.
func emptyDocument(lib *schematic.Library) *schematic.Doc {
	tx := edit.Begin(schematic.New(lib), nil)
	if err := edit.AddSheet(tx, "Sheet 1"); err != nil {
		panic(err) // an empty document always takes a sheet
	}
	if err := edit.AddState(tx, "Parked", schematic.EngineOff); err != nil {
		panic(err)
	}
	if err := edit.AddState(tx, "Running", schematic.EngineRunning); err != nil {
		panic(err)
	}
	return tx.Doc()
}

// start opens what the command line asks for, else what a crash left behind,
// else the example.
func (ed *Editor) start(o Options) {
	ed.registerJournal()
	switch {
	case o.Path != "":
		ed.open(o.Path)
		ed.offerLost()
	case ed.offerLost():
	case o.Example:
		ed.openExample()
		return
	}
	ed.freshView()
}

// example is a small harness with faults on purpose.
//
//go:embed example/fan-and-lamp.loom.json
var example []byte

// openExample shows the example as an untitled drawing.
func (ed *Editor) openExample() {
	doc, err := loomfile.Decode(example, ed.lib)
	if err != nil {
		ed.reportAs("The example cannot be shown with these part kinds", err)
		ed.freshView()
		return
	}
	ed.take(doc, openFile{example: true})
}

// take shows another document.
func (ed *Editor) take(d *schematic.Doc, f openFile) {
	ed.sendTool(tool.Cancel{})
	ed.begin(d, f)
	ed.registerJournal()
	ed.freshView()
}

// freshView shows a document that has just begun.
func (ed *Editor) freshView() {
	ed.study.job.drop()
	ed.study.have, ed.study.chain, ed.study.mark, ed.study.drawn = nil, nil, tool.Hit{}, nil
	ed.study.state = ed.firstState()
	ed.useTool(selectTool)
	ed.sheetView.fitted = false
	ed.sheetView.fit()
	ed.follow()
	ed.drawer.studied()
}

// retitle puts file name and unsaved mark into the window's title.
func (ed *Editor) retitle() {
	mark := ""
	if ed.sess.Modified() {
		mark = "*"
	}
	name := ed.file.name()
	if ed.file.example {
		name = "example"
	}
	if title := name + mark + " – " + appName; title != ed.win.Title() {
		ed.win.SetTitle(title)
	}
}

// newDrawing begins an empty drawing after asking for unsaved changes.
func (ed *Editor) newDrawing() {
	ed.unlessUnsaved("New drawing", func() {
		ed.take(emptyDocument(ed.lib), openFile{})
		ed.menu.refresh()
	})
}

// askThenOpen opens a file after asking for unsaved changes.
func (ed *Editor) askThenOpen(path string) {
	ed.unlessUnsaved("Open "+filepath.Base(path), func() { ed.open(path) })
}

// open reads a file beside the window and shows it.
func (ed *Editor) open(path string) {
	if abs, err := filepath.Abs(path); err == nil {
		path = abs
	}
	type loaded struct {
		doc *schematic.Doc
		rec *loomfile.Recovery
		err error
	}
	busy := ed.busy("Opening " + filepath.Base(path))
	ed.crew.spawn(func() {
		var l loaded
		l.doc, l.err = loomfile.Load(path, ed.lib)
		if l.err == nil {
			l.rec, _ = loomfile.Recover(path) // an unreadable journal must not keep the file shut
		}
		ed.crew.post(func() {
			busy()
			if l.err != nil {
				if errors.Is(l.err, fs.ErrNotExist) {
					ed.store.forget(path)
					ed.keepSettings()
				}
				ed.reportAs("Could not open "+filepath.Base(path), l.err)
				return
			}
			ed.store.remember(path)
			ed.keepSettings()
			ed.take(l.doc, openFile{path: path})
			if l.rec != nil && len(l.rec.Labels) > 0 {
				ed.offerRecovery(l.rec, l.doc, openFile{path: path})
			}
		})
	})
}

// save writes the document to its file, or asks for one; then, when it is on
// disk, goes on with then, which may be nil.
func (ed *Editor) save(then func()) {
	if ed.file.path == "" {
		ed.saveAs(then)
		return
	}
	ed.saveTo(ed.file.path, then)
}

// saveTo writes the snapshot of this moment beside the window; editing goes on.
func (ed *Editor) saveTo(path string, then func()) {
	doc, sess := ed.doc(), ed.sess
	busy := ed.busy("Saving " + filepath.Base(path))
	ed.crew.spawn(func() {
		err := loomfile.Save(path, doc)
		ed.crew.post(func() {
			busy()
			if err != nil {
				ed.reportAs("Not saved", err)
				return
			}
			if ed.sess != sess {
				return // another document came meanwhile
			}
			ed.sess.MarkSaved(doc)
			ed.file.journal.saved()
			ed.file.path, ed.file.example = path, false
			ed.file.journal.start(path, doc, ed.sess.Doc())
			ed.store.remember(path)
			ed.keepSettings()
			ed.status.refresh()
			ed.retitle()
			ed.menu.refresh()
			ed.status.tell("saved " + path)
			if then != nil {
				then()
			}
		})
	})
}

// harnessPath gives a path the usual ending when it has none.
func harnessPath(path string) string {
	if filepath.Ext(path) == "" {
		return path + fileEnding
	}
	return path
}

// unlessUnsaved asks what shall become of unsaved changes before going on.
func (ed *Editor) unlessUnsaved(title string, goOn func()) {
	if !ed.sess.Modified() {
		goOn()
		return
	}
	ed.question(title, fmt.Sprintf("The drawing %q has changes that are not saved.", ed.file.name()),
		answer{text: "Save first", main: true, deed: func() { ed.save(goOn) }},
		answer{text: "Give the changes up", deed: goOn},
		answer{text: "Go back"})
}

// close is what the window's close button and Quit do.
func (ed *Editor) close() {
	ed.flushField()
	ed.unlessUnsaved("Close the drawing", func() {
		size := ed.win.Canvas().Size()
		ed.store.Width, ed.store.Height = size.Width, size.Height
		ed.keepSettings()
		ed.file.close()
		ed.win.Close()
	})
}

// flushField commits what is being typed, so that it is not lost.
func (ed *Editor) flushField() {
	if e, ok := ed.win.Canvas().Focused().(*entry); ok {
		e.flush()
	}
}

// keepSettings writes the settings; that they could not be kept is no reason
// to stop working.
func (ed *Editor) keepSettings() {
	if err := ed.store.save(); err != nil {
		ed.status.warn(err.Error())
	}
}

// inFolder returns the folder file dialogs open in.
func (ed *Editor) inFolder() string {
	if ed.file.path != "" {
		return filepath.Dir(ed.file.path)
	}
	if info, err := os.Stat(ed.store.Folder); err == nil && info.IsDir() {
		return ed.store.Folder
	}
	if home, err := os.UserHomeDir(); err == nil {
		return home
	}
	return "."
}

// expandHome lets a typed path begin with ~.
func expandHome(path string) string {
	if rest, ok := strings.CutPrefix(path, "~"); ok && (rest == "" || rest[0] == '/' || rest[0] == filepath.Separator) {
		if home, err := os.UserHomeDir(); err == nil {
			return filepath.Join(home, rest)
		}
	}
	return path
}
