package loomfile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// errCrash is what a program never sees: the step at which it is killed.
var errCrash = errors.New("killed")

// badDisk is the real file system until its step number at. There it fails
// with err; when err is errCrash nothing happens any more from then on, as if
// the program had been killed. A write that fails has written half.
type badDisk struct {
	system
	at, step int
	err      error
	failed   string // what failed
}

func (d *badDisk) fails(what string) error {
	d.step++
	if d.step == d.at || d.err == errCrash && d.step > d.at {
		if d.failed == "" {
			d.failed = what
		}
		return d.err
	}
	return nil
}

func (d *badDisk) Create(path string) (diskFile, error) {
	if err := d.fails("create"); err != nil {
		return nil, err
	}
	f, err := d.system.Create(path)
	return &badFile{f, d}, err
}

func (d *badDisk) Link(path, second string) error {
	if err := d.fails("link"); err != nil {
		return err
	}
	return d.system.Link(path, second)
}

func (d *badDisk) Rename(from, to string) error {
	if err := d.fails("rename"); err != nil {
		return err
	}
	return d.system.Rename(from, to)
}

func (d *badDisk) Remove(path string) error {
	if err := d.fails("remove"); err != nil {
		return err
	}
	return d.system.Remove(path)
}

func (d *badDisk) MakeFolder(path string) error {
	if err := d.fails("folder"); err != nil {
		return err
	}
	return d.system.MakeFolder(path)
}

func (d *badDisk) Names(path string) ([]string, error) {
	if err := d.fails("list"); err != nil {
		return nil, err
	}
	return d.system.Names(path)
}

type badFile struct {
	diskFile
	d *badDisk
}

func (f *badFile) Write(p []byte) (int, error) {
	if err := f.d.fails("write"); err != nil {
		n, _ := f.diskFile.Write(p[:len(p)/2])
		return n, err
	}
	return f.diskFile.Write(p)
}

func (f *badFile) Sync() error {
	if err := f.d.fails("sync"); err != nil {
		return err
	}
	return f.diskFile.Sync()
}

func (f *badFile) Close() error {
	f.diskFile.Close()
	return f.d.fails("close")
}

// history is a file that was saved several times; the last of docs is to be
// saved next.
func history(t *testing.T, saves int) (path string, lib *schematic.Library, docs []*schematic.Doc) {
	m := newMaker(t, 7)
	path = filepath.Join(t.TempDir(), "a.loom.json")
	d := m.doc(t, 10)
	for i := range saves + 1 {
		info := *d.Info()
		info.Title = "version " + string(rune('A'+i))
		d = d.With(schematic.Put{Key: info.Key(), Item: &info})
		docs = append(docs, d)
	}
	for i, d := range docs[:saves] {
		_, err := Saver{Keep: KeepVersions}.Save(path, d)
		require.NoError(t, err)
		require.NoError(t, os.Chtimes(path, time.Time{}, time.Unix(1_700_000_000+int64(i), 0)))
	}
	return path, m.lib, docs
}

func titleAt(t *testing.T, path string, lib *schematic.Library) string {
	t.Helper()
	d, err := Load(path, lib)
	require.NoError(t, err)
	return d.Info().Title
}

// TestKilledWhileSaving stops a save at each of its steps. The file must be the
// whole old or the whole new one, every version before it must be kept, and the
// next save must work.
func TestKilledWhileSaving(t *testing.T) {
	var stopped []string
	for at := 1; ; at++ {
		path, lib, docs := history(t, 3)
		dk := &badDisk{at: at, err: errCrash}
		_, err := Saver{KeepVersions, dk}.Save(path, docs[3])
		if dk.failed == "" {
			require.NoError(t, err)
			break
		}
		stopped = append(stopped, dk.failed)
		got := titleAt(t, path, lib)
		assert.Contains(t, []string{"version C", "version D"}, got)
		all, err := Versions(path)
		require.NoError(t, err)
		var titles []string
		for _, v := range all {
			titles = append(titles, titleAt(t, v.Path, lib))
		}
		assert.Subset(t, append(titles, got), []string{"version A", "version B", "version C"}, "killed at %s", dk.failed)
		_, err = Saver{Keep: KeepVersions}.Save(path, docs[3])
		require.NoError(t, err)
		assert.Equal(t, "version D", titleAt(t, path, lib))
	}
	assert.Equal(t, []string{"create", "write", "sync", "close", "folder", "link", "rename", "list"}, stopped)
}

// TestKilledBetweenSavingAndEndingTheJournal: what the file holds already is not
// offered again, what it does not hold is.
func TestKilledBetweenSavingAndEndingTheJournal(t *testing.T) {
	for seed := range uint64(20) {
		e := newEdited(t, seed, 25)
		require.NoError(t, Save(e.path, e.session.Doc()))
		base, err := Load(e.path, e.lib)
		require.NoError(t, err)
		r, err := Recover(e.path)
		require.NoError(t, err)
		require.NotNil(t, r)
		out, err := r.Replay(base, e.lib)
		require.NoError(t, err)
		assert.Empty(t, out.Steps, "all of it was saved")
		require.NoError(t, r.Close())

		// Steps made while the file was being written.
		require.NoError(t, e.session.Do("meanwhile", func(tx *edit.Tx) error {
			tx.Put(&schematic.Note{ID: tx.NewID(), Sheet: tx.Doc().Sheets()[0].ID, Text: "meanwhile"})
			return nil
		}))
		require.NoError(t, e.journal.Close())
		r, err = Recover(e.path)
		require.NoError(t, err)
		assert.False(t, r.Fits)
		out, err = r.Replay(base, e.lib)
		require.NoError(t, err)
		assert.False(t, out.Older)
		assert.Same(t, base, out.From)
		assert.Equal(t, []string{"meanwhile"}, out.Steps)
		sameText(t, e.session.Doc(), out.Doc)
		require.NoError(t, r.Close())
	}
}

// TestAFileChangedOtherwise: everything the steps touch is something else now.
// They are made on what the journal carries, and a journal that carries nothing
// says that it does not fit.
func TestAFileChangedOtherwise(t *testing.T) {
	e := newEdited(t, 3, 25)
	require.NoError(t, e.journal.Close())
	require.NoError(t, os.WriteFile(e.path, []byte("something else"), 0o600))
	r, err := Recover(e.path)
	require.NoError(t, err)
	var other []schematic.Put
	for _, c := range r.steps {
		for k := range c {
			other = append(other, schematic.Put{Key: k})
		}
	}
	info := *e.saved.Info()
	info.Title = "something else"
	d := e.saved.With(append(other, schematic.Put{Key: info.Key(), Item: &info})...)
	out, err := r.Replay(d, e.lib)
	require.NoError(t, err)
	assert.True(t, out.Older)
	assert.Len(t, out.Steps, len(r.Labels))
	sameText(t, e.saved, out.From)
	sameText(t, e.session.Doc(), out.Doc)

	r.head.Base = ""
	_, err = r.Replay(d, e.lib)
	assert.ErrorIs(t, err, edit.ErrMismatch)
	_, err = r.Replay(nil, e.lib)
	assert.ErrorIs(t, err, edit.ErrMismatch)
	require.NoError(t, r.Close())
}

// TestFailureWhileSaving fails each step once, with what a full or read-only
// disk says. Either the save is an error, and the file as it was with nothing
// left beside it, or the new file is there and says what could not be kept.
func TestFailureWhileSaving(t *testing.T) {
	for _, fail := range []struct {
		err  error
		text string
	}{
		{&fs.PathError{Op: "write", Path: "somewhere", Err: syscall.ENOSPC}, "the disk is full, make room or save elsewhere: no space left on device"},
		{&os.LinkError{Op: "link", Old: "somewhere", New: "else", Err: syscall.EROFS}, "the disk only lets itself be read, save elsewhere"},
		{&fs.PathError{Op: "open", Path: "somewhere", Err: syscall.EACCES}, "you have no right to write here, save elsewhere"},
	} {
		for at := 1; ; at++ {
			path, lib, docs := history(t, 7)
			dk := &badDisk{at: at, err: fail.err}
			done, err := Saver{KeepVersions, dk}.Save(path, docs[7])
			if dk.failed == "" {
				require.NoError(t, err)
				break
			}
			switch {
			case err != nil:
				assert.ErrorContains(t, err, fail.text)
				assert.NotContains(t, err.Error(), "somewhere")
				assert.Equal(t, "version G", titleAt(t, path, lib), "as it was")
			case dk.failed == "link": // copied instead
				require.NoError(t, done.NotKept)
				fallthrough
			default:
				assert.Equal(t, "version H", titleAt(t, path, lib))
				if dk.failed != "link" {
					assert.ErrorContains(t, done.NotKept, fail.text, dk.failed)
				}
			}
			names, err := os.ReadDir(filepath.Dir(path))
			require.NoError(t, err)
			for _, n := range names {
				assert.False(t, strings.HasSuffix(n.Name(), ".saving"), "%s is left after a failed %s", n.Name(), dk.failed)
			}
		}
	}
}

func TestVersionsAreKept(t *testing.T) {
	path, lib, docs := history(t, 8)
	all, err := Versions(path)
	require.NoError(t, err)
	require.Len(t, all, KeepVersions)
	for i, v := range all { // newest first: G, F, E, D, C; H is the file itself
		assert.Equal(t, "version "+string(rune('G'-i)), titleAt(t, v.Path, lib))
		assert.Equal(t, time.Unix(1_700_000_006-int64(i), 0).UTC(), v.Time)
	}
	for range 3 {
		done, err := Saver{Keep: KeepVersions}.Save(path, docs[7])
		require.NoError(t, err)
		require.NoError(t, done.NotKept)
	}
	same, err := Versions(path)
	require.NoError(t, err)
	assert.Equal(t, all, same, "saving the same again pushes nothing out")

	// A file with a name that begins alike has versions of its own.
	other := filepath.Join(filepath.Dir(path), "a.b.loom.json")
	for _, d := range docs[:2] {
		_, err := Saver{Keep: KeepVersions}.Save(other, d)
		require.NoError(t, err)
	}
	mine, err := Versions(other)
	require.NoError(t, err)
	assert.Len(t, mine, 1)
	same, err = Versions(path)
	require.NoError(t, err)
	assert.Equal(t, all, same)

	none, err := Versions(filepath.Join(t.TempDir(), "new.loom.json"))
	require.NoError(t, err)
	assert.Empty(t, none)
}

// A file system without second names gets copies, with the time of the original.
func TestVersionsAreCopiedWhereTheyCannotBeLinked(t *testing.T) {
	path, lib, docs := history(t, 1)
	dk := &badDisk{at: 6, err: syscall.EPERM}
	done, err := Saver{KeepVersions, dk}.Save(path, docs[1])
	require.NoError(t, err)
	require.Equal(t, "link", dk.failed)
	require.NoError(t, done.NotKept)
	all, err := Versions(path)
	require.NoError(t, err)
	require.Len(t, all, 1)
	assert.Equal(t, "version A", titleAt(t, all[0].Path, lib))
	info, err := os.Stat(all[0].Path)
	require.NoError(t, err)
	assert.Equal(t, int64(1_700_000_000), info.ModTime().Unix())
}

func TestStampNoticesOtherWriters(t *testing.T) {
	path, lib, docs := history(t, 1)
	_, opened, err := LoadStamped(path, lib)
	require.NoError(t, err)
	now, err := opened.Now(path)
	require.NoError(t, err)
	assert.True(t, opened.Same(now))

	require.NoError(t, os.Chtimes(path, time.Time{}, time.Now()))
	now, err = opened.Now(path)
	require.NoError(t, err)
	assert.True(t, opened.Same(now), "touched, but the same content")

	done, err := Saver{}.Save(path, docs[1])
	require.NoError(t, err)
	now, err = opened.Now(path)
	require.NoError(t, err)
	assert.False(t, opened.Same(now))
	assert.True(t, done.Stamp.Same(now), "what a save says is on disk is on disk")

	require.NoError(t, os.Remove(path))
	now, err = opened.Now(path)
	require.NoError(t, err)
	assert.True(t, now.None())
	assert.False(t, opened.Same(now))
}
