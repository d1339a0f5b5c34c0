package check

import (
	"fmt"
	"strings"

	"github.com/google/uuid"

	"loomwright/schematic"
)

// renamed offers a free designation for an item, of its own letters.
func (r *run) renamed(key schematic.Key) []Fix {
	switch it := r.doc.Get(key).(type) {
	case *schematic.Part:
		prefix := letters(it.Name)
		if k := r.doc.KindOf(it); prefix == "" && k != nil {
			prefix = k.Prefix
		}
		c := *it
		c.Name = r.doc.FreeName(prefix, nil)
		return named1(it.Name, c.Name, &c)
	case *schematic.Wire:
		prefix := letters(it.Name)
		if prefix == "" {
			prefix = "W"
		}
		c := *it
		c.Name = r.doc.FreeName(prefix, nil)
		return named1(it.Name, c.Name, &c)
	}
	return nil
}

func named1(old, name string, it schematic.Item) []Fix {
	label := fmt.Sprintf("call one of them %s", name)
	if old == "" {
		label = "call it " + name
	}
	return []Fix{{Label: label, Effect: "no other thing has that designation", Items: []schematic.Item{it}}}
}

// letters returns a designation without the number at its end.
func letters(name string) string { return strings.TrimRight(name, "0123456789") }

// retraced offers a tracer for a wire that no wire of a connector has with its
// base colour yet.
func (r *run) retraced(p *schematic.Part, w *schematic.Wire) []Fix {
	have := map[schematic.Color]bool{}
	for _, pin := range r.doc.PinsOf(p) {
		for _, x := range r.wiresAt(schematic.PinRef{Part: p.ID, Pin: pin.Name}) {
			have[x.Color] = true
		}
	}
	for _, code := range schematic.ColorCodes() {
		c := *w
		c.Color = schematic.Color{Base: w.Color.Base, Tracer: code}
		if code != w.Color.Base && code != "GNYE" && w.Color.Base != "GNYE" && !have[c.Color] {
			return []Fix{{Label: fmt.Sprintf("make %s %s", w.Name, c.Color), Effect: "no other wire in " + p.Name + " has that colour", Items: []schematic.Item{&c}}}
		}
	}
	return nil
}

// twisted offers to twist two wires that lie apart with each other, where there
// is one on either side.
func (r *run) twisted(a apart, x, y int) []Fix {
	if len(a.long) != 2 {
		return nil
	}
	on := func(net int, w *schematic.Wire) bool {
		b := r.n.WireBranch(w.ID)
		return b >= 0 && r.n.Nodes[r.n.Branches[b].A].Net == net
	}
	v, w := *a.long[0], *a.long[1]
	if !on(x, &v) || !on(y, &w) || v.Sheet != w.Sheet {
		return nil
	}
	taken := map[string]bool{}
	for g := range r.doc.Groups() {
		taken[g.Name] = true
	}
	g := &schematic.Group{ID: uuid.NewSHA1(v.ID, w.ID[:]), Type: schematic.TwistGroup}
	for n := 1; g.Name == "" || taken[g.Name]; n++ {
		g.Name = fmt.Sprintf("T%d", n)
	}
	if r.doc.Group(g.ID) != nil {
		return nil
	}
	v.Twist, w.Twist = g.ID, g.ID
	return []Fix{{Label: fmt.Sprintf("twist %s and %s", v.Name, w.Name), Effect: "both then pick up the same disturbances", Items: []schematic.Item{g, &v, &w}}}
}

// thickEnough offers the next size of a wire that a contact takes.
func thickEnough(w *schematic.Wire, least, most float64, at string) []Fix {
	for _, size := range larger(w.Size) {
		if area, ok := size.AreaMM2(); ok && area >= least && area <= most {
			c := withSize(w, size)
			return []Fix{{Label: "use " + size.String() + " for " + w.Name, Effect: "the contact of " + at + " takes it", Items: []schematic.Item{c}}}
		}
	}
	return nil
}
