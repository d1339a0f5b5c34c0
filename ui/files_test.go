package ui

import (
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

// copyLamps puts the test harness into a folder of its own.
func copyLamps(t *testing.T) string {
	b, err := os.ReadFile(lampsFile)
	require.NoError(t, err)
	path := filepath.Join(t.TempDir(), "lamps.loom.json")
	require.NoError(t, os.WriteFile(path, b, 0o644))
	return path
}

func (r *rig) change() {
	r.choose(r.named("G1"))
	r.key(fyne.KeyRight)
}

func TestUnsavedChangesAreAskedFor(t *testing.T) {
	r := newRig(t, copyLamps(t))
	r.do("file.new")
	assert.False(t, r.boxOpen(), "nothing to ask while nothing is changed")
	require.Zero(t, r.doc().Len(schematic.TypePart))

	r = newRig(t, copyLamps(t))
	r.change()
	changed := r.doc()
	r.do("file.new")
	r.tap("Go back")
	assert.Same(t, changed, r.doc())
	r.do("file.new")
	r.tap("Give the changes up")
	assert.Zero(t, r.doc().Len(schematic.TypePart))
	assert.False(t, r.sess.Modified())
	assert.Equal(t, "untitled – Loomwright", r.win.Title())
}

func TestSaveFirstThenGoOn(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, path)
	r.change()
	r.do("file.close")
	r.tap("Save first")
	back, err := loomfile.Load(path, r.lib)
	require.NoError(t, err)
	k, _ := back.Named("G1")
	assert.Equal(t, geom.Pt(525, 1500), back.Part(k.ID).Views[0].At, "the file holds the change")
	assert.False(t, r.sess.Modified())
}

func TestTheExampleIsUntitled(t *testing.T) {
	r := newRig(t, "")
	r.do("help.fan")
	assert.Equal(t, "example – Loomwright", r.win.Title())
	assert.Greater(t, r.doc().Len(schematic.TypeWire), 10)
	assert.False(t, r.sess.Modified())
	assert.Empty(t, r.file.path, "saving asks for a file")
}

func TestTitleMarksUnsavedChanges(t *testing.T) {
	r := newRig(t, copyLamps(t))
	assert.Equal(t, "lamps.loom.json – Loomwright", r.win.Title())
	r.change()
	assert.Equal(t, "lamps.loom.json* – Loomwright", r.win.Title())
	r.do("edit.undo")
	assert.Equal(t, "lamps.loom.json – Loomwright", r.win.Title(), "undone is not changed")
}

func TestSaveAsAsksAndGivesTheEnding(t *testing.T) {
	r := newRig(t, "")
	r.takePart("battery")
	r.click(50, 50)
	r.key(fyne.KeyEscape)
	dir := t.TempDir()
	r.do("file.save")
	in := r.win.Canvas().Focused().(*entry)
	in.SetText(filepath.Join(dir, "nowhere", "mine"))
	r.tap("Save")
	require.True(t, r.boxOpen(), "a folder that is not there is said so")
	in.SetText(filepath.Join(dir, "mine"))
	r.tap("Save")
	assert.False(t, r.boxOpen())
	path := filepath.Join(dir, "mine.loom.json")
	assert.FileExists(t, path)
	assert.Equal(t, path, r.file.path)
	assert.Equal(t, path, r.store.Recent[0])
	_, ok := menuItems(r.win.MainMenu())[recentLabel(path)]
	assert.True(t, ok, "and stands in the menu")

	require.NoError(t, os.WriteFile(filepath.Join(dir, "other.loom.json"), []byte("x"), 0o644))
	r.do("file.saveas")
	r.win.Canvas().Focused().(*entry).SetText(filepath.Join(dir, "other.loom.json"))
	r.tap("Save")
	r.tap("Replace it")
	assert.Equal(t, filepath.Join(dir, "other.loom.json"), r.file.path)
}

func TestAFileThatCannotBeReadLeavesTheDrawingAlone(t *testing.T) {
	r := newRig(t, copyLamps(t))
	doc := r.doc()
	bad := filepath.Join(t.TempDir(), "bad.loom.json")
	require.NoError(t, os.WriteFile(bad, []byte(`{"format":"loomwright-harness","version":1,"parts":[{"name":7}]}`), 0o644))
	r.open(bad)
	assert.True(t, r.boxOpen())
	assert.Same(t, doc, r.doc())
	r.tap("Close")
	r.store.remember(filepath.Join(t.TempDir(), "gone.loom.json"))
	n := len(r.store.Recent)
	r.open(r.store.Recent[0])
	r.tap("Close")
	assert.Len(t, r.store.Recent, n-1, "a file that is gone leaves the list")
}

func TestEditingWhileSavingKeepsItsMark(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, path)
	var b byHand
	r.change()
	r.crew = b.crew()
	r.do("file.save")
	r.key(fyne.KeyRight) // while the file is being written
	for len(b.side)+len(b.window) > 0 {
		if len(b.side) > 0 {
			take(&b.side)
		} else {
			take(&b.window)
		}
	}
	assert.True(t, r.sess.Modified())
	rec, err := loomfile.Recover(path)
	require.NoError(t, err)
	require.NotNil(t, rec, "the step made meanwhile is in the new journal")
	assert.True(t, rec.Fits)
	assert.Len(t, rec.Labels, 1)
}

func TestJournalComesAndGoes(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, path)
	journal := loomfile.JournalPath(path)
	assert.NoFileExists(t, journal)
	r.change()
	assert.FileExists(t, journal)
	r.do("file.save")
	assert.NoFileExists(t, journal, "what is saved needs no journal")
	r.change()
	assert.FileExists(t, journal)
	r.do("file.new")
	r.tap("Give the changes up")
	assert.NoFileExists(t, journal)
}

func TestRecoveryIsOfferedAndNeverApplied(t *testing.T) {
	path := copyLamps(t)
	settings := t.TempDir()
	crash := func() {
		r := rigIn(t, path, settings)
		if r.boxOpen() {
			r.tap("Give it up")
		}
		r.change()
		r.crash()
	}
	crash()
	r := rigIn(t, path, settings)
	require.True(t, r.boxOpen())
	assert.Equal(t, geom.Pt(500, 1500), r.part("G1").Views[0].At, "nothing happens by itself")
	r.tap("Bring it back")
	assert.Equal(t, geom.Pt(525, 1500), r.part("G1").Views[0].At)
	assert.True(t, r.sess.Modified())
	r.do("file.save")
	assert.NoFileExists(t, loomfile.JournalPath(path))

	crash()
	r = rigIn(t, path, settings)
	r.tap("Give it up")
	assert.Equal(t, "the unsaved work was given up", r.status.hint.full)
	assert.NoFileExists(t, loomfile.JournalPath(path))
	assert.False(t, r.sess.Modified())

	crash()
	left, err := os.ReadFile(loomfile.JournalPath(path))
	require.NoError(t, err)
	r = rigIn(t, path, settings)
	r.key(fyne.KeyEscape)
	require.False(t, r.boxOpen(), "Escape decides later")
	assert.Contains(t, r.status.hint.full, "a journal of their own")
	r.change()
	r.key(fyne.KeyRight)
	now, err := os.ReadFile(loomfile.JournalPath(path))
	require.NoError(t, err)
	assert.Equal(t, left, now, "what was found is kept as it was")
	r.do("file.save")
	r.change()
	r.crash()
	apart := lostJournals(settings)
	require.Len(t, apart, 1, "the steps made since have a journal too")
	doc := replayed(t, r, apart[0])
	k, _ := doc.Named("G1")
	assert.Equal(t, geom.Pt(600, 1500), doc.Part(k.ID).Views[0].At, "saved, moved once more")

	r = rigIn(t, path, settings)
	require.Len(t, r.boxes, 2, "both are offered with the file")
	assert.Contains(t, r.boxes[0].about, "Another program has changed the file since", "the older one does not fit any more")
	r.tap("Give it up")
	r.tap("Bring it back")
	assert.Equal(t, geom.Pt(600, 1500), r.part("G1").Views[0].At)
	assert.Equal(t, path, r.file.path, "it is offered with the path it belongs to")
	r.do("edit.undo")
	assert.Equal(t, geom.Pt(575, 1500), r.part("G1").Views[0].At, "bringing back is a step like any other")
	r.do("edit.redo")
	r.do("file.save")
	assert.Empty(t, lostJournals(settings))
	assert.NoFileExists(t, loomfile.JournalPath(path))
}

// crash ends the window's work as a crash does: what is on disk stays.
func (r *rig) crash() {
	require.NoError(r.t, r.file.journal.to.Close())
	r.file.journal.to = nil
}

// replayed returns what the journal in a file leads to.
func replayed(t *testing.T, r *rig, journal string) *schematic.Doc {
	t.Helper()
	rec, err := loomfile.RecoverFrom(journal)
	require.NoError(t, err)
	require.NotNil(t, rec)
	defer rec.Close()
	out, err := rec.Replay(nil, r.lib)
	require.NoError(t, err)
	return out.Doc
}

// Two windows on one file: the second must not go without a journal.
func TestAJournalOfAnotherWindowIsLeftAlone(t *testing.T) {
	path, settings := copyLamps(t), t.TempDir()
	elsewhere := t.TempDir()
	one, two := rigIn(t, path, settings), rigIn(t, path, elsewhere)
	one.change()
	two.change()
	assert.True(t, two.file.journal.aside)
	assert.False(t, two.file.journal.dead)
	assert.Len(t, lostJournals(elsewhere), 1)
	assert.Contains(t, two.status.hint.full, "kept in the settings folder")
	two.file.close()
	assert.FileExists(t, loomfile.JournalPath(path), "the other's stays")

	three := rigIn(t, path, elsewhere)
	require.True(t, three.boxOpen())
	assert.Equal(t, "Open in another window", three.boxes[0].title, "what another window works on is not offered as lost")
	three.tap("Close")
	three.change()
	assert.True(t, three.file.journal.aside)
	one.do("file.save")
	three.do("file.save")
	require.True(t, three.boxOpen(), "who saves last is asked")
	three.tap("Go back")
}

func TestAnUntitledDrawingIsFoundAgainAfterACrash(t *testing.T) {
	settings := t.TempDir()
	r := rigIn(t, "", settings)
	r.takePart("battery")
	r.click(50, 50)
	r.key(fyne.KeyEscape)
	other := rigIn(t, "", settings)
	assert.False(t, other.boxOpen(), "the first window still works on it")
	r.crash()

	r = rigIn(t, "", settings)
	require.True(t, r.boxOpen())
	assert.Zero(t, r.doc().Len(schematic.TypePart), "nothing happens by itself")
	r.tap("Bring it back")
	assert.Equal(t, 1, r.doc().Len(schematic.TypePart))
	assert.True(t, r.sess.Modified())
	r.crash()
	r = rigIn(t, "", settings)
	r.tap("Bring it back")
	assert.Equal(t, 1, r.doc().Len(schematic.TypePart), "and after another crash")
	r.do("file.new")
	r.tap("Give the changes up")
	assert.Empty(t, lostJournals(settings))
}

// An older version of the program kept a copy of an untitled drawing and a
// journal beside it.
func TestAnUntitledDrawingOfAnOlderVersionIsFound(t *testing.T) {
	settings := t.TempDir()
	base := filepath.Join(settings, untitledHead+strconv.Itoa(deadPID(t))+"-1"+untitledTail)
	for _, end := range []string{"", ".journal"} {
		b, err := os.ReadFile(filepath.Join("..", "schematic", "loomfile", "testdata", "journal-v1.loom.json"+end))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(base+end, b, 0o600))
	}
	r := rigIn(t, "", settings)
	require.True(t, r.boxOpen())
	assert.Contains(t, r.boxes[0].about, "a drawing without a file")
	r.tap("Bring it back")
	assert.Equal(t, 1, r.doc().Len(schematic.TypePart))
	assert.Empty(t, r.file.path)
	assert.NoFileExists(t, base)
	assert.NoFileExists(t, base+".journal")
	assert.Len(t, lostJournals(settings), 1, "its steps have a journal of today")
}

// deadPID returns the number of a process that has ended.
func deadPID(t *testing.T) int {
	p, err := os.StartProcess("/bin/true", []string{"true"}, &os.ProcAttr{})
	require.NoError(t, err)
	_, err = p.Wait()
	require.NoError(t, err)
	require.False(t, running(p.Pid))
	require.True(t, running(os.Getpid()))
	return p.Pid
}

func TestCautionOnTheFirstStart(t *testing.T) {
	settings := t.TempDir()
	r := rigIn(t, "", settings)
	r.Show()
	require.True(t, r.boxOpen())
	r.tap("I have read this")
	r = rigIn(t, "", settings)
	r.Show()
	assert.False(t, r.boxOpen(), "only once")
	r.do("help.about")
	assert.True(t, r.boxOpen())
}

func TestATypedValueIsNotLostOnClosing(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, path)
	r.choose(r.named("W5"))
	f := r.fieldNamed("Size")
	r.win.Canvas().Focus(f.input)
	f.input.SetText("4 mm2")
	r.do("file.save")
	assert.Equal(t, "4 mm²", r.wire("W5").Size.String())
	assert.False(t, r.sess.Modified())
}
