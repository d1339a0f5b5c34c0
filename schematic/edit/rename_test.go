package edit

import (
	"testing"

	"loomwright/schematic"
)

func TestRename(t *testing.T) {
	b := newBench(t)
	f, e := b.place("fuse", 100, 100), b.place("lamp", 500, 500)
	one := b.wire(at(f, "2"), at(e, "1"))
	two := b.wire(at(e, "2"), loose(500, 900))
	names := func(pairs ...any) map[schematic.Key]string {
		m := map[schematic.Key]string{}
		for i := 0; i < len(pairs); i += 2 {
			m[pairs[i].(schematic.Item).Key()] = pairs[i+1].(string)
		}
		return m
	}
	b.must(func(tx *Tx) error { return Rename(tx, names(one, "W2", two, "W1")) })
	equalText(t, "swapped", b.Doc().Wire(one.ID).Name+" "+b.Doc().Wire(two.ID).Name, "W2 W1")
	b.must(func(tx *Tx) error { return Rename(tx, names(one, "W1", two, "W3", f, "F7")) })
	equalText(t, "moved up", b.names(), "E1 F7 W1 W3")
	for want, m := range map[string]map[schematic.Key]string{
		"F7: E1 is taken by another part": names(f, "E1"),
		"cannot both be W9":               names(one, "W9", two, " W9"),
		"W1: a wire needs a designation":  names(one, ""),
		"the wire is no longer there":     {schematic.Key{Type: schematic.TypeWire}: "W5"},
	} {
		b.refused(want, func(tx *Tx) error { return Rename(tx, m) })
	}
}
