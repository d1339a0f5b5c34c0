package netlist

import (
	"maps"
	"slices"

	"loomwright/schematic"
)

// Study answers one drawing while it is edited: as long as edits leave the
// network's shape alone (another size, length or value, another state), the
// network and its factorisation are kept and only what changed is put in.
// Solutions are those of Build and SolveAll to the last bit. The zero value is
// ready; it belongs to one goroutine.
type Study struct {
	solver *Solver
}

// Solve returns the network of a document and all its operating states solved,
// or the state at rest when it has none.
func (t *Study) Solve(d *schematic.Doc) (*Netlist, []*Solution) {
	if t.solver == nil || !t.solver.Update(d) {
		t.solver = NewSolver(Build(d))
	}
	return t.solver.n, t.solver.solveAll()
}

// Update takes over another version of the solver's document. It reports false,
// having changed nothing, where the network's shape is another, or the document
// differs in something all of it depends on; build anew then. Earlier solutions
// keep their netlist.
func (s *Solver) Update(d *schematic.Doc) bool {
	changed, ok := s.n.compare(d)
	if !ok {
		return false
	}
	next := s.n.with(d, changed)
	for i := range changed.branches {
		if !s.sameShape(i, &next.Branches[i]) {
			return false
		}
	}
	s.n = next
	for _, i := range slices.Sorted(maps.Keys(changed.branches)) {
		s.refresh(i)
	}
	s.last, s.cut = nil, nil
	return true
}

// changes is what an edit changed.
type changes struct {
	wires    map[schematic.ID]*schematic.Wire
	parts    map[schematic.ID]*schematic.Part
	branches map[int]bool
}

// compare looks at every item of another version of the document; false where
// the network would be another one.
func (n *Netlist) compare(d *schematic.Doc) (changes, bool) {
	c := changes{map[schematic.ID]*schematic.Wire{}, map[schematic.ID]*schematic.Part{}, map[int]bool{}}
	old := n.Doc
	if d.Library() != old.Library() || d.Len(schematic.TypePart) != old.Len(schematic.TypePart) || d.Len(schematic.TypeWire) != old.Len(schematic.TypeWire) ||
		d.Len(schematic.TypeKind) != old.Len(schematic.TypeKind) || d.Len(schematic.TypeLoom) != old.Len(schematic.TypeLoom) || !sameInfo(d.Info(), old.Info()) {
		return c, false
	}
	for k := range d.OwnKinds() {
		if old.Get(k.Key()) != schematic.Item(k) {
			return c, false
		}
	}
	for l := range d.Looms() {
		if old.Loom(l.ID) != l {
			return c, false
		}
	}
	for w := range d.Wires() {
		was := old.Wire(w.ID)
		switch {
		case was == w:
			continue
		case was == nil || was.Name != w.Name || was.Circuit != w.Circuit || was.A.Ref() != w.A.Ref() || was.B.Ref() != w.B.Ref():
			return c, false
		}
		c.wires[w.ID] = w
		c.branches[n.wires[w.ID]] = true
	}
	for p := range d.Parts() {
		was := old.Part(p.ID)
		switch {
		case was == p:
			continue
		case was == nil || was.Name != p.Name || was.Kind != p.Kind || was.Mate != p.Mate || !samePins(was.Pins, p.Pins):
			return c, false
		}
		if k := d.KindOf(p); k != nil {
			if _, joins := k.Param("splice_ohm"); joins && !maps.Equal(was.Values, p.Values) {
				return c, false // the joints of all its wires
			}
		}
		c.parts[p.ID] = p
		for _, i := range n.parts[p.ID] {
			c.branches[i] = true
		}
	}
	return c, true
}

// sameInfo reports whether two documents agree in what every figure depends on.
func sameInfo(a, b *schematic.Info) bool {
	return a == b || a.AmbientC == b.AmbientC && a.SystemVolt == b.SystemVolt && maps.Equal(a.Limits, b.Limits) && maps.Equal(a.Choices, b.Choices)
}

func samePins(a, b []schematic.Pin) bool {
	return slices.EqualFunc(a, b, func(x, y schematic.Pin) bool { return x.Name == y.Name && x.Role == y.Role })
}

// with returns the netlist of another version of the document that differs in
// the values of some wires and parts alone.
func (n *Netlist) with(d *schematic.Doc, c changes) *Netlist {
	next := *n
	next.Doc = d
	if len(c.branches) == 0 && len(c.parts) == 0 {
		return &next
	}
	next.Branches = slices.Clone(n.Branches)
	b := builder{n: &next, kinds: map[string]*schematic.Kind{}}
	m := metres{}
	for i := range c.branches {
		br := &next.Branches[i]
		if br.Role == RoleWire {
			br.Wire = c.wires[br.Wire.ID]
			b.conductor(br, m)
			continue
		}
		if p := c.parts[br.Part.ID]; p != nil {
			br.Part = p
		}
		if br.Pin != nil {
			pins := d.PinsOf(br.Part)
			for k := range pins {
				if pins[k].Name == br.Pin.Name {
					br.Pin = &pins[k]
					break
				}
			}
		}
		if br.Role == RoleMate {
			br.mate()
		} else {
			br.values()
		}
	}
	if len(c.parts) > 0 {
		next.takeParts(c)
	}
	if len(c.wires) > 0 {
		next.takeWires(c)
	}
	return &next
}

// takeParts lets nodes name the parts as they are now.
func (n *Netlist) takeParts(c changes) {
	n.Nodes = slices.Clone(n.Nodes)
	for i := range n.Nodes {
		if node := &n.Nodes[i]; node.Part != nil && c.parts[node.Part.ID] != nil {
			node.Part = c.parts[node.Part.ID]
		}
	}
	n.Unknown = slices.Clone(n.Unknown)
	for i, p := range n.Unknown {
		if c.parts[p.ID] != nil {
			n.Unknown[i] = c.parts[p.ID]
		}
	}
}

// takeWires lets nets name the wires as they are now.
func (n *Netlist) takeWires(c changes) {
	n.Nets = slices.Clone(n.Nets)
	touched := map[int]bool{}
	for id := range c.wires {
		touched[n.Nodes[n.Branches[n.wires[id]].A].Net] = true
	}
	for net := range touched {
		wires := slices.Clone(n.Nets[net].Wires)
		for i, w := range wires {
			if c.wires[w.ID] != nil {
				wires[i] = c.wires[w.ID]
			}
		}
		n.Nets[net].Wires = wires
	}
}

// sameShape reports whether a branch stands in the network as before: with an
// element of the same kind, or without one.
func (s *Solver) sameShape(i int, next *Branch) bool {
	was := &s.n.Branches[i]
	return was.A == next.A && was.B == next.B && was.Role == next.Role && was.Element.Type == next.Element.Type &&
		(s.elem[i] == noElement) == !next.inNetwork()
}

// inNetwork reports whether a branch has an element in the network.
func (b *Branch) inNetwork() bool {
	switch {
	case b.A == b.B:
		return false
	case b.Role != RoleElement:
		return true
	}
	switch b.Element.Type {
	case schematic.ElemFuse, schematic.ElemJoint, schematic.ElemContact, schematic.ElemOutput:
		return true
	case schematic.ElemCoil, schematic.ElemResistor, schematic.ElemBattery:
		return len(b.Missing) == 0
	case schematic.ElemRegulator:
		return b.law(rated) != nil && b.Feed >= 0 && b.Feed != b.B
	}
	return b.isDevice() && b.law(rated) != nil
}

// refresh puts the values of a branch into its element.
func (s *Solver) refresh(i int) {
	e := s.elem[i]
	if e == noElement {
		return
	}
	br := &s.n.Branches[i]
	s.points[i] = rated
	s.heats[i] = nil
	s.addHeat(i)
	switch {
	case br.Role == RoleElement && br.Element.Type == schematic.ElemBattery:
		cells := br.Cells()
		must(s.net.SetVolt(e, cells.Volt))
		must(s.net.SetOhm(e, bounded(cells.Ohm)))
	case br.isDevice():
		must(s.net.SetDevice(e, br.law(rated)))
	default:
		must(s.net.SetOhm(e, bounded(br.plainOhm())))
	}
	if k := slices.Index(s.coils, i); k >= 0 {
		s.pullIn[k], s.dropOut[k] = br.coilVolts(s.n.Doc.Info().Volts())
	}
}
