package loomfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"loomwright/schematic"
	"loomwright/schematic/canon"
)

// Load reads the harness file at path; see [Read].
func Load(path string, lib *schematic.Library) (*schematic.Doc, error) {
	d, err := load(path, lib)
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", path, bare(err))
	}
	return d, nil
}

func load(path string, lib *schematic.Library) (*schematic.Doc, error) {
	// A pipe waits to be opened, a device may have no end, and a large file is
	// refused unread.
	switch info, err := os.Stat(path); {
	case err != nil:
		return nil, err
	case !info.Mode().IsRegular():
		return nil, errors.New("this is not a file")
	case info.Size() > canon.MaxBytes:
		return nil, fmt.Errorf("the file has %d MiB, no harness needs more than %d: it is refused unread", info.Size()>>20, canon.MaxBytes>>20)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return Read(f, lib)
}

// Save writes the document to path so that there is the whole old or the whole
// new file at any moment, whatever fails. It follows symbolic links and keeps
// the permissions of a file that is there. A write-protected file is an error.
func Save(path string, d *schematic.Doc) error {
	data, err := Encode(d)
	if err == nil {
		err = replace(path, func(w io.Writer) error {
			_, err := w.Write(data)
			return err
		})
	}
	if err != nil {
		return fmt.Errorf("save %s: %w", path, bare(err))
	}
	return nil
}

// bare takes operation and path off a file error, which the caller says better.
func bare(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// replace puts what write writes in the place of the file at path.
func replace(path string, write func(io.Writer) error) (err error) {
	path, err = target(path)
	if err != nil {
		return err
	}
	old, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		old = nil
	case err != nil:
		return err
	case !old.Mode().IsRegular():
		return errors.New("there is something here that is not a file: choose another name")
	case old.Mode().Perm()&0o200 == 0:
		return errors.New("the file is write-protected: allow writing, or save under another name")
	}
	f, err := beside(path)
	if err != nil {
		return fmt.Errorf("cannot make a file in the folder %s: %w", filepath.Dir(path), bare(err))
	}
	defer func() {
		if err != nil {
			os.Remove(f.Name())
			err = fmt.Errorf("%w; the file on disk is as it was", err)
		}
	}()
	err = write(f)
	if err == nil && old != nil {
		err = f.Chmod(old.Mode().Perm())
	}
	if err == nil {
		err = f.Sync()
	}
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return bare(err)
	}
	if err := os.Rename(f.Name(), path); err != nil {
		return fmt.Errorf("cannot put the new file in place: %w", err)
	}
	syncFolder(filepath.Dir(path))
	return nil
}

// beside makes a new file in the folder of path, so that it can be renamed.
// Unlike os.CreateTemp it leaves the permissions of a new file to the system.
func beside(path string) (*os.File, error) {
	dir, name := filepath.Split(path)
	var err error
	for n := range 100 {
		var f *os.File
		f, err = os.OpenFile(fmt.Sprintf("%s.%s.%d.saving", dir, name, n), os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o666)
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
	return nil, err
}

// target follows symbolic links, also to a file that is not there yet.
func target(path string) (string, error) {
	for range 40 { // as many as Linux follows
		to, err := os.Readlink(path)
		if err != nil {
			return path, nil // not a link
		}
		if !filepath.IsAbs(to) {
			to = filepath.Join(filepath.Dir(path), to)
		}
		path = to
	}
	return "", errors.New("the symbolic link leads in a circle")
}

// syncFolder makes the renaming last over a power cut, where the system can.
func syncFolder(dir string) {
	if f, err := os.Open(dir); err == nil {
		_ = f.Sync() // some systems cannot sync folders; the file is whole anyway
		f.Close()
	}
}
