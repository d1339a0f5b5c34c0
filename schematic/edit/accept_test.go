package edit

import (
	"testing"

	"loomwright/schematic"
)

func TestAcceptanceIsKeptUndoneAndTakenBack(t *testing.T) {
	b := newBench(t)
	f := b.place("fuse", 500, 500)
	w := b.wire(at(f, "1"), loose(500, 200))
	a := &schematic.Acceptance{Rule: "voltage drop", Items: []schematic.Subject{{Part: f.ID}, {Wire: w.ID}},
		Value: schematic.Some(0.52), Unit: "V", Reason: " measured 0.4 V ", Date: "2024-05-01"}
	accept := func(reason string, instead ...schematic.ID) schematic.ID {
		t.Helper()
		c := *a
		c.Reason = reason
		b.must(func(tx *Tx) error { return Accept(tx, &c, instead...) })
		for a := range b.Doc().Acceptances() {
			equalText(t, "reason", a.Reason, "measured 0.4 V")
			return a.ID
		}
		t.Fatal("no acceptance")
		return schematic.ID{}
	}
	first := accept(" measured 0.4 V ")
	b.refused("a finding stands for a reason", func(tx *Tx) error { return Accept(tx, &schematic.Acceptance{Rule: "voltage drop", Reason: " "}) })
	b.refused("not said which finding", func(tx *Tx) error { return Accept(tx, &schematic.Acceptance{Reason: "no"}) })
	second := accept("measured 0.4 V", first)
	if n := b.Doc().Len(schematic.TypeAcceptance); n != 1 || first == second {
		t.Errorf("%d acceptances after accepting anew", n)
	}
	// What was accepted may go: the acceptance waits for an undo.
	b.must(func(tx *Tx) error { return Delete(tx, keysOf(f)) })
	if b.Doc().Len(schematic.TypeAcceptance) != 1 {
		t.Error("the acceptance went with its part")
	}
	b.must(func(tx *Tx) error { TakeBack(tx, second, first); return nil })
	if b.Doc().Len(schematic.TypeAcceptance) != 0 {
		t.Error("the acceptance is still there")
	}
	for b.UndoLabel() != "" {
		if err := b.Undo(); err != nil {
			t.Fatal(err)
		}
	}
	if diff := Diff(b.start, b.Doc()); len(diff) > 0 {
		t.Errorf("undone to the start, yet %v differ", diff.Keys())
	}
	for b.RedoLabel() != "" {
		if err := b.Redo(); err != nil {
			t.Fatal(err)
		}
	}
	if b.Doc().Len(schematic.TypeAcceptance) != 0 {
		t.Error("redone to the end, the acceptance is there again")
	}
}
