package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
)

// ChangeKind makes a part one of another kind: a larger fuse, another relay.
// Values both kinds have stay, wires are led to where the pins are now. It is
// refused where a wire or a symbol would be left without its pin.
func ChangeKind(tx *Tx, id schematic.ID, kind string) error {
	p := tx.doc.Part(id)
	if p == nil {
		return fmt.Errorf("the part is no longer there")
	}
	was, k := tx.doc.KindOf(p), tx.doc.Kind(kind)
	switch {
	case k == nil:
		return fmt.Errorf("%s: there is no part kind %q", p.Name, kind)
	case p.Kind == k.Name:
		return nil
	case (p.Mate != schematic.ID{}):
		return fmt.Errorf("%s is plugged into %s: unplug it first", p.Name, partName(tx.doc, p.Mate))
	case was != nil && was.OwnPins != k.OwnPins:
		return fmt.Errorf("%s: the pins of a %q are not counted as those of a %q: place a new part instead", p.Name, k.Title, was.Title)
	}
	tx.carry(k)
	k = tx.doc.Kind(kind)
	if err := SetPart(tx, id, func(p *schematic.Part) {
		p.Kind = k.Name
		for name := range p.Values {
			if !takes(k, name) {
				delete(p.Values, name)
			}
		}
	}); err != nil {
		return err
	}
	p = tx.doc.Part(id)
	tx.editSettings(func(s schematic.Setting) (schematic.Setting, bool) {
		return s, s.Part != id || fits(tx.doc, p, k, s)
	})
	return nil
}

// fits reports whether what a state says of a part means something to its kind.
func fits(d *schematic.Doc, p *schematic.Part, k *schematic.Kind, s schematic.Setting) bool {
	switch {
	case s.Item != "":
		return hasItem(d, p, s.Item)
	case s.Position == "":
		return true
	case len(k.Positions) > 0:
		return slices.Contains(k.Positions, s.Position)
	}
	return s.Position == "on" || s.Position == "off"
}
