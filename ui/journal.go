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
	dead   bool // writing failed once; the user was told
	// aside is set where the journal beside the file belongs to somebody else:
	// another window, or a crash that the user has not decided on. The steps
	// then go where those of untitled drawings go.
	aside bool
}

// registerJournal makes the session tell the journal of every step.
func (ed *Editor) registerJournal() {
	j := &ed.file.journal
	if j.to == nil {
		j.folder, j.begun, j.path = ed.store.folder, ed.doc(), ed.file.path
	}
	sess := ed.sess
	sess.Journal = func(label string, c edit.Change) error {
		if ed.sess != sess {
			return nil
		}
		was := ed.file.journal.aside
		if err := ed.file.journal.write(label, c); err != nil {
			ed.status.warn("no recovery journal, save often: " + err.Error())
		} else if ed.file.journal.aside && !was {
			ed.status.warn(journalAside)
		}
		return nil // a step must not fail for want of a journal
	}
}

// journalAside is said when steps are journaled away from their file.
const journalAside = "the journal beside the file is left alone; new steps have one of their own, offered as an untitled drawing after a crash"

func (j *journal) write(label string, c edit.Change) error {
	if j.dead || j.folder == "" && (j.path == "" || j.aside) {
		return nil
	}
	first := j.to == nil
	err := j.append(label, c)
	if err != nil && first && !j.aside && j.path != "" && j.folder != "" {
		j.aside, j.to = true, nil
		err = j.append(label, c)
	}
	j.dead = err != nil
	return err
}

func (j *journal) append(label string, c edit.Change) error {
	if err := j.ready(); err != nil {
		return err
	}
	return j.to.Append(label, c)
}

// ready opens the journal with the first step.
func (j *journal) ready() error {
	if j.to != nil {
		return nil
	}
	path := j.path
	if path == "" || j.aside {
		path = filepath.Join(j.folder, untitledName(os.Getpid()))
		if err := os.MkdirAll(j.folder, 0o755); err != nil {
			return err
		}
		if err := loomfile.Save(path, j.begun); err != nil {
			return err
		}
		j.base = path
	}
	to, err := loomfile.NewJournal(path)
	if err != nil {
		return err
	}
	j.to = to
	return nil
}

// saved ends the journal: what it holds is in the file now.
func (j *journal) saved() {
	j.end()
	*j = journal{folder: j.folder, path: j.path, aside: j.aside}
}

// start begins a journal for a file just saved as a snapshot; steps made while
// the file was being written are its first one.
func (j *journal) start(path string, saved, now *schematic.Doc) {
	j.aside = j.aside && path == j.path
	j.path, j.begun = path, saved
	if now != saved {
		if err := j.write("while saving", edit.Diff(saved, now)); err != nil {
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

func untitledName(pid int) string { return untitledHead + strconv.Itoa(pid) + untitledTail }

// lostDrawing finds an untitled drawing that a crash left behind: one whose
// process no longer runs.
func lostDrawing(folder string) (path string, ok bool) {
	if folder == "" {
		return "", false
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return "", false
	}
	for _, e := range entries {
		rest, isOurs := strings.CutPrefix(e.Name(), untitledHead)
		number, isBase := strings.CutSuffix(rest, untitledTail)
		pid, err := strconv.Atoi(number)
		if !isOurs || !isBase || err != nil || running(pid) {
			continue
		}
		return filepath.Join(folder, e.Name()), true
	}
	return "", false
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

// offerLost offers an untitled drawing that a crash left behind, and reports
// whether there is one.
func (ed *Editor) offerLost() bool {
	path, ok := lostDrawing(ed.store.folder)
	if !ok {
		return false
	}
	doc, err := loomfile.Load(path, ed.lib)
	var rec *loomfile.Recovery
	if err == nil {
		rec, err = loomfile.Recover(path)
	}
	if err != nil || rec == nil || len(rec.Labels) == 0 {
		os.Remove(path)
		os.Remove(loomfile.JournalPath(path))
		return false
	}
	ed.offerRecovery(rec, doc, openFile{journal: journal{base: path, folder: ed.store.folder}})
	return true
}

// offerRecovery asks whether the steps of a journal left behind shall be made
// again. It never applies them by itself.
func (ed *Editor) offerRecovery(rec *loomfile.Recovery, doc *schematic.Doc, f openFile) {
	name := f.name()
	if f.path == "" {
		name = "a drawing without a file"
	}
	text := fmt.Sprintf("A journal of %s in %s was left behind, the last one %q. The program seems to have ended without saving, or the drawing is open in another window.",
		count(len(rec.Labels), "unsaved step"), name, rec.Labels[len(rec.Labels)-1])
	if !rec.Fits {
		text += " The file has changed since, so the steps may not fit."
	}
	if rec.Lost > 0 {
		text += fmt.Sprintf(" %s at the end could not be read.", count(rec.Lost, "line"))
	}
	ed.question("Unsaved work was found", text,
		answer{text: "Bring it back", main: true, deed: func() {
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
	f.journal.to, f.journal.folder, f.journal.path, f.journal.begun = to, ed.store.folder, f.path, doc
	ed.take(now, f)
	ed.sess.MarkUnsaved()
	ed.status.refresh()
	ed.retitle()
	ed.menu.refresh()
}
