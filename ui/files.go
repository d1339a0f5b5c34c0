package ui

import (
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
	stamp   loomfile.Stamp // of the content opened or saved last
	noticed loomfile.Stamp // of a content of others that the user was asked about
}

func (f *openFile) close() { f.journal.end() }

// name is what the window's title calls the document.
func (f *openFile) name() string {
	if f.path == "" {
		return "untitled"
	}
	return filepath.Base(f.path)
}

// emptyDocument is what New makes: one A4 sheet, on which parts can be read
// with the whole of it in sight, and states to compute.
func emptyDocument(lib *schematic.Library) *schematic.Doc {
	tx := edit.Begin(schematic.New(lib), nil)
	if err := edit.AddSheet(tx, "Sheet 1"); err != nil {
		panic(err) // an empty document always takes a sheet
	}
	if err := edit.SetSheet(tx, tx.Doc().Sheets()[0].ID, func(s *schematic.Sheet) { s.Width, s.Height = 2970, 2100 }); err != nil {
		panic(err)
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
func (ed *Editor) start(o Options, first bool) {
	ed.registerJournal()
	switch {
	case o.Path != "":
		ed.open(o.Path)
		ed.offerLost(absolute(o.Path))
	case first && ed.offerLost(""): // its boxes come instead of the welcome
	case o.Example:
		ed.takeSample(sampleHarnesses()[0])
		ed.greet = true
		return
	}
	ed.freshView()
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
	ed.study.after.drop()
	ed.study.have, ed.study.chain, ed.study.mark, ed.study.way, ed.study.drawn = nil, nil, tool.Hit{}, nil, nil
	ed.drawer.worst.forget()
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

func absolute(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		return abs
	}
	return path
}

// open reads a file beside the window and shows it.
func (ed *Editor) open(path string) {
	path = absolute(path)
	if other := ed.prog.at(path); other != nil && other != ed {
		ed.status.tell(filepath.Base(path) + " is open in the other window")
		other.win.RequestFocus()
		return
	}
	type loaded struct {
		doc   *schematic.Doc
		stamp loomfile.Stamp
		busy  bool // another window works on it
		left  []*lost
		err   error
	}
	busy := ed.busy("Opening " + filepath.Base(path))
	ed.crew.spawn(func() {
		var l loaded
		l.doc, l.stamp, l.err = loomfile.LoadStamped(path, ed.lib)
		left := apart(ed.store.folder, path)
		if rec, _ := loomfile.Recover(path); rec != nil { // an unreadable journal must not keep the file shut
			if rec.InUse {
				l.busy = true
				rec.Close()
			} else {
				left = append([]*loomfile.Recovery{rec}, left...)
			}
		}
		for _, rec := range left {
			if f, err := find(rec, l.doc, l.stamp, l.err, ed.lib); err == nil {
				l.left = append(l.left, f)
			}
		}
		ed.crew.post(func() {
			busy()
			if l.err != nil {
				if errors.Is(l.err, fs.ErrNotExist) {
					ed.store.forget(path)
					ed.keepSettings()
				}
				ed.reportAs("Could not open "+filepath.Base(path), l.err)
			} else {
				ed.store.remember(path)
				ed.keepSettings()
				ed.take(l.doc, openFile{path: path, stamp: l.stamp})
			}
			if l.busy {
				ed.question("Open in another window", fmt.Sprintf("%s has unsaved steps in another window of the program. What is saved there is noticed here, and the other way round: nothing is replaced without a question.", filepath.Base(path)),
					answer{text: "Close", main: true})
			}
			for _, f := range l.left {
				ed.offer(f)
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
	ed.saveTo(ed.file.path, false, then)
}

// saveTo writes the snapshot of this moment beside the window; editing goes on.
// A file that another program wrote meanwhile is only replaced when that is
// what the user wants.
func (ed *Editor) saveTo(path string, replace bool, then func()) {
	if ed.saving != nil { // one at a time; the last wish counts
		ed.saving.next = func() { ed.saveTo(path, replace, then) }
		return
	}
	type result struct {
		loomfile.Saved
		others bool
		err    error
	}
	doc, sess, stamp := ed.doc(), ed.sess, ed.file.stamp
	ed.saving = &saving{}
	busy := ed.busy("Saving " + filepath.Base(path))
	ed.crew.spawn(func() {
		var r result
		if now, err := stamp.Now(path); !replace && err == nil && !now.None() && !now.Same(stamp) {
			r.others = true
		} else {
			r.Saved, r.err = loomfile.Saver{Keep: loomfile.KeepVersions}.Save(path, doc)
		}
		ed.crew.post(func() {
			busy()
			next := ed.saving.next
			ed.saving = nil
			switch {
			case ed.sess != sess:
				return // another document came meanwhile
			case r.others:
				ed.replaceOthers(path, then)
				return
			case r.err != nil:
				ed.notSaved(r.err, func() { ed.saveTo(path, replace, then) }, then)
				return
			}
			ed.onDisk(path, r.Stamp, doc)
			if r.NotKept != nil {
				ed.status.warn("saved, but " + r.NotKept.Error())
			} else {
				ed.status.tell("saved " + path)
			}
			if then != nil {
				then()
			}
			if next != nil {
				next()
			}
		})
	})
}

// saving is a save under way.
type saving struct {
	next func() // what to do after it, or nil
}

// replaceOthers asks before a file is replaced that another program wrote.
func (ed *Editor) replaceOthers(path string, then func()) {
	ed.question("Replace the file of another?", fmt.Sprintf("Another program has written %s since it was opened or saved here. What is replaced stays among the earlier versions.", filepath.Base(path)),
		answer{text: "Replace it with mine", deed: func() { ed.saveTo(path, true, then) }},
		answer{text: "Compare", deed: func() { ed.compareFile(path, "the file on disk") }},
		answer{text: "Save mine as…", main: true, deed: func() { ed.saveAs(then) }},
		answer{text: "Go back"})
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
		ed.drawer.worst.halt()
		ed.file.close()
		ed.prog.forget(ed)
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
	ed.frame.dragged()
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
