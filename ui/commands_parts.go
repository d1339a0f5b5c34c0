package ui

import (
	"slices"

	"fyne.io/fyne/v2"

	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/schematic/geom"
)

// selectedParts returns the parts of the selection.
func (ed *Editor) selectedParts() []*schematic.Part {
	var ps []*schematic.Part
	for _, k := range ed.sess.Selection() {
		if p := ed.doc().Part(k.ID); p != nil && k.Type == schematic.TypePart {
			ps = append(ps, p)
		}
	}
	return ps
}

func (ed *Editor) canPlug() bool {
	ps := ed.selectedParts()
	return len(ps) == 2 && ed.freeHalf(ps[0]) && ed.freeHalf(ps[1])
}

// freeHalf reports whether a part is a connector half that is not plugged.
func (ed *Editor) freeHalf(p *schematic.Part) bool {
	k := ed.doc().KindOf(p)
	if k == nil || p.Mate != (schematic.ID{}) {
		return false
	}
	return k.OtherHalf != "" || len(k.Sections) > 0 && k.Sections[0].Form == "rows"
}

func (ed *Editor) plug(f func(*edit.Tx, schematic.ID, schematic.ID) error) {
	ps := ed.selectedParts()
	ed.do("plug "+ps[0].Name+" into "+ps[1].Name, func(tx *edit.Tx) error { return f(tx, ps[0].ID, ps[1].ID) })
}

func (ed *Editor) canUnplug() bool {
	ps := ed.selectedParts()
	return len(ps) > 0 && ps[0].Mate != schematic.ID{}
}

func (ed *Editor) unplug() {
	p := ed.selectedParts()[0]
	ed.do("unplug "+p.Name, func(tx *edit.Tx) error { return edit.Unmate(tx, p.ID) })
}

// showHere offers the parts, and the symbols they have, to show one more time
// on the sheet in sight.
func (ed *Editor) showHere() {
	doc := ed.doc()
	var all []chooserLine
	for _, p := range sortedByName(doc.Parts()) {
		k := doc.KindOf(p)
		if k == nil {
			continue
		}
		for _, s := range k.Sections {
			title := p.Name + "  " + p.Label
			if s.Title != "" || s.Name != "" {
				title += "  " + s.Title
			}
			all = append(all, chooserLine{title: title, side: k.Title, run: func() { ed.showPart(p, s.Name) }})
		}
	}
	ed.openChooser("Show a part here too", "Designation or purpose", func(text string) []chooserLine { return narrow(all, text) })
}

func (ed *Editor) showPart(p *schematic.Part, section string) {
	at := ed.aimPoint().Snap(geom.Grid)
	ed.do("show "+p.Name+" here too", func(tx *edit.Tx) error {
		return edit.ShowPartNear(tx, p.ID, ed.sheet, section, at, geom.Orient{})
	})
}

// bendItems are the menu lines for the bends of a wire at a place.
func (ed *Editor) bendItems(w *schematic.Wire, at geom.Point) []*fyne.MenuItem {
	path := ed.doc().Path(w)
	reach := ed.sheetView.scene().reachMM() * geom.PerMM
	bend := slices.IndexFunc(path[1:max(1, len(path)-1)], func(q geom.Point) bool { return q.Dist(at) <= reach*1.5 })
	if bend >= 0 {
		return []*fyne.MenuItem{fyne.NewMenuItem("Take this bend out", func() {
			ed.do("take a bend out of "+w.Name, func(tx *edit.Tx) error { return edit.RemoveBend(tx, w.ID, bend) })
		})}
	}
	return []*fyne.MenuItem{
		fyne.NewMenuItem("Bend here", func() {
			to := bendTo(path, at)
			ed.do("bend "+w.Name, func(tx *edit.Tx) error { return edit.AddBend(tx, w.ID, to) })
		}),
		fyne.NewMenuItem("Splice here", func() {
			ed.do("splice "+w.Name, func(tx *edit.Tx) error { return edit.SplitWire(tx, w.ID, at.Snap(geom.Grid)) })
		}),
	}
}

// bendTo is two grid steps beside the place of a path that is nearest to at.
func bendTo(path geom.Path, at geom.Point) geom.Point {
	_, seg, near := path.Dist(at)
	near = near.Snap(geom.Grid)
	if seg+1 < len(path) && path[seg].X == path[seg+1].X {
		return near.Add(geom.Pt(2*geom.Grid, 0))
	}
	return near.Add(geom.Pt(0, 2*geom.Grid))
}
