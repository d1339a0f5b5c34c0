package ui

import (
	"cmp"
	"slices"

	"loomwright/schematic"
	"loomwright/ui/view"
)

// How far a command that works on many things reaches.
const (
	inSelection = "What is selected"
	onSheet     = "This sheet"
	inDrawing   = "The whole drawing"
)

// scopes lists how far a command can reach just now.
func (ed *Editor) scopes() []string {
	if ed.anySelected() {
		return []string{inSelection, onSheet, inDrawing}
	}
	return []string{onSheet, inDrawing}
}

// within returns what lies in a scope: parts, wires, notes and sheets, in the
// order people count them.
func (ed *Editor) within(scope string) []schematic.Key {
	doc := ed.doc()
	var keys []schematic.Key
	switch scope {
	case inSelection:
		keys = ed.sess.Selection()
	case onSheet:
		keys = append(view.All(doc, ed.sheet), schematic.Key{Type: schematic.TypeSheet, ID: ed.sheet})
	default:
		for it := range doc.All() {
			switch it.(type) {
			case *schematic.Part, *schematic.Wire, *schematic.Note, *schematic.Sheet:
				keys = append(keys, it.Key())
			}
		}
	}
	slices.SortStableFunc(keys, func(a, b schematic.Key) int {
		return cmp.Or(cmp.Compare(a.Type, b.Type), schematic.CompareNames(schematic.NameOf(doc.Get(a)), schematic.NameOf(doc.Get(b))), a.Compare(b))
	})
	return keys
}
