package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// ShowPartNear is [ShowPart] at the place nearest to at where nothing is drawn
// yet; where the sheet is full round about, at itself.
func ShowPartNear(tx *Tx, id, sheet schematic.ID, section string, at geom.Point, orient geom.Orient) error {
	if p := tx.doc.Part(id); p != nil {
		at = tx.clearFor(p, schematic.View{Sheet: sheet, Section: section, Turns: orient.Turns & 3, Mirror: orient.Mirror}, at)
	}
	return ShowPart(tx, id, sheet, section, at, orient)
}

// clearFor looks round about at for the place where one more symbol of a part
// and its writing cover nothing.
func (tx *Tx) clearFor(p *schematic.Part, v schematic.View, at geom.Point) geom.Point {
	const most = 40 * geom.Grid
	free := at
	room := roomOn(tx.doc, v.Sheet)
	ringed(at, most, func(q geom.Point) bool {
		v.At = q
		if !room.free(tx.reach(p, v), geom.Grid) {
			return false
		}
		free = q
		return true
	})
	return free
}

// AddWireFromAfar draws a wire on a sheet from a pin that may be drawn on other
// sheets alone: its part is then shown here too, near the other end.
func AddWireFromAfar(tx *Tx, sheet schematic.ID, from schematic.PinRef, to Anchor, like *schematic.Wire) error {
	p := tx.doc.Part(from.Part)
	if p == nil {
		return fmt.Errorf("the part that the wire begins at is no longer there")
	}
	here, ok := tx.viewWith(p, sheet, from.Pin)
	if !ok {
		section, ok := tx.sectionWith(p, from.Pin)
		if !ok {
			return fmt.Errorf("%s has no pin %s any more", p.Name, from.Pin)
		}
		orient := geom.Orient{}
		for _, v := range p.Views {
			if v.Section == section {
				orient = geom.Orient{Turns: v.Turns, Mirror: v.Mirror}
				break
			}
		}
		at := to.At
		if end := tx.doc.Part(to.Part); end != nil {
			tip, dir, _ := tx.doc.EndAt(&schematic.Wire{Sheet: sheet}, schematic.End{Part: to.Part, Pin: to.Pin, View: to.View})
			ahead := dir.Vec() // the way the pin points, so that the wire is short
			at = tip.Add(geom.Pt(8*geom.Grid*ahead.X, 8*geom.Grid*ahead.Y))
		}
		if err := ShowPartNear(tx, p.ID, sheet, section, at, orient); err != nil {
			return err
		}
		p = tx.doc.Part(p.ID)
		here = p.Views[len(p.Views)-1].Key
	}
	return AddWire(tx, sheet, Anchor{Part: p.ID, Pin: from.Pin, View: here}, to, nil, like)
}

// viewWith returns the key of the part's first view on a sheet that shows a pin.
func (tx *Tx) viewWith(p *schematic.Part, sheet schematic.ID, pin string) (key string, ok bool) {
	for _, v := range p.Views {
		if v.Sheet == sheet && hasPin(tx.doc.PlacedPins(p, v), pin) {
			return v.Key, true
		}
	}
	return "", false
}

// sectionWith returns the section of the part's kind that shows a pin.
func (tx *Tx) sectionWith(p *schematic.Part, pin string) (name string, ok bool) {
	k := tx.doc.KindOf(p)
	if k == nil {
		return "", false
	}
	for _, s := range sectionsShown(k, p) {
		if hasPin(tx.doc.LocalPins(p, s), pin) {
			return s, true
		}
	}
	return "", false
}

func hasPin(pins []schematic.PlacedPin, name string) bool {
	return slices.ContainsFunc(pins, func(p schematic.PlacedPin) bool { return p.Pin.Name == name })
}
