package ui

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"syscall"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/loomfile"
)

// lost is unsaved work that a crash left behind.
type lost struct {
	rec     *loomfile.Recovery
	out     loomfile.Outcome
	now     *schematic.Doc // of the file; nil when there is none that can be read
	trouble error          // why the file cannot be read
	stamp   loomfile.Stamp // of the file now, as far as it can be told
	old     string         // copy of an untitled drawing that an older version of the program kept
}

// find replays a journal on what its file holds now. It is called beside the window.
func find(rec *loomfile.Recovery, now *schematic.Doc, stamp loomfile.Stamp, trouble error, lib *schematic.Library) (*lost, error) {
	f := &lost{rec: rec, now: now, stamp: stamp, trouble: trouble}
	switch {
	case now != nil || rec.Path == "":
	case errors.Is(trouble, fs.ErrNotExist):
		f.stamp = loomfile.Stamp{}
	default:
		f.stamp = rec.Stamp() // so that saving asks before it replaces what is there
	}
	out, err := rec.Replay(now, lib)
	if err != nil {
		rec.Close()
		return nil, err
	}
	f.out = out
	return f, nil
}

// lostJournals lists the journals in the settings folder that may have been left
// behind: of untitled drawings, and of files that can have none beside them.
func lostJournals(folder string) (paths []string) {
	for _, name := range namesIn(folder) {
		if strings.HasPrefix(name, apartHead) && strings.HasSuffix(name, apartTail) {
			paths = append(paths, filepath.Join(folder, name))
		}
	}
	return paths
}

func namesIn(folder string) (names []string) {
	if folder == "" {
		return nil
	}
	entries, err := os.ReadDir(folder)
	if err != nil {
		return nil
	}
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names
}

// apart returns what was left behind in the settings folder and belongs to the
// file at path; for "" everything there.
func apart(folder, path string) (all []*loomfile.Recovery) {
	for _, at := range lostJournals(folder) {
		rec, err := loomfile.RecoverFrom(at)
		switch {
		case rec == nil || err != nil: // not ours to throw away: another version of the program may read it
		case rec.InUse || !loomfile.CanHold && running(ownerOf(at, apartHead, apartTail)), path != "" && rec.Path != path:
			rec.Close()
		default:
			all = append(all, rec)
		}
	}
	return all
}

// Older versions of the program kept a copy of an untitled drawing beside its
// journal.
const (
	untitledHead = "untitled-"
	untitledTail = fileEnding
)

// lostUntitled lists such copies whose process no longer runs.
func lostUntitled(folder string) (paths []string) {
	for _, name := range namesIn(folder) {
		if strings.HasPrefix(name, untitledHead) && strings.HasSuffix(name, untitledTail) && !running(ownerOf(name, untitledHead, untitledTail)) {
			paths = append(paths, filepath.Join(folder, name))
		}
	}
	return paths
}

// ownerOf returns the number of the process that a file is named after, 0 for
// none.
func ownerOf(path, head, tail string) int {
	name := strings.TrimSuffix(strings.TrimPrefix(filepath.Base(path), head), tail)
	number, _, _ := strings.Cut(name, "-")
	pid, _ := strconv.Atoi(number)
	return pid
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

// offerLost offers what a crash left behind in the settings folder, but what
// belongs to a file that is being opened. It reports whether there is something.
func (ed *Editor) offerLost(opening string) bool {
	left := apart(ed.store.folder, "")
	var olds []string
	for _, path := range lostUntitled(ed.store.folder) {
		rec, err := loomfile.Recover(path)
		if rec == nil || err != nil {
			continue
		}
		rec.Path = ""
		left, olds = append(left, rec), append(olds, path)
	}
	some := false
	for i, rec := range left {
		if opening != "" && rec.Path == opening {
			rec.Close()
			continue
		}
		some = true
		old := ""
		if first := len(left) - len(olds); i >= first {
			old = olds[i-first]
		}
		ed.crew.spawn(func() {
			from := rec.Path
			if old != "" {
				from = old
			}
			var now *schematic.Doc
			var stamp loomfile.Stamp
			var trouble error
			if from != "" {
				now, stamp, trouble = loomfile.LoadStamped(from, ed.lib)
			}
			f, err := find(rec, now, stamp, trouble, ed.lib)
			ed.crew.post(func() {
				if err != nil {
					return // kept: another version of the program may read it
				}
				f.old = old
				ed.offer(f)
			})
		})
	}
	return some
}

// name is how people call the drawing.
func (f *lost) name() string {
	if f.rec.Path == "" {
		return "a drawing without a file"
	}
	return filepath.Base(f.rec.Path)
}

// drop removes what holds nothing, or is given up.
func (f *lost) drop() error {
	if f.old != "" {
		os.Remove(f.old)
	}
	return f.rec.Remove()
}

// text says what was found.
func (f *lost) text() string {
	steps := f.out.Steps
	text := fmt.Sprintf("A journal of %s in %s was left behind, the last one %q. The program seems to have ended without saving.",
		count(len(steps), "unsaved step"), f.name(), steps[len(steps)-1])
	switch {
	case f.rec.Path != "" && errors.Is(f.trouble, fs.ErrNotExist):
		text += " The file " + f.rec.Path + " is no longer there: the journal holds the whole drawing, and saving writes the file again."
	case f.trouble != nil:
		text += " The file itself cannot be read any more: the journal holds the whole drawing."
	case f.out.Older:
		text += " Another program has changed the file since. Bringing the work back puts the drawing as it was in the window in its place, in one step that Undo takes back."
	}
	if f.rec.Lost > 0 {
		text += fmt.Sprintf(" %s at the end could not be read.", count(f.rec.Lost, "line"))
	}
	return text
}

// begins returns the document that the window starts from before it brings the
// work back.
func (f *lost) begins() *schematic.Doc {
	if f.now != nil {
		return f.now
	}
	return f.out.From
}

// offer asks whether the steps of a journal left behind shall be made again,
// and says what would become different. It never makes them by itself.
func (ed *Editor) offer(f *lost) {
	if len(f.out.Steps) == 0 {
		// The program ended between saving and ending the journal.
		if err := f.drop(); err != nil {
			ed.status.warn(err.Error())
		}
		return
	}
	text := f.text()
	said := widget.NewLabel(text)
	said.Wrapping = fyne.TextWrapWord
	what := widget.NewLabel(inLines(f.begins(), f.out.Doc))
	what.Wrapping = fyne.TextWrapWord
	scroll := container.NewVScroll(what)
	scroll.SetMinSize(fyne.NewSize(0, min(what.MinSize().Height, lookHeight)))
	title := widget.NewLabel("What it would change, against the file as it is:")
	if f.now == nil {
		title.SetText("What was done in it:")
	}
	title.TextStyle.Bold = true
	ed.openBox(&box{title: "Unsaved work was found", about: text, content: container.New(padded{8, 6}, container.NewVBox(said, title, scroll)), size: fyne.NewSize(recoveryWidth, 0), answers: []answer{
		{text: "Bring it back", main: true, deed: func() { ed.bringWork(f) }},
		{text: "Give it up", deed: func() {
			if err := f.drop(); err != nil {
				ed.report(err)
				return
			}
			ed.status.tell("the unsaved work was given up")
		}},
		{text: "Decide later", deed: func() { ed.decideLater(f) }},
	}})
}

const (
	recoveryWidth = 560
	// lookHeight is how much of the list of changes is in sight at once.
	lookHeight = 180
)

// inLines lists the differences between two drawings for reading.
func inLines(before, after *schematic.Doc) string {
	all := edit.Compare(before, after)
	var lines []string
	for _, d := range all {
		if !d.OnlyDrawn() {
			lines = append(lines, d.String())
		}
	}
	if drawn := edit.DrawnOnly(all); drawn != "" {
		lines = append(lines, drawn)
	}
	return strings.Join(lines, "\n")
}

// decideLater keeps the journal as it is. The window that shows the file has its
// steps journaled elsewhere meanwhile.
func (ed *Editor) decideLater(f *lost) {
	f.rec.Close()
	if f.rec.Path == "" || f.rec.Path != ed.file.path {
		ed.status.tell("the unsaved work is kept and offered again at the next start")
		return
	}
	if ed.file.journal.folder == "" {
		ed.file.journal.aside = true
		ed.status.warn("the unsaved work is kept; new steps have no journal until then, save often")
		return
	}
	ed.file.journal.aside = true
	ed.status.tell("the unsaved work is kept and offered again; new steps have a journal of their own")
}

// bringWork makes the steps again, in one step that Undo takes back, in the
// window that has the file or is free for it.
func (ed *Editor) bringWork(f *lost) {
	to := ed
	path := f.rec.Path
	switch other := ed.prog.at(path); {
	case other != nil:
		to = other
	case ed.file.path != "" || ed.sess.Modified():
		to = ed.newWindow("") // this one is in use
	}
	to.unlessUnsaved("Bring back unsaved work", func() { to.recover(f) })
}

// recover shows the document that was lost; bringing it back is one step, which
// Undo takes back.
func (ed *Editor) recover(f *lost) {
	file := openFile{path: f.rec.Path, stamp: f.stamp}
	ed.take(f.begins(), file)
	j := &ed.file.journal
	j.aside = f.rec.Path != "" && !f.rec.Beside()
	if f.old == "" {
		j.left = f.rec
	}
	if !ed.become("bring back unsaved work", f.out.Doc) {
		f.rec.Close()
		return
	}
	if f.old != "" {
		if err := f.drop(); err != nil { // the journal is a new one
			ed.status.warn(err.Error())
		}
	}
	if ed.file.path != "" {
		ed.store.remember(ed.file.path)
		ed.keepSettings()
	}
	ed.sess.MarkUnsaved()
	ed.status.refresh()
	ed.retitle()
	ed.menu.refresh()
	ed.status.tell(count(len(f.out.Steps), "unsaved step") + " brought back; nothing is in the file until you save")
}
