package edit

import (
	"fmt"
	"slices"

	"loomwright/schematic"
	"loomwright/schematic/geom"
)

// SheetsOf returns the sheets a selection is copied from, in the order of their
// tabs: the one in sight if all of it is drawn there, else those of its wires
// and notes and of the parts that are shown on one only, and the one in sight
// if any of it is drawn there. Without a sheet in sight (zero) a part that is
// shown on several counts where most of the selection lies.
func SheetsOf(d *schematic.Doc, keys []schematic.Key, inSight schematic.ID) []schematic.ID {
	on := map[schematic.ID]bool{}
	whole := true
	for _, k := range keys {
		var here bool
		switch it := d.Get(k).(type) {
		case *schematic.Part:
			if here = shownOn(it, inSight); len(it.Views) > 0 && !slices.ContainsFunc(it.Views, func(v schematic.View) bool { return v.Sheet != it.Views[0].Sheet }) {
				on[it.Views[0].Sheet] = true
			}
		case *schematic.Wire:
			here = it.Sheet == inSight
			on[it.Sheet] = true
		case *schematic.Note:
			here = it.Sheet == inSight
			on[it.Sheet] = true
		default:
			continue
		}
		on[inSight] = on[inSight] || here
		whole = whole && here
	}
	if whole && on[inSight] {
		return []schematic.ID{inSight}
	}
	var all []schematic.ID
	for _, s := range d.Sheets() {
		if on[s.ID] {
			all = append(all, s.ID)
		}
	}
	if len(all) == 0 {
		all = append(all, homeSheet(d, keys))
	}
	return all
}

func (c *clipping) addSheets() {
	for _, id := range c.sheets {
		if s := c.d.Sheet(id); s != nil {
			c.items = append(c.items, s)
		}
	}
}

// Leading returns the items of a clip that [Paste] puts on a sheet moved by the
// offset, parts with their symbols there alone. Of a clip of one sheet that is
// all of it; of several, those of the same sheet, by ID or else by name, or, if
// the sheet is none of them, those of the sheet that holds most.
func Leading(d *schematic.Doc, items []schematic.Item, sheet schematic.ID) []schematic.Item {
	lead := leadingSheet(clipSheets(items), items, d.Sheet(sheet))
	if lead == nil {
		return items
	}
	return itemsOn(items, lead.ID)
}

// clipSheets returns the sheets that come along with a clip of several, in the
// order of their tabs.
func clipSheets(items []schematic.Item) []*schematic.Sheet {
	var all []*schematic.Sheet
	for _, it := range items {
		if s, ok := it.(*schematic.Sheet); ok {
			all = append(all, s)
		}
	}
	slices.SortStableFunc(all, func(a, b *schematic.Sheet) int { return a.Order - b.Order })
	return all
}

func leadingSheet(sheets []*schematic.Sheet, items []schematic.Item, in *schematic.Sheet) *schematic.Sheet {
	if len(sheets) == 0 || in == nil {
		return nil
	}
	if i := slices.IndexFunc(sheets, func(s *schematic.Sheet) bool { return s.ID == in.ID }); i >= 0 {
		return sheets[i]
	}
	if s := sheetNamed(sheets, in.Name); s != nil {
		return s
	}
	return slices.MaxFunc(sheets, func(a, b *schematic.Sheet) int { return len(itemsOn(items, a.ID)) - len(itemsOn(items, b.ID)) })
}

// itemsOn returns what of a clip is drawn on one of its sheets.
func itemsOn(items []schematic.Item, sheet schematic.ID) []schematic.Item {
	var on []schematic.Item
	for _, it := range items {
		switch x := it.(type) {
		case *schematic.Part:
			if shownOn(x, sheet) {
				c := *x
				c.Views = slices.DeleteFunc(slices.Clone(x.Views), func(v schematic.View) bool { return v.Sheet != sheet })
				on = append(on, &c)
			}
		case *schematic.Wire:
			if x.Sheet == sheet {
				on = append(on, x)
			}
		case *schematic.Note:
			if x.Sheet == sheet {
				on = append(on, x)
			}
		}
	}
	return on
}

// placeSheets finds the sheets for a clip of several, and how far aside what
// goes on them has to go.
func (p *pasting) placeSheets(items []schematic.Item) {
	sheets := clipSheets(items)
	lead := leadingSheet(sheets, items, p.tx.doc.Sheet(p.sheet))
	if lead == nil {
		return
	}
	p.sheets, p.aside = map[schematic.ID]schematic.ID{lead.ID: p.sheet}, map[schematic.ID]geom.Point{}
	taken := map[schematic.ID]bool{p.sheet: true}
	for _, s := range sheets {
		if s.ID == lead.ID {
			continue
		}
		to := p.tx.doc.Sheet(s.ID)
		if to == nil || taken[to.ID] {
			to = sheetNamed(p.tx.doc.Sheets(), s.Name)
		}
		if to == nil || taken[to.ID] {
			to = p.addSheet(s)
		}
		taken[to.ID] = true
		p.sheets[s.ID], p.aside[s.ID] = to.ID, Aside(p.tx.doc, itemsOn(items, s.ID), to.ID)
	}
}

// addSheet adds a sheet like one that comes along after the last one.
func (p *pasting) addSheet(like *schematic.Sheet) *schematic.Sheet {
	c := *like
	all := p.tx.doc.Sheets()
	c.ID, c.Order = p.tx.NewID(), 1
	if len(all) > 0 {
		c.Order = all[len(all)-1].Order + 1
	}
	for n := 2; sheetNamed(all, c.Name) != nil; n++ {
		c.Name = fmt.Sprintf("%s (%d)", like.Name, n)
	}
	p.tx.Put(&c)
	return &c
}

// Aside returns how far from where they were the items of a clip have to go on
// a sheet so that none lies exactly on what is there: not at all, or some steps.
func Aside(d *schematic.Doc, items []schematic.Item, sheet schematic.ID) geom.Point {
	on := stands(d, sheet)
	by := geom.Point{}
	for on.under(items, by) {
		by = by.Add(geom.Pt(2*geom.Grid, 2*geom.Grid))
	}
	return by
}

// standing is where symbols, notes and the ends of wires are on a sheet.
type standing struct {
	at   map[geom.Point]bool
	ends map[[2]geom.Point]bool
}

func stands(d *schematic.Doc, sheet schematic.ID) standing {
	on := standing{map[geom.Point]bool{}, map[[2]geom.Point]bool{}}
	for p := range d.Parts() {
		for _, v := range p.Views {
			if v.Sheet == sheet {
				on.at[v.At] = true
			}
		}
	}
	for n := range d.Notes() {
		if n.Sheet == sheet {
			on.at[n.At] = true
		}
	}
	for w := range d.Wires() {
		if w.Sheet == sheet {
			a, _, _ := d.EndAt(w, w.A)
			b, _, _ := d.EndAt(w, w.B)
			on.ends[[2]geom.Point{a, b}] = true
		}
	}
	return on
}

// under reports whether something pasted would lie exactly on what is there.
func (on standing) under(items []schematic.Item, by geom.Point) bool {
	for _, it := range items {
		switch it := it.(type) {
		case *schematic.Wire:
			if it.A.Loose() && it.B.Loose() && on.ends[[2]geom.Point{it.A.At.Add(by), it.B.At.Add(by)}] {
				return true
			}
		case *schematic.Part:
			for _, v := range it.Views {
				if on.at[v.At.Add(by)] {
					return true
				}
			}
		case *schematic.Note:
			if on.at[it.At.Add(by)] {
				return true
			}
		}
	}
	return false
}
