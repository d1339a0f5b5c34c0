package ui

import (
	"fmt"
	"path/filepath"
	"reflect"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/loomfile"
)

// lookAtDisk asks what to do when another program has written the file of this
// window. It is called when the window comes to the front.
func (ed *Editor) lookAtDisk() {
	f := ed.file
	if f.path == "" || ed.saving != nil {
		return
	}
	sess := ed.sess
	ed.crew.spawn(func() {
		now, err := f.stamp.Now(f.path)
		ed.crew.post(func() {
			stale := ed.sess != sess || ed.saving != nil || !ed.file.stamp.Same(f.stamp) || ed.file.path != f.path
			if err != nil || stale || now.Same(f.stamp) || !now.None() && now.Same(ed.file.noticed) {
				return
			}
			ed.file.noticed = now
			if now.None() {
				ed.file.stamp = now
				ed.sess.MarkUnsaved()
				ed.status.refresh()
				ed.retitle()
				ed.status.warn(f.path + " is no longer there; saving writes it again")
				return
			}
			ed.fileChanged(f.path)
		})
	})
}

// fileChanged asks which of two drawings counts, the one on disk or the one in
// the window.
func (ed *Editor) fileChanged(path string) {
	text := fmt.Sprintf("Another program has written %s since it was opened or saved here.", filepath.Base(path))
	anew := "Load it anew"
	if ed.sess.Modified() {
		text += " The drawing in this window has changes of its own. Loading is a step that Undo takes back."
		anew = "Load it, mine into Undo"
	}
	ed.question("The file has changed", text,
		answer{text: anew, main: !ed.sess.Modified(), deed: func() { ed.reload(path) }},
		answer{text: "Compare", deed: func() { ed.compareFile(path, "the file on disk") }},
		answer{text: "Save mine as…", deed: func() { ed.saveAs(nil) }},
		answer{text: "Keep mine", main: ed.sess.Modified(), deed: func() { ed.keepMine() }})
}

// keepMine goes on with the drawing in the window. What it began with is no
// longer on disk, so the journal gets a copy of it.
func (ed *Editor) keepMine() {
	if err := ed.file.journal.moveAside("keep mine", ed.doc()); err != nil {
		ed.status.warn("no recovery journal, save often: " + err.Error())
	}
	ed.sess.MarkUnsaved()
	ed.status.refresh()
	ed.retitle()
}

// reload takes what is on disk, as a step that can be undone.
func (ed *Editor) reload(path string) {
	sess := ed.sess
	busy := ed.busy("Loading " + filepath.Base(path))
	ed.crew.spawn(func() {
		d, stamp, err := loomfile.LoadStamped(path, ed.lib)
		ed.crew.post(func() {
			busy()
			switch {
			case ed.sess != sess || ed.file.path != path:
				return
			case err != nil:
				ed.reportAs("Could not load "+filepath.Base(path), err)
				return
			}
			if !ed.become("load "+filepath.Base(path)+" anew", d) {
				return
			}
			ed.onDisk(path, stamp, ed.doc())
			ed.status.tell("loaded " + path + " anew; Undo brings back what was here")
		})
	})
}

// become makes the document equal to another one, in one step.
func (ed *Editor) become(label string, d *schematic.Doc) bool {
	ed.flushField()
	if !reflect.DeepEqual(d.Extra(), ed.doc().Extra()) {
		ed.status.warn("fields that this version of the program does not know stay as they were here")
	}
	change := edit.Diff(ed.doc(), d)
	return ed.do(label, func(tx *edit.Tx) error {
		for _, k := range change.Keys() {
			if after := change[k].After; after != nil {
				tx.Put(after)
			} else {
				tx.Delete(k)
			}
		}
		return nil
	})
}

// onDisk notes that a snapshot of this session is what the file holds.
func (ed *Editor) onDisk(path string, stamp loomfile.Stamp, saved *schematic.Doc) {
	ed.sess.MarkSaved(saved)
	ed.file.path, ed.file.example, ed.file.stamp, ed.file.noticed = path, false, stamp, loomfile.Stamp{}
	ed.file.journal.saved(ed.crew, path, stamp, saved, ed.sess.Doc())
	ed.store.remember(path)
	ed.keepSettings()
	ed.status.refresh()
	ed.retitle()
	ed.prog.each(func(o *Editor) { o.menu.refresh() })
}

// notSaved says why a save went wrong and what can be done; nothing is lost
// meanwhile.
func (ed *Editor) notSaved(err error, again, then func()) {
	text := sentence(err.Error()) + ".\n\nYour work is still here"
	if j := &ed.file.journal; j.to != nil && !j.dead {
		text += ", and every step of it is in the recovery journal"
	}
	ed.question("Not saved", text+".",
		answer{text: "Try again", main: true, deed: again},
		answer{text: "Save elsewhere…", deed: func() { ed.saveAs(then) }},
		answer{text: "Go back"})
}
