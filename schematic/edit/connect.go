package edit

import (
	"fmt"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// ConnectPins leads a wire from one pin to another: the wire that is at from
// already, or a new one like the given wire, which may be nil. A wire lies on
// one sheet, so both pins must be shown on a common one. Where several wires
// are at from, none can be meant.
func ConnectPins(tx *Tx, from, to schematic.PinRef, like *schematic.Wire) error {
	p, q := tx.doc.Part(from.Part), tx.doc.Part(to.Part)
	switch {
	case p == nil || q == nil:
		return fmt.Errorf("a part to connect is no longer there")
	case from == to:
		return fmt.Errorf("%s.%s cannot be wired to itself: name another pin", p.Name, from.Pin)
	}
	at := tx.doc.WiresAt(from)
	switch {
	case len(at) > 1:
		return fmt.Errorf("%d wires are at %s.%s: lead one of them on the drawing", len(at), p.Name, from.Pin)
	case len(at) == 1 && (at[0].A.Ref() == to || at[0].B.Ref() == to):
		return nil
	case len(at) == 1 && at[0].A.Ref() == from:
		return ReconnectEnd(tx, at[0].ID, EndB, Anchor{Part: to.Part, Pin: to.Pin})
	case len(at) == 1:
		return ReconnectEnd(tx, at[0].ID, EndA, Anchor{Part: to.Part, Pin: to.Pin})
	}
	sheet, ok := commonSheet(tx.doc, from, to)
	if !ok {
		return fmt.Errorf("no sheet shows both %s.%s and %s.%s: show one of the parts on the other's sheet first", p.Name, from.Pin, q.Name, to.Pin)
	}
	return AddWire(tx, sheet, Anchor{Part: from.Part, Pin: from.Pin}, Anchor{Part: to.Part, Pin: to.Pin}, nil, like)
}

// pinOn returns where a sheet shows a pin, and which way a wire leaves it.
func pinOn(d *schematic.Doc, sheet schematic.ID, pin schematic.PinRef) (at geom.Point, dir geom.Dir, shown bool) {
	return d.EndAt(&schematic.Wire{Sheet: sheet}, schematic.End{Part: pin.Part, Pin: pin.Pin})
}

// commonSheet returns the first sheet by tab that shows both pins.
func commonSheet(d *schematic.Doc, a, b schematic.PinRef) (schematic.ID, bool) {
	for _, s := range d.Sheets() {
		_, _, oneShown := pinOn(d, s.ID, a)
		_, _, twoShown := pinOn(d, s.ID, b)
		if oneShown && twoShown {
			return s.ID, true
		}
	}
	return schematic.ID{}, false
}

// HangWire draws a wire from a pin that ends loose a little way out, on the
// first sheet by tab that shows the pin.
func HangWire(tx *Tx, from schematic.PinRef, like *schematic.Wire) error {
	p := tx.doc.Part(from.Part)
	if p == nil {
		return fmt.Errorf("the part is no longer there")
	}
	sheet, ok := firstSheet(tx.doc, from)
	if !ok {
		return fmt.Errorf("pin %s of %s is shown on no sheet: show the part on one first", from.Pin, p.Name)
	}
	return AddWire(tx, sheet, Anchor{Part: from.Part, Pin: from.Pin}, Anchor{At: tx.outOf(sheet, from)}, nil, like)
}
