package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
)

// Locked reports whether an item is held in place: it is not moved, turned or
// deleted before it is unlocked. Parts and notes can be, and wires: those keep
// their ends and bends, and nothing is put into them.
func Locked(d *schematic.Doc, k schematic.Key) bool {
	switch it := d.Get(k).(type) {
	case *schematic.Part:
		return it.Locked
	case *schematic.Note:
		return it.Locked
	case *schematic.Wire:
		return it.Locked
	}
	return false
}

// SetLocked holds parts, notes and wires in place, or lets them go. Other items are
// passed over.
func SetLocked(tx *Tx, keys []schematic.Key, on bool) error {
	for _, k := range keys {
		switch it := tx.doc.Get(k).(type) {
		case *schematic.Part:
			c := *it
			c.Locked = on
			tx.Put(&c)
		case *schematic.Note:
			c := *it
			c.Locked = on
			tx.Put(&c)
		case *schematic.Wire:
			c := *it
			c.Locked = on
			tx.Put(&c)
		}
	}
	return nil
}

// unlocked returns the keys without those of locked items, which stay where
// they are. It is an error that nothing is left.
func unlocked(d *schematic.Doc, keys []schematic.Key) ([]schematic.Key, error) {
	i := slices.IndexFunc(keys, func(k schematic.Key) bool { return Locked(d, k) })
	if i < 0 {
		return keys, nil
	}
	rest := slices.DeleteFunc(slices.Clone(keys), func(k schematic.Key) bool { return Locked(d, k) })
	if len(rest) == 0 {
		return nil, lockedError(d, keys[i])
	}
	return rest, nil
}

func lockedError(d *schematic.Doc, k schematic.Key) error {
	name := schematic.NameOf(d.Get(k))
	if name == "" {
		name = "the note"
	}
	return fmt.Errorf("%s is locked in place: unlock it first", name)
}
