package ui

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/loomfile"
)

// journal writes every step down so that a crash loses nothing. Named files
// have theirs beside them; an untitled drawing has a copy of what it began with
// and its journal in the settings folder.
type journal struct {
	to     *loomfile.Journal
	base   string // copy of the beginning, for untitled drawings
	folder string
	begun  *schematic.Doc // what the first step starts from
	path   string
	stamp  loomfile.Stamp // of the file at path that holds begun
	dead   bool           // writing failed for good; the user was told
	// aside is set where the journal cannot be beside the file: it belongs to
	// another window or to a crash that the user has not decided on, the disk is
	// full, or the file is no longer the one begun with. The steps then go where
	// those of untitled drawings go.
	aside bool
}

// registerJournal makes the session tell the journal of every step.
func (ed *Editor) registerJournal() {
	j := &ed.file.journal
	if j.to == nil {
		j.folder, j.begun, j.path, j.stamp = ed.store.folder, ed.doc(), ed.file.path, ed.file.stamp
	}
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
const journalAside = "no journal can be written beside the file; new steps have one of their own, offered as an untitled drawing after a crash"

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
	j.aside, j.to = true, nil
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
	return j.to.Append(label, c)
}

// ready opens the journal with the first step.
func (j *journal) ready() (err error) {
	if j.to != nil {
		return nil
	}
	if j.path != "" && !j.aside {
		j.to, err = loomfile.NewJournalFor(j.path, j.stamp)
		return err
	}
	if err := os.MkdirAll(j.folder, 0o755); err != nil {
		return err
	}
	path := freeUntitled(j.folder, os.Getpid())
	if err := loomfile.Save(path, j.begun); err != nil {
		return err
	}
	j.base = path
	j.to, err = loomfile.NewJournal(path)
	return err
}

// saved ends the journal: what it holds is in the file now.
func (j *journal) saved() {
	j.end()
	*j = journal{folder: j.folder, path: j.path, aside: j.aside}
}

// start begins a journal for a file just saved as a snapshot; steps made while
// the file was being written are its first one.
func (j *journal) start(path string, stamp loomfile.Stamp, saved, now *schematic.Doc) {
	// Something in the way beside the file may be out of the way by now; if not,
	// the first step finds out.
	j.aside = j.aside && path == j.path && fileThere(loomfile.JournalPath(path))
	j.path, j.stamp, j.begun = path, stamp, saved
	if now != saved {
		if err := j.write("while saving", edit.Diff(saved, now), now); err != nil {
			j.dead = true
		}
	}
}

// end gives the journal up; nothing of it stays on disk.
func (j *journal) end() {
	if j.to != nil {
		j.to.Remove()
		j.to = nil
	}
	if j.base != "" {
		os.Remove(j.base)
		j.base = ""
	}
}

const (
	untitledHead = "untitled-"
	untitledTail = fileEnding
)

// untitledName names the copy of an untitled drawing by its process and, as one
// process may have several windows, a number.
func untitledName(pid, n int) string {
	return fmt.Sprintf("%s%d-%d%s", untitledHead, pid, n, untitledTail)
}

// freeUntitled returns the first such name that is not taken.
func freeUntitled(folder string, pid int) string {
	for n := 1; ; n++ {
		path := filepath.Join(folder, untitledName(pid, n))
		if !fileThere(path) && !fileThere(loomfile.JournalPath(path)) {
			return path
		}
	}
}

func fileThere(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// lostDrawings finds the untitled drawings that a crash left behind: those whose
// process no longer runs.
func lostDrawings(folder string) []string {
	if folder == "" {
		return nil
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	var lost []string
	for _, e := range entries {
		rest, isOurs := strings.CutPrefix(e.Name(), untitledHead)
		number, isBase := strings.CutSuffix(rest, untitledTail)
		number, _, _ = strings.Cut(number, "-")
		pid, err := strconv.Atoi(number)
		if !isOurs || !isBase || err != nil || running(pid) {
			continue
		}
		lost = append(lost, filepath.Join(folder, e.Name()))
	}
	return lost
}

// running reports whether a process with that number lives. Where that cannot
// be told it counts as running, so that nobody's journal is taken away.
func running(pid int) bool {
	if pid == os.Getpid() {
		return true
	}
	p, err := os.FindProcess(pid)
	if err != nil {
		return false
	}
	defer p.Release()
	if runtime.GOOS == "windows" {
		return true
	}
	err = p.Signal(syscall.Signal(0))
	return err == nil || errors.Is(err, syscall.EPERM)
}

// offerLost offers the untitled drawings that a crash left behind, and reports
// whether there is one.
func (ed *Editor) offerLost() bool {
	found := false
	for _, path := range lostDrawings(ed.store.folder) {
		doc, err := loomfile.Load(path, ed.lib)
		var rec *loomfile.Recovery
		if err == nil {
			rec, err = loomfile.Recover(path)
		}
		if err != nil {
			continue // not ours to throw away: another version of the program may read it
		}
		if rec == nil || len(rec.Pending(doc)) == 0 {
			os.Remove(path)
			os.Remove(loomfile.JournalPath(path))
			continue
		}
		ed.offerRecovery(rec, rec.Pending(doc), doc, openFile{journal: journal{base: path, folder: ed.store.folder}})
		found = true
	}
	return found
}

// offerRecovery asks whether the steps of a journal left behind shall be made
// again. It never applies them by itself.
func (ed *Editor) offerRecovery(rec *loomfile.Recovery, pending []string, doc *schematic.Doc, f openFile) {
	name := f.name()
	if f.path == "" {
		name = "a drawing without a file"
	}
	text := fmt.Sprintf("A journal of %s in %s was left behind, the last one %q. The program seems to have ended without saving, or the drawing is open in another window.",
		count(len(pending), "unsaved step"), name, pending[len(pending)-1])
	if _, held := rec.Held(doc); !held {
		text += " The file has changed since, so the steps may not fit."
	}
	if rec.Lost > 0 {
		text += fmt.Sprintf(" %s at the end could not be read.", count(rec.Lost, "line"))
	}
	ed.question("Unsaved work was found", text,
		answer{text: "Bring it back", main: true, deed: func() {
			if f.path == "" && (ed.file.path != "" || ed.sess.Modified()) {
				ed.newWindow("").recover(rec, doc, f) // this one is in use
				return
			}
			ed.unlessUnsaved("Bring back unsaved work", func() { ed.recover(rec, doc, f) })
		}},
		answer{text: "Give it up", deed: func() {
			if err := rec.Remove(); err != nil {
				ed.report(err)
			}
			f.journal.end()
		}},
		answer{text: "Decide later", deed: func() {
			if f.path == "" || f.path != ed.file.path {
				ed.status.tell("the unsaved work is kept and offered again at the next start")
				return
			}
			ed.file.journal.aside = true
			if ed.file.journal.folder == "" {
				ed.status.warn("the unsaved work is kept; new steps have no journal until then, save often")
				return
			}
			ed.status.tell("the unsaved work is kept and offered again; new steps have a journal of their own")
		}})
}

func (ed *Editor) recover(rec *loomfile.Recovery, doc *schematic.Doc, f openFile) {
	now, err := rec.Apply(doc)
	if err != nil {
		ed.reportAs("The unsaved work does not fit", err)
		return
	}
	to, err := rec.Continue()
	if err != nil {
		ed.status.warn(err.Error())
		f.journal.dead = true
	}
	f.journal.to, f.journal.folder, f.journal.path, f.journal.begun, f.journal.stamp = to, ed.store.folder, f.path, doc, f.stamp
	ed.take(now, f)
	ed.sess.MarkUnsaved()
	ed.status.refresh()
	ed.retitle()
	ed.menu.refresh()
}
