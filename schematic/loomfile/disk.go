package loomfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"syscall"
	"time"
)

// disk is what saving asks of the file system. Tests put one in its place that
// fails, or stops as in a crash, at any step.
type disk interface {
	Stat(path string) (fs.FileInfo, error)
	// Create makes a file that must not be there yet.
	Create(path string) (diskFile, error)
	// Link gives a file a second name, so that it outlives its replacement.
	Link(path, second string) error
	Rename(from, to string) error
	Remove(path string) error
	MakeFolder(path string) error
	// Names lists a folder.
	Names(path string) ([]string, error)
	// SetTime gives a file the time of another.
	SetTime(path string, t time.Time) error
	// SyncFolder makes renaming last over a power cut, where the system can.
	SyncFolder(path string)
}

type diskFile interface {
	io.Writer
	Name() string
	Chmod(mode fs.FileMode) error
	Sync() error
	Stat() (fs.FileInfo, error)
	Close() error
}

// system is the real file system.
type system struct{}

func (system) Stat(path string) (fs.FileInfo, error) { return os.Stat(path) }

// Create also takes away what a save that was killed left behind under that
// name: while it is being written, a file is held.
func (system) Create(path string) (diskFile, error) {
	f, err := create(path)
	if errors.Is(err, fs.ErrExist) && strings.HasSuffix(path, savingTail) && abandoned(path) {
		os.Remove(path)
		f, err = create(path)
	}
	if err != nil {
		return nil, err // not a nil *os.File in an interface
	}
	return f, nil
}

func create(path string) (*os.File, error) {
	// Unlike os.CreateTemp this leaves the permissions of a new file to the system.
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o666)
	if err != nil {
		return nil, err
	}
	if !hold(f) || !sameFile(f, path) { // another save took it for abandoned
		f.Close()
		return nil, &fs.PathError{Op: "open", Path: path, Err: fs.ErrExist}
	}
	return f, nil
}

// abandoned reports whether nobody is writing a file any more.
func abandoned(path string) bool {
	f, err := os.Open(path)
	if err != nil {
		return false
	}
	defer f.Close()
	return CanHold && hold(f)
}

// sameFile reports whether an open file is still the one at a path.
func sameFile(f *os.File, path string) bool {
	now, err := os.Stat(path)
	if err != nil {
		return false
	}
	ours, err := f.Stat()
	return err == nil && os.SameFile(ours, now)
}

func (system) Link(path, second string) error         { return os.Link(path, second) }
func (system) Rename(from, to string) error           { return os.Rename(from, to) }
func (system) Remove(path string) error               { return os.Remove(path) }
func (system) MakeFolder(path string) error           { return os.MkdirAll(path, 0o777) }
func (system) SetTime(path string, t time.Time) error { return os.Chtimes(path, time.Time{}, t) }

func (system) Names(path string) ([]string, error) {
	entries, err := os.ReadDir(path)
	var names []string
	for _, e := range entries {
		names = append(names, e.Name())
	}
	return names, err
}

func (system) SyncFolder(path string) {
	if f, err := os.Open(path); err == nil {
		_ = f.Sync() // some systems cannot sync folders; the file is whole anyway
		f.Close()
	}
}

// bare takes operation and path off a file error, which the caller says better,
// and says what to do about those a user can mend.
func bare(err error) error {
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		err = p.Err
	case errors.As(err, &l):
		err = l.Err
	}
	switch {
	case errors.Is(err, syscall.ENOSPC), errors.Is(err, syscall.EDQUOT):
		return fmt.Errorf("the disk is full, make room or save elsewhere: %w", err)
	case errors.Is(err, syscall.EROFS):
		return fmt.Errorf("the disk only lets itself be read, save elsewhere: %w", err)
	case errors.Is(err, syscall.ENAMETOOLONG):
		return fmt.Errorf("the name is too long, choose a shorter one: %w", err)
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("you have no right to write here, save elsewhere: %w", err)
	}
	return err
}
