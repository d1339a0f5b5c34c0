package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2/container"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// noDrain stands for a screen that no wire grounds.
const noDrain = "none"

// groupPage shows a twist or a screen, to which a finding leads.
func (d *details) groupPage(g *schematic.Group) page {
	id := g.ID
	sub := "Wires twisted together"
	if g.Type == schematic.ScreenGroup {
		sub = "Wires under one screen"
	}
	return page{shape: "group " + id.String() + string(g.Type), title: g.Name, sub: sub, build: func() []control {
		cs := []control{newFact("Wires", func() string { return strings.Join(d.groupWires(id), ", ") })}
		if g.Type == schematic.ScreenGroup {
			cs = append(cs, d.drainChoice(id))
		}
		return append(cs,
			plain{container.NewHBox(newButton(d.ed.tips, "Select its wires", "", "Select the wires that are bound together", func() {
				var keys []schematic.Key
				for _, w := range d.groupMembers(id) {
					keys = append(keys, w.Key())
				}
				d.ed.jump(keys...)
			}))},
			remark("Edit › Wires binds other wires, or takes these out of their groups."))
	}}
}

// groupMembers are the wires of a twist or a screen, by designation.
func (d *details) groupMembers(id schematic.ID) []*schematic.Wire {
	var all []*schematic.Wire
	for _, w := range sortedByName(d.ed.doc().Wires()) {
		if w.Twist == id || w.Screen == id {
			all = append(all, w)
		}
	}
	return all
}

func (d *details) groupWires(id schematic.ID) []string {
	var names []string
	for _, w := range d.groupMembers(id) {
		names = append(names, w.Name)
	}
	return names
}

// drainNames are the wires of a screen and, where another one grounds it, that.
func (d *details) drainNames(id schematic.ID) []string {
	names := d.groupWires(id)
	if g := d.ed.doc().Group(id); g != nil {
		if w := d.ed.doc().Wire(g.Drain); w != nil && !slices.Contains(names, w.Name) {
			names = append(names, w.Name)
		}
	}
	return names
}

// drainChoice says which of the wires grounds the screen.
func (d *details) drainChoice(id schematic.ID) control {
	return d.newChoice("Drain wire",
		func() []string { return append([]string{noDrain}, d.drainNames(id)...) },
		func() string {
			if g := d.ed.doc().Group(id); g != nil {
				if w := d.ed.doc().Wire(g.Drain); w != nil {
					return w.Name
				}
			}
			return noDrain
		},
		func(name string) {
			drain := schematic.ID{}
			if k, ok := d.ed.doc().Named(name); ok && name != noDrain {
				drain = k.ID
			}
			d.ed.report(d.ed.try("ground the screen", func(tx *edit.Tx) error { return edit.SetDrain(tx, id, drain) }))
		})
}
