package netlist

import (
	"slices"
	"strings"

	"loomwright/schematic"
)

// Build returns the network of a document. It accepts every document: what is
// missing or unknown is recorded, never guessed.
func Build(d *schematic.Doc) *Netlist {
	parts, wires := d.Len(schematic.TypePart), d.Len(schematic.TypeWire)
	b := builder{
		n: &Netlist{
			Doc:       d,
			Reference: -1,
			Nodes:     make([]Node, 0, 2*wires+2*parts),
			Branches:  make([]Branch, 0, wires+2*parts),
			pins:      make(map[schematic.PinRef]int, 2*wires),
			wires:     make(map[schematic.ID]int, wires),
			parts:     make(map[schematic.ID][]int, parts),
		},
		inner: map[string]int{},
		kinds: map[string]*schematic.Kind{},
	}
	// Sorted as people read them: numbers of nodes and branches do not depend on IDs.
	sorted := slices.SortedFunc(d.Parts(), schematic.CompareItems)
	b.parts(d, sorted)
	b.mates(d, sorted)
	b.wires(d)
	b.finish()
	return b.n
}

type builder struct {
	n     *Netlist
	inner map[string]int             // inner and metal nodes by name
	kinds map[string]*schematic.Kind // a document looks its own kinds up one by one
}

func (b *builder) kind(p *schematic.Part) *schematic.Kind {
	k, ok := b.kinds[p.Kind]
	if !ok {
		k = b.n.Doc.KindOf(p)
		b.kinds[p.Kind] = k
	}
	return k
}

func (b *builder) parts(d *schematic.Doc, sorted []*schematic.Part) {
	for _, p := range sorted {
		k := b.kind(p)
		if k == nil {
			b.n.Unknown = append(b.n.Unknown, p)
		}
		pins := d.PinsOf(p)
		for _, pin := range pins {
			r := schematic.PinRef{Part: p.ID, Pin: pin.Name}
			if _, twice := b.n.pins[r]; !twice {
				b.n.pins[r] = b.node(Node{Pin: r, Part: p, Name: p.Name + "." + pin.Name})
			}
		}
		if k == nil {
			continue
		}
		for _, e := range k.Elements {
			b.element(p, k, nil, e)
		}
		if !k.OwnPins {
			continue
		}
		for i := range pins {
			role, ok := k.Role(pins[i].Role)
			if !ok {
				continue
			}
			for _, e := range role.Elements {
				b.element(p, k, &pins[i], e)
			}
		}
	}
}

func (b *builder) node(n Node) int {
	b.n.Nodes = append(b.n.Nodes, n)
	return len(b.n.Nodes) - 1
}

// terminal returns the node an element's end names, or -1 for a pin that is
// not there.
func (b *builder) terminal(p *schematic.Part, k *schematic.Kind, pin *schematic.Pin, name string) int {
	if name == "@" && pin != nil { // whatever it is called: cavities are numbered #1 too
		return b.n.NodeOf(schematic.PinRef{Part: p.ID, Pin: pin.Name})
	}
	if !strings.HasPrefix(name, "#") {
		return b.n.NodeOf(schematic.PinRef{Part: p.ID, Pin: name})
	}
	node := Node{Part: p, Name: p.Name + name, Inner: true}
	key := p.ID.String() + name
	if name == "#metal" && k.Ground != "" {
		node = Node{Name: k.Ground + " metal", Inner: true, Ground: k.Ground}
		key = node.Name
	}
	i, ok := b.inner[key]
	if !ok {
		i = b.node(node)
		b.inner[key] = i
	}
	return i
}

func (b *builder) element(p *schematic.Part, k *schematic.Kind, pin *schematic.Pin, e schematic.Element) {
	br := Branch{Role: RoleElement, Part: p, Kind: k, Pin: pin, Element: e, Feed: -1}
	br.A, br.B = b.terminal(p, k, pin, e.A), b.terminal(p, k, pin, e.B)
	if br.A < 0 || br.B < 0 {
		return // a part with own pins may leave out pins its kind's elements name
	}
	if e.Feed != "" {
		br.Feed = b.terminal(p, k, pin, e.Feed)
	}
	br.values()
	b.add(br)
}

// values takes over what part and kind say of the branch's element.
func (b *Branch) values() {
	b.Missing = nil
	for _, arg := range needs(b.Element.Type) {
		if !b.Value(arg).Known() {
			b.Missing = append(b.Missing, missingWords(b.Kind, b.Pin, b.Element, arg))
		}
	}
	b.Ohm, b.OhmKnown = 0, false
	if v, ok := b.Value("ohm").Get(); ok && v >= 0 {
		b.Ohm, b.OhmKnown = v, true
	}
	if len(b.Missing) == 0 {
		b.Missing = b.senseless()
	}
}

// mate takes over the resistance of a plugged contact.
func (b *Branch) mate() {
	b.Missing = nil
	b.Ohm, b.OhmKnown = b.Kind.ParamValue(b.Part, b.Pin, "contact_ohm").Get()
	if !b.OhmKnown {
		b.Missing = []string{"contact resistance"}
	}
}

// needs lists the arguments without which an element cannot be computed.
func needs(t schematic.ElementType) []string {
	switch t {
	case schematic.ElemResistor, schematic.ElemJoint, schematic.ElemCoil, schematic.ElemContact, schematic.ElemOutput:
		return []string{"ohm"}
	case schematic.ElemBattery, schematic.ElemAlternator, schematic.ElemRegulator:
		return []string{"volt", "ohm"}
	case schematic.ElemDiode:
		return []string{"volt"}
	case schematic.ElemCurrent:
		return []string{"amp"}
	case schematic.ElemPower:
		return []string{"watt"}
	case schematic.ElemLamp:
		return []string{"volt", "watt"}
	case schematic.ElemMotor:
		return []string{"volt", "amp"}
	case schematic.ElemFuse:
		return []string{"amp"}
	}
	return nil
}

// senseless lists values that are given but cannot be true, in the words of
// something missing: nothing is computed with them.
func (b *Branch) senseless() []string {
	for _, arg := range needs(b.Element.Type) {
		if v := b.Value(arg).Or(0); v < 0 || v == 0 && mustNotBeZero(b.Element.Type, arg) || v > schematic.MaxNum {
			return []string{"a usable " + missingWords(b.Kind, b.Pin, b.Element, arg)}
		}
	}
	if b.isDevice() && b.law(rated) == nil {
		return []string{"a usable set of values"}
	}
	return nil
}

func mustNotBeZero(t schematic.ElementType, arg string) bool {
	switch t {
	case schematic.ElemJoint, schematic.ElemContact, schematic.ElemOutput, schematic.ElemDiode, schematic.ElemCurrent, schematic.ElemPower:
		return false
	case schematic.ElemBattery, schematic.ElemAlternator, schematic.ElemRegulator:
		return arg == "volt"
	}
	return true
}

// missingWords names a missing argument the way the user sees the field.
func missingWords(k *schematic.Kind, pin *schematic.Pin, e schematic.Element, arg string) string {
	name := e.Args[arg].Param
	if pin != nil {
		if r, ok := k.Role(pin.Role); ok {
			if prm, ok := r.Param(name); ok {
				return strings.ToLower(prm.Title)
			}
		}
	}
	if prm, ok := k.Param(name); ok {
		return strings.ToLower(prm.Title)
	}
	return arg
}

func (b *builder) add(br Branch) int {
	i := len(b.n.Branches)
	b.n.Branches = append(b.n.Branches, br)
	switch br.Role {
	case RoleWire:
		b.n.wires[br.Wire.ID] = i
	default:
		b.n.parts[br.Part.ID] = append(b.n.parts[br.Part.ID], i)
	}
	return i
}

// mates joins the pins of equal name of two plugged connector halves.
func (b *builder) mates(d *schematic.Doc, sorted []*schematic.Part) {
	for _, p := range sorted {
		m := d.Part(p.Mate)
		if m == nil || m.Mate != p.ID || p.ID == m.ID || schematic.CompareItems(p, m) > 0 {
			continue
		}
		k := b.kind(p)
		if k == nil {
			continue
		}
		pins := d.PinsOf(p)
		for i := range pins {
			a := b.n.NodeOf(schematic.PinRef{Part: p.ID, Pin: pins[i].Name})
			c := b.n.NodeOf(schematic.PinRef{Part: m.ID, Pin: pins[i].Name})
			if a < 0 || c < 0 {
				continue
			}
			br := Branch{Role: RoleMate, A: a, B: c, Part: p, Kind: k, Pin: &pins[i], Feed: -1}
			br.mate()
			b.add(br)
		}
	}
}

func (b *builder) wires(d *schematic.Doc) {
	m := metres{}
	for _, w := range slices.SortedFunc(d.Wires(), schematic.CompareItems) {
		br := Branch{Role: RoleWire, Wire: w, Feed: -1, A: b.end(w, w.A, "A"), B: b.end(w, w.B, "B")}
		b.conductor(&br, m)
		b.add(br)
	}
}

// conductor finds out what a wire has.
func (b *builder) conductor(br *Branch, m metres) {
	c := conductorOf(b.n.Doc, br.Wire, m, b.kind)
	br.Conductor, br.Ohm, br.OhmKnown, br.Missing = c, c.Ohm, len(c.Missing) == 0, c.Missing
}

// end returns the node at a wire's end. A loose end is a node of its own.
func (b *builder) end(w *schematic.Wire, e schematic.End, which string) int {
	if !e.Loose() {
		if i := b.n.NodeOf(e.Ref()); i >= 0 {
			return i
		}
	}
	return b.node(Node{Name: w.Name + " loose end " + which, Inner: true})
}

// finish builds the adjacency and the nets and picks the reference.
func (b *builder) finish() {
	n := b.n
	n.at = make([][]int, len(n.Nodes))
	for i := range n.Branches {
		br := &n.Branches[i]
		n.at[br.A] = append(n.at[br.A], i)
		if br.B != br.A {
			n.at[br.B] = append(n.at[br.B], i)
		}
		if n.Reference < 0 && br.Role == RoleElement && br.Element.Type == schematic.ElemBattery {
			n.Reference = br.B
		}
	}
	for i := range n.Branches {
		if br := &n.Branches[i]; n.Reference < 0 && br.IsSource() {
			n.Reference = br.B
		}
	}
	n.collectNets()
}
