package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2/container"

	"loomwright/schematic"
)

// shownAt is one of the places where a part is shown.
type shownAt struct {
	view schematic.View
	name string // sheet, and what of the part is shown there
}

// otherPlaces are the places where a part is shown besides the one in sight, in
// the order of the sheets. Where the sheet in sight shows it more than once,
// those are among them.
func (ed *Editor) otherPlaces(p *schematic.Part) []shownAt {
	if len(p.Views) < 2 {
		return nil
	}
	k := ed.doc().KindOf(p)
	var all []shownAt
	for _, sheet := range ed.doc().Sheets() {
		var here []shownAt
		for _, v := range p.Views {
			if v.Sheet != sheet.ID {
				continue
			}
			name := sheet.Name
			if k != nil && len(k.Sections) > 1 {
				if s, ok := k.Section(v.Section); ok && s.Title != "" {
					name += ", " + s.Title
				}
			}
			here = append(here, shownAt{v, name})
		}
		if len(here) > 1 {
			for i := range here {
				x, y := here[i].view.At.MM()
				here[i].name += fmt.Sprintf(" at %.0f, %.0f mm", x, y)
			}
		} else if sheet.ID == ed.sheet {
			continue
		}
		all = append(all, here...)
	}
	return all
}

// otherSheets names the other sheets a part is shown on, each once.
func (ed *Editor) otherSheets(p *schematic.Part) string {
	var names []string
	for _, sheet := range ed.doc().Sheets() {
		for _, v := range p.Views {
			if sheet.ID != ed.sheet && v.Sheet == sheet.ID {
				names = append(names, sheet.Name)
				break
			}
		}
	}
	return strings.Join(names, ", ")
}

// placeButtons go to the other places where a part is shown.
func (d *details) placeButtons(p *schematic.Part) []control {
	places := d.ed.otherPlaces(p)
	if len(places) == 0 {
		return nil
	}
	cs := []control{heading("Also shown on")}
	for _, at := range places {
		b := newButton(d.ed.tips, at.name, "", "Show "+p.Name+" on "+at.name, func() { d.ed.goToView(p.ID, at.view) })
		cs = append(cs, plain{container.NewHBox(b)})
	}
	return cs
}

// goToView brings one of the symbols of a part in sight and selects the part.
func (ed *Editor) goToView(id schematic.ID, v schematic.View) {
	p := ed.doc().Part(id)
	if p == nil {
		return
	}
	ed.show(v.Sheet)
	ed.sheetView.bring(ed.doc().Reach(p, v))
	ed.choose(p.Key())
}
