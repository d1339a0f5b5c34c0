package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// passage is a way for a wire through parts as they lie on a sheet: in at one
// pin and straight out at another. At a splice both are the same pin.
type passage struct {
	in, out  schematic.PlacedPin
	from, to schematic.ID // the parts that have the pins: two halves of a connector, or one part twice
}

func (p passage) middle() geom.Point {
	return geom.Pt((p.in.At.X+p.out.At.X)/2, (p.in.At.Y+p.out.At.Y)/2)
}

func (p passage) by(d geom.Point) passage {
	p.in.At, p.out.At = p.in.At.Add(d), p.out.At.Add(d)
	return p
}

// passages returns the ways through what is named by the keys: a splice, a part
// with two pins in line, or the two halves of a connector plugged together. Pins
// that have wires are passed over, but for a splice, at which any number meet.
// The parts must each have one symbol on the sheet.
func passages(d *schematic.Doc, sheet schematic.ID, keys []schematic.Key) []passage {
	var parts []*schematic.Part
	var pins [][]schematic.PlacedPin
	for _, k := range keys {
		p := d.Part(k.ID)
		if k.Type != schematic.TypePart || p == nil || len(parts) == 2 {
			return nil
		}
		shown := viewsOn(p, sheet)
		if len(shown) != 1 {
			return nil
		}
		parts, pins = append(parts, p), append(pins, d.PlacedPins(p, shown[0]))
	}
	if len(parts) == 0 {
		return nil
	}
	taken := map[schematic.PinRef]bool{}
	first, last := parts[0].ID, parts[len(parts)-1].ID
	for _, w := range d.WiresOf(first, last) {
		for _, e := range [2]*schematic.End{&w.A, &w.B} {
			if e.Part == first || e.Part == last {
				taken[e.Ref()] = true
			}
		}
	}
	var out []passage
	try := func(i, j int, p, q schematic.PlacedPin) {
		one, two := parts[i].ID, parts[j].ID
		if !taken[schematic.PinRef{Part: one, Pin: p.Pin.Name}] && !taken[schematic.PinRef{Part: two, Pin: q.Pin.Name}] {
			out = append(out, passage{p, q, one, two})
		}
	}
	switch {
	case len(parts) == 1 && parts[0].Kind == SpliceKind && len(pins[0]) == 1:
		return []passage{{pins[0][0], pins[0][0], parts[0].ID, parts[0].ID}}
	case len(parts) == 1 && len(pins[0]) == 2 && len(d.PinsOf(parts[0])) == 2 && opposite(pins[0][0], pins[0][1]):
		try(0, 0, pins[0][0], pins[0][1])
	case len(parts) == 2 && parts[0].Mate == parts[1].ID:
		for _, p := range pins[0] {
			for _, q := range pins[1] {
				if p.Pin.Name == q.Pin.Name && opposite(p, q) {
					try(0, 1, p, q)
				}
			}
		}
	}
	return out
}

// viewsOn returns the symbols of a part on a sheet.
func viewsOn(p *schematic.Part, sheet schematic.ID) []schematic.View {
	return slices.DeleteFunc(slices.Clone(p.Views), func(v schematic.View) bool { return v.Sheet != sheet })
}

// Passages returns the middles of the ways by which a wire could run through
// what is named by the keys, as it lies on the sheet; none for what cannot be
// put into a wire, or is in one already.
func Passages(d *schematic.Doc, sheet schematic.ID, keys []schematic.Key) []geom.Point {
	ps := passages(d, sheet, keys)
	out := make([]geom.Point, len(ps))
	for i, p := range ps {
		out[i] = p.middle()
	}
	return out
}

// PutIntoWire moves a part, the two halves of a connector, or a splice, named by
// the keys, by a way and from there into the wire next to it: turned to lie
// along the wire, with the wire running on from its other side. Other wires that
// then run through free cavities of a connector are put in too. It is an error
// that there is no way through, or that the wire ends there already.
func PutIntoWire(tx *Tx, sheet schematic.ID, keys []schematic.Key, by geom.Point, wire schematic.ID) error {
	w := tx.doc.Wire(wire)
	if w == nil || w.Sheet != sheet {
		return fmt.Errorf("the wire is no longer there")
	}
	for _, k := range append(slices.Clone(keys), w.Key()) {
		if Locked(tx.doc, k) {
			return lockedError(tx.doc, k)
		}
	}
	before, path := tx.doc, tx.doc.Path(w)
	pass, ok := nearest(passages(tx.doc, sheet, keys), path, by)
	if !ok {
		return fmt.Errorf("no free way leads %s through %s", w.Name, tx.called(keys))
	}
	if w.A.Part == pass.from || w.B.Part == pass.from {
		return fmt.Errorf("%s ends at %s already", w.Name, tx.called(keys))
	}
	at := pass.middle().Add(by)
	_, seg, _ := path.Dist(at)
	p, q := path[seg], path[seg+1]
	if p == q {
		return fmt.Errorf("%s has no length to put a part into", w.Name)
	}
	if pass.in.At == pass.out.At {
		return tx.spliceIn(keys, pass, w, gridOn(p, q, at))
	}
	along := geom.DirOf(q.Sub(p))
	turns := 0
	if d := pass.out.Dir; d != along && d.Vec() != along.Vec().Neg() {
		// Across the wire: turned so that the wire comes in at the first pin.
		if turns = 1; (geom.Orient{Turns: 1}).Dir(d) != along {
			turns = 3
		}
		before := pass.middle()
		if err := rotation(tx, sheet, keys, turns, true); err != nil {
			return err
		}
		pass = alike(passages(tx.doc, sheet, keys), pass)
		by = by.Add(before.Sub(pass.middle())) // it turns about the way through
	}
	at = pass.middle().Add(by)
	// The place that the rest is measured from lies on the grid if the symbol does.
	o := viewsOn(tx.doc.Part(keys[0].ID), sheet)[0].At
	near, far := pass.in.At.Sub(o), pass.out.At.Sub(o)
	if pass.out.Dir != along {
		near, far = far, near
	}
	half := geom.Pt((near.X+far.X)/2, (near.Y+far.Y)/2)
	to := onto(p, q, gridOn(p, q, at).Sub(half).Snap(geom.Grid), near, far)
	if err := tx.moveOnto(sheet, keys, to.Sub(o)); err != nil {
		return err
	}
	tx.runThrough(w, seg, pass.by(to.Sub(o)))
	tx.threadOthers(sheet, keys)
	tx.dodge(before, sheet, idsOf(keys))
	tx.Select(keys...)
	return nil
}

// nearest returns the passage whose middle, moved by a way, is nearest to a
// path, the first of equals.
func nearest(all []passage, path geom.Path, by geom.Point) (best passage, ok bool) {
	least := 0.0
	for _, p := range all {
		if d, _, _ := path.Dist(p.middle().Add(by)); !ok || d < least {
			best, least, ok = p, d, true
		}
	}
	return best, ok
}

// alike returns the passage between the same pins as another.
func alike(all []passage, like passage) passage {
	for _, p := range all {
		if p.from == like.from && p.in.Pin.Name == like.in.Pin.Name {
			return p
		}
	}
	return like
}

// runThrough leads a wire whose stretch seg runs by a passage through it.
func (tx *Tx) runThrough(w *schematic.Wire, seg int, pass passage) {
	path := tx.doc.Path(w)
	along := geom.DirOf(path[seg+1].Sub(path[seg]))
	near, far := pass.in.At, pass.out.At
	first := schematic.End{Part: pass.from, Pin: pass.in.Pin.Name}
	second := schematic.End{Part: pass.to, Pin: pass.out.Pin.Name}
	if pass.out.Dir != along {
		near, far, first, second = far, near, second, first
	}
	head := append(slices.Clone(path[:seg+1]), near)
	tail := append(geom.Path{far}, path[seg+1:]...)
	half := tx.halve(w, head, tail, first, second)
	if !runsOn(path[seg], near, along) || !runsOn(far, path[seg+1], along) {
		for _, id := range []schematic.ID{w.ID, half} {
			via := tx.way(tx.doc.Wire(id))
			tx.EditWire(id, func(w *schematic.Wire) { w.Via = via })
		}
	}
}

// threadOthers puts the wires in that run straight through free passages.
func (tx *Tx) threadOthers(sheet schematic.ID, keys []schematic.Key) {
	for _, pass := range passages(tx.doc, sheet, keys) {
		if w, seg, ok := tx.runsBy(sheet, pass); ok {
			tx.runThrough(w, seg, pass)
		}
	}
}

// runsBy returns a wire of the sheet one stretch of which has both pins of a
// passage inside it.
func (tx *Tx) runsBy(sheet schematic.ID, pass passage) (*schematic.Wire, int, bool) {
	if pass.in.At == pass.out.At {
		return nil, 0, false
	}
	inside := func(a, b, q geom.Point) bool { return q != a && q != b && geom.RectOf(a, b).Contains(q) }
	var best *schematic.Wire
	at := 0
	for w := range tx.doc.Wires() {
		if w.Sheet != sheet || w.Locked || best != nil && schematic.CompareNames(best.Name, w.Name) < 0 {
			continue
		}
		path := tx.doc.Path(w)
		for i := 1; i < len(path); i++ {
			if inside(path[i-1], path[i], pass.in.At) && inside(path[i-1], path[i], pass.out.At) {
				best, at = w, i-1
			}
		}
	}
	return best, at, best != nil
}

// spliceIn moves a splice onto a wire and lets the wire end there from both
// sides. What the splice joins already is then joined to the wire.
func (tx *Tx) spliceIn(keys []schematic.Key, pass passage, w *schematic.Wire, q geom.Point) error {
	path := tx.doc.Path(w)
	if q == path[0] && !w.A.Loose() || q == path[len(path)-1] && !w.B.Loose() {
		return fmt.Errorf("a pin is there already: put %s further along %s", tx.called(keys), w.Name)
	}
	before := tx.doc
	if err := tx.moveOnto(w.Sheet, keys, q.Sub(pass.in.At)); err != nil {
		return err
	}
	tx.endAt(w, q, schematic.End{Part: pass.from, Pin: pass.in.Pin.Name})
	tx.dodge(before, w.Sheet, idsOf(keys))
	tx.Select(keys...)
	return nil
}

func idsOf(keys []schematic.Key) []schematic.ID {
	ids := make([]schematic.ID, len(keys))
	for i, k := range keys {
		ids[i] = k.ID
	}
	return ids
}

// called names items in an error.
func (tx *Tx) called(keys []schematic.Key) string {
	if len(keys) == 1 {
		if name := schematic.NameOf(tx.doc.Get(keys[0])); name != "" {
			return name
		}
	}
	return schematic.Tally(keys)
}

// TakeFromWire takes a part, with its other half where it has one, out of the
// wire that runs through it: the two wires there become one, and the part lies
// free where it was. The wire that is left is returned. Wires that differ cannot
// be one.
func TakeFromWire(tx *Tx, part schematic.ID) (schematic.ID, error) {
	r, err := runOf(tx.doc, part)
	if err != nil {
		return schematic.ID{}, err
	}
	if err := tx.joinRun(r); err != nil {
		return schematic.ID{}, err
	}
	tx.Select(r.parts...)
	return r.wires[0].ID, nil
}

// LiftFromWire is [TakeFromWire] for a command: the part goes to the nearest
// place where there is room.
func LiftFromWire(tx *Tx, sheet, part schematic.ID) error {
	if _, err := TakeFromWire(tx, part); err != nil {
		return err
	}
	keys := tx.Selected()
	area := geom.EmptyRect()
	var ids []schematic.ID
	for _, k := range keys {
		p := tx.doc.Part(k.ID)
		ids = append(ids, k.ID)
		for _, v := range p.Views {
			if v.Sheet == sheet {
				area = area.Union(tx.reach(p, v))
			}
		}
	}
	if area.Empty() {
		return nil
	}
	free := roomOn(tx.doc, sheet, ids...)
	var by geom.Point
	if !ringed(geom.Point{}, farAway, func(q geom.Point) bool {
		by = q
		return free.free(area.Add(q), 2*geom.Grid)
	}) {
		return nil // it stays where it is
	}
	if err := Move(tx, sheet, keys, by); err != nil {
		return err
	}
	tx.Select(keys...)
	return nil
}
