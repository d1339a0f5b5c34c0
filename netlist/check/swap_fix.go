package check

import (
	"loomwright/schematic"
)

// swapped offers to swap the wires at two pins of a part: for what is fed or
// built in the wrong way round.
func (r *run) swapped(a, b schematic.PinRef, effect string) []Fix {
	p := r.doc.Part(a.Part)
	if p == nil || a.Pin == "" || b.Pin == "" || a == b || a.Part != b.Part {
		return nil
	}
	turn := func(e schematic.End) schematic.End {
		switch e.Ref() {
		case a:
			e.Pin = b.Pin
		case b:
			e.Pin = a.Pin
		default:
			return e
		}
		if len(p.Views) > 1 {
			e.View = "" // the other pin may be drawn elsewhere
		}
		return e
	}
	var items []schematic.Item
	seen := map[schematic.ID]bool{}
	for _, pin := range []schematic.PinRef{a, b} {
		node := r.n.NodeOf(pin)
		if node < 0 {
			return nil
		}
		for _, i := range r.n.At(node) {
			w := r.n.Branches[i].Wire
			if w == nil || seen[w.ID] {
				continue
			}
			seen[w.ID] = true
			c := *w
			c.A, c.B = turn(w.A), turn(w.B)
			items = append(items, &c)
		}
	}
	if len(items) == 0 {
		return nil
	}
	return []Fix{{Label: "swap the wires at " + a.Pin + " and " + b.Pin + " of " + p.Name, Effect: effect, Items: items}}
}
