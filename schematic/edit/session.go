package edit

import (
	"fmt"
	"slices"
	"time"

	"loomwright/schematic"
)

// joinWithin is how long typing and arrow keys go on extending one step.
const joinWithin = 500 * time.Millisecond

// Entry is one step of the history.
type Entry struct {
	Label         string // what undo names: "move 3 items"
	Before, After *schematic.Doc
	Change        Change
	SelBefore     []schematic.Key
	SelAfter      []schematic.Key
	at            time.Time
	join          string
}

// Session is a document being edited: history, selection, saved mark. The
// history has no end: a step costs the few shards it touched. A Session
// belongs to one goroutine. The zero value is not usable; see [NewSession].
type Session struct {
	doc    *schematic.Doc
	saved  *schematic.Doc
	done   []Entry
	undone []Entry
	sel    []schematic.Key
	live   liveSelection
	watch  []func(old, new *schematic.Doc, c Change)

	now   func() time.Time
	newID func() schematic.ID
	// Journal, when set, is told of every step, undo and redo included, before
	// the session moves on. An error is reported by Do, Undo and Redo, but the
	// step stands.
	Journal func(label string, c Change) error
	// Verify, when set, may refuse a step: tests put schematic.Check here.
	Verify func(*schematic.Doc) error
}

// NewSession starts editing d, which counts as saved. Nil functions stand for
// the real clock and random IDs.
func NewSession(d *schematic.Doc, now func() time.Time, newID func() schematic.ID) *Session {
	if now == nil {
		now = time.Now
	}
	return &Session{doc: d, saved: d, now: now, newID: newID}
}

// Doc returns the current snapshot.
func (s *Session) Doc() *schematic.Doc { return s.doc }

// Modified reports whether the document differs from what was last saved.
func (s *Session) Modified() bool { return s.doc != s.saved }

// MarkSaved says that d, a snapshot of this session, is on disk now.
func (s *Session) MarkSaved(d *schematic.Doc) { s.saved = d }

// MarkUnsaved says that nothing on disk matches the document.
func (s *Session) MarkUnsaved() { s.saved = nil }

// liveSelection is what of a selection a document has.
type liveSelection struct {
	doc  *schematic.Doc
	sel  []schematic.Key // never written to, so the same slice is the same selection
	keys []schematic.Key
}

// Selection returns the selected items that still exist. The slice is the
// caller's own.
func (s *Session) Selection() []schematic.Key {
	l := &s.live
	same := l.doc == s.doc && len(l.sel) == len(s.sel) && (len(s.sel) == 0 || &l.sel[0] == &s.sel[0])
	if !same {
		*l = liveSelection{doc: s.doc, sel: s.sel}
		for _, k := range s.sel {
			if s.doc.Get(k) != nil {
				l.keys = append(l.keys, k)
			}
		}
	}
	return slices.Clone(l.keys)
}

// Select replaces the selection. It is no change of the document.
func (s *Session) Select(keys ...schematic.Key) {
	s.sel = append([]schematic.Key(nil), keys...)
}

// Watch calls f after every change of the document.
func (s *Session) Watch(f func(old, new *schematic.Doc, c Change)) { s.watch = append(s.watch, f) }

// Do runs an edit. When fn returns an error nothing has happened and the error
// comes back; an edit that changes nothing leaves no step.
func (s *Session) Do(label string, fn func(*Tx) error) error { return s.do(label, "", fn) }

// DoJoin is Do for edits that come in streaks: steps with the same join key
// less than half a second apart become one step of the history.
func (s *Session) DoJoin(label, join string, fn func(*Tx) error) error {
	return s.do(label, join, fn)
}

func (s *Session) do(label, join string, fn func(*Tx) error) error {
	tx := Begin(s.doc, s.newID)
	if err := fn(tx); err != nil {
		return fmt.Errorf("%s: %w", label, err)
	}
	if len(tx.change) == 0 {
		if tx.selects {
			s.Select(tx.selected...)
		}
		return nil
	}
	if err := tx.storable(); err != nil {
		return fmt.Errorf("%s: %w", label, err)
	}
	if s.Verify != nil {
		if err := s.Verify(tx.doc); err != nil {
			return fmt.Errorf("%s: %w", label, err)
		}
	}
	e := Entry{Label: label, Before: s.doc, After: tx.doc, Change: tx.change, SelBefore: s.sel, at: s.now(), join: join}
	if tx.selects {
		s.Select(tx.selected...)
	}
	e.SelAfter = s.sel
	s.undone = nil
	s.push(e)
	return s.move(label, tx.doc, tx.change)
}

// storable refuses bends that no file could hold, wherever an edit got them
// from: ways found for wires at the edge of what can be drawn.
func (tx *Tx) storable() error {
	for _, k := range tx.change.Keys() {
		if w, ok := tx.change[k].After.(*schematic.Wire); ok {
			if err := onSheet(w.Name, w.Via...); err != nil {
				return err
			}
		}
	}
	return nil
}

func (s *Session) push(e Entry) {
	if n := len(s.done); n > 0 && e.join != "" {
		last := &s.done[n-1]
		if last.join == e.join && e.at.Sub(last.at) < joinWithin && last.After != s.saved {
			last.After, last.Change, last.SelAfter, last.at = e.After, last.Change.Then(e.Change), e.SelAfter, e.at
			return
		}
	}
	s.done = append(s.done, e)
}

func (s *Session) move(label string, to *schematic.Doc, c Change) error {
	old := s.doc
	s.doc = to
	var err error
	if s.Journal != nil {
		if jerr := s.Journal(label, c); jerr != nil {
			err = fmt.Errorf("%s: the change is made but could not be written to the recovery journal: %w", label, jerr)
		}
	}
	for _, f := range s.watch {
		f(old, to, c)
	}
	return err
}

// UndoLabel returns what Undo would take back, "" for nothing.
func (s *Session) UndoLabel() string { return lastLabel(s.done) }

// RedoLabel returns what Redo would bring again, "" for nothing.
func (s *Session) RedoLabel() string { return lastLabel(s.undone) }

func lastLabel(es []Entry) string {
	if len(es) == 0 {
		return ""
	}
	return es[len(es)-1].Label
}

// Undo takes the last step back. It does nothing when there is none.
func (s *Session) Undo() error {
	n := len(s.done)
	if n == 0 {
		return nil
	}
	e := s.done[n-1]
	s.done, s.undone = s.done[:n-1], append(s.undone, e)
	s.sel = e.SelBefore
	return s.move("undo "+e.Label, e.Before, e.Change.Invert())
}

// Redo brings the last undone step again.
func (s *Session) Redo() error {
	n := len(s.undone)
	if n == 0 {
		return nil
	}
	e := s.undone[n-1]
	s.undone, s.done = s.undone[:n-1], append(s.done, e)
	s.sel = e.SelAfter
	return s.move("redo "+e.Label, e.After, e.Change)
}
