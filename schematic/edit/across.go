package edit

import (
	"fmt"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// Across is a part to be put between two pins, with a wire to each: a diode
// across a coil. Without a kind it is one wire from pin to pin: a strap.
type Across struct {
	From, To schematic.PinRef
	Kind     string
	Pins     [2]string // the pin towards From, and the one towards To
	Values   map[string]float64

	// Like is the wire whose conductor, insulation and colour the wires take
	// over; none leaves them unknown, as an unknown length does.
	Like     schematic.ID
	LengthMM schematic.Num // of each wire
}

// Apply draws it on the sheet that shows both pins, or that of the first; a
// stud of the other end is shown there too.
func (in Across) Apply(tx *Tx) error {
	for _, r := range []schematic.PinRef{in.From, in.To} {
		p := tx.doc.Part(r.Part)
		if p == nil {
			return fmt.Errorf("the part to connect is no longer there")
		}
		if _, ok := tx.doc.PinOf(p, r.Pin); !ok {
			return fmt.Errorf("%s has no pin %q", p.Name, r.Pin)
		}
	}
	sheet, from, to, err := in.sheet(tx)
	if err != nil {
		return err
	}
	if in.Kind == "" {
		w := in.wire(tx, sheet, from, to)
		tx.lay(w)
		tx.Select(w.Key())
		return nil
	}
	o, err := tx.newOnWire(in.Kind, in.Pins, in.Values)
	if err != nil {
		return err
	}
	o.part.Loom = tx.doc.Part(in.From.Part).Loom
	probe := &schematic.Wire{Sheet: sheet}
	a, z := route.TipOf(tx.doc, probe, from), route.TipOf(tx.doc, probe, to)
	if !tx.between(o, sheet, a.At, z.At) {
		return fmt.Errorf("there is no room for %s near %s: move something, or draw it by hand", o.part.Name, tx.doc.Part(in.From.Part).Name)
	}
	tx.Put(o.part)
	tx.lay(in.wire(tx, sheet, from, schematic.End{Part: o.part.ID, Pin: in.Pins[0]}))
	tx.lay(in.wire(tx, sheet, schematic.End{Part: o.part.ID, Pin: in.Pins[1]}, to))
	tx.Select(o.part.Key())
	return nil
}

// wire returns a new wire of the sort asked for.
func (in Across) wire(tx *Tx, sheet schematic.ID, a, b schematic.End) *schematic.Wire {
	w := &schematic.Wire{ID: tx.NewID(), Name: tx.doc.FreeName(WirePrefix, nil), Sheet: sheet, A: a, B: b, LengthMM: in.LengthMM}
	if like := tx.doc.Wire(in.Like); like != nil {
		w.Metal, w.Size, w.Insulation, w.TempC, w.Color = like.Metal, like.Size, like.Insulation, like.TempC, like.Color
	}
	return w
}

// sheet finds a sheet on which both pins are shown, and the ends there.
func (in Across) sheet(tx *Tx) (sheet schematic.ID, from, to schematic.End, err error) {
	from, to = schematic.End{Part: in.From.Part, Pin: in.From.Pin}, schematic.End{Part: in.To.Part, Pin: in.To.Pin}
	if both, ok := commonSheet(tx.doc, in.From, in.To); ok {
		return both, from, to, nil
	}
	p, q := tx.doc.Part(in.From.Part), tx.doc.Part(in.To.Part)
	if isGround(tx.doc, q) {
		for _, v := range p.Views {
			at, _, ok := pinOn(tx.doc, v.Sheet, in.From)
			if !ok {
				continue
			}
			if shown, err := tx.showNear(in.To, v.Sheet, at); shown || err != nil {
				return v.Sheet, from, to, err
			}
		}
	}
	return sheet, from, to, fmt.Errorf("no sheet shows both %s and %s: show one of them on the other's sheet first", p.Name, q.Name)
}

// showNear adds a symbol of a pin's part to a sheet where there is room near a
// place, and reports whether there was.
func (tx *Tx) showNear(pin schematic.PinRef, sheet schematic.ID, at geom.Point) (bool, error) {
	p := tx.doc.Part(pin.Part)
	is, _ := tx.doc.PinOf(p, pin.Pin)
	free := roomOn(tx.doc, sheet)
	var place geom.Point
	if !ringed(at, farAway, func(c geom.Point) bool {
		place = c
		return free.free(tx.reach(p, schematic.View{Sheet: sheet, Section: is.Section, At: c}), 2*geom.Grid)
	}) {
		return false, nil
	}
	return true, ShowPart(tx, p.ID, sheet, is.Section, place, geom.Orient{})
}

// between places a part near two points such that the ways to them are short.
func (tx *Tx) between(o onWire, sheet schematic.ID, a, z geom.Point) bool {
	free := roomOn(tx.doc, sheet)
	best, found := 0, false
	var view schematic.View
	mid := geom.Pt((a.X+z.X)/2, (a.Y+z.Y)/2)
	rings := 0
	ringed(mid, farAway, func(q geom.Point) bool {
		for _, or := range orients()[:4] {
			v := o.view(sheet, or, q.Add(or.Apply(o.near)))
			near, far := v.Transform().Apply(o.near), v.Transform().Apply(o.far)
			o.part.Views = []schematic.View{v}
			if far == near || !free.free(tx.reach(o.part, v), 2*geom.Grid) {
				continue
			}
			if cost := apart(a, near) + apart(z, far); !found || cost < best {
				best, view, found = cost, v, true
			}
		}
		if found { // a little further out it may lie better, but not for long
			rings++
		}
		return rings > 400
	})
	o.part.Views = []schematic.View{view}
	return found
}

func apart(p, q geom.Point) int { return max(p.X-q.X, q.X-p.X) + max(p.Y-q.Y, q.Y-p.Y) }
