package edit

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"loomwright/schematic"
)

// AddSegment adds a segment to a loom, from the node where its last one ends to
// a new one; the first segment of a loom gets two new nodes.
func AddSegment(tx *Tx, loom schematic.ID) error {
	return SetLoom(tx, loom, func(l *schematic.Loom) {
		s := schematic.Segment{ID: tx.NewID()}
		if n := len(l.Segments); n > 0 {
			s.From = l.Segments[n-1].To
		} else {
			s.From = tx.newNode(l, "")
		}
		s.To = tx.newNode(l, "")
		l.Segments = append(l.Segments, s)
	})
}

// newNode adds a node to a loom that is the caller's own; an empty name gets a
// number.
func (tx *Tx) newNode(l *schematic.Loom, name string) schematic.ID {
	for n := 1; name == ""; n++ {
		free := "node " + strconv.Itoa(n)
		if !slices.ContainsFunc(l.Nodes, func(x schematic.Node) bool { return x.Name == free }) {
			name = free
		}
	}
	id := tx.NewID()
	l.Nodes = append(l.Nodes, schematic.Node{ID: id, Name: name})
	return id
}

// SetSegmentEnd leads the beginning (or with to the end) of a segment to the
// node of a name, which is added where the loom has none. A node that no
// segment and no part is at any more goes.
func SetSegmentEnd(tx *Tx, loom, segment schematic.ID, to bool, node string) error {
	node = strings.TrimSpace(node)
	if node == "" {
		return fmt.Errorf("name the node where the segment ends")
	}
	return SetLoom(tx, loom, func(l *schematic.Loom) {
		i := slices.IndexFunc(l.Nodes, func(n schematic.Node) bool { return strings.EqualFold(n.Name, node) })
		var id schematic.ID
		if i >= 0 {
			id = l.Nodes[i].ID
		} else {
			id = tx.newNode(l, node)
		}
		for j := range l.Segments {
			if l.Segments[j].ID == segment && to {
				l.Segments[j].To = id
			} else if l.Segments[j].ID == segment {
				l.Segments[j].From = id
			}
		}
		tx.dropNodes(l)
	})
}

// RenameNode gives a node of a loom another name; taken ones are refused.
func RenameNode(tx *Tx, loom, node schematic.ID, name string) error {
	name = strings.TrimSpace(name)
	l := tx.doc.Loom(loom)
	switch {
	case l == nil:
		return fmt.Errorf("the loom is no longer there")
	case name == "":
		return fmt.Errorf("%s: a node needs a name", l.Name)
	case slices.ContainsFunc(l.Nodes, func(n schematic.Node) bool { return n.ID != node && strings.EqualFold(n.Name, name) }):
		return fmt.Errorf("%s has a node %q already", l.Name, name)
	}
	return SetLoom(tx, loom, func(l *schematic.Loom) {
		for i := range l.Nodes {
			if l.Nodes[i].ID == node {
				l.Nodes[i].Name = name
			}
		}
	})
}

// SetHoles says through which panels a segment passes. What a file says of a
// hole beyond that stays with the one of its name.
func SetHoles(tx *Tx, loom, segment schematic.ID, holes []schematic.Hole) error {
	return SetLoom(tx, loom, func(l *schematic.Loom) {
		for i := range l.Segments {
			if l.Segments[i].ID == segment {
				was := l.Segments[i].Holes
				fresh := slices.Clone(holes)
				for j := range fresh {
					if k := slices.IndexFunc(was, func(h schematic.Hole) bool { return h.Name == fresh[j].Name }); k >= 0 {
						fresh[j].Extra = was[k].Extra
					}
				}
				l.Segments[i].Holes = orNil(fresh)
			}
		}
	})
}

// DeleteSegments takes segments out of a loom, with the nodes that are left
// alone. A segment that a wire runs through stays.
func DeleteSegments(tx *Tx, loom schematic.ID, segments []schematic.ID) error {
	return SetLoom(tx, loom, func(l *schematic.Loom) {
		l.Segments = slices.DeleteFunc(l.Segments, func(s schematic.Segment) bool { return slices.Contains(segments, s.ID) })
		tx.dropNodes(l)
	})
}

// dropNodes takes nodes out of a loom that no segment and no part is at.
func (tx *Tx) dropNodes(l *schematic.Loom) {
	used := map[schematic.ID]bool{}
	for _, s := range l.Segments {
		used[s.From], used[s.To] = true, true
	}
	for p := range tx.doc.Parts() {
		if p.Loom == l.ID {
			used[p.Node] = true
		}
	}
	l.Nodes = slices.DeleteFunc(l.Nodes, func(n schematic.Node) bool { return !used[n.ID] })
}

// LeadThrough puts wires into a loom and leads them through some of its
// segments, in the order they hang together from one end to the other.
func LeadThrough(tx *Tx, wires []schematic.ID, loom schematic.ID, segments []schematic.ID) error {
	l := tx.doc.Loom(loom)
	if l == nil {
		return fmt.Errorf("the loom is no longer there")
	}
	route, ok := segmentWay(l, segments)
	if !ok {
		return fmt.Errorf("%s: these segments do not follow each other: select a way from one node to another", l.Name)
	}
	for _, id := range wires {
		if err := SetWire(tx, id, func(w *schematic.Wire) { w.Loom, w.Route = loom, slices.Clone(route) }); err != nil {
			return err
		}
	}
	return nil
}

// segmentWay orders segments so that each begins where the one before ends, and
// reports whether they make one way without branches.
func segmentWay(l *schematic.Loom, ids []schematic.ID) ([]schematic.ID, bool) {
	at := map[schematic.ID][]schematic.Segment{}
	n := 0
	var start schematic.ID
	for _, s := range l.Segments { // the order of the loom tells which way round
		if slices.Contains(ids, s.ID) {
			at[s.From], at[s.To] = append(at[s.From], s), append(at[s.To], s)
			n++
		}
	}
	for _, s := range l.Segments {
		for _, end := range []schematic.ID{s.From, s.To} {
			if len(at[end]) == 1 && (start == schematic.ID{}) {
				start = end
			}
		}
	}
	var route []schematic.ID
	for here := start; len(route) < n; {
		i := slices.IndexFunc(at[here], func(s schematic.Segment) bool { return !slices.Contains(route, s.ID) })
		if i < 0 || len(at[here]) > 2 {
			return nil, false
		}
		s := at[here][i]
		route = append(route, s.ID)
		if here == s.From {
			here = s.To
		} else {
			here = s.From
		}
	}
	return route, n > 0
}
