package ui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
	"loomwright/schematic/loomfile"
)

// writeOther writes a file as another program would: G1 is called "theirs".
func writeOther(t *testing.T, r *rig, path string) {
	d, err := loomfile.Load(path, r.lib)
	require.NoError(t, err)
	k, _ := d.Named("G1")
	p := *d.Part(k.ID)
	p.Label = "theirs"
	require.NoError(t, loomfile.Save(path, d.With(schematic.Put{Key: k, Item: &p})))
}

func TestAFileChangedOnDiskIsNoticedOnComingBack(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, path)
	r.lookAtDisk()
	assert.False(t, r.boxOpen(), "nothing has changed")
	r.change()
	r.lookAtDisk()
	assert.False(t, r.boxOpen(), "our own changes are no news")

	writeOther(t, r, path)
	r.lookAtDisk()
	require.True(t, r.boxOpen())
	r.tap("Load it, mine into Undo")
	assert.Equal(t, "theirs", r.part("G1").Label)
	assert.Equal(t, geom.Pt(500, 1500), r.part("G1").Views[0].At)
	assert.False(t, r.sess.Modified())
	assert.NoFileExists(t, loomfile.JournalPath(path))
	r.do("edit.undo")
	assert.Equal(t, geom.Pt(525, 1500), r.part("G1").Views[0].At, "nothing was lost")
	assert.NotEqual(t, "theirs", r.part("G1").Label)
	assert.True(t, r.sess.Modified())
}

func TestKeepingMineAgainstAChangedFile(t *testing.T) {
	path, settings := copyLamps(t), t.TempDir()
	r := rigIn(t, path, settings)
	r.change()
	writeOther(t, r, path)
	r.lookAtDisk()
	r.tap("Keep mine")
	r.lookAtDisk()
	assert.False(t, r.boxOpen(), "asked once")
	assert.NoFileExists(t, loomfile.JournalPath(path), "its steps would not fit the file")
	require.Len(t, lostJournals(settings), 1)
	k, _ := r.doc().Named("G1")
	assert.Equal(t, r.part("G1"), replayed(t, r, lostJournals(settings)[0]).Part(k.ID), "the work so far is journaled from what it began with")

	r.do("file.save")
	require.True(t, r.boxOpen(), "saving asks before it replaces what another program wrote")
	r.tap("Go back")
	d, err := loomfile.Load(path, r.lib)
	require.NoError(t, err)
	assert.Equal(t, "theirs", d.Part(k.ID).Label)
	r.do("file.save")
	r.tap("Replace it with mine")
	assert.False(t, r.sess.Modified())
	all, err := loomfile.Versions(path)
	require.NoError(t, err)
	require.Len(t, all, 1, "and what was replaced is kept")
	d, err = loomfile.Load(all[0].Path, r.lib)
	require.NoError(t, err)
	assert.Equal(t, "theirs", d.Part(k.ID).Label)
}

func TestAFileThatIsGoneIsWrittenAgain(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, path)
	require.NoError(t, os.Remove(path))
	r.lookAtDisk()
	assert.False(t, r.boxOpen())
	assert.Contains(t, r.status.hint.full, "no longer there")
	assert.True(t, r.sess.Modified())
	r.do("file.save")
	assert.FileExists(t, path)
	assert.False(t, r.sess.Modified())
}

func TestASaveThatFailsLosesNothing(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, path)
	r.change()
	require.NoError(t, os.Chmod(path, 0o444))
	r.do("file.save")
	require.True(t, r.boxOpen())
	assert.True(t, r.sess.Modified())
	assert.FileExists(t, loomfile.JournalPath(path))
	r.tap("Try again")
	require.True(t, r.boxOpen(), "still write-protected")
	r.tap("Save elsewhere…")
	elsewhere := filepath.Join(t.TempDir(), "elsewhere.loom.json")
	r.win.Canvas().Focused().(*entry).SetText(elsewhere)
	r.tap("Save")
	assert.False(t, r.boxOpen())
	assert.Equal(t, elsewhere, r.file.path)
	assert.False(t, r.sess.Modified())

	r.change()
	require.NoError(t, os.Chmod(elsewhere, 0o444))
	r.do("file.save")
	require.NoError(t, os.Chmod(elsewhere, 0o644))
	r.tap("Try again")
	assert.False(t, r.sess.Modified(), "made writable meanwhile")
}

func TestAJournalThatBreaksOffGoesOnElsewhere(t *testing.T) {
	path, settings := copyLamps(t), t.TempDir()
	r := rigIn(t, path, settings)
	r.change()
	require.NoError(t, os.RemoveAll(filepath.Dir(path))) // somebody tidies up
	r.key(fyne.KeyRight)
	require.True(t, r.file.journal.aside)
	assert.False(t, r.file.journal.dead)
	require.Len(t, lostJournals(settings), 1)
	k, _ := r.doc().Named("G1")
	assert.Equal(t, r.part("G1"), replayed(t, r, lostJournals(settings)[0]).Part(k.ID), "all steps, not only those since")
	r.do("file.save")
	require.True(t, r.boxOpen())
	assert.Contains(t, r.boxes[0].about, "no such file or directory")
	assert.Contains(t, r.boxes[0].about, "every step of it is in the recovery journal")
	r.tap("Go back")

	r.crash()
	r = rigIn(t, "", settings)
	require.True(t, r.boxOpen())
	assert.Contains(t, r.boxes[0].about, path+" is no longer there")
	r.tap("Bring it back")
	assert.Equal(t, geom.Pt(550, 1500), r.part("G1").Views[0].At)
	assert.Equal(t, path, r.file.path)
	require.NoError(t, os.Mkdir(filepath.Dir(path), 0o755))
	r.do("file.save")
	assert.False(t, r.boxOpen())
	assert.FileExists(t, path)
	assert.Empty(t, lostJournals(settings))
}

// A file that was broken meanwhile does not keep the work from coming back.
func TestAJournalOfAFileThatCannotBeRead(t *testing.T) {
	path, settings := copyLamps(t), t.TempDir()
	r := rigIn(t, path, settings)
	r.change()
	r.crash()
	require.NoError(t, os.WriteFile(path, []byte("something else altogether"), 0o644))
	r = rigIn(t, path, settings)
	require.Len(t, r.boxes, 2)
	r.tap("Close") // why the file cannot be opened
	assert.Contains(t, r.boxes[0].about, "cannot be read any more")
	r.tap("Bring it back")
	assert.Equal(t, geom.Pt(525, 1500), r.part("G1").Views[0].At)
	r.do("file.save")
	require.True(t, r.boxOpen(), "what another program wrote is not replaced without a question")
	r.tap("Replace it with mine")
	_, err := loomfile.Load(path, r.lib)
	require.NoError(t, err)
}

func TestSavingTwiceAtOnceIsNoQuarrelWithOneself(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, path)
	var b byHand
	r.change()
	r.crew = b.crew()
	r.do("file.save")
	r.key(fyne.KeyRight)
	r.do("file.save")
	for len(b.side)+len(b.window) > 0 {
		if len(b.side) > 0 {
			take(&b.side)
		} else {
			take(&b.window)
		}
	}
	assert.False(t, r.boxOpen())
	assert.False(t, r.sess.Modified(), "the second save has the second step")
}

func TestSeveralWindows(t *testing.T) {
	path := copyLamps(t)
	r := newRig(t, "")
	two := r.newWindow(path)
	assert.Same(t, r.store, two.store)
	assert.Equal(t, "lamps.loom.json – Loomwright", two.win.Title())
	require.Len(t, r.prog.windows, 2)
	r.openBeside(path)
	r.open(path)
	assert.Len(t, r.prog.windows, 2, "a file is open once")
	assert.Empty(t, r.file.path)

	r.takePart("battery")
	r.click(50, 50)
	r.key(fyne.KeyEscape)
	assert.NotSame(t, r.doc(), two.doc(), "each has a drawing of its own")
	three := r.newWindow("")
	require.NoError(t, three.try("place", func(tx *edit.Tx) error {
		return edit.PlacePart(tx, "battery", three.sheet, geom.Pt(500, 500), geom.Orient{})
	}))
	assert.Len(t, lostJournals(r.store.folder), 2, "and a journal of its own")
	for _, ed := range []*Editor{r.Editor, three} {
		ed.file.close()
	}
	assert.Empty(t, lostJournals(r.store.folder))
	two.close()
	three.prog.forget(three)
	assert.Len(t, r.prog.windows, 1)
	r.setTheme(!r.store.Dark, false)
}

func TestTheProgramEndsWithItsLastWindow(t *testing.T) {
	r := newRig(t, "")
	ended := 0
	r.prog.ended = func() {
		ended++
		assert.Empty(t, lostJournals(r.store.folder))
	}
	two := r.newWindow("")
	two.close()
	assert.Zero(t, ended)
	r.takePart("battery")
	r.click(50, 50)
	r.key(fyne.KeyEscape)
	r.close()
	assert.Zero(t, ended, "there are changes that are not saved")
	r.boxes[0].give(r.boxes[0].answers[1])
	assert.Equal(t, 1, ended)
}
