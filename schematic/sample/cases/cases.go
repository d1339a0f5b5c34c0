// Package cases reads the cases of tests that are files: text archives of named
// sections, some written by people, some by the test itself with -update. Start
// with [Read]. Only tests import it.
package cases

import (
	"fmt"
	"os"

	"github.com/rogpeppe/go-internal/txtar"
)

// File is one case.
type File struct {
	path    string
	archive *txtar.Archive
}

// Read reads a case.
func Read(path string) (*File, error) {
	archive, err := txtar.ParseFile(path)
	if err != nil {
		return nil, fmt.Errorf("read test case: %w", err)
	}
	return &File{path, archive}, nil
}

// Section returns the text of a section, empty where there is none.
func (f *File) Section(name string) string {
	for _, s := range f.archive.Files {
		if s.Name == name {
			return string(s.Data)
		}
	}
	return ""
}

// Set gives a section another text; one that is not there yet comes last.
func (f *File) Set(name, text string) {
	for i := range f.archive.Files {
		if f.archive.Files[i].Name == name {
			f.archive.Files[i].Data = []byte(text)
			return
		}
	}
	f.archive.Files = append(f.archive.Files, txtar.File{Name: name, Data: []byte(text)})
}

// Write writes the case back to where it was read from.
func (f *File) Write() error {
	if err := os.WriteFile(f.path, txtar.Format(f.archive), 0o644); err != nil {
		return fmt.Errorf("write test case: %w", err)
	}
	return nil
}
