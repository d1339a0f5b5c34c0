package view

import (
	"fmt"
	"slices"
	"strings"

	"loomwright/netlist"
	"loomwright/schematic"
)

// keySet collects keys of items drawn on one sheet, each once.
type keySet struct {
	d     *schematic.Doc
	sheet schematic.ID
	seen  map[schematic.Key]bool
	keys  []schematic.Key
}

func newKeySet(d *schematic.Doc, sheet schematic.ID, keys ...schematic.Key) *keySet {
	s := &keySet{d: d, sheet: sheet, seen: map[schematic.Key]bool{}}
	for _, k := range keys {
		s.add(k)
	}
	return s
}

// add takes a key in when its item is drawn on the sheet.
func (s *keySet) add(k schematic.Key) {
	if s.seen[k] || !DrawnOn(s.d, k, s.sheet) {
		return
	}
	s.seen[k] = true
	s.keys = append(s.keys, k)
}

// DrawnOn reports whether an item is drawn on a sheet; the zero ID is any sheet.
func DrawnOn(d *schematic.Doc, k schematic.Key, sheet schematic.ID) bool {
	any := sheet == schematic.ID{}
	switch it := d.Get(k).(type) {
	case *schematic.Part:
		return slices.ContainsFunc(it.Views, func(v schematic.View) bool { return any || v.Sheet == sheet })
	case *schematic.Wire:
		return any || it.Sheet == sheet
	case *schematic.Note:
		return any || it.Sheet == sheet
	}
	return false
}

// Others returns what is drawn on the sheet and not among the keys.
func Others(d *schematic.Doc, sheet schematic.ID, keys []schematic.Key) []schematic.Key {
	return slices.DeleteFunc(All(d, sheet), func(k schematic.Key) bool { return slices.Contains(keys, k) })
}

// Connected returns the keys and what is one step away from them on the sheet:
// the parts at both ends of the wires, or, where those are among the keys
// already, the wires at the parts and the connector halves plugged into them.
func Connected(d *schematic.Doc, sheet schematic.ID, keys []schematic.Key) []schematic.Key {
	s := newKeySet(d, sheet, keys...)
	had := len(s.keys)
	for _, k := range keys {
		if w := d.Wire(k.ID); w != nil && k.Type == schematic.TypeWire {
			s.add(partKey(w.A.Part))
			s.add(partKey(w.B.Part))
		}
	}
	if len(s.keys) > had {
		return s.keys
	}
	var in []schematic.ID
	for _, k := range keys {
		if p := d.Part(k.ID); p != nil && k.Type == schematic.TypePart {
			in = append(in, p.ID)
			s.add(partKey(p.Mate))
		}
	}
	for _, w := range d.WiresOf(in...) {
		s.add(w.Key())
	}
	return s.keys
}

func partKey(id schematic.ID) schematic.Key { return schematic.Key{Type: schematic.TypePart, ID: id} }

// OnNet returns what lies on the sheet, with the zero ID on any, on the nets of the keys: their wires,
// and the parts that are nothing but a point of such a net, like splices and
// studs. A part among the keys stands for the nets of all its pins.
func OnNet(n *netlist.Netlist, sheet schematic.ID, keys []schematic.Key) []schematic.Key {
	s := newKeySet(n.Doc, sheet)
	nets := map[int]bool{}
	for _, k := range keys {
		switch it := n.Doc.Get(k).(type) {
		case *schematic.Wire:
			if i := n.WireBranch(it.ID); i >= 0 {
				nets[n.Nodes[n.Branches[i].A].Net] = true
			}
		case *schematic.Part:
			for _, pin := range n.Doc.PinsOf(it) {
				if node := n.NodeOf(schematic.PinRef{Part: it.ID, Pin: pin.Name}); node >= 0 {
					nets[n.Nodes[node].Net] = true
				}
			}
		}
		s.add(k)
	}
	for w := range n.Doc.Wires() {
		if i := n.WireBranch(w.ID); i >= 0 && nets[n.Nodes[n.Branches[i].A].Net] {
			s.add(w.Key())
		}
	}
	for p := range n.Doc.Parts() {
		pins := n.Doc.PinsOf(p)
		on := len(pins) > 0
		for _, pin := range pins {
			node := n.NodeOf(schematic.PinRef{Part: p.ID, Pin: pin.Name})
			on = on && node >= 0 && nets[n.Nodes[node].Net]
		}
		if on {
			s.add(p.Key())
		}
	}
	return s.keys
}

// Circuit returns what lies on the sheet, with the zero ID on any, of the circuits through the keys, from
// source to ground and by the side ways, in the operating state solved.
func Circuit(sol *netlist.Solution, sheet schematic.ID, keys []schematic.Key) []schematic.Key {
	n := sol.Netlist
	s := newKeySet(n.Doc, sheet, keys...)
	if sol.Err != nil {
		return s.keys
	}
	for _, k := range keys {
		var t netlist.Trace
		switch k.Type {
		case schematic.TypeWire:
			t = sol.TraceWire(k.ID)
		case schematic.TypePart:
			t = sol.TracePart(k.ID)
		default:
			continue
		}
		take := func(i int) {
			br := &n.Branches[i]
			s.add(br.Key())
			if br.Role == netlist.RoleMate {
				s.add(partKey(br.Part.Mate))
			}
		}
		for i, st := range t.Main {
			take(st.Branch)
			if i == 0 {
				s.atNode(n, st.From)
			}
			s.atNode(n, st.To)
		}
		for _, i := range t.Side {
			take(i)
		}
	}
	return s.keys
}

// atNode takes in the part whose pin a node is: a splice on the way, or the
// source at either end of it.
func (s *keySet) atNode(n *netlist.Netlist, node int) {
	if p := n.Nodes[node].Part; p != nil {
		s.add(p.Key())
	}
}

// Likeness is one way in which things can be alike.
type Likeness string

const (
	SameKind    Likeness = "kind"    // parts of one kind; wires of one size and colour
	SameRating  Likeness = "rating"  // parts with the same rated value, of whatever kind
	SameSize    Likeness = "size"    // wires of the same conductor size
	SameColor   Likeness = "color"   // wires of the same colours
	SameCircuit Likeness = "circuit" // wires with the same circuit name
)

// Alike returns what on the sheet, with the zero ID on any, is like one of the keys in some way, and the
// keys themselves. What has nothing to compare, a wire without a size, say, is
// like nothing.
func Alike(d *schematic.Doc, sheet schematic.ID, keys []schematic.Key, by Likeness) []schematic.Key {
	s := newKeySet(d, sheet, keys...)
	marks := map[string]bool{}
	for _, k := range keys {
		if m := by.mark(d, d.Get(k)); m != "" {
			marks[m] = true
		}
	}
	for _, k := range All(d, sheet) {
		if m := by.mark(d, d.Get(k)); m != "" && marks[m] {
			s.add(k)
		}
	}
	return s.keys
}

// mark returns a text that things alike have in common, "" for none.
func (l Likeness) mark(d *schematic.Doc, it schematic.Item) string {
	switch it := it.(type) {
	case *schematic.Part:
		switch l {
		case SameKind:
			return "part " + it.Kind
		case SameRating:
			return rating(d, it)
		}
	case *schematic.Wire:
		size := ""
		if it.Size.Known() {
			size = it.Size.String()
		}
		switch l {
		case SameKind:
			return "wire " + size + " " + it.Color.String()
		case SameSize:
			return size
		case SameColor:
			return it.Color.String()
		case SameCircuit:
			return it.Circuit
		}
	case *schematic.Note:
		if l == SameKind {
			return map[bool]string{true: "frame", false: "note"}[it.Width > 0 && it.Height > 0]
		}
	}
	return ""
}

// rating returns a part's rated value with its unit, "" when it has none or
// nobody gave it.
func rating(d *schematic.Doc, p *schematic.Part) string {
	k := d.KindOf(p)
	if k == nil {
		return ""
	}
	for _, prm := range k.Params {
		if !strings.HasPrefix(prm.Title, "rating") && !strings.HasPrefix(prm.Title, "rated") || strings.Contains(prm.Title, "voltage") {
			continue
		}
		v, ok := p.Values[prm.Name]
		if !ok {
			if v, ok = prm.Default.Get(); !ok {
				return ""
			}
		}
		return fmt.Sprint(v, prm.Unit)
	}
	return ""
}
