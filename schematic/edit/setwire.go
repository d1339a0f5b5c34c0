package edit

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"loomwright/calc/unit"
	"loomwright/schematic"
)

// SetWire changes the fields of a wire: change gets a copy that is its own to
// write. Designation, conductor, colour, lengths, loom and groups are checked.
// Where the wire ends and how it is drawn stay: [ReconnectEnd], [MoveSegment].
func SetWire(tx *Tx, id schematic.ID, change func(*schematic.Wire)) error {
	old := tx.doc.Wire(id)
	if old == nil {
		return fmt.Errorf("the wire is no longer there")
	}
	c := *old
	c.Route, c.Links, c.Extra = slices.Clone(old.Route), slices.Clone(old.Links), maps.Clone(old.Extra)
	change(&c)
	c.ID, c.Sheet, c.Via = old.ID, old.Sheet, old.Via
	for _, e := range []struct{ to, from *schematic.End }{{&c.A, &old.A}, {&c.B, &old.B}} {
		e.to.Part, e.to.Pin, e.to.View, e.to.At = e.from.Part, e.from.Pin, e.from.View, e.from.At
	}
	c.Name = strings.TrimSpace(c.Name)
	if c.Name == "" {
		return fmt.Errorf("%s: a wire needs a designation", old.Name)
	}
	if c.Name != old.Name {
		if err := free(tx.doc, c.Name, c.Key()); err != nil {
			return err
		}
	}
	if c.Loom != old.Loom && !routed(tx.doc, &c) {
		c.Route = nil // it named segments of another loom
	}
	c.Route, c.Links = orNil(c.Route), orNil(c.Links)
	if err := validWire(tx.doc, &c); err != nil {
		return err
	}
	tx.Put(&c)
	return nil
}

// validWire checks a wire by itself; its designation is the caller's matter.
func validWire(d *schematic.Doc, w *schematic.Wire) error {
	if (w.Size != unit.Size{}) && !w.Size.Known() {
		return fmt.Errorf("%s: the conductor size does not exist: give one such as 0.75 mm² or AWG 18", w.Name)
	}
	if _, err := schematic.ParseColor(w.Color.String()); err != nil {
		return fmt.Errorf("%s: %w", w.Name, err)
	}
	switch w.Metal {
	case "", schematic.Copper, schematic.Tinned, schematic.Aluminium:
	default:
		return fmt.Errorf("%s: %q is not a conductor metal: choose copper, tinned copper or aluminium", w.Name, w.Metal)
	}
	for _, n := range []struct {
		what string
		schematic.Num
	}{{"length", w.LengthMM}, {"slack", w.SlackMM}, {"joint at end A", w.A.JointOhm}, {"joint at end B", w.B.JointOhm}} {
		if err := positive(n.Num); err != nil {
			return fmt.Errorf("%s: %s: %w", w.Name, n.what, err)
		}
	}
	if v, ok := w.TempC.Get(); ok && (v < -273.15 || v > schematic.MaxNum) {
		return fmt.Errorf("%s: %g °C is no temperature class", w.Name, v)
	}
	if (w.Loom != schematic.ID{}) && d.Loom(w.Loom) == nil {
		return fmt.Errorf("%s: its loom is not in the document: choose another one", w.Name)
	}
	if !routed(d, w) {
		return fmt.Errorf("%s: its route names a segment its loom does not have: choose the route again", w.Name)
	}
	for _, g := range []struct {
		id  schematic.ID
		typ schematic.GroupType
	}{{w.Twist, schematic.TwistGroup}, {w.Screen, schematic.ScreenGroup}} {
		if (g.id == schematic.ID{}) {
			continue
		}
		if is := d.Group(g.id); is == nil || is.Type != g.typ {
			return fmt.Errorf("%s: there is no such %s group", w.Name, g.typ)
		}
	}
	return validBuild(w.Name, w.Build)
}
