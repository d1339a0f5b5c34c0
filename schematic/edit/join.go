package edit

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/schematic"
	"loomwright/schematic/geom"
	"loomwright/schematic/route"
)

// CanJoin reports whether a part can be taken out of a wire with [JoinWires].
func CanJoin(d *schematic.Doc, part schematic.ID) bool {
	_, err := runOf(d, part)
	return err == nil
}

// run is a part, with its other half where it has one, that one wire runs
// through: the two wires there and which end of each is at the part.
type run struct {
	parts []schematic.Key
	wires [2]*schematic.Wire
	back  [2]bool // the wire's end A is at the part
}

func runOf(d *schematic.Doc, part schematic.ID) (run, error) {
	p := d.Part(part)
	if p == nil {
		return run{}, fmt.Errorf("the part is no longer there")
	}
	r := run{parts: []schematic.Key{p.Key()}}
	if mate := d.Part(p.Mate); mate != nil && mate.Mate == p.ID {
		r.parts = append(r.parts, mate.Key())
	}
	ids := []schematic.ID{p.ID}
	if len(r.parts) > 1 {
		ids = append(ids, p.Mate)
	}
	at := func(e schematic.End) bool {
		return slices.Contains(ids, e.Part)
	}
	n := 0
	for _, w := range d.WiresOf(ids...) {
		a, b := at(w.A), at(w.B)
		if a && b {
			return run{}, fmt.Errorf("both ends of %s are at %s: delete that wire first", w.Name, p.Name)
		}
		if n < 2 {
			r.wires[n], r.back[n] = w, a
		}
		n++
	}
	if n != 2 {
		return run{}, fmt.Errorf("%d wires are at %s: it can be taken out and the wires joined where there are two", n, p.Name)
	}
	// The wire that a split has left its designation comes first: it ends at the
	// part with its end B.
	second := schematic.CompareNames(r.wires[1].Name, r.wires[0].Name) < 0
	if r.back[0] != r.back[1] {
		second = r.back[0]
	}
	if second {
		r.wires[0], r.wires[1], r.back[0], r.back[1] = r.wires[1], r.wires[0], r.back[1], r.back[0]
	}
	one, two := r.wires[0], r.wires[1]
	switch {
	case one.Sheet != two.Sheet:
		return run{}, fmt.Errorf("%s and %s are drawn on two sheets: %s carries the circuit across", one.Name, two.Name, p.Name)
	case len(r.parts) == 2 && r.end(0).Pin != r.end(1).Pin:
		return run{}, fmt.Errorf("%s and %s are in different cavities: no wire runs through", one.Name, two.Name)
	case len(r.parts) == 1 && len(d.PinsOf(p)) > 2:
		return run{}, fmt.Errorf("%s has more than two pins: taking it out would change the circuit", p.Name)
	}
	if unlike := unlike(one, two); unlike != "" {
		return run{}, fmt.Errorf("%s and %s differ in %s: make them alike first", one.Name, two.Name, unlike)
	}
	return r, nil
}

// end returns the end of a wire that is at the part.
func (r run) end(i int) schematic.End {
	if r.back[i] {
		return r.wires[i].A
	}
	return r.wires[i].B
}

// unlike names what keeps two wires from being one.
func unlike(a, b *schematic.Wire) string {
	metal := func(w *schematic.Wire) schematic.Metal {
		if w.Metal == "" {
			return schematic.Copper
		}
		return w.Metal
	}
	switch {
	case a.Size != b.Size:
		return "size"
	case a.Color != b.Color:
		return "colour"
	case metal(a) != metal(b):
		return "metal"
	case a.Insulation != b.Insulation || a.TempC != b.TempC:
		return "insulation"
	}
	return ""
}

// JoinWires takes a part out, a splice say, and makes one wire of the two that
// end there. The one that comes to the part stays, where both come or both go
// the one with the lower number; its length is the sum of both where both are
// known. Wires that differ cannot be one.
func JoinWires(tx *Tx, part schematic.ID) error {
	r, err := runOf(tx.doc, part)
	if err != nil {
		return err
	}
	if err := tx.joinRun(r); err != nil {
		return err
	}
	if err := Delete(tx, r.parts); err != nil {
		return err
	}
	tx.Select(r.wires[0].Key())
	return nil
}

// joinRun makes one wire of the two of a run; the part is left without any.
func (tx *Tx) joinRun(r run) error {
	for _, k := range append(slices.Clone(r.parts), r.wires[0].Key(), r.wires[1].Key()) {
		if Locked(tx.doc, k) {
			return lockedError(tx.doc, k)
		}
	}
	one, two := r.wires[0], r.wires[1]
	head, tail := tx.doc.Path(one), tx.doc.Path(two)
	c := *one
	far := two.B
	if !r.back[1] {
		far = two.A
		slices.Reverse(tail)
	}
	routes := [2][]schematic.ID{slices.Clone(one.Route), slices.Clone(two.Route)}
	if !r.back[1] {
		slices.Reverse(routes[1])
	}
	var path geom.Path
	if r.back[0] {
		c.A = far
		slices.Reverse(tail)
		slices.Reverse(routes[1])
		path = append(slices.Clone(tail), head...)
		c.Route = append(routes[1], routes[0]...)
	} else {
		c.B = far
		path = append(slices.Clone(head), tail...)
		c.Route = append(routes[0], routes[1]...)
	}
	if one.Loom != two.Loom || len(one.Route) == 0 || len(two.Route) == 0 {
		c.Route = nil
	}
	takeOver(&c, two)
	for g := range tx.doc.Groups() {
		if g.Drain == two.ID {
			d := *g
			d.Drain = one.ID
			tx.Put(&d)
		}
	}
	if err := tx.shape(&c, nil); err != nil {
		return err
	}
	tx.Put(&c)
	if err := Delete(tx, []schematic.Key{two.Key()}); err != nil {
		return err
	}
	if path.Orthogonal() {
		a, b := route.TipOf(tx.doc, &c, c.A), route.TipOf(tx.doc, &c, c.B)
		tx.EditWire(c.ID, func(w *schematic.Wire) { w.Via = bendsOf(path, a, b) })
		return nil
	}
	return Straighten(tx, c.ID)
}

// takeOver brings into a wire what the wire it goes on as says of itself.
func takeOver(c, two *schematic.Wire) {
	c.LengthMM, c.SlackMM = sum(c.LengthMM, two.LengthMM), sum(c.SlackMM, two.SlackMM)
	if c.Circuit == "" {
		c.Circuit = two.Circuit
	}
	if c.Build != two.Build {
		c.Build = ""
	}
	if two.Notes != "" && two.Notes != c.Notes {
		c.Notes = strings.TrimSpace(c.Notes + "\n" + two.Notes)
	}
	for _, l := range two.Links {
		if !slices.ContainsFunc(c.Links, func(k schematic.Link) bool { return k.Target == l.Target }) {
			c.Links = append(slices.Clone(c.Links), l)
		}
	}
}

// sum adds two lengths; it is unknown where one of them is.
func sum(a, b schematic.Num) schematic.Num {
	x, one := a.Get()
	y, two := b.Get()
	if !one || !two {
		return schematic.Num{}
	}
	return schematic.Some(x + y)
}
