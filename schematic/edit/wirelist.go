package edit

import (
	"fmt"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// AddWires draws the wires of a list and selects them. Each wire says what it is
// like and at which pins it ends; an end at no pin hangs loose a little way out
// of the other. A zero ID or sheet and an empty designation are chosen here: the
// next free one, and the first sheet by tab that shows both pins, where a part
// is shown once more if [SheetOf] says so. Bends are not chosen: see
// [route.AnewAll].
func AddWires(tx *Tx, wires []schematic.Wire, showMore bool) error {
	taken := map[string]bool{}
	for _, w := range wires {
		taken[w.Name] = true
	}
	var keys []schematic.Key
	for _, w := range wires {
		if (w.ID == schematic.ID{}) {
			w.ID = tx.NewID()
		}
		if w.Name == "" {
			w.Name = tx.doc.FreeName(WirePrefix, taken)
		}
		if err := tx.addWire(&w, showMore); err != nil {
			return err
		}
		keys = append(keys, w.Key())
	}
	tx.Select(keys...)
	return nil
}

func (tx *Tx) addWire(w *schematic.Wire, showMore bool) error {
	if err := free(tx.doc, w.Name, w.Key()); err != nil {
		return err
	}
	if w.A.Loose() && w.B.Loose() {
		return fmt.Errorf("%s ends nowhere: name at least one pin", w.Name)
	}
	if (w.Sheet == schematic.ID{}) {
		found, more, err := SheetOf(tx.doc, w.A, w.B, showMore)
		if err != nil {
			return fmt.Errorf("%s: %w", w.Name, err)
		}
		w.Sheet = found
		if (more != schematic.PinRef{}) {
			if err := tx.showFor(w, more); err != nil {
				return err
			}
		}
	}
	w.A.View, w.B.View = tx.nearest(w)
	for _, e := range []*schematic.End{&w.A, &w.B} {
		if e.Loose() {
			continue
		}
		is, err := tx.pinEnd(w.Sheet, Anchor{Part: e.Part, Pin: e.Pin, View: e.View})
		if err != nil {
			return fmt.Errorf("%s: %w", w.Name, err)
		}
		is.Terminal, is.Seal, is.JointOhm, is.Extra = e.Terminal, e.Seal, e.JointOhm, e.Extra
		*e = is
	}
	switch {
	case w.A.Loose():
		w.A.At = tx.outOf(w.Sheet, w.B.Ref())
	case w.B.Loose():
		w.B.At = tx.outOf(w.Sheet, w.A.Ref())
	}
	if err := validWire(tx.doc, w); err != nil {
		return err
	}
	if err := tx.shape(w, nil); err != nil {
		return err
	}
	tx.Put(w)
	return nil
}

// nearest returns which symbols of the parts at its ends a wire is to be drawn
// between: those that lie nearest to each other on its sheet.
func (tx *Tx) nearest(w *schematic.Wire) (a, b string) {
	least := -1
	for _, va := range tx.symbolsOf(w.Sheet, w.A) {
		for _, vb := range tx.symbolsOf(w.Sheet, w.B) {
			from, _, _ := tx.doc.EndAt(w, schematic.End{Part: w.A.Part, Pin: w.A.Pin, View: va})
			to, _, _ := tx.doc.EndAt(w, schematic.End{Part: w.B.Part, Pin: w.B.Pin, View: vb})
			if far := apart(from, to); least < 0 || far < least {
				least, a, b = far, va, vb
			}
		}
	}
	return a, b
}

// symbolsOf lists the symbols of a part that show the pin of an end on a sheet;
// an end that is loose, or shown nowhere, has the one without a name.
func (tx *Tx) symbolsOf(sheet schematic.ID, e schematic.End) []string {
	var keys []string
	if p := tx.doc.Part(e.Part); p != nil {
		is, _ := tx.doc.PinOf(p, e.Pin)
		for _, v := range p.Views {
			if v.Sheet == sheet && v.Section == is.Section {
				keys = append(keys, v.Key)
			}
		}
	}
	if len(keys) == 0 {
		keys = []string{""}
	}
	return keys
}

// showFor shows the part of a wire's end that its sheet does not show yet.
func (tx *Tx) showFor(w *schematic.Wire, more schematic.PinRef) error {
	near := w.A.Ref()
	if near == more {
		near = w.B.Ref()
	}
	at, _, _ := pinOn(tx.doc, w.Sheet, near)
	shown, err := tx.showNear(more, w.Sheet, at)
	if err == nil && !shown {
		err = fmt.Errorf("there is no room for %s near %s on sheet %q: move something there first", partName(tx.doc, more.Part), partName(tx.doc, near.Part), tx.doc.Sheet(w.Sheet).Name)
	}
	if err != nil {
		return fmt.Errorf("%s: %w", w.Name, err)
	}
	return nil
}

// outOf returns where the loose end of a wire at a pin comes to lie.
func (tx *Tx) outOf(sheet schematic.ID, pin schematic.PinRef) geom.Point {
	const out = 8 * geom.Grid
	at, dir, _ := pinOn(tx.doc, sheet, pin)
	if dir == geom.NoDir {
		dir = geom.Right
	}
	v := dir.Vec()
	return at.Add(geom.Pt(v.X*out, v.Y*out))
}

// SheetOf returns the sheet that a wire between two ends is drawn on: the first
// by tab that shows both. Where none does, a ground is shown on the sheet of the
// other end too, or any part when showMore is set; more is its pin then.
func SheetOf(d *schematic.Doc, a, b schematic.End, showMore bool) (sheet schematic.ID, more schematic.PinRef, err error) {
	switch {
	case a.Loose():
		a = b
	case b.Loose():
		b = a
	}
	if both, ok := commonSheet(d, a.Ref(), b.Ref()); ok {
		return both, more, nil
	}
	p, q := d.Part(a.Part), d.Part(b.Part)
	if p == nil || q == nil {
		return sheet, more, fmt.Errorf("a part to connect is no longer there")
	}
	homeA, shownA := firstSheet(d, a.Ref())
	homeB, shownB := firstSheet(d, b.Ref())
	switch {
	case !shownA:
		return sheet, more, fmt.Errorf("pin %s of %s is shown on no sheet: show the part on one first", a.Pin, p.Name)
	case !shownB:
		return sheet, more, fmt.Errorf("pin %s of %s is shown on no sheet: show the part on one first", b.Pin, q.Name)
	case isGround(d, q):
		return homeA, b.Ref(), nil
	case isGround(d, p):
		return homeB, a.Ref(), nil
	case showMore && len(d.PinsOf(p)) < len(d.PinsOf(q)):
		return homeB, a.Ref(), nil // the smaller symbol finds room more easily
	case showMore:
		return homeA, b.Ref(), nil
	}
	return sheet, more, fmt.Errorf("no sheet shows both %s and %s: show one of them on the other's sheet first", p.Name, q.Name)
}

// firstSheet returns the first sheet by tab that shows a pin.
func firstSheet(d *schematic.Doc, pin schematic.PinRef) (schematic.ID, bool) {
	return commonSheet(d, pin, pin)
}

func isGround(d *schematic.Doc, p *schematic.Part) bool {
	k := d.KindOf(p)
	return k != nil && k.Ground != ""
}
