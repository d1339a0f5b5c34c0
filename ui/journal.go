package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/loomfile"
)

// journal writes every step down so that a crash loses nothing. Named files
// have theirs beside them; that of an untitled drawing is in the settings folder.
type journal struct {
	to     *loomfile.Journal
	folder string
	begun  *schematic.Doc // what the first step starts from
	path   string
	base   func() (loomfile.Base, error) // begun, packed once
	left   *loomfile.Recovery            // what was recovered from; the first step takes its place
	prior  *loomfile.Journal             // of the file before it was saved, likewise
	dead   bool                          // writing failed for good; the user was told
	// aside is set where the journal cannot be beside the file: it belongs to
	// another window or to a crash that the user has not decided on, the disk is
	// full or read-only, or the file is no longer the one begun with. The steps
	// then go where those of untitled drawings go.
	aside bool
}

// registerJournal makes the session tell the journal of every step.
func (ed *Editor) registerJournal() {
	j := &ed.file.journal
	j.folder, j.path = ed.store.folder, ed.file.path
	j.begin(ed.crew, ed.doc(), ed.file.stamp)
	sess := ed.sess
	sess.Journal = func(label string, c edit.Change) error {
		if ed.sess != sess {
			return nil
		}
		was := ed.file.journal.aside
		if err := ed.file.journal.write(label, c, sess.Doc()); err != nil {
			ed.status.warn("no recovery journal, save often: " + err.Error())
		} else if ed.file.journal.aside && !was {
			ed.status.warn(journalAside)
		}
		return nil // a step must not fail for want of a journal
	}
}

// journalAside is said when steps are journaled away from their file.
const journalAside = "no journal can be written beside the file; it is kept in the settings folder and offered with the file after a crash"

// begin says what the first step will start from. Packing it is too much work
// for the window, and no step has to wait for it that is not made at once.
func (j *journal) begin(c crew, d *schematic.Doc, stamp loomfile.Stamp) {
	path := j.path
	j.begun = d
	j.base = sync.OnceValues(func() (loomfile.Base, error) { return loomfile.NewBase(path, stamp, d) })
	pack := j.base
	c.spawn(func() { pack() })
}

// write journals a step that led to the document now.
func (j *journal) write(label string, c edit.Change, now *schematic.Doc) error {
	if j.dead || j.folder == "" && (j.path == "" || j.aside) {
		return nil
	}
	err := j.append(label, c)
	if err != nil && !j.aside && j.path != "" && j.folder != "" {
		return j.moveAside(label, now)
	}
	j.dead = err != nil
	return err
}

// moveAside begins a journal away from the file, with all that led from the
// beginning to now as its first step.
func (j *journal) moveAside(label string, now *schematic.Doc) error {
	if j.aside || j.path == "" || j.dead {
		return nil
	}
	if j.folder == "" {
		j.dead = true
		return errors.New("there is no folder for it")
	}
	old := j.to
	j.aside, j.to, j.prior = true, nil, nil
	j.letGo()
	if now != j.begun {
		if err := j.append(label, edit.Diff(j.begun, now)); err != nil {
			j.dead = true
			return err
		}
	}
	if old != nil {
		return old.Remove() // leaves alone what is not ours
	}
	return nil
}

func (j *journal) append(label string, c edit.Change) error {
	if err := j.ready(); err != nil {
		return err
	}
	err := j.to.Append(label, c)
	if err == nil {
		j.letGo() // its steps are in this one now
	}
	return err
}

// ready opens the journal with the first step.
func (j *journal) ready() error {
	if j.to != nil {
		return nil
	}
	base, err := j.base()
	switch {
	case err != nil:
		return err
	case j.left != nil:
		j.to = j.left.Replace(base)
	case j.prior != nil:
		j.to = j.prior.Next(base)
	case j.path != "" && !j.aside:
		j.to = loomfile.NewJournal(loomfile.JournalPath(j.path), base)
	default:
		if err := os.MkdirAll(j.folder, 0o755); err != nil {
			return err
		}
		j.to = loomfile.NewJournal(freeJournal(j.folder, os.Getpid()), base)
	}
	return nil
}

// letGo lets other windows have what was recovered from, if it is still there.
func (j *journal) letGo() {
	if j.left != nil {
		j.left.Close()
		j.left = nil
	}
}

// saved ends the journal, whose steps are in the file at path now, and begins
// the next one; steps made while the file was being written are its first one.
// Until that one is on disk the old journal stays, which holds them too.
func (j *journal) saved(c crew, path string, stamp loomfile.Stamp, saved, now *schematic.Doc) {
	old := *j
	// Something in the way beside the file may be out of the way by now; if not,
	// the first step finds out.
	aside := old.aside && path == old.path && fileThere(loomfile.JournalPath(path))
	*j = journal{folder: old.folder, path: path, aside: aside}
	j.begin(c, saved, stamp)
	if now != saved {
		if old.to != nil && path == old.path && !aside && !old.aside {
			j.prior = old.to
		}
		if err := j.write("while saving", edit.Diff(saved, now), now); err != nil {
			j.dead = true
		}
		j.prior = nil
	}
	if j.dead && old.to != nil {
		old.to.Close() // better than none
		return
	}
	old.end()
}

// end gives the journal up; nothing of it stays on disk.
func (j *journal) end() {
	if j.to != nil {
		j.to.Remove()
		j.to = nil
	}
	j.letGo()
}

// Journals in the settings folder are named after the process that writes them
// and, as one process may have several windows, a number.
const (
	apartHead = "unsaved-"
	apartTail = ".journal"
)

func apartName(pid, n int) string { return fmt.Sprintf("%s%d-%d%s", apartHead, pid, n, apartTail) }

// freeJournal returns the first such name that is not taken.
func freeJournal(folder string, pid int) string {
	for n := 1; ; n++ {
		if path := filepath.Join(folder, apartName(pid, n)); !fileThere(path) {
			return path
		}
	}
}

func fileThere(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}
