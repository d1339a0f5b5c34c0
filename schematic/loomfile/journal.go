package loomfile

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"io/fs"
	"os"
	"strconv"

	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/edit"
)

// What the first line of a journal says.
const (
	journalFormat  = "loomwright-journal"
	journalVersion = 2 // 1 had no base and is still read
	// maxJournal bounds a journal that nobody ever saves away.
	maxJournal = 256 << 20
	newTail    = ".new" // ends the name of one that is to take the place of another
	noFile     = "none" // the hash of a file that is not there
	hashWord   = "sha256:"
)

// journalHeader is the first line of a journal.
type journalHeader struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
	File    string `json:"file"`           // hash of the saved file the steps start from
	Path    string `json:"path,omitempty"` // of that file; missing for an untitled drawing
	Base    string `json:"base,omitempty"` // the document the steps start from; see [Base]
}

// journalStep is one further line: one step, undo and redo included.
type journalStep struct {
	Step  int           `json:"step"` // from 1
	Label string        `json:"label"`
	Items []journalPair `json:"items"`
}

// journalPair is one changed item; before or after is missing where it was not
// there.
type journalPair struct {
	Type   string    `json:"type"`
	Before canon.Raw `json:"before,omitempty"`
	After  canon.Raw `json:"after,omitempty"`
}

// Journal records the steps since a file was last saved, so that a crash loses
// nothing: beside the file, or elsewhere where that cannot be. Its Append fits
// [edit.Session.Journal]. The journal file appears with the first step, and
// while it is open no other window can recover from it. A Journal belongs to
// one goroutine.
type Journal struct {
	path string
	over string // the journal left behind that the first step takes the place of
	head []byte // the header line
	f    *os.File
	step int
	size int64
}

// JournalPath returns where the journal of a harness file lies.
func JournalPath(path string) string {
	if real, err := target(path); err == nil {
		path = real
	}
	return path + ".journal"
}

// NewJournal prepares a journal in a file of its own at path: that of
// [JournalPath], or another where there is no place beside the harness file. One
// left behind there is not touched: see [Recover].
func NewJournal(path string, b Base) *Journal { return &Journal{path: path, head: b.head} }

// Next prepares the journal that takes the place of this one, all at once, with
// its first step: after a save, while there are steps the file does not hold. This
// one is to be removed then.
func (j *Journal) Next(b Base) *Journal {
	return &Journal{path: j.path + newTail, over: j.path, head: b.head}
}

// Append writes one step. It does not wait for the disk: a crash of the
// program loses nothing, a power cut the last moments. It fails, and the step is
// not in the journal, when the file was taken away meanwhile.
func (j *Journal) Append(label string, c edit.Change) error {
	line, err := encodeStep(j.step+1, label, c)
	if err != nil {
		return err
	}
	if j.f == nil {
		if err := j.create(); err != nil {
			return err
		}
	} else if !j.there() {
		return fmt.Errorf("the recovery journal %s is no longer there", j.path)
	}
	if j.size == 0 {
		line = append(bytes.Clone(j.head), line...)
	}
	if j.size+int64(len(line)) > maxJournal {
		return fmt.Errorf("%s is full: save the drawing to start a new one", j.path)
	}
	n, err := j.f.Write(line)
	switch {
	case err != nil && j.over != "":
		return errors.Join(fmt.Errorf("write %s: %w", j.path, bare(err)), j.Remove())
	case err != nil && n > 0:
		// Half a line would hide every later step.
		if terr := j.f.Truncate(j.size); terr == nil {
			_, terr = j.f.Seek(j.size, io.SeekStart)
			err = errors.Join(err, terr)
		}
	}
	if err != nil {
		return fmt.Errorf("write %s: %w", j.path, bare(err))
	}
	j.size += int64(n)
	j.step++
	if j.over != "" {
		if err := os.Rename(j.path, j.over); err != nil {
			return fmt.Errorf("put the new recovery journal in place: %w", err)
		}
		j.path, j.over = j.over, ""
	}
	return nil
}

// create makes the journal's file and keeps other windows away from it.
func (j *Journal) create() error {
	how := os.O_CREATE | os.O_EXCL | os.O_WRONLY
	if j.over != "" {
		how = os.O_CREATE | os.O_TRUNC | os.O_WRONLY // only who holds the old one comes here
	}
	f, err := os.OpenFile(j.path, how, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return fmt.Errorf("%s is there already: is the drawing open in another window?", j.path)
	}
	if err != nil {
		return err
	}
	hold(f)
	j.f = f
	return nil
}

// there reports whether the open file is still the one at the journal's path:
// its folder may be gone, or somebody may have tidied up.
func (j *Journal) there() bool { return sameFile(j.f, j.path) }

// Remove ends the journal and deletes its file: the steps are saved, or given up.
func (j *Journal) Remove() error {
	if j.f == nil {
		return nil
	}
	var err error
	if j.there() {
		err = os.Remove(j.path)
	}
	err = errors.Join(err, j.f.Close())
	j.f = nil
	return err
}

// Close ends the journal and leaves its file for [Recover].
func (j *Journal) Close() error {
	if j.f == nil {
		return nil
	}
	err := j.f.Close()
	j.f = nil
	return err
}

func encodeStep(step int, label string, c edit.Change) ([]byte, error) {
	s := journalStep{Step: step, Label: label}
	for _, k := range c.Keys() {
		p := journalPair{Type: sectionOf(k.Type).word}
		var err error
		if p.Before, err = encodeItem(c[k].Before); err != nil {
			return nil, err
		}
		if p.After, err = encodeItem(c[k].After); err != nil {
			return nil, err
		}
		s.Items = append(s.Items, p)
	}
	line, err := canon.Compact(s)
	return sealed(line), err
}

func encodeItem(it schematic.Item) (canon.Raw, error) {
	if it == nil {
		return nil, nil
	}
	b, err := canon.Compact(it)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", schematic.Describe(it), err)
	}
	return b, nil
}

// sealed returns a line with its checksum before it.
func sealed(text []byte) []byte {
	line := fmt.Appendf(nil, "%08x ", crc32.ChecksumIEEE(text))
	return append(append(line, text...), '\n')
}

// unsealed returns the text of a whole, undamaged line.
func unsealed(line []byte) ([]byte, bool) {
	if len(line) < 10 || line[8] != ' ' || line[len(line)-1] != '\n' {
		return nil, false
	}
	text := line[9 : len(line)-1]
	sum, err := strconv.ParseUint(string(line[:8]), 16, 32)
	return text, err == nil && uint32(sum) == crc32.ChecksumIEEE(text)
}

// hashFile names the content of a file.
func hashFile(path string) (string, error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return noFile, nil
	}
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hashWord + hex.EncodeToString(h.Sum(nil)), nil
}
