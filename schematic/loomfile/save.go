package loomfile

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"

	"loomwright/schematic"
	"loomwright/schematic/canon"
)

// Load reads the harness file at path; see [Read].
func Load(path string, lib *schematic.Library) (*schematic.Doc, error) {
	d, _, err := LoadStamped(path, lib)
	return d, err
}

// LoadStamped is [Load] that also says which content it read.
func LoadStamped(path string, lib *schematic.Library) (*schematic.Doc, Stamp, error) {
	d, s, err := load(path, lib)
	if err != nil {
		return nil, Stamp{}, fmt.Errorf("open %s: %w", path, bareRead(err))
	}
	return d, s, nil
}

func load(path string, lib *schematic.Library) (*schematic.Doc, Stamp, error) {
	// A pipe waits to be opened, a device may have no end, and a large file is
	// refused unread.
	switch info, err := os.Stat(path); {
	case err != nil:
		return nil, Stamp{}, err
	case info.IsDir():
		return nil, Stamp{}, errors.New("this is a folder, not a file")
	case !info.Mode().IsRegular():
		return nil, Stamp{}, errors.New("this is a device or a pipe, not a file")
	case info.Size() == 0:
		return nil, Stamp{}, errors.New("the file is empty: if it held a drawing, look for an earlier version in the folder " + versionsFolder + " beside it")
	case info.Size() > canon.MaxBytes:
		return nil, Stamp{}, fmt.Errorf("the file has %d MiB, no harness needs more than %d: it is refused unread", info.Size()>>20, canon.MaxBytes>>20)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, Stamp{}, err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return nil, Stamp{}, err
	}
	data, err := canon.ReadAll(f)
	if err != nil {
		return nil, Stamp{}, err
	}
	d, err := Decode(data, lib)
	return d, stampData(data, info), err
}

// bareRead takes operation and path off an error of reading.
func bareRead(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		err = p.Err
	}
	switch {
	case errors.Is(err, fs.ErrPermission):
		return fmt.Errorf("you have no right to read it: %w", err)
	case errors.Is(err, syscall.ENAMETOOLONG):
		return fmt.Errorf("the name is too long: %w", err)
	}
	return err
}

// Save writes the document to path so that there is the whole old or the whole
// new file at any moment, whatever fails. It follows symbolic links and keeps
// the permissions of a file that is there. A write-protected file is an error.
// What it replaces is gone; a [Saver] keeps it.
func Save(path string, d *schematic.Doc) error {
	_, err := Saver{}.Save(path, d)
	return err
}

// Saver saves like [Save] and keeps the versions it replaces. The zero value
// keeps none.
type Saver struct {
	// Keep is how many replaced versions stay; see [Versions].
	Keep int

	disk disk // nil is the system's
}

// Saved says how a save went that went well.
type Saved struct {
	Stamp Stamp // of the file as written
	// NotKept is why the version before could not be kept; nil when it could,
	// or when there was none, or one of the same content.
	NotKept error
}

// Save writes the document to path; an error means that the file there is as it
// was.
func (s Saver) Save(path string, d *schematic.Doc) (Saved, error) {
	data, err := Encode(d)
	if err != nil {
		return Saved{}, fmt.Errorf("save %s: %w", path, err)
	}
	done, err := s.replace(path, data)
	if err != nil {
		return Saved{}, fmt.Errorf("save %s: %w", path, err)
	}
	return done, nil
}

// replace puts data in the place of the file at path.
func (s Saver) replace(path string, data []byte) (done Saved, err error) {
	dk := s.disk
	if dk == nil {
		dk = system{}
	}
	path, err = target(path)
	if err != nil {
		return done, err
	}
	old, err := dk.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		old = nil
	case err != nil:
		return done, bare(err)
	case !old.Mode().IsRegular():
		return done, errors.New("there is something here that is not a file: choose another name")
	case old.Mode().Perm()&0o200 == 0:
		return done, errors.New("the file is write-protected: allow writing, or save under another name")
	}
	f, err := beside(dk, path)
	if err != nil {
		return done, fmt.Errorf("cannot make a file in the folder %s: %w", filepath.Dir(path), bare(err))
	}
	defer func() {
		if err != nil {
			dk.Remove(f.Name())
			err = fmt.Errorf("%w; the file on disk is as it was", err)
		}
	}()
	info, err := fill(f, data, old)
	if err != nil {
		return done, bare(err)
	}
	done.Stamp = stampData(data, info)
	keep := s.Keep > 0 && old != nil && !(old.Size() == info.Size() && sameContent(path, data))
	if keep {
		done.NotKept = keepVersion(dk, path, old)
	}
	if err := dk.Rename(f.Name(), path); err != nil {
		return done, fmt.Errorf("cannot put the new file in place: %w", bare(err))
	}
	dk.SyncFolder(filepath.Dir(path))
	if keep && done.NotKept == nil {
		done.NotKept = dropVersions(dk, path, s.Keep)
	}
	if done.NotKept != nil {
		done.NotKept = fmt.Errorf("the version before could not be kept in %s: %w", versionsFolder, bare(done.NotKept))
	}
	return done, nil
}

// fill writes a new file to the end and on the disk, with the permissions of
// the one it replaces.
func fill(f diskFile, data []byte, old fs.FileInfo) (info fs.FileInfo, err error) {
	_, err = f.Write(data)
	if err == nil && old != nil {
		err = f.Chmod(old.Mode().Perm())
	}
	if err == nil {
		err = f.Sync()
	}
	if err == nil {
		info, err = f.Stat()
	}
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	return info, err
}

// sameContent reports whether the file holds those bytes already: saving twice
// must not push an older version out.
func sameContent(path string, data []byte) bool {
	have, err := os.ReadFile(path)
	return err == nil && bytes.Equal(have, data)
}

// savingTail ends the name of a file that is being written.
const savingTail = ".saving"

// beside makes a new file in the folder of path, so that it can be renamed.
func beside(dk disk, path string) (diskFile, error) {
	dir, name := filepath.Split(path)
	var err error
	for n := range 100 {
		var f diskFile
		f, err = dk.Create(fmt.Sprintf("%s.%s.%d%s", dir, shortName(name), n, savingTail))
		if !errors.Is(err, fs.ErrExist) {
			return f, err
		}
	}
	return nil, err
}

// longestName leaves room, in the 255 bytes that file systems allow a name, for
// what is added to it.
const longestName = 200

// shortName returns a name that something can be added to: long ones are cut and
// told apart by a hash.
func shortName(name string) string {
	if len(name) <= longestName {
		return name
	}
	sum := sha256.Sum256([]byte(name))
	return strings.ToValidUTF8(name[:longestName-10], "") + "-" + hex.EncodeToString(sum[:4])
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
