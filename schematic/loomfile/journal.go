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
	journalVersion = 1
	// maxJournal bounds a journal that nobody ever saves away.
	maxJournal = 256 << 20
	noFile     = "none" // the hash of a file that is not there
	hashWord   = "sha256:"
)

// journalHeader is the first line of a journal.
type journalHeader struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
	File    string `json:"file"` // hash of the saved file the steps start from
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

// Journal records the steps since a file was last saved, beside the file, so
// that a crash loses nothing. Its Append fits [edit.Session.Journal]. The
// journal file appears with the first step. A Journal belongs to one goroutine.
type Journal struct {
	path string
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

// NewJournal prepares the journal of the file at path as it is on disk now; a
// file that is not there counts as an empty document. A journal left behind is
// not touched: see [Recover]. Close and call again after each save.
func NewJournal(path string) (*Journal, error) {
	s, err := StampOf(path)
	if err != nil {
		return nil, fmt.Errorf("recovery journal of %s: %w", path, bare(err))
	}
	return NewJournalFor(path, s)
}

// NewJournalFor is [NewJournal] for a content of the file that was read or
// written before, whatever is on disk now.
func NewJournalFor(path string, s Stamp) (*Journal, error) {
	head, err := canon.Compact(journalHeader{journalFormat, journalVersion, s.name()})
	if err != nil {
		return nil, err
	}
	return &Journal{path: JournalPath(path), head: sealed(head)}, nil
}

// Append writes one step. It does not wait for the disk: a crash of the
// program loses nothing, a power cut the last moments.
func (j *Journal) Append(label string, c edit.Change) error {
	line, err := encodeStep(j.step+1, label, c)
	if err != nil {
		return err
	}
	if j.f == nil {
		j.f, err = os.OpenFile(j.path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600)
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("%s is there already: is the drawing open in another window?", j.path)
		}
		if err != nil {
			return err
		}
	}
	if j.size == 0 {
		line = append(bytes.Clone(j.head), line...)
	}
	if j.size+int64(len(line)) > maxJournal {
		return fmt.Errorf("%s is full: save the drawing to start a new one", j.path)
	}
	n, err := j.f.Write(line)
	if err != nil && n > 0 {
		// Half a line would hide every later step.
		if terr := j.f.Truncate(j.size); terr == nil {
			_, terr = j.f.Seek(j.size, io.SeekStart)
			err = errors.Join(err, terr)
		}
	}
	if err != nil {
		return err
	}
	j.size += int64(n)
	j.step++
	return nil
}

// Remove ends the journal and deletes its file: the steps are saved, or given up.
func (j *Journal) Remove() error {
	if j.f == nil {
		return nil
	}
	err := errors.Join(j.f.Close(), os.Remove(j.path))
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
