package edit

import (
	"errors"
	"strings"

	"loomwright/schematic"
)

// Accept lets a finding of the checks stand. A is what package check says of
// it, with reason and date but without an ID; the acceptances in instead, of
// the same finding from before, go.
func Accept(tx *Tx, a *schematic.Acceptance, instead ...schematic.ID) error {
	c := *a
	c.Reason = strings.TrimSpace(c.Reason)
	switch {
	case c.Rule == "":
		return errors.New("it is not said which finding shall stand: choose one from the list")
	case c.Reason == "":
		return errors.New("a finding stands for a reason: write one, so that you and others know it later")
	}
	TakeBack(tx, instead...)
	c.ID = tx.NewID()
	tx.Put(&c)
	return nil
}

// TakeBack removes acceptances: their findings are open again.
func TakeBack(tx *Tx, ids ...schematic.ID) {
	for _, id := range ids {
		tx.Delete(schematic.Key{Type: schematic.TypeAcceptance, ID: id})
	}
}
