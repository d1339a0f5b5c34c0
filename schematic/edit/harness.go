package edit

import (
	"fmt"
	"maps"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// HarnessPlace says how another document is to be brought in.
type HarnessPlace struct {
	// Sheet is the sheet its drawing goes on, moved by Offset. Zero brings its
	// sheets along as new ones, after those there are.
	Sheet  schematic.ID
	Offset geom.Point
	// States brings along its operating states whose names the document does
	// not have. Without, only settings of states of the same name come.
	States bool
}

// HarnessReport says what has come along.
type HarnessReport struct {
	Parts, Wires, Notes, Sheets, Looms, States int
	// Renamed lists designations that were taken: "F3 is now F8".
	Renamed []string
	// Kinds lists part kinds that got another name, for the document has a
	// different one of that name.
	Kinds []string
	// Left says in words what did not come along.
	Left []string
}

// InsertHarness brings a whole document, a sub-harness say, into this one. Everything
// gets a fresh ID; designations that are taken get the next free number. Parts,
// wires, notes, wire groups, looms with their segments and the part kinds they
// need come along, and what the operating states say about the parts. Title
// block, limits, readings and accepted findings stay behind, and nothing counts
// as built yet. The document's own kinds are merged: one of the same name and
// content is used as it is, a different one gets another name.
func InsertHarness(tx *Tx, src *schematic.Doc, in HarnessPlace) (HarnessReport, error) {
	var done HarnessReport
	items := insertItems(tx.doc, src)
	switch {
	case src.Len(schematic.TypePart)+src.Len(schematic.TypeWire)+src.Len(schematic.TypeNote) == 0:
		return done, fmt.Errorf("nothing is drawn in that harness")
	case in.Sheet != schematic.ID{} && tx.doc.Sheet(in.Sheet) == nil:
		return done, fmt.Errorf("the sheet to insert on is no longer there: choose another one")
	case in.Sheet != schematic.ID{} && len(DrawnSheets(src)) > 1:
		return done, fmt.Errorf("the harness is drawn on %d sheets, which would lie over each other: insert it as new sheets", len(DrawnSheets(src)))
	}
	p := newPasting(tx, items, in.Sheet, in.Offset)
	if (in.Sheet == schematic.ID{}) {
		p.offset = geom.Point{}
		p.bringSheets(src)
		done.Sheets = len(p.sheets)
	}
	if in.States {
		done.States = tx.bringStates(src)
	}
	p.addKinds(items)
	p.addLooms(src)
	for _, it := range items {
		if err := p.add(it); err != nil {
			return done, err
		}
	}
	if err := p.addWires(items); err != nil {
		return done, err
	}
	tx.Select(p.selected...)
	p.report(&done, src, items)
	return done, nil
}

// DrawnSheets returns the sheets of a document that something is drawn on, in
// tab order.
func DrawnSheets(d *schematic.Doc) []*schematic.Sheet {
	drawn := map[schematic.ID]bool{}
	for p := range d.Parts() {
		for _, v := range p.Views {
			drawn[v.Sheet] = true
		}
	}
	for w := range d.Wires() {
		drawn[w.Sheet] = true
	}
	for n := range d.Notes() {
		drawn[n.Sheet] = true
	}
	return slices.DeleteFunc(d.Sheets(), func(s *schematic.Sheet) bool { return !drawn[s.ID] })
}

// insertItems lists what comes along of a document, but for sheets and looms, in
// stable order. A kind that means something else in the other document goes
// with the parts, as if it were the harness's own.
func insertItems(d, src *schematic.Doc) []schematic.Item {
	var items []schematic.Item
	needed := map[string]bool{}
	for p := range src.Parts() {
		items = append(items, p)
		needed[p.Kind] = true
	}
	for w := range src.Wires() {
		items = append(items, w)
	}
	for n := range src.Notes() {
		items = append(items, n)
	}
	for g := range src.Groups() {
		items = append(items, g)
	}
	for _, s := range src.States() {
		items = append(items, s)
	}
	for _, name := range slices.Sorted(maps.Keys(needed)) {
		if k := src.Kind(name); k != nil && k.OtherHalf != "" {
			needed[k.OtherHalf] = true
		}
	}
	for _, name := range slices.Sorted(maps.Keys(needed)) {
		k := src.Kind(name)
		if k == nil {
			continue // nobody defines it: the parts come as they are
		}
		own := src.Get(k.Key()) == schematic.Item(k)
		if there := d.Kind(name); own || there == nil || !sameKind(k, there) {
			if !own {
				c := *k
				c.ID = kindStandIn(len(items))
				k = &c
			}
			items = append(items, k)
		}
	}
	slices.SortStableFunc(items, compareItems)
	return items
}

// kindStandIn is an ID for a kind of a library, which has none; it is replaced
// before anybody sees it.
func kindStandIn(n int) schematic.ID {
	return schematic.ID{0: 0xff, 14: byte(n >> 8), 15: byte(n)}
}

func (p *pasting) bringSheets(src *schematic.Doc) {
	p.sheets = map[schematic.ID]schematic.ID{}
	for _, s := range DrawnSheets(src) {
		c := p.addSheet(s)
		p.sheets[s.ID] = c.ID
		if (p.sheet == schematic.ID{}) {
			p.sheet = c.ID
		}
	}
}

// addLooms brings the looms along whole, with fresh IDs for their nodes and
// segments too: what runs through one segment lies in one bundle.
func (p *pasting) addLooms(src *schematic.Doc) {
	for _, l := range slices.SortedFunc(src.Looms(), schematic.CompareItems) {
		c := *l
		c.ID, c.Name = p.tx.NewID(), p.names.claim(l.Name, "L")
		p.ids[l.Key()] = c.ID
		p.looms[c.ID] = true
		c.Nodes, c.Segments = slices.Clone(l.Nodes), slices.Clone(l.Segments)
		for i := range c.Nodes {
			c.Nodes[i].ID = p.inner(l.ID, l.Nodes[i].ID)
		}
		for i, s := range l.Segments {
			c.Segments[i].ID, c.Segments[i].From, c.Segments[i].To = p.inner(l.ID, s.ID), p.inner(l.ID, s.From), p.inner(l.ID, s.To)
		}
		p.tx.Put(&c)
	}
}

// loomPlace names a node or segment of a loom of the clip.
type loomPlace struct{ loom, id schematic.ID }

// inner returns the fresh ID of a node or segment of a loom that comes along.
func (p *pasting) inner(loom, id schematic.ID) schematic.ID {
	if (id == schematic.ID{}) {
		return id
	}
	at := loomPlace{loom, id}
	if _, ok := p.places[at]; !ok {
		if p.places == nil {
			p.places = map[loomPlace]schematic.ID{}
		}
		p.places[at] = p.tx.NewID()
	}
	return p.places[at]
}

// bringStates adds the states whose names are not there yet, without settings,
// and returns how many.
func (tx *Tx) bringStates(src *schematic.Doc) int {
	have := map[string]bool{}
	order := 0
	for _, s := range tx.doc.States() {
		have[s.Name], order = true, max(order, s.Order)
	}
	n := 0
	for _, s := range src.States() {
		if have[s.Name] || tx.doc.State(s.ID) != nil {
			continue
		}
		have[s.Name] = true
		order++
		n++
		c := *s
		c.ID, c.Order, c.Set = tx.NewID(), order, nil
		tx.Put(&c)
	}
	return n
}

// report says what has come along.
func (p *pasting) report(done *HarnessReport, src *schematic.Doc, items []schematic.Item) {
	d := p.tx.doc
	name := func(it schematic.Item, t schematic.ItemType) {
		if now := schematic.NameOf(d.Get(schematic.Key{Type: t, ID: p.to(t, it.Key().ID)})); now != schematic.NameOf(it) {
			done.Renamed = append(done.Renamed, schematic.NameOf(it)+" is now "+now)
		}
	}
	for _, it := range items {
		switch it := it.(type) {
		case *schematic.Part:
			done.Parts++
			name(it, schematic.TypePart)
		case *schematic.Wire:
			done.Wires++
			name(it, schematic.TypeWire)
		case *schematic.Note:
			done.Notes++
		case *schematic.Kind:
			if now := p.kinds[it.Name]; now != it.Name {
				done.Kinds = append(done.Kinds, it.Title+" is now "+now)
			}
		}
	}
	done.Looms = len(p.looms)
	if n := src.Len(schematic.TypeReading); n > 0 {
		done.Left = append(done.Left, fmt.Sprintf("%d readings: they were taken on another vehicle", n))
	}
	if n := src.Len(schematic.TypeAcceptance); n > 0 {
		done.Left = append(done.Left, fmt.Sprintf("%d accepted findings: look at them anew", n))
	}
	if a, b := src.Info().Volts(), d.Info().Volts(); a != b {
		done.Left = append(done.Left, fmt.Sprintf("its system voltage of %g V: this drawing has %g V", a, b))
	}
	if a, ok := src.Info().AmbientC.Get(); ok && a != d.Info().AmbientC.Or(a-1) {
		done.Left = append(done.Left, fmt.Sprintf("its air temperature of %g °C", a))
	}
}
