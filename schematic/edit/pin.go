package edit

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
)

// RenamePin gives a part's own pin another name. Wires, readings and settings
// follow. Plugged halves connect by pin name, so the mate's pin of the same
// name is renamed too.
func RenamePin(tx *Tx, id schematic.ID, from, to string) error {
	p := tx.doc.Part(id)
	to = strings.TrimSpace(to)
	switch {
	case p == nil:
		return fmt.Errorf("the part is no longer there")
	case to == "":
		return fmt.Errorf("%s: a pin needs a name", p.Name)
	case from == to:
		return nil
	}
	if err := tx.renamePin(p, from, to); err != nil {
		return err
	}
	if q := tx.doc.Part(p.Mate); q != nil && slices.ContainsFunc(q.Pins, func(pin schematic.Pin) bool { return pin.Name == from }) {
		return tx.renamePin(q, from, to)
	}
	return nil
}

func (tx *Tx) renamePin(p *schematic.Part, from, to string) error {
	c := ownPart(p)
	i := slices.IndexFunc(c.Pins, func(pin schematic.Pin) bool { return pin.Name == from })
	if i < 0 {
		return fmt.Errorf("%s has no own pin %q: only a part's own pins can be renamed", p.Name, from)
	}
	if _, taken := tx.doc.PinOf(p, to); taken {
		return fmt.Errorf("%s already has a pin %s: choose another name", p.Name, to)
	}
	c.Pins[i].Name = to
	puts := []schematic.Item{c}
	is := schematic.PinRef{Part: p.ID, Pin: from}
	for _, w := range tx.doc.WiresOf(p.ID) {
		if w.A.Ref() != is && w.B.Ref() != is {
			continue
		}
		cw := *w
		for _, e := range []*schematic.End{&cw.A, &cw.B} {
			if e.Ref() == is {
				e.Pin = to
			}
		}
		puts = append(puts, &cw)
	}
	for m := range tx.doc.Readings() {
		if m.From != is && m.To != is {
			continue
		}
		cm := *m
		for _, r := range []*schematic.PinRef{&cm.From, &cm.To} {
			if *r == is {
				r.Pin = to
			}
		}
		puts = append(puts, &cm)
	}
	tx.Put(puts...)
	tx.editSettings(func(s schematic.Setting) (schematic.Setting, bool) {
		if s.Part == p.ID && s.Item == from {
			s.Item = to
		}
		return s, true
	})
	return nil
}
