package loomfile

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"
)

// KeepVersions is how many replaced versions of a file a program with a user
// keeps.
const KeepVersions = 5

// versionsFolder holds the kept versions of all harness files of its folder.
// The dot hides it where the system knows hidden files.
const versionsFolder = ".loom-versions"

// kept is how the name of a kept version writes its time, in UTC.
const kept = "20060102-150405.000"

// Kept is an earlier version of a harness file: what a save replaced.
type Kept struct {
	Path string
	Time time.Time // when it was saved
}

// Versions returns the kept versions of the harness file at path, newest first.
func Versions(path string) ([]Kept, error) {
	path, err := target(path)
	if err != nil {
		return nil, err
	}
	all, err := versions(system{}, path)
	if err != nil {
		return nil, fmt.Errorf("earlier versions of %s: %w", path, bare(err))
	}
	return all, nil
}

func versions(dk disk, path string) ([]Kept, error) {
	folder, stem := versionPlace(path)
	names, err := dk.Names(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var all []Kept
	for _, name := range names {
		rest, ours := strings.CutPrefix(name, stem+".")
		text, whole := strings.CutSuffix(rest, Ext)
		if t, err := time.Parse(kept, text); ours && whole && err == nil {
			all = append(all, Kept{filepath.Join(folder, name), t})
		}
	}
	slices.SortFunc(all, func(a, b Kept) int { return b.Time.Compare(a.Time) })
	return all, nil
}

// versionPlace returns the folder of the kept versions and how their names begin.
func versionPlace(path string) (folder, stem string) {
	return filepath.Join(filepath.Dir(path), versionsFolder), shortName(strings.TrimSuffix(filepath.Base(path), Ext))
}

// keepVersion gives the file at path, which is about to be replaced, a second
// name among the kept versions. It is named after the time it was saved.
func keepVersion(dk disk, path string, old fs.FileInfo) error {
	folder, stem := versionPlace(path)
	if err := dk.MakeFolder(folder); err != nil {
		return err
	}
	to := filepath.Join(folder, stem+"."+old.ModTime().UTC().Format(kept)+Ext)
	err := dk.Link(path, to)
	if err == nil || errors.Is(err, fs.ErrExist) {
		return nil // kept by an earlier save that went wrong later
	}
	return copyVersion(dk, path, to, old)
}

// copyVersion is for file systems that know no second names.
func copyVersion(dk disk, path, to string, old fs.FileInfo) (err error) {
	from, err := os.Open(path)
	if err != nil {
		return err
	}
	defer from.Close()
	f, err := dk.Create(to)
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			dk.Remove(to)
		}
	}()
	_, err = io.Copy(f, from)
	if cerr := f.Close(); err == nil {
		err = cerr
	}
	if err != nil {
		return err
	}
	return dk.SetTime(to, old.ModTime())
}

// dropVersions takes the oldest away until as many are left as are to be kept.
func dropVersions(dk disk, path string, keep int) error {
	all, err := versions(dk, path)
	if err != nil {
		return err
	}
	for _, v := range all[min(keep, len(all)):] {
		if err := dk.Remove(v.Path); err != nil {
			return err
		}
	}
	return nil
}
