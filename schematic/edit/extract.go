package edit

import (
	"slices"

	"loomwright/schematic"
)

// Extract returns a document of its own that holds a selection: what [Clip]
// makes of it, on sheets like those it lies on, with the looms its parts and
// wires belong to cut down to what they use, readings between its pins, and
// the settings of the document. It keeps IDs and designations, so that the
// piece can be told again, and what the real parts have come to.
func Extract(d *schematic.Doc, keys []schematic.Key) *schematic.Doc {
	sheets := SheetsOf(d, keys, schematic.ID{})
	items := Clip(d, keys, sheets...)
	var puts []schematic.Put
	add := func(it schematic.Item) { puts = append(puts, schematic.Put{Key: it.Key(), Item: it}) }
	info := schematic.Info{SystemVolt: d.Info().SystemVolt, AmbientC: d.Info().AmbientC, Vehicle: d.Info().Vehicle,
		Limits: d.Info().Limits, Choices: d.Info().Choices}
	add(&info)
	for i, id := range sheets {
		if s := d.Sheet(id); s != nil {
			c := *s
			c.Order = i
			add(&c)
		}
	}
	use := map[schematic.ID]*loomUse{}
	held := map[schematic.ID]bool{}
	for _, it := range items {
		if it.Key().Type == schematic.TypeSheet {
			continue // added, counted anew
		}
		add(it)
		switch it := it.(type) {
		case *schematic.Part:
			held[it.ID] = true
			usedIn(use, it.Loom).nodes = append(usedIn(use, it.Loom).nodes, it.Node)
		case *schematic.Wire:
			usedIn(use, it.Loom).segments = append(usedIn(use, it.Loom).segments, it.Route...)
		}
	}
	for id, u := range use {
		if l := d.Loom(id); l != nil {
			add(u.of(l))
		}
	}
	for _, s := range d.States() { // also those in which nothing of it is switched: the currents differ
		if !slices.ContainsFunc(items, func(it schematic.Item) bool { return it.Key() == s.Key() }) {
			c := *s
			c.Set = nil
			add(&c)
		}
	}
	for r := range d.Readings() {
		if held[r.From.Part] && (r.To == schematic.PinRef{} || held[r.To.Part]) {
			add(r)
		}
	}
	return schematic.New(d.Library()).With(puts...)
}

// loomUse is what a selection uses of a loom.
type loomUse struct{ nodes, segments []schematic.ID }

func usedIn(use map[schematic.ID]*loomUse, loom schematic.ID) *loomUse {
	if use[loom] == nil {
		use[loom] = &loomUse{}
	}
	return use[loom]
}

// of cuts a loom down to the segments in use with their nodes.
func (u *loomUse) of(l *schematic.Loom) *schematic.Loom {
	c := *l
	c.Nodes, c.Segments = nil, nil
	nodes := slices.Clone(u.nodes)
	for _, s := range l.Segments {
		if slices.Contains(u.segments, s.ID) {
			c.Segments = append(c.Segments, s)
			nodes = append(nodes, s.From, s.To)
		}
	}
	for _, n := range l.Nodes {
		if slices.Contains(nodes, n.ID) {
			c.Nodes = append(c.Nodes, n)
		}
	}
	return &c
}
