package edit

import (
	"errors"
	"testing"
	"time"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

func TestUndoGivesBackTheSameSnapshot(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	one := b.Doc()
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(f), geom.Pt(25, 0)) })
	two := b.Doc()
	if err := b.Undo(); err != nil || b.Doc() != one {
		t.Errorf("undo: %v, same snapshot %v", err, b.Doc() == one)
	}
	if err := b.Redo(); err != nil || b.Doc() != two {
		t.Errorf("redo: %v, same snapshot %v", err, b.Doc() == two)
	}
	for b.UndoLabel() != "" {
		if err := b.Undo(); err != nil {
			t.Fatal(err)
		}
	}
	if b.Doc() != b.start || b.Modified() {
		t.Error("undoing everything must lead to the saved snapshot")
	}
	if err := b.Undo(); err != nil {
		t.Errorf("undo of nothing: %v", err)
	}
}

func TestFailedEditChangesNothing(t *testing.T) {
	b := newBench(t)
	boom := errors.New("boom")
	err := b.Do("try", func(tx *Tx) error {
		if err := PlacePart(tx, "fuse", b.sheet, geom.Point{}, geom.Orient{}); err != nil {
			return err
		}
		return boom
	})
	if !errors.Is(err, boom) || b.Doc() != b.start || b.UndoLabel() != "" {
		t.Errorf("err %v, doc changed %v, step %q", err, b.Doc() != b.start, b.UndoLabel())
	}
}

func TestEditWithoutEffectLeavesNoStep(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(f), geom.Pt(25, 0)) })
	steps := len(b.done)
	b.must(func(tx *Tx) error {
		if err := Move(tx, b.sheet, keysOf(f), geom.Pt(25, 0)); err != nil {
			return err
		}
		return Move(tx, b.sheet, keysOf(f), geom.Pt(-25, 0))
	})
	if len(b.done) != steps {
		t.Error("an edit that takes itself back left a step")
	}
}

func TestStreaksJoin(t *testing.T) {
	clock := time.Unix(0, 0)
	ids := countIDs()
	tx := Begin(schematic.New(testLibrary()), ids)
	if err := AddSheet(tx, ""); err != nil {
		t.Fatal(err)
	}
	s := NewSession(tx.Doc(), func() time.Time { return clock }, ids)
	sheet := s.Doc().Sheets()[0].ID
	if err := s.Do("place", func(tx *Tx) error { return PlacePart(tx, "fuse", sheet, geom.Point{}, geom.Orient{}) }); err != nil {
		t.Fatal(err)
	}
	sel := s.Selection()
	nudge := func(after time.Duration) {
		clock = clock.Add(after)
		if err := s.DoJoin("move", "nudge", func(tx *Tx) error { return Move(tx, sheet, sel, geom.Pt(25, 0)) }); err != nil {
			t.Fatal(err)
		}
	}
	nudge(0)
	nudge(400 * time.Millisecond)
	nudge(400 * time.Millisecond)
	if n := len(s.done); n != 2 {
		t.Errorf("%d steps after three quick nudges, want 2", n)
	}
	nudge(600 * time.Millisecond)
	if n := len(s.done); n != 3 {
		t.Errorf("%d steps after a late nudge, want 3", n)
	}
	s.MarkSaved(s.Doc())
	nudge(100 * time.Millisecond)
	if err := s.Undo(); err != nil || s.Modified() {
		t.Error("a streak must not run over the saved snapshot")
	}
}

func TestJournalHearsEveryStep(t *testing.T) {
	b := newBench(t)
	replay := b.Doc()
	b.Journal = func(_ string, c Change) error {
		next, err := c.Apply(replay)
		if err == nil {
			replay = next
		}
		return err
	}
	f := b.place("fuse", 100, 100)
	b.wire(at(f, "1"), loose(100, 0))
	for _, step := range []func() error{b.Undo, b.Undo, b.Redo} {
		if err := step(); err != nil {
			t.Fatal(err)
		}
	}
	if d := Diff(replay, b.Doc()); len(d) > 0 {
		t.Errorf("replay differs in %v", d.Keys())
	}
}

func TestChangeRefusesAnotherDocument(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 100, 100)
	before := b.Doc()
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(f), geom.Pt(25, 0)) })
	c := Diff(before, b.Doc())
	if _, err := c.Apply(b.start); !errors.Is(err, ErrMismatch) {
		t.Errorf("err %v, want a mismatch", err)
	}
}

func TestThenSquashes(t *testing.T) {
	b := newBench(t)
	d0 := b.Doc()
	f := b.place("fuse", 100, 100)
	d1 := b.Doc()
	b.must(func(tx *Tx) error { return Move(tx, b.sheet, keysOf(f), geom.Pt(25, 0)) })
	b.must(func(tx *Tx) error { return Delete(tx, keysOf(f)) })
	d3 := b.Doc()
	if c := Diff(d0, d1).Then(Diff(d1, d3)); len(c) > 0 {
		t.Errorf("placed and deleted leaves %v", c.Keys())
	}
}

// Whatever way an edit finds for a wire, what no file could hold is refused.
func TestNoStepLeadsAWireOffAnySheet(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 500, 500), b.place("lamp", 900, 1000)
	w := b.wire(at(f, "2"), at(e, "1"))
	b.refused("W1 would lie more than 10 m off", func(tx *Tx) error {
		tx.EditWire(w.ID, func(w *schematic.Wire) { w.Via = []geom.Point{geom.Pt(geom.MaxCoord+geom.Grid, 500)} })
		return nil
	})
}
