package loomfile

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"

	"loomwright/schematic"
	"loomwright/schematic/canon"
	"loomwright/schematic/edit"
)

// Recovery is what a journal left behind holds. Nothing is applied until
// [Recovery.Apply].
type Recovery struct {
	// Fits reports whether the harness file is still the one the steps start
	// from. If not, it was changed or saved since, and the steps may not apply.
	Fits bool
	// Labels name the steps, oldest first.
	Labels []string
	// Lost is the number of lines at the end that cannot be read: one torn by
	// the crash, more if the journal is damaged.
	Lost int

	path    string
	steps   []edit.Change
	goodEnd int64 // where the readable lines end
}

// Recover reads the journal beside the harness file at path. It returns nil
// when there is none.
func Recover(path string) (*Recovery, error) {
	jpath := JournalPath(path)
	f, err := os.Open(jpath)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("read the recovery journal: %w", err)
	}
	defer f.Close()
	hash, err := hashFile(path)
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", path, bareRead(err))
	}
	r, err := readJournal(io.LimitReader(f, maxJournal+1), hash)
	if err != nil {
		return nil, fmt.Errorf("read the recovery journal %s: %w", jpath, err)
	}
	r.path = jpath
	return r, nil
}

// readJournal reads lines up to the first that is torn or damaged.
func readJournal(r io.Reader, hash string) (*Recovery, error) {
	rec := &Recovery{}
	in := bufio.NewReader(r)
	head := true
	for {
		line, err := in.ReadBytes('\n')
		if err != nil && err != io.EOF {
			return nil, err
		}
		if len(line) == 0 {
			return rec, nil
		}
		text, ok := unsealed(line)
		switch {
		case !ok || rec.Lost > 0:
			rec.Lost++
			continue
		case head:
			var h journalHeader
			if err := canon.Decode(text, &h); err != nil {
				return nil, err
			}
			if h.Format != journalFormat || h.Version != journalVersion {
				return nil, fmt.Errorf("the journal is %.40q version %d, this program reads %q version %d", h.Format, h.Version, journalFormat, journalVersion)
			}
			rec.Fits = h.File == hash
			head = false
		default:
			if err := rec.add(text); err != nil {
				rec.Lost++
				continue
			}
		}
		rec.goodEnd += int64(len(line))
	}
}

func (r *Recovery) add(text []byte) error {
	var s journalStep
	if err := canon.Decode(text, &s); err != nil {
		return err
	}
	if s.Step != len(r.steps)+1 {
		return fmt.Errorf("step %d follows step %d", s.Step, len(r.steps))
	}
	c := edit.Change{}
	for _, p := range s.Items {
		before, err := decodeItem(p.Type, p.Before)
		if err != nil {
			return err
		}
		after, err := decodeItem(p.Type, p.After)
		if err != nil {
			return err
		}
		var k schematic.Key
		switch {
		case before == nil && after == nil:
			return errors.New("an item was neither before nor after")
		case before == nil:
			k = after.Key()
		default:
			if k = before.Key(); after != nil && after.Key() != k {
				return errors.New("an item changed its ID")
			}
		}
		c[k] = edit.Pair{Before: before, After: after}
	}
	r.steps = append(r.steps, c)
	r.Labels = append(r.Labels, s.Label)
	return nil
}

// decodeItem returns nil for no text.
func decodeItem(word string, text canon.Raw) (schematic.Item, error) {
	if len(text) == 0 {
		return nil, nil
	}
	it := newItem(word)
	if it == nil {
		return nil, fmt.Errorf("%.40q is not an item type", word)
	}
	return it, canon.Decode(text, it)
}

func newItem(word string) schematic.Item {
	switch word {
	case "info":
		return &schematic.Info{}
	case "sheet":
		return &schematic.Sheet{}
	case "kind":
		return &schematic.Kind{}
	case "part":
		return &schematic.Part{}
	case "wire":
		return &schematic.Wire{}
	case "group":
		return &schematic.Group{}
	case "loom":
		return &schematic.Loom{}
	case "state":
		return &schematic.State{}
	case "note":
		return &schematic.Note{}
	case "reading":
		return &schematic.Reading{}
	}
	return nil
}

// Held returns how many of the steps a document, as loaded from the file,
// already holds: none, or those up to a save that was broken off before the
// journal was ended. It is false for a document that was otherwise changed.
func (r *Recovery) Held(doc *schematic.Doc) (steps int, ok bool) {
	// What the items of the journal are after each number of steps, followed
	// through the steps; apart are those that differ in doc.
	apart := map[schematic.Key]bool{}
	seen := map[schematic.Key]bool{}
	compare := func(k schematic.Key, it schematic.Item) {
		if edit.Equal(doc.Get(k), it) {
			delete(apart, k)
		} else {
			apart[k] = true
		}
	}
	for _, c := range r.steps {
		for k, p := range c {
			if !seen[k] {
				seen[k] = true
				compare(k, p.Before)
			}
		}
	}
	ok = len(apart) == 0
	for i, c := range r.steps {
		for k, p := range c {
			compare(k, p.After)
		}
		if len(apart) == 0 {
			steps, ok = i+1, true
		}
	}
	return steps, ok
}

// Pending names the steps that a document, as loaded from the file, does not
// hold yet; all of them when it was otherwise changed.
func (r *Recovery) Pending(doc *schematic.Doc) []string {
	n, _ := r.Held(doc)
	return r.Labels[n:]
}

// Apply returns the document as the user last saw it. Doc is the document as
// loaded from the file (or a new one, for a file that is not there). It fails
// whole, with an error that wraps [edit.ErrMismatch], when a step does not fit.
func (r *Recovery) Apply(doc *schematic.Doc) (*schematic.Doc, error) {
	held, _ := r.Held(doc)
	for i, c := range r.steps[held:] {
		next, err := c.Apply(doc)
		if err != nil {
			return nil, fmt.Errorf("recover step %d (%s): %w", held+i+1, r.Labels[held+i], err)
		}
		doc = next
	}
	return doc, nil
}

// Continue opens the journal to go on after the steps it holds, for a session
// that starts with the recovered document. Unreadable lines are cut off.
func (r *Recovery) Continue() (*Journal, error) {
	if r.goodEnd == 0 {
		return nil, fmt.Errorf("the recovery journal %s holds nothing that can be read: remove it", r.path)
	}
	f, err := os.OpenFile(r.path, os.O_WRONLY, 0)
	if err != nil {
		return nil, fmt.Errorf("go on with the recovery journal: %w", err)
	}
	if err = f.Truncate(r.goodEnd); err == nil {
		_, err = f.Seek(r.goodEnd, io.SeekStart)
	}
	if err != nil {
		f.Close()
		return nil, fmt.Errorf("go on with the recovery journal: %w", err)
	}
	return &Journal{path: r.path, f: f, step: len(r.steps), size: r.goodEnd}, nil
}

// Remove deletes the journal: its steps are given up.
func (r *Recovery) Remove() error { return os.Remove(r.path) }
