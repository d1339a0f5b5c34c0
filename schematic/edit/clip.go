package edit

import (
	"cmp"
	"maps"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/route"
)

// Clip returns what a selection means when it is taken elsewhere: the parts
// with their symbols on the given sheets (without any, the one the selection
// lies on), the wires selected there and those wholly between the parts, notes, the groups the wires belong to,
// the document's own kinds the parts need, and what the operating states say
// about the parts. Ends at parts left behind become loose where they were. Of
// several sheets the sheets come along too, so that [Paste] can tell them apart.
// The result stands for itself; order is stable.
func Clip(d *schematic.Doc, keys []schematic.Key, sheets ...schematic.ID) []schematic.Item {
	if len(sheets) == 0 {
		sheets = []schematic.ID{homeSheet(d, keys)}
	}
	g := group{wires: map[schematic.ID]bool{}}
	for _, sheet := range sheets {
		here := gather(d, sheet, keys)
		for _, p := range here.parts {
			if !slices.Contains(g.parts, p) {
				g.parts = append(g.parts, p)
			}
		}
		g.notes = append(g.notes, here.notes...)
		maps.Copy(g.wires, here.wires)
	}
	c := clipping{d: d, sheets: sheets, parts: partSet(g.parts)}
	for _, p := range g.parts {
		c.addPart(p)
	}
	for w := range d.Wires() {
		between := !w.A.Loose() && !w.B.Loose() && c.parts(w.A.Part) && c.parts(w.B.Part)
		if slices.Contains(sheets, w.Sheet) && (g.wires[w.ID] || between) {
			c.addWire(w)
		}
	}
	for _, n := range g.notes {
		c.items = append(c.items, n)
	}
	c.addGroups()
	c.addStates()
	if len(sheets) > 1 && len(c.items) > 0 {
		c.addSheets()
	}
	slices.SortStableFunc(c.items, compareItems)
	return c.items
}

// compareItems orders by type, then as people count designations.
func compareItems(a, b schematic.Item) int {
	return cmp.Or(cmp.Compare(a.Key().Type, b.Key().Type), schematic.CompareItems(a, b))
}

// homeSheet returns the sheet that shows most of the selection; of equals the
// first by tab.
func homeSheet(d *schematic.Doc, keys []schematic.Key) schematic.ID {
	n := map[schematic.ID]int{}
	for _, k := range keys {
		switch it := d.Get(k).(type) {
		case *schematic.Part:
			on := map[schematic.ID]bool{}
			for _, v := range it.Views {
				if !on[v.Sheet] {
					on[v.Sheet] = true
					n[v.Sheet]++
				}
			}
		case *schematic.Wire:
			n[it.Sheet]++
		case *schematic.Note:
			n[it.Sheet]++
		}
	}
	var best schematic.ID
	most := 0
	for _, s := range d.Sheets() {
		if n[s.ID] > most {
			best, most = s.ID, n[s.ID]
		}
	}
	return best
}

type clipping struct {
	d      *schematic.Doc
	sheets []schematic.ID
	parts  func(schematic.ID) bool
	groups []schematic.ID
	wires  []schematic.ID
	items  []schematic.Item
}

func (c *clipping) addPart(p *schematic.Part) {
	cp := *p
	cp.Views = slices.DeleteFunc(slices.Clone(p.Views), func(v schematic.View) bool { return !slices.Contains(c.sheets, v.Sheet) })
	if !c.parts(cp.Mate) {
		cp.Mate = schematic.ID{}
	}
	c.items = append(c.items, &cp)
	k := c.d.KindOf(p)
	if k == nil || c.d.Get(k.Key()) != schematic.Item(k) {
		return
	}
	if !slices.Contains(c.items, schematic.Item(k)) {
		c.items = append(c.items, k)
	}
}

func (c *clipping) addWire(w *schematic.Wire) {
	cw := *w
	loosened := false
	for _, e := range []*schematic.End{&cw.A, &cw.B} {
		if e.Loose() || c.parts(e.Part) {
			continue
		}
		at := route.TipOf(c.d, w, *e).At
		*e = schematic.End{At: at, Terminal: e.Terminal, Seal: e.Seal, JointOhm: e.JointOhm, Extra: e.Extra}
		loosened = true
	}
	if loosened && len(w.Via) == 0 {
		// The pin that shaped the path stays behind: keep the shape.
		cw.Via = bendsOf(c.d.Path(w), route.TipOf(c.d, &cw, cw.A), route.TipOf(c.d, &cw, cw.B))
	}
	c.wires = append(c.wires, w.ID)
	for _, g := range []schematic.ID{w.Twist, w.Screen} {
		if (g != schematic.ID{}) && !slices.Contains(c.groups, g) {
			c.groups = append(c.groups, g)
		}
	}
	c.items = append(c.items, &cw)
}

func (c *clipping) addGroups() {
	for _, id := range c.groups {
		g := c.d.Group(id)
		if g == nil {
			continue
		}
		if cg := *g; !slices.Contains(c.wires, g.Drain) {
			cg.Drain = schematic.ID{}
			g = &cg
		}
		c.items = append(c.items, g)
	}
}

func (c *clipping) addStates() {
	for _, s := range c.d.States() {
		set := slices.DeleteFunc(slices.Clone(s.Set), func(x schematic.Setting) bool { return !c.parts(x.Part) })
		if len(set) > 0 {
			cs := *s
			cs.Set = set
			c.items = append(c.items, &cs)
		}
	}
}
