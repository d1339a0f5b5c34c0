package edit

import (
	"fmt"

	"loomwright/schematic"
)

// Mate plugs two connector halves together. Each half may have one mate.
func Mate(tx *Tx, a, b schematic.ID) error {
	p, q := tx.doc.Part(a), tx.doc.Part(b)
	switch {
	case p == nil || q == nil:
		return fmt.Errorf("one of the two connector halves is no longer there")
	case a == b:
		return fmt.Errorf("%s cannot be plugged into itself", p.Name)
	case p.Mate == b && q.Mate == a:
		return nil
	}
	for _, half := range []*schematic.Part{p, q} {
		if (half.Mate != schematic.ID{}) {
			return fmt.Errorf("%s is already plugged into %s: unplug it first", half.Name, partName(tx.doc, half.Mate))
		}
	}
	tx.EditPart(a, func(p *schematic.Part) { p.Mate = b })
	tx.EditPart(b, func(p *schematic.Part) { p.Mate = a })
	return nil
}

// Unmate unplugs a connector half from its mate.
func Unmate(tx *Tx, id schematic.ID) error {
	p := tx.doc.Part(id)
	if p == nil {
		return fmt.Errorf("the connector half is no longer there")
	}
	mate := p.Mate
	tx.EditPart(id, func(p *schematic.Part) { p.Mate = schematic.ID{} })
	tx.EditPart(mate, func(q *schematic.Part) {
		if q.Mate == id {
			q.Mate = schematic.ID{}
		}
	})
	return nil
}

func partName(d *schematic.Doc, id schematic.ID) string {
	if p := d.Part(id); p != nil {
		return p.Name
	}
	return "a part that is gone"
}
