//go:build linux

package loomfile

import (
	"bufio"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"os/signal"
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

// The tests of this file run some of the work in a process of its own: one that
// has no rights, one whose files may not grow, one that is killed.
const (
	childWork = "LOOMFILE_CHILD" // what a child process is to do
	childFile = "LOOMFILE_PATH"
)

func TestMain(m *testing.M) {
	if work := os.Getenv(childWork); work != "" {
		os.Exit(child(work, os.Getenv(childFile)))
	}
	os.Exit(m.Run())
}

// startChild runs this test program again, to do one thing.
func startChild(t *testing.T, work, path string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	c := exec.Command(self)
	c.Env = append(os.Environ(), childWork+"="+work, childFile+"="+path)
	c.Stderr = os.Stderr
	return c
}

func child(work, path string) int {
	d, stamp, err := LoadStamped(path, schematic.NewLibrary())
	if err != nil {
		fmt.Println(err)
		return 1
	}
	titled := func(n int) *schematic.Doc {
		info := *d.Info()
		info.Title = fmt.Sprint("title ", n)
		return d.With(schematic.Put{Key: info.Key(), Item: &info})
	}
	switch work {
	case "save once":
		if _, err := (Saver{Keep: KeepVersions}).Save(path, titled(1)); err != nil {
			fmt.Println(err)
		}
	case "save small": // no file may become larger than 4 KiB
		signal.Ignore(syscall.SIGXFSZ) // which would end the process
		limit := syscall.Rlimit{Cur: 4096, Max: 4096}
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &limit); err != nil {
			fmt.Println(err)
			return 1
		}
		if _, err := (Saver{Keep: KeepVersions}).Save(path, titled(1)); err != nil {
			fmt.Println(err)
		}
	case "save on and on":
		for n := 1; ; n++ {
			if _, err := (Saver{Keep: KeepVersions}).Save(path, titled(n)); err != nil {
				fmt.Println("error", err)
				return 1
			}
			fmt.Println(n)
		}
	case "journal on and on":
		base, err := NewBase(path, stamp, d)
		if err != nil {
			fmt.Println("error", err)
			return 1
		}
		j := NewJournal(JournalPath(path), base)
		s := edit.NewSession(d, nil, nil)
		s.Journal = j.Append
		for n := 1; ; n++ {
			err := s.Do("title", func(tx *edit.Tx) error {
				info := *tx.Doc().Info()
				info.Title = fmt.Sprint("title ", n)
				tx.Put(&info)
				return nil
			})
			if err != nil {
				fmt.Println("error", err)
				return 1
			}
			fmt.Println(n)
		}
	}
	return 0
}

// killed runs a child and kills it after some time. It returns the last number
// the child said it had done.
func killed(t *testing.T, work, path string, after time.Duration) int {
	t.Helper()
	c := startChild(t, work, path)
	out, err := c.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, c.Start())
	in := bufio.NewScanner(out)
	last := 0
	timer := (*time.Timer)(nil)
	for in.Scan() {
		if timer == nil { // from when it is at work
			timer = time.AfterFunc(after, func() { c.Process.Kill() })
		}
		if _, err := fmt.Sscan(in.Text(), &last); err != nil {
			require.NoError(t, err, in.Text())
		}
	}
	require.Error(t, c.Wait(), "it does not end by itself")
	return last
}

func titleNumber(t *testing.T, d *schematic.Doc) (n int) {
	t.Helper()
	_, err := fmt.Sscanf(d.Info().Title, "title %d", &n)
	require.NoError(t, err, d.Info().Title)
	return n
}

// TestKilledForReal kills a process with signal 9 while it does nothing but save,
// and while it does nothing but journal, at many moments. What it said was done
// is there, and nothing is ever broken.
func TestKilledForReal(t *testing.T) {
	path, lib, _ := history(t, 1)
	for i := range 40 {
		after := time.Duration(i*i*25) * time.Microsecond
		said := killed(t, "save on and on", path, after)
		d, err := Load(path, lib)
		require.NoError(t, err, "killed after %v", after)
		n := titleNumber(t, d)
		assert.GreaterOrEqual(t, n, said)
		assert.LessOrEqual(t, n, said+1)
		all, err := Versions(path)
		require.NoError(t, err)
		for _, v := range all {
			_, err := Load(v.Path, lib)
			require.NoError(t, err)
		}
	}
	names, err := system{}.Names(filepath.Dir(path))
	require.NoError(t, err)
	left := 0
	for _, n := range names {
		if strings.HasSuffix(n, savingTail) {
			left++
		}
	}
	assert.LessOrEqual(t, left, 1, "leftovers do not pile up")

	for i := range 40 {
		after := time.Duration(i*i*10) * time.Microsecond
		before, err := os.ReadFile(path)
		require.NoError(t, err)
		said := killed(t, "journal on and on", path, after)
		now, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, before, now)
		d, err := Load(path, lib)
		require.NoError(t, err)
		r, err := Recover(path)
		require.NoError(t, err)
		require.NotNil(t, r)
		assert.False(t, r.InUse, "its process has ended")
		assert.LessOrEqual(t, r.Lost, 1)
		out, err := r.Replay(d, lib)
		require.NoError(t, err)
		n := titleNumber(t, out.Doc)
		assert.GreaterOrEqual(t, n, said, "killed after %v", after)
		assert.LessOrEqual(t, n, said+1)
		require.NoError(t, r.Remove())
	}
}

// smallDisk returns a folder on a disk of 1 MiB of its own, false where none may
// be mounted.
func smallDisk(t *testing.T) (string, bool) {
	t.Helper()
	dir := t.TempDir()
	err := syscall.Mount("tmpfs", dir, "tmpfs", 0, "size=1m")
	if errors.Is(err, syscall.EPERM) || errors.Is(err, syscall.ENODEV) || errors.Is(err, syscall.EACCES) {
		return "", false
	}
	require.NoError(t, err)
	t.Cleanup(func() { syscall.Unmount(dir, syscall.MNT_DETACH) })
	return dir, true
}

// fill leaves as many bytes free on a small disk.
func fillDisk(t *testing.T, dir string, free int64) {
	t.Helper()
	f, err := os.Create(filepath.Join(dir, "photos"))
	require.NoError(t, err)
	defer f.Close()
	block := make([]byte, 4096)
	for {
		if _, err := f.Write(block); err != nil {
			require.ErrorIs(t, err, syscall.ENOSPC)
			break
		}
	}
	info, err := f.Stat()
	require.NoError(t, err)
	require.NoError(t, f.Truncate(info.Size()-free))
}

// TestFilesThatMayNotGrow saves where the system lets files have 4 KiB and no
// more.
func TestFilesThatMayNotGrow(t *testing.T) {
	path := filepath.Join(t.TempDir(), "a.loom.json")
	require.NoError(t, Save(path, newMaker(t, 31).doc(t, 60)))
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Greater(t, len(before), 8192)
	out, err := startChild(t, "save small", path).Output()
	require.NoError(t, err)
	assert.Contains(t, string(out), "the file on disk is as it was")
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, before, now)
	onlyFiles(t, filepath.Dir(path), "a.loom.json")
}

// TestAFullDisk saves and journals on a real disk without room, where one may be
// mounted.
func TestAFullDisk(t *testing.T) {
	m := newMaker(t, 31)
	d := m.doc(t, 60)
	dir, mounted := smallDisk(t)
	if !mounted {
		t.Log("no disk may be mounted here; TestFilesThatMayNotGrow asks the same of the system")
		return
	}
	path := filepath.Join(dir, "a.loom.json")
	_, err := Saver{Keep: KeepVersions}.Save(path, d)
	require.NoError(t, err)
	before, stamp, err := LoadStamped(path, m.lib)
	require.NoError(t, err)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Greater(t, len(text), 3*4096, "it takes more room than will be left")

	journal := journalFor(t, path, stamp, before)
	s := edit.NewSession(before, nil, m.id)
	s.Journal = journal.Append
	note := func(n int) error {
		return s.Do("note", func(tx *edit.Tx) error {
			tx.Put(&schematic.Note{ID: tx.NewID(), Sheet: tx.Doc().Sheets()[0].ID, Text: strings.Repeat("x", n)})
			return nil
		})
	}
	require.NoError(t, note(10))
	fillDisk(t, dir, 8192)
	_, err = Saver{Keep: KeepVersions}.Save(path, s.Doc())
	assert.ErrorContains(t, err, "the disk is full, make room or save elsewhere")
	assert.ErrorContains(t, err, "the file on disk is as it was")
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, text, now)
	onlyFiles(t, dir, "a.loom.json", "a.loom.json.journal", "photos")

	last := s.Doc()
	for err = nil; err == nil; { // the journal takes the rest of the room
		last = s.Doc()
		err = note(3000)
	}
	assert.ErrorContains(t, err, "the disk is full")
	require.NoError(t, os.Remove(filepath.Join(dir, "photos")))
	require.NoError(t, journal.Close())
	r, err := Recover(path)
	require.NoError(t, err)
	assert.Zero(t, r.Lost, "no half line is left")
	out, err := r.Replay(before, m.lib)
	require.NoError(t, err)
	sameText(t, last, out.Doc)
	require.NoError(t, r.Remove())
	_, err = Saver{Keep: KeepVersions}.Save(path, s.Doc())
	require.NoError(t, err, "with room again")
}

// TestWithoutTheRightToWrite saves as a user without rights, because nothing is
// forbidden to root: into a folder that may not be written, over a file that is
// write-protected, and on a disk that only lets itself be read.
func TestWithoutTheRightToWrite(t *testing.T) {
	m := newMaker(t, 32)
	d := m.doc(t, 5)
	// Not under t.TempDir, whose parents may be closed to others.
	dir, err := os.MkdirTemp("", "loomfile")
	require.NoError(t, err)
	t.Cleanup(func() { os.RemoveAll(dir) })
	path := filepath.Join(dir, "a.loom.json")
	require.NoError(t, Save(path, d))
	require.NoError(t, os.Chmod(path, 0o666))
	before, err := os.ReadFile(path)
	require.NoError(t, err)
	self, err := os.Executable()
	require.NoError(t, err)
	program := filepath.Join(dir, "program") // where others may run it
	text, err := os.ReadFile(self)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(program, text, 0o755))
	other := func() string {
		c := startChild(t, "save once", path)
		c.Path, c.Args, c.Dir = program, []string{program}, dir
		if os.Getuid() == 0 {
			c.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: 65534, Gid: 65534}}
		}
		out, err := c.Output()
		var exit *exec.ExitError
		require.True(t, err == nil || errors.As(err, &exit), "%v", err)
		return string(out)
	}
	require.NoError(t, os.Chmod(dir, 0o555))
	assert.Contains(t, other(), "you have no right to write here, save elsewhere")
	require.NoError(t, os.Chmod(dir, 0o777))
	require.NoError(t, os.Chmod(path, 0o444))
	assert.Contains(t, other(), "the file is write-protected")
	require.NoError(t, os.Chmod(path, 0o000))
	assert.Contains(t, other(), "you have no right to read it")
	require.NoError(t, os.Chmod(path, 0o644))
	now, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, before, now)

	small, mounted := smallDisk(t)
	if !mounted {
		return
	}
	path = filepath.Join(small, "a.loom.json")
	require.NoError(t, Save(path, d))
	require.NoError(t, syscall.Mount("tmpfs", small, "tmpfs", syscall.MS_REMOUNT|syscall.MS_RDONLY, "size=1m"))
	assert.ErrorContains(t, Save(path, d), "the disk only lets itself be read, save elsewhere")
	stamp, err := StampOf(path)
	require.NoError(t, err)
	assert.ErrorIs(t, journalFor(t, path, stamp, d).Append("x", edit.Change{}), syscall.EROFS)
	_, err = Load(path, m.lib)
	require.NoError(t, err, "it can still be read")
}
