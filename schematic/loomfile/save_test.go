package loomfile

import (
	"bytes"
	"compress/gzip"
	"errors"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/edit"
)

// onlyFiles asserts that a folder holds nothing but the named files.
func onlyFiles(t *testing.T, dir string, want ...string) {
	t.Helper()
	entries, err := os.ReadDir(dir)
	require.NoError(t, err)
	var got []string
	for _, e := range entries {
		got = append(got, e.Name())
	}
	assert.Equal(t, want, got)
}

func TestSaveAndLoad(t *testing.T) {
	m := newMaker(t, 2)
	d := m.doc(t, 10)
	dir := t.TempDir()
	path := filepath.Join(dir, "a.loom.json")
	require.NoError(t, Save(path, d))
	onlyFiles(t, dir, "a.loom.json")
	back, err := Load(path, m.lib)
	require.NoError(t, err)
	requireSame(t, d, back)

	require.NoError(t, os.Chmod(path, 0o640))
	require.NoError(t, Save(path, schematic.New(m.lib)))
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode().Perm(), "permissions stay")
	back, err = Load(path, m.lib)
	require.NoError(t, err)
	assert.Zero(t, back.Len(schematic.TypePart))
}

func TestSaveFollowsLinks(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // links need rights there that tests do not have
	}
	dir := t.TempDir()
	require.NoError(t, os.Mkdir(filepath.Join(dir, "real"), 0o755))
	link, second := filepath.Join(dir, "link.loom.json"), filepath.Join(dir, "second.loom.json")
	require.NoError(t, os.Symlink(filepath.Join("real", "a.loom.json"), link))
	require.NoError(t, os.Symlink(link, second))
	d := schematic.New(library(t))
	for range 2 { // first the file is not there, then it is
		require.NoError(t, Save(second, d))
		onlyFiles(t, filepath.Join(dir, "real"), "a.loom.json")
		info, err := os.Lstat(link)
		require.NoError(t, err)
		assert.NotZero(t, info.Mode()&os.ModeSymlink, "the link is still one")
	}
	assert.Equal(t, filepath.Join(dir, "real", "a.loom.json.journal"), JournalPath(second))

	loop := filepath.Join(dir, "loop")
	require.NoError(t, os.Symlink(loop, loop))
	assert.ErrorContains(t, Save(loop, d), "leads in a circle")
}

func TestSaveErrors(t *testing.T) {
	d := schematic.New(library(t))
	dir := t.TempDir()
	guarded := filepath.Join(dir, "guarded.loom.json")
	require.NoError(t, os.WriteFile(guarded, []byte("old"), 0o444))
	folder := filepath.Join(dir, "folder.loom.json")
	require.NoError(t, os.Mkdir(folder, 0o755))
	for path, text := range map[string]string{
		guarded:                             "the file is write-protected",
		folder:                              "not a file",
		filepath.Join(dir, "no", "x.json"):  "cannot make a file in the folder " + filepath.Join(dir, "no") + ": no such file",
		filepath.Join(guarded, "x.json"):    "not a directory",
		filepath.Join(dir, "nul\x00l.json"): "invalid argument",
	} {
		err := Save(path, d)
		require.Error(t, err)
		assert.Contains(t, err.Error(), "save "+path+": ")
		assert.Contains(t, err.Error(), text)
	}
	onlyFiles(t, dir, "folder.loom.json", "guarded.loom.json")
	got, err := os.ReadFile(guarded)
	require.NoError(t, err)
	assert.Equal(t, "old", string(got))
}

// What a killed save left behind is taken away by the next one, but not what
// another save is writing just now.
func TestLeftoversOfACrashDoNotBlock(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.loom.json")
	require.NoError(t, os.WriteFile(filepath.Join(dir, ".a.loom.json.0.saving"), []byte("half"), 0o600))
	require.NoError(t, Save(path, schematic.New(library(t))))
	if CanHold {
		onlyFiles(t, dir, "a.loom.json")
	}
	other, err := beside(system{}, path)
	require.NoError(t, err)
	require.NoError(t, Save(path, schematic.New(library(t))))
	onlyFiles(t, dir, ".a.loom.json.0.saving", "a.loom.json")
	require.NoError(t, other.Close())
}

// Names that people, and other languages, give their files.
func TestNamesOfFiles(t *testing.T) {
	m := newMaker(t, 21)
	docs := []*schematic.Doc{m.doc(t, 4), m.doc(t, 5), m.doc(t, 6)}
	for _, stem := range []string{"my wiring  v2", "Lüfter, Öldruck ½", "-x", "--help", "a.b.c", "日本語", "it's \"quoted\" $HOME;*?", "new\nline",
		strings.Repeat("ü", 120), strings.Repeat("long", 61)} {
		dir := t.TempDir()
		path := filepath.Join(dir, stem+Ext)
		for i, d := range docs {
			done, err := Saver{Keep: KeepVersions}.Save(path, d)
			require.NoError(t, err, stem)
			require.NoError(t, done.NotKept, stem)
			require.NoError(t, os.Chtimes(path, time.Time{}, time.Unix(1_700_000_000+int64(i), 0)))
		}
		back, err := Load(path, m.lib)
		require.NoError(t, err, stem)
		requireSame(t, docs[2], back)
		all, err := Versions(path)
		require.NoError(t, err, stem)
		require.Len(t, all, 2, stem)
		back, err = Load(all[0].Path, m.lib)
		require.NoError(t, err, stem)
		requireSame(t, docs[1], back)
		names, err := system{}.Names(dir)
		require.NoError(t, err)
		assert.ElementsMatch(t, []string{versionsFolder, stem + Ext}, names)
	}
	long := filepath.Join(t.TempDir(), strings.Repeat("n", 300)+Ext)
	assert.ErrorContains(t, Save(long, docs[0]), "the name is too long, choose a shorter one")
	onlyFiles(t, filepath.Dir(long))
}

func TestWhatCouldNotBeReadIsNotSaved(t *testing.T) {
	p := &schematic.Part{ID: DeriveID(schematic.TypePart, "x"), Name: "F1", Kind: "link", Build: "ready"}
	d := schematic.New(library(t)).With(schematic.Put{Key: p.Key(), Item: p})
	err := Save(filepath.Join(t.TempDir(), "a.loom.json"), d)
	assert.ErrorContains(t, err, "1 mistakes in the drawing, the first at part F1: build: \"ready\" is not a build step")
}

func TestLoadErrors(t *testing.T) {
	dir := t.TempDir()
	large := filepath.Join(dir, "large.loom.json")
	f, err := os.Create(large)
	require.NoError(t, err)
	require.NoError(t, f.Truncate(100_000_000))
	require.NoError(t, f.Close())
	empty := filepath.Join(dir, "empty.loom.json")
	require.NoError(t, os.WriteFile(empty, nil, 0o600))
	packed := filepath.Join(dir, "packed.loom.json")
	var z bytes.Buffer
	zw := gzip.NewWriter(&z)
	_, err = zw.Write([]byte("{}"))
	require.NoError(t, err)
	require.NoError(t, zw.Close())
	require.NoError(t, os.WriteFile(packed, z.Bytes(), 0o600))
	long := strings.Repeat("n", 300) + Ext
	short := filepath.Join(dir, "short.loom.json")
	require.NoError(t, os.WriteFile(short, []byte("{\n  \"format\": \"loomwright-harness\",\n  \"version\": 1,\n  \"parts\": [}"), 0o600))
	for path, text := range map[string]string{
		filepath.Join(dir, "none.loom.json"): "no such file",
		dir:                                  "this is a folder, not a file",
		"/dev/zero":                          "this is a device or a pipe, not a file",
		empty:                                "the file is empty",
		packed:                               "this is a compressed file: unpack it first",
		filepath.Join(dir, long):             "the name is too long",
		large:                                "no harness needs more than 64",
		short:                                "line 4, column 13: parts[0]: a value should stand here",
	} {
		d, err := Load(path, nil)
		assert.Nil(t, d)
		require.Error(t, err)
		assert.Contains(t, err.Error(), "open "+path+": ")
		assert.Contains(t, err.Error(), text)
	}
}

// endless yields a pattern for ever and counts what was read.
type endless struct {
	head, pattern string
	n             int
}

func (e *endless) Read(p []byte) (int, error) {
	n := 0
	if e.n < len(e.head) {
		n = copy(p, e.head[e.n:])
	}
	for n < len(p) {
		n += copy(p[n:], e.pattern)
	}
	e.n += n
	return n, nil
}

func TestGarbageIsRefusedUnread(t *testing.T) {
	for _, c := range []struct {
		name string
		in   *endless
		most int
		text string
	}{
		{"letters", &endless{pattern: "garbage "}, 1 << 16, "it begins with 'g' instead of {"},
		{"zeros", &endless{pattern: strings.Repeat("\x00", 1000)}, 1 << 16, `it begins with '\x00'`},
		{"a picture", &endless{head: "\x89PNG\r\n", pattern: "x"}, 1 << 16, "not a JSON file"},
		{"UTF-16", &endless{head: "\xff\xfe{", pattern: "\x00 "}, 1 << 16, "save it as UTF-8"},
		{"endless spaces", &endless{pattern: strings.Repeat(" ", 1000)}, canon.MaxBytes + 1<<16, "larger than 64 MiB"},
		{"endless list", &endless{head: `{"parts":[0`, pattern: strings.Repeat(",0", 1000)}, canon.MaxBytes + 1<<16, "larger than 64 MiB"},
	} {
		_, err := Read(c.in, nil)
		var e *canon.Error
		require.ErrorAs(t, err, &e, c.name)
		assert.Contains(t, e.Text, c.text, c.name)
		assert.LessOrEqual(t, c.in.n, c.most, "%s: bytes read", c.name)
	}
	_, err := Decode(bytes.Repeat([]byte("{"), 100_000_000), nil)
	assert.ErrorContains(t, err, "larger than 64 MiB")
	_, err = Decode([]byte(`{"a":[0`+strings.Repeat(",0", 3_000_000)+`]}`), nil)
	assert.ErrorContains(t, err, "more than 2000000 values")
	_, err = Read(io.MultiReader(strings.NewReader(`{"format"`), broken{}), nil)
	assert.ErrorIs(t, err, errBroken)
	_, err = Read(strings.NewReader(""), nil)
	assert.ErrorContains(t, err, "the file ends where a value should stand")
}

var errBroken = errors.New("the stick was pulled out")

type broken struct{}

func (broken) Read([]byte) (int, error) { return 0, errBroken }

func TestWriteReportsTheWriter(t *testing.T) {
	assert.ErrorIs(t, Write(brokenWriter{}, schematic.New(nil)), errBroken)
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errBroken }

func TestByteOrderMarkAndCRLF(t *testing.T) {
	d, err := Read(strings.NewReader("\ufeff{\r\n\"format\":\"loomwright-harness\",\r\n\"version\":1}\r\n"), nil)
	require.NoError(t, err)
	assert.Empty(t, edit.Diff(schematic.New(nil), d))
}
