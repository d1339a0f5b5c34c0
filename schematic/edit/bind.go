package edit

import (
	"fmt"

	"loomwright/schematic"
)

// Bind makes a group of wires: twisted together or under one screen. Wires
// leave the group of that type they were in.
func Bind(tx *Tx, typ schematic.GroupType, wires []schematic.ID) error {
	prefix := ""
	switch typ {
	case schematic.TwistGroup:
		prefix = "TW"
	case schematic.ScreenGroup:
		prefix = "SC"
	default:
		return fmt.Errorf("%q is not a wire group: choose twist or screen", typ)
	}
	if least := map[schematic.GroupType]int{schematic.TwistGroup: 2, schematic.ScreenGroup: 1}[typ]; len(wires) < least {
		return fmt.Errorf("a %s group needs %d or more wires: select them first", typ, least)
	}
	g := &schematic.Group{ID: tx.NewID(), Name: tx.doc.FreeName(prefix, nil), Type: typ}
	for _, id := range wires {
		if tx.doc.Wire(id) == nil {
			return fmt.Errorf("one of the wires is no longer there")
		}
	}
	tx.Put(g)
	tx.regroup(typ, wires, g.ID)
	return nil
}

// Unbind takes wires out of their group of the given type. A group without
// wires goes.
func Unbind(tx *Tx, typ schematic.GroupType, wires []schematic.ID) error {
	tx.regroup(typ, wires, schematic.ID{})
	return nil
}

// SetDrain says which wire grounds a screen; none clears it.
func SetDrain(tx *Tx, group, wire schematic.ID) error {
	g := tx.doc.Group(group)
	switch {
	case g == nil || g.Type != schematic.ScreenGroup:
		return fmt.Errorf("there is no such screen: only a screen has a drain wire")
	case wire != schematic.ID{} && tx.doc.Wire(wire) == nil:
		return fmt.Errorf("%s: the drain wire is no longer there: choose another one", g.Name)
	}
	c := *g
	c.Drain = wire
	tx.Put(&c)
	return nil
}

// regroup puts wires into a group and removes the groups that run empty.
func (tx *Tx) regroup(typ schematic.GroupType, wires []schematic.ID, into schematic.ID) {
	left := map[schematic.ID]bool{}
	for _, id := range wires {
		tx.EditWire(id, func(w *schematic.Wire) {
			field := &w.Twist
			if typ == schematic.ScreenGroup {
				field = &w.Screen
			}
			if *field != into {
				left[*field] = true
			}
			*field = into
		})
	}
	for w := range tx.doc.Wires() {
		delete(left, w.Twist)
		delete(left, w.Screen)
	}
	for g := range tx.doc.Groups() {
		if left[g.ID] {
			tx.Delete(g.Key())
		}
	}
}
