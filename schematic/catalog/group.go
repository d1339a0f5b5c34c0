package catalog

import (
	"cmp"
	"slices"

	"loomwright/schematic"
)

// Group is a heading of the parts tray with its kinds.
type Group struct {
	Name  string
	Kinds []*schematic.Kind // by title
}

// order is how a builder meets the groups: from the source to the load.
var order = []string{"Sources", "Protection", "Distribution", "Grounds", "Switches", "Relays and solenoids", "Connectors",
	"Lamps", "Motors", "Loads", "Engine actuators", "Sensors", "Instruments", "Control units", "Components"}

// Groups returns the kinds of a library under their headings, headings that
// this package does not know at the end.
func Groups(lib *schematic.Library) []Group {
	at := map[string]int{}
	var groups []Group
	for _, name := range lib.Names() {
		k := lib.Kind(name)
		i, ok := at[k.Group]
		if !ok {
			i = len(groups)
			at[k.Group] = i
			groups = append(groups, Group{Name: k.Group})
		}
		groups[i].Kinds = append(groups[i].Kinds, k)
	}
	for _, g := range groups {
		slices.SortStableFunc(g.Kinds, func(a, b *schematic.Kind) int { return cmp.Compare(a.Title, b.Title) })
	}
	slices.SortFunc(groups, func(a, b Group) int {
		if c := cmp.Compare(rank(a.Name), rank(b.Name)); c != 0 {
			return c
		}
		return cmp.Compare(a.Name, b.Name)
	})
	return groups
}

func rank(group string) int {
	if i := slices.Index(order, group); i >= 0 {
		return i
	}
	return len(order)
}
