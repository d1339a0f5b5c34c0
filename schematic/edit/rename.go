package edit

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"loomwright/schematic"
)

// Rename gives parts and wires new designations, all at once: two may swap
// theirs. It is an error that a designation is empty, or taken by something that
// keeps it or gets it too.
func Rename(tx *Tx, names map[schematic.Key]string) error {
	keys := slices.SortedFunc(maps.Keys(names), schematic.Key.Compare)
	who := map[string]schematic.Key{}
	var puts []schematic.Item
	for _, k := range keys {
		it := tx.doc.Get(k)
		if it == nil {
			return fmt.Errorf("the %s is no longer there", k.Type)
		}
		name, was := strings.TrimSpace(names[k]), schematic.NameOf(it)
		if name == "" {
			return fmt.Errorf("%s: a %s needs a designation", was, k.Type)
		}
		if other, twice := who[name]; twice {
			return fmt.Errorf("%s and %s cannot both be %s: choose another designation", schematic.NameOf(tx.doc.Get(other)), was, name)
		}
		who[name] = k
		if taker, used := tx.doc.Named(name); used {
			if _, leaves := names[taker]; !leaves {
				return fmt.Errorf("%s: %w", was, free(tx.doc, name, k))
			}
		}
		puts = append(puts, named(it, name))
	}
	tx.Put(puts...)
	return nil
}
