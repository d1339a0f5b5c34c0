package check

import (
	"fmt"
	"strings"

	"loomwright/netlist"
	"loomwright/schematic"
)

const floatingID = "load without circuit"

var floating = Rule{
	ID:    floatingID,
	Title: "Load that no current can ever flow through",
	Help: "With all contacts and drivers closed, no way leads from a source through the load and back: a feed or a ground is not " +
		"drawn. Pins of a control unit are exempt, many are left open on purpose, and so is what terminates a bus: a resistor " +
		"between two nets with nothing but bus pins.",
	Source: "the drawing",
	run:    runFloating,
}

func runFloating(r *run) {
	if r.n.Reference < 0 {
		return // another rule says so
	}
	edges := append([]edge{}, r.edges()...)
	for i := range r.n.Branches {
		if br := &r.n.Branches[i]; br.Feed >= 0 {
			edges = append(edges, edge{br.Feed, br.B}) // what a regulator draws
		}
	}
	b := findBlocks(len(r.n.Nodes), edges, func(i int) bool {
		return i >= len(r.n.Branches) || r.n.Branches[i].Role != netlist.RoleElement || r.n.Branches[i].Element.Type != schematic.ElemOpen
	})
	fed := map[int]bool{}
	for i := range r.n.Branches {
		if isSupply(&r.n.Branches[i]) {
			fed[b.of[i]] = true
		}
	}
	for i := range r.n.Branches {
		br := &r.n.Branches[i]
		if !br.IsLoad() || br.Pin != nil || br.A != br.B && fed[b.of[i]] || r.hasSource(br.Part) || r.innerOnly(br) || r.terminatesBus(br) {
			continue
		}
		plus, minus := r.reaches(i, br.A), r.reaches(i, br.B)
		text := fmt.Sprintf("%s is connected to no source at all.", br.Name())
		switch {
		case plus && minus:
			text = fmt.Sprintf("No current can flow through %s: both its ends lead to the same point.", br.Name())
		case plus:
			text = fmt.Sprintf("From %s no way leads back to a source.", r.point(br.B))
		case minus:
			text = fmt.Sprintf("From %s no way leads to a source.", r.point(br.A))
		}
		f := Finding{Severity: Warning, Items: []schematic.Key{br.Key()}, Text: text}
		if p := r.behindUnknown(i, plus, minus); p != nil {
			f.Severity, f.Missing = NotAssessed, "the kind "+p.Kind+" of "+p.Name
			f.Text = fmt.Sprintf("Whether %s has a circuit is not assessed: it hangs on %s, of a kind nobody defines.", br.Name(), p.Name)
		}
		for _, node := range []int{br.A, br.B} {
			if pin := r.n.Nodes[node].Pin; pin.Pin != "" && !r.reaches(i, node) {
				f.Pins = append(f.Pins, pin)
			}
		}
		r.add(f, br.Element.Name)
	}
}

// point names a node in words: "F3.1", "A1 supply" for a point inside a part.
func (r *run) point(node int) string {
	n := r.n.Nodes[node]
	if n.Inner && n.Part != nil {
		return n.Part.Name + " " + strings.TrimPrefix(n.Name, n.Part.Name+"#")
	}
	return n.Name
}

// innerOnly reports whether a load hangs on an inner node of its part that this
// part has no pin for: the permanent supply of a unit without one.
func (r *run) innerOnly(br *netlist.Branch) bool {
	for _, node := range []int{br.A, br.B} {
		if r.n.Nodes[node].Inner && len(r.n.At(node)) == 1 {
			return true
		}
	}
	return false
}

// behindUnknown returns a part of a kind nobody defines at which a way from an
// end of a load, that leads to no source, stops.
func (r *run) behindUnknown(load int, plus, minus bool) *schematic.Part {
	if len(r.n.Unknown) == 0 {
		return nil
	}
	br := &r.n.Branches[load]
	for _, end := range []struct {
		node int
		fed  bool
	}{{br.A, plus}, {br.B, minus}} {
		if end.fed {
			continue
		}
		for _, node := range r.nodesFrom(load, end.node) {
			for _, i := range r.n.At(node) {
				w := r.n.Branches[i].Wire
				if w == nil {
					continue
				}
				for _, id := range []schematic.ID{w.A.Part, w.B.Part} {
					if p := r.doc.Part(id); p != nil && r.doc.KindOf(p) == nil {
						return p
					}
				}
			}
		}
	}
	return nil
}

// reaches reports whether a source can be reached from a node without going
// through a branch.
func (r *run) reaches(without, from int) bool {
	for _, node := range r.nodesFrom(without, from) {
		for _, i := range r.n.At(node) {
			if isSupply(&r.n.Branches[i]) {
				return true
			}
		}
	}
	return false
}

// nodesFrom lists the nodes that can be reached from one without going through
// a branch, or through a source.
func (r *run) nodesFrom(without, from int) []int {
	seen := map[int]bool{from: true}
	nodes := []int{from}
	for k := 0; k < len(nodes); k++ {
		for _, i := range r.n.At(nodes[k]) {
			br := &r.n.Branches[i]
			to := br.Other(nodes[k])
			if i == without || seen[to] || isSupply(br) || br.Role == netlist.RoleElement && br.Element.Type == schematic.ElemOpen {
				continue
			}
			seen[to] = true
			nodes = append(nodes, to)
		}
	}
	return nodes
}
