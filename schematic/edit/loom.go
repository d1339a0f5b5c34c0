package edit

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"loomwright/schematic"
)

// AddLoom adds a sub-harness without segments; an empty name gets a number.
func AddLoom(tx *Tx, name string) error {
	name = strings.TrimSpace(name)
	if name == "" {
		name = tx.doc.FreeName("LOOM", nil)
	}
	if err := free(tx.doc, name, schematic.Key{}); err != nil {
		return err
	}
	tx.Put(&schematic.Loom{ID: tx.NewID(), Name: name})
	return nil
}

// SetLoom changes a loom; change gets a copy whose Nodes and Segments are its
// own to write. A segment that a wire runs through, and a node where a part
// sits, cannot go.
func SetLoom(tx *Tx, id schematic.ID, change func(*schematic.Loom)) error {
	old := tx.doc.Loom(id)
	if old == nil {
		return fmt.Errorf("the loom is no longer there")
	}
	c := *old
	c.Nodes, c.Segments, c.Links, c.Extra = slices.Clone(old.Nodes), slices.Clone(old.Segments), slices.Clone(old.Links), maps.Clone(old.Extra)
	for i := range c.Segments {
		c.Segments[i].Holes = slices.Clone(c.Segments[i].Holes)
	}
	change(&c)
	c.ID, c.Name = old.ID, strings.TrimSpace(c.Name)
	if c.Name == "" {
		return fmt.Errorf("%s: a loom needs a name", old.Name)
	}
	if c.Name != old.Name {
		if err := free(tx.doc, c.Name, c.Key()); err != nil {
			return err
		}
	}
	if err := validLoom(&c); err != nil {
		return err
	}
	c.Nodes, c.Segments, c.Links = orNil(c.Nodes), orNil(c.Segments), orNil(c.Links)
	tx.Put(&c)
	if names := unrouted(tx.doc, id); len(names) == 1 {
		return fmt.Errorf("%s: %s runs through a segment that would go: lead it through other segments first", c.Name, names[0])
	} else if len(names) > 1 {
		return fmt.Errorf("%s: %s and %d more of its wires run through what would go: lead them through other segments first", c.Name, names[0], len(names)-1)
	}
	for p := range tx.doc.Parts() {
		if p.Loom == id && (p.Node != schematic.ID{}) && !hasNode(&c, p.Node) {
			return fmt.Errorf("%s: %s sits at a node that would go: choose another node for it first", c.Name, p.Name)
		}
	}
	return nil
}

// unrouted returns the wires of a loom whose route leads through segments that
// it does not have, by name.
func unrouted(d *schematic.Doc, loom schematic.ID) []string {
	var names []string
	for w := range d.Wires() {
		if w.Loom == loom && !routed(d, w) {
			names = append(names, w.Name)
		}
	}
	slices.SortFunc(names, schematic.CompareNames)
	return names
}

func validLoom(l *schematic.Loom) error {
	seen := map[schematic.ID]bool{}
	for _, n := range l.Nodes {
		if seen[n.ID] {
			return fmt.Errorf("%s: two nodes have the same ID", l.Name)
		}
		seen[n.ID] = true
		if err := onSheet("node "+n.Name, n.At); err != nil {
			return fmt.Errorf("%s: %w", l.Name, err)
		}
	}
	seen = map[schematic.ID]bool{}
	for _, s := range l.Segments {
		switch {
		case seen[s.ID]:
			return fmt.Errorf("%s: two segments have the same ID", l.Name)
		case !hasNode(l, s.From) || !hasNode(l, s.To):
			return fmt.Errorf("%s: segment %s needs a node at both ends", l.Name, s.Name)
		case s.From == s.To:
			return fmt.Errorf("%s: segment %s begins and ends at the same node", l.Name, s.Name)
		}
		seen[s.ID] = true
		if err := positive(s.LengthMM); err != nil {
			return fmt.Errorf("%s: segment %s: length: %w", l.Name, s.Name, err)
		}
		for _, h := range s.Holes {
			if err := positive(h.DiameterMM); err != nil {
				return fmt.Errorf("%s: segment %s: hole %s: %w", l.Name, s.Name, h.Name, err)
			}
			at, placed := h.FromMM.Get()
			if most, known := s.LengthMM.Get(); placed && (at < 0 || known && at > most) {
				return fmt.Errorf("%s: segment %s: hole %s: %g mm from its beginning is not on the segment", l.Name, s.Name, h.Name, at)
			}
		}
	}
	return nil
}

func hasNode(l *schematic.Loom, id schematic.ID) bool {
	return slices.ContainsFunc(l.Nodes, func(n schematic.Node) bool { return n.ID == id })
}
