package edit

import (
	"fmt"
	"strings"

	"loomwright/schematic"
)

// AddReading adds a measured value and selects nothing.
func AddReading(tx *Tx, m schematic.Reading) error {
	m.ID = tx.NewID()
	if err := validReading(tx.doc, &m); err != nil {
		return err
	}
	tx.Put(&m)
	return nil
}

// SetReading changes a measured value; change gets a copy.
func SetReading(tx *Tx, id schematic.ID, change func(*schematic.Reading)) error {
	old, ok := tx.doc.Get(schematic.Key{Type: schematic.TypeReading, ID: id}).(*schematic.Reading)
	if !ok {
		return fmt.Errorf("the reading is no longer there")
	}
	c := *old
	change(&c)
	c.ID = old.ID
	if err := validReading(tx.doc, &c); err != nil {
		return err
	}
	tx.Put(&c)
	return nil
}

func validReading(d *schematic.Doc, m *schematic.Reading) error {
	m.Date = strings.TrimSpace(m.Date)
	switch m.Quantity {
	case "volt", "amp", "ohm":
	default:
		return fmt.Errorf("%q cannot be measured: choose volt, amp or ohm", m.Quantity)
	}
	if m.Date == "" {
		return fmt.Errorf("a reading needs a date, such as 2026-11-25")
	}
	if m.From == (schematic.PinRef{}) {
		return fmt.Errorf("say at which pin the reading was taken")
	}
	for _, r := range []schematic.PinRef{m.From, m.To} {
		if r == (schematic.PinRef{}) {
			continue
		}
		p := d.Part(r.Part)
		if p == nil {
			return fmt.Errorf("the part of the reading is no longer there")
		}
		if _, ok := d.PinOf(p, r.Pin); !ok {
			return fmt.Errorf("%s has no pin %s", p.Name, r.Pin)
		}
	}
	if (m.State != schematic.ID{}) && d.State(m.State) == nil {
		return fmt.Errorf("the operating state of the reading is no longer there")
	}
	return sane(m.Value)
}
