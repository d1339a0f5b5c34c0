package edit

import (
	"maps"
	"slices"

	"loomwright/schematic"
)

// Symbol is one view of a part.
type Symbol struct {
	Part schematic.ID
	View string // its key
}

// Staying returns the symbols of a sheet that stay when what the keys name is
// moved or turned, though their part is among it: a ground stud is drawn wherever
// it is used, and one of its symbols is meant. Held are symbols under the pointer.
//
// Of a part alone the symbols that are held go, or all when none is. Of a part in
// a group those go that are wired to the group, or to nothing.
func Staying(d *schematic.Doc, sheet schematic.ID, keys []schematic.Key, held ...Symbol) map[Symbol]bool {
	several := map[schematic.ID][]schematic.View{}
	in := make(map[schematic.Key]bool, len(keys))
	for _, k := range keys {
		in[k] = true
		if p := d.Part(k.ID); k.Type == schematic.TypePart && p != nil && len(p.Views) > 1 {
			if here := viewsOn(p, sheet); len(here) > 1 {
				several[k.ID] = here
			}
		}
	}
	held = slices.DeleteFunc(slices.Clone(held), func(s Symbol) bool { return several[s.Part] == nil })
	if len(several) == 0 || len(keys) == 1 && len(held) == 0 {
		return nil
	}
	wired, ours := map[Symbol]bool{}, map[Symbol]bool{}
	for _, w := range d.WiresOf(slices.Collect(maps.Keys(several))...) {
		if w.Sheet != sheet {
			continue
		}
		for _, ends := range [2][2]schematic.End{{w.A, w.B}, {w.B, w.A}} {
			s, ok := SymbolAt(d, sheet, ends[0])
			if !ok || several[s.Part] == nil {
				continue
			}
			wired[s] = true
			far := ends[1]
			if in[w.Key()] || far.Part != s.Part && in[schematic.Key{Type: schematic.TypePart, ID: far.Part}] {
				ours[s] = true
			}
		}
	}
	for _, s := range held {
		ours[s] = true
	}
	stay := map[Symbol]bool{}
	for id, views := range several {
		for _, v := range views {
			if s := (Symbol{id, v.Key}); !ours[s] && (wired[s] || len(keys) == 1) {
				stay[s] = true
			}
		}
	}
	return stay
}

// SymbolAt returns the symbol on a sheet that an end of a wire is drawn at.
func SymbolAt(d *schematic.Doc, sheet schematic.ID, e schematic.End) (Symbol, bool) {
	p := d.Part(e.Part)
	if p == nil {
		return Symbol{}, false
	}
	for _, exact := range [2]bool{true, false} {
		for _, v := range viewsOn(p, sheet) {
			if exact && v.Key != e.View {
				continue
			}
			if slices.ContainsFunc(d.PlacedPins(p, v), func(pin schematic.PlacedPin) bool { return pin.Pin.Name == e.Pin }) {
				return Symbol{e.Part, v.Key}, true
			}
		}
	}
	return Symbol{}, false
}
