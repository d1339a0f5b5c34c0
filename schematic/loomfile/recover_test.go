package loomfile

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// TestAJournalOutlivesAnotherRouter: a file written by hand has no bends, so
// every version of the program may read it with others. What was recorded is
// made again all the same.
func TestAJournalOutlivesAnotherRouter(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hand.loom.json")
	require.NoError(t, os.WriteFile(path, []byte(`{"format":"loomwright-harness","version":1,
		"sheets":[{"name":"1"}],
		"parts":[{"name":"F1","kind":"link","views":[{"at":[300,300]}]},{"name":"F2","kind":"link","links":[],"views":[{"at":[900,700]}]}],
		"wires":[{"name":"W1","a":"F1.2","b":"F2.1"}]}`), 0o600))
	lib := library(t)
	now, stamp, err := LoadStamped(path, lib)
	require.NoError(t, err)
	var w schematic.Wire
	for it := range now.Wires() {
		w = *it
	}
	w.Via = []geom.Point{geom.Pt(500, 300), geom.Pt(500, 900), geom.Pt(850, 900)} // as another version would
	then := now.With(schematic.Put{Key: w.Key(), Item: &w})

	j := journalFor(t, path, stamp, then)
	s := edit.NewSession(then, nil, nil)
	s.Journal = j.Append
	require.NoError(t, s.Do("name", func(tx *edit.Tx) error {
		changed := w
		changed.Name = "W7"
		tx.Put(&changed)
		return nil
	}))
	require.NoError(t, s.Do("label", func(tx *edit.Tx) error {
		k, _ := tx.Doc().Named("F2")
		tx.EditPart(k.ID, func(p *schematic.Part) { p.Label = "main feed" })
		return nil
	}))
	require.NoError(t, j.Close())

	r, err := Recover(path)
	require.NoError(t, err)
	defer r.Close()
	out, err := r.Replay(now, lib)
	require.NoError(t, err)
	assert.Equal(t, []string{"name", "label"}, out.Steps)
	assert.False(t, out.Older, "nobody changed the file")
	sameText(t, s.Doc(), out.Doc)
}

// A journal as version 1 wrote it, which carries no document.
func TestOlderJournalsAreStillRead(t *testing.T) {
	path := filepath.Join(t.TempDir(), "journal-v1.loom.json")
	for _, end := range []string{"", ".journal"} {
		b, err := os.ReadFile(filepath.Join("testdata", "journal-v1.loom.json"+end))
		require.NoError(t, err)
		require.NoError(t, os.WriteFile(path+end, b, 0o600))
	}
	lib := library(t)
	now, err := Load(path, lib)
	require.NoError(t, err)
	r, err := Recover(path)
	require.NoError(t, err)
	defer r.Close()
	assert.True(t, r.Fits)
	out, err := r.Replay(now, lib)
	require.NoError(t, err)
	assert.Equal(t, []string{"place battery", "note", "undo note"}, out.Steps)
	assert.Same(t, now, out.From)
	assert.Equal(t, 1, out.Doc.Len(schematic.TypePart))
	assert.Zero(t, out.Doc.Len(schematic.TypeNote))
}

// A base that cannot be read is no reason to lose the steps, as long as the file
// is there; without both there is nothing.
func TestADamagedBase(t *testing.T) {
	e := newEdited(t, 12, 25)
	require.NoError(t, e.journal.Close())
	for _, bad := range []string{"no base64!", "bm8gZ3ppcA==", "H4sIAAAAAAAA/w=="} {
		r, err := Recover(e.path)
		require.NoError(t, err)
		r.head.Base = bad
		out, err := r.Replay(e.saved, e.lib)
		require.NoError(t, err)
		sameText(t, e.session.Doc(), out.Doc)
		_, err = r.Replay(nil, e.lib)
		assert.ErrorContains(t, err, "the document in the recovery journal")
		require.NoError(t, r.Close())
	}
}

// A journal kept elsewhere says which file it belongs to, and is enough when
// that is gone.
func TestAJournalKeptElsewhere(t *testing.T) {
	e := newEdited(t, 13, 0)
	stamp, err := StampOf(e.path)
	require.NoError(t, err)
	base, err := NewBase(e.path, stamp, e.saved)
	require.NoError(t, err)
	at := filepath.Join(t.TempDir(), "elsewhere.journal")
	e.journal = NewJournal(at, base)
	e.session.Journal = e.journal.Append
	m := newMaker(t, 5)
	for range 15 {
		e.step(t, m)
	}
	require.NoError(t, e.journal.Close())

	r, err := RecoverFrom(at)
	require.NoError(t, err)
	assert.Equal(t, e.path, r.Path)
	assert.True(t, r.Fits)
	require.NoError(t, r.Close())
	require.NoError(t, os.RemoveAll(filepath.Dir(e.path)))
	r, err = RecoverFrom(at)
	require.NoError(t, err)
	assert.False(t, r.Fits)
	out, err := r.Replay(nil, e.lib)
	require.NoError(t, err)
	assert.True(t, out.Older)
	sameText(t, e.session.Doc(), out.Doc)
	require.NoError(t, r.Close())
	none, err := RecoverFrom(at + "x")
	require.NoError(t, err)
	assert.Nil(t, none)
}

// A step written to a file that is no longer there would be lost in silence.
func TestAJournalWhoseFolderIsTakenAway(t *testing.T) {
	e := newEdited(t, 14, 20)
	require.NoError(t, os.RemoveAll(filepath.Dir(e.path)))
	assert.ErrorContains(t, e.journal.Append("lost", edit.Change{}), "is no longer there")
	require.NoError(t, e.journal.Remove())

	// Killed while the next one was being written: what is there is complete.
	e = newEdited(t, 17, 20)
	require.NoError(t, e.journal.Close())
	require.NoError(t, os.WriteFile(e.journal.path+newTail, []byte("half"), 0o600))
	r, d := recovered(t, e)
	assert.Zero(t, r.Lost)
	sameText(t, e.session.Doc(), d)
	if CanHold {
		onlyFiles(t, filepath.Dir(e.path), "a.loom.json", "a.loom.json.journal")
	}

	e = newEdited(t, 15, 20)
	require.NoError(t, os.Remove(e.journal.path))
	require.NoError(t, os.WriteFile(e.journal.path, []byte("another's"), 0o600))
	assert.ErrorContains(t, e.journal.Append("lost", edit.Change{}), "is no longer there")
	require.NoError(t, e.journal.Remove())
	assert.FileExists(t, e.journal.path, "what is not ours stays")
}

// Every item type of a file must come back from a journal.
func TestJournalsKnowEveryItemType(t *testing.T) {
	for _, typ := range schematic.Types() {
		it := newItem(sectionOf(typ).word)
		require.NotNil(t, it, typ)
		assert.Equal(t, typ, it.Key().Type)
	}
	assert.Nil(t, newItem("thing"))
}

// TestTheNextJournalComesInOneMove: between a save and the steps made meanwhile
// there is no moment without a journal.
func TestTheNextJournalComesInOneMove(t *testing.T) {
	e := newEdited(t, 16, 20)
	saved := e.session.Doc()
	old, err := os.ReadFile(e.journal.path)
	require.NoError(t, err)
	base, err := NewBase(e.path, Stamp{}, saved)
	require.NoError(t, err)
	next := e.journal.Next(base)
	now, err := os.ReadFile(e.journal.path)
	require.NoError(t, err)
	assert.Equal(t, old, now, "the old one stays until the new one has its first step")
	var c edit.Change
	e.session.Journal = func(_ string, change edit.Change) error { c = change; return nil }
	require.NoError(t, e.session.Do("meanwhile", func(tx *edit.Tx) error {
		tx.Put(&schematic.Note{ID: tx.NewID(), Sheet: tx.Doc().Sheets()[0].ID, Text: "meanwhile"})
		return nil
	}))
	require.NoError(t, next.Append("meanwhile", c))
	require.NoError(t, e.journal.Remove())
	r, err := RecoverFrom(JournalPath(e.path))
	require.NoError(t, err)
	assert.Equal(t, []string{"meanwhile"}, r.Labels)
	assert.True(t, r.InUse, "the new one is held")
	out, err := r.Replay(nil, e.lib)
	require.NoError(t, err)
	sameText(t, e.session.Doc(), out.Doc)
	require.NoError(t, r.Close())
	onlyFiles(t, filepath.Dir(e.path), "a.loom.json", "a.loom.json.journal")
	require.NoError(t, next.Remove())
	onlyFiles(t, filepath.Dir(e.path), "a.loom.json")
}
