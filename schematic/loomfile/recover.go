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
// [Recovery.Replay], and until [Recovery.Close] no other window can take it.
type Recovery struct {
	// Path is the harness file the steps belong to; "" for an untitled drawing.
	Path string
	// InUse says that this is no journal left behind: another window, maybe of
	// another program, is writing it.
	InUse bool
	// Fits reports whether the harness file is still the one the steps start
	// from. If not, it was changed or saved since.
	Fits bool
	// Labels name the steps, oldest first.
	Labels []string
	// Lost is the number of lines at the end that cannot be read: one torn by
	// the crash, more if the journal is damaged.
	Lost int

	at    string   // the journal
	held  *os.File // keeps others away
	head  journalHeader
	steps []edit.Change
}

// Recover reads the journal beside the harness file at path. It returns nil
// when there is none.
func Recover(path string) (*Recovery, error) {
	r, err := RecoverFrom(JournalPath(path))
	if r == nil || err != nil {
		return nil, err
	}
	r.Path = path
	if err := r.compareFile(); err != nil {
		r.Close()
		return nil, err
	}
	return r, nil
}

// RecoverFrom reads a journal that is kept apart from its harness file, which it
// names itself. It returns nil when there is none.
func RecoverFrom(journal string) (*Recovery, error) {
	f, err := os.Open(journal)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("read the recovery journal: %w", err)
	}
	free := hold(f)
	if free && CanHold {
		// One that was to take the place of this holds nothing that this does not.
		os.Remove(journal + newTail)
	}
	r, err := readJournal(io.LimitReader(f, maxJournal+1))
	if err != nil {
		f.Close()
		return nil, fmt.Errorf("read the recovery journal %s: %w", journal, err)
	}
	r.at, r.held, r.InUse, r.Path = journal, f, !free, r.head.Path
	if err := r.compareFile(); err != nil {
		r.Fits = false // what the journal holds itself is enough
	}
	return r, nil
}

// compareFile finds out whether the file is as it was.
func (r *Recovery) compareFile() error {
	hash := noFile
	if r.Path != "" {
		var err error
		if hash, err = hashFile(r.Path); err != nil {
			return fmt.Errorf("read %s: %w", r.Path, bareRead(err))
		}
	}
	r.Fits = r.head.File == hash
	return nil
}

// Close lets go of the journal: it stays on disk, to be offered again.
func (r *Recovery) Close() error {
	if r.held == nil {
		return nil
	}
	err := r.held.Close()
	r.held = nil
	return err
}

// readJournal reads lines up to the first that is torn or damaged.
func readJournal(r io.Reader) (*Recovery, error) {
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
			h := &rec.head
			if err := canon.Decode(text, h); err != nil {
				return nil, err
			}
			if h.Format != journalFormat || h.Version < 1 || h.Version > journalVersion {
				return nil, fmt.Errorf("the journal is %.40q version %d, this program reads %q up to version %d", h.Format, h.Version, journalFormat, journalVersion)
			}
			head = false
		default:
			if err := rec.add(text); err != nil {
				rec.Lost++
				continue
			}
		}
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

// holds returns how many of the steps a document already holds: none, or those up
// to a save that was broken off before the journal was ended. It is false for a
// document that was otherwise changed.
func (r *Recovery) holds(doc *schematic.Doc) (steps int, ok bool) {
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

// Outcome is what comes of making the steps of a journal again.
type Outcome struct {
	// Doc is the document as the user last saw it, From the one its steps were
	// made on.
	Doc, From *schematic.Doc
	// Steps name those that were made: none when the file holds them all.
	Steps []string
	// Older says that From is not what the file holds now: another program has
	// changed it since, it is gone, or it cannot be read.
	Older bool
}

// Replay makes the steps again. Now is the document as loaded from the file; nil
// when there is no file, or none that can be read. What comes out is what the
// user last saw, made on the document that the journal carries; only what a save
// brought into the file before the program ended is not made twice. A journal of
// an older version carries no document: its steps are made on now, and where they
// do not fit the error wraps [edit.ErrMismatch].
func (r *Recovery) Replay(now *schematic.Doc, lib *schematic.Library) (Outcome, error) {
	base, err := r.head.unpack(lib)
	switch {
	case err != nil && now == nil:
		return Outcome{}, err
	case base == nil && now == nil && r.head.File == noFile:
		now = schematic.New(lib)
	case base == nil && now == nil:
		return Outcome{}, fmt.Errorf("the recovery journal %s was made by an older version and needs its file: %w", r.at, edit.ErrMismatch)
	}
	if base == nil {
		first, _ := r.holds(now)
		return r.from(now, first)
	}
	if !r.Fits && now != nil {
		first, _ := r.holds(now)
		if saved, err := r.run(base, 0, first); err == nil && len(edit.Diff(saved, now)) == 0 {
			return r.from(now, first)
		}
	}
	first, _ := r.holds(base) // steps that took each other back
	out, err := r.from(base, first)
	out.Older = !r.Fits
	return out, err
}

// from makes the steps after the first ones.
func (r *Recovery) from(d *schematic.Doc, first int) (Outcome, error) {
	now, err := r.run(d, first, len(r.steps))
	if err != nil {
		return Outcome{}, err
	}
	return Outcome{Doc: now, From: d, Steps: r.Labels[first:]}, nil
}

func (r *Recovery) run(d *schematic.Doc, first, end int) (*schematic.Doc, error) {
	for i := first; i < end; i++ {
		next, err := r.steps[i].Apply(d)
		if err != nil {
			return nil, fmt.Errorf("recover step %d (%s): %w", i+1, r.Labels[i], err)
		}
		d = next
	}
	return d, nil
}

// Beside reports whether the journal lies beside its file.
func (r *Recovery) Beside() bool { return r.Path != "" && r.at == JournalPath(r.Path) }

// Stamp is that of the file the steps start from.
func (r *Recovery) Stamp() Stamp {
	if r.head.File == noFile {
		return Stamp{}
	}
	return Stamp{hash: r.head.File}
}

// Replace prepares a journal that takes the place of this one, all at once, with
// its first step: for a session that starts with base and makes everything that
// was recovered in that step.
func (r *Recovery) Replace(base Base) *Journal {
	return &Journal{path: r.at + newTail, over: r.at, head: base.head}
}

// Remove deletes the journal: its steps are given up.
func (r *Recovery) Remove() error { return errors.Join(os.Remove(r.at), r.Close()) }
