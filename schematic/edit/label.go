package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// MoveLabel puts the middle of a wire's label at a place on the sheet, and from
// then on that far from the middle of the wire.
func MoveLabel(tx *Tx, wire schematic.ID, to geom.Point) error {
	w := tx.doc.Wire(wire)
	if w == nil {
		return fmt.Errorf("the wire is no longer there")
	}
	if err := onSheet("the label of "+w.Name, to); err != nil {
		return err
	}
	c := *w
	if c.Tag = to.Sub(tx.doc.Path(w).Middle()); c.Tag == (geom.Point{}) {
		c.Tag.Y = 1 // on the very middle of the wire, which zero does not say
	}
	if !c.Tag.InRange() {
		return fmt.Errorf("the label of %s would lie too far from its wire: keep it nearer", w.Name)
	}
	tx.Put(&c)
	return nil
}

// keepLabel returns the tag of a label that was put somewhere, for a wire that is
// led another way now. It stays where it is as long as that is no further from
// the wire; else it goes along with the place of the wire it was beside.
func keepLabel(tag geom.Point, old, now geom.Path) geom.Point {
	const further = 2 * geom.Grid
	if tag == (geom.Point{}) || slices.Equal(old, now) || len(old) < 2 || len(now) < 2 {
		return tag
	}
	at := old.Middle().Add(tag)
	was, seg, near := old.Dist(at)
	if is, _, _ := now.Dist(at); is > was+further {
		before := append(slices.Clone(old[:seg+1]), near).Length()
		at = at.Add(now.At(before / max(1, old.Length())).Sub(near))
	}
	tag = at.Sub(now.Middle())
	if tag == (geom.Point{}) || !tag.InRange() {
		return geom.Point{Y: 1}
	}
	return tag
}

// ResetLabels lets the program find room for the labels of wires again. Other
// items are passed over.
func ResetLabels(tx *Tx, keys []schematic.Key) error {
	for _, k := range keys {
		if k.Type == schematic.TypeWire {
			tx.EditWire(k.ID, func(w *schematic.Wire) { w.Tag = geom.Point{} })
		}
	}
	return nil
}
