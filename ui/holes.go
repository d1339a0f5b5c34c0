package ui

import (
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"loomwright/netlist/table"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// segmentInHand is the segment of the row in hand of the table of looms.
func (ed *Editor) segmentInHand() (*schematic.Loom, schematic.Segment, error) {
	t := ed.drawer.looms
	if t.grid.row < len(t.shown) {
		loom, id := table.SegmentOf(t.shown[t.grid.row])
		if l := ed.doc().Loom(loom); l != nil {
			if s, ok := l.Segment(id); ok {
				return l, s, nil
			}
		}
	}
	return nil, schematic.Segment{}, errors.New("choose the row of a segment first, in the table of looms")
}

// editHoles opens the panels that the segment in hand passes through.
func (ed *Editor) editHoles() {
	l, s, err := ed.segmentInHand()
	if err != nil {
		ed.report(err)
		return
	}
	m := &lineRows{check: table.CheckHoleField}
	help := []string{"The panel it passes through: firewall, tray", "Diameter of the hole", "What sits in the hole: grommet 22, seal plate", "Length along the segment from its beginning to the panel"}
	for i, title := range table.HoleFields() {
		m.titles = append(m.titles, gridColumn{title: title, help: help[i], letters: []int{20, 12, 22, 18}[i], editable: true})
	}
	had := table.HoleLines(s, ed.system())
	for _, h := range had {
		line := make([]string, len(m.titles))
		for i := range line {
			line[i] = *h.Field(i)
		}
		m.lines = append(m.lines, line)
	}
	if len(m.lines) == 0 {
		m.lines = append(m.lines, make([]string, len(m.titles)))
	}
	m.grid = newGrid(ed, m)
	name := table.SegmentName(l, s)
	wrong := complaint()
	b := &box{title: "Panels that " + name + " of " + l.Name + " passes", size: fyne.NewSize(680, 380)}
	m.grid.escape, m.grid.done = b.escape, b.enter
	tool := func(text, tip string, deed func()) fyne.CanvasObject { return newButton(ed.tips, text, "", tip, deed) }
	bar := container.NewHBox(tool("Add a line", "One more panel", m.add), tool("Remove", "Take the selected lines out", m.remove))
	b.content = container.NewBorder(bar, container.New(stackTight{}, remark("Lengths with their unit: 22 mm, 1.2 m, 7/8 in. Lines that say nothing are left out.").CanvasObject, wrong), nil, nil, m.grid.box)
	b.answers = []answer{{text: "Use it", main: true, stays: true, deed: func() {
		if m.grid.editor.Visible() && !m.grid.commit() {
			return
		}
		lines := make([]table.HoleLine, len(m.lines))
		for i, texts := range m.lines {
			for j, text := range texts {
				*lines[i].Field(j) = text
			}
		}
		holes, err := table.ReadHoles(lines)
		if err == nil {
			err = ed.try("set holes of "+name, func(tx *edit.Tx) error { return edit.SetHoles(tx, l.ID, s.ID, holes) })
		}
		if err != nil {
			b.complain(wrong, err)
			return
		}
		b.close()
		ed.drawer.openTable(loomsTab)
	}}, {text: "Go back"}}
	b.ready = func() { ed.win.Canvas().Focus(m.grid) }
	ed.openBox(b)
}

// renameNode asks for another name of a node of the loom in hand; that of the
// cell in hand is offered first.
func (ed *Editor) renameNode() {
	l, s, err := ed.segmentInHand()
	if err != nil {
		ed.report(err)
		return
	}
	t := ed.drawer.looms
	at := s.From
	if t.table.Columns[t.grid.col].ID == "to" {
		at = s.To
	}
	ids := map[string]schematic.ID{}
	var names []string
	now := ""
	for _, n := range l.Nodes {
		names = append(names, n.Name)
		ids[n.Name] = n.ID
		if n.ID == at {
			now = n.Name
		}
	}
	sortNames(names)
	input := newEntry(nil)
	which := newPick(ed.typedKey, names, nil)
	which.Selected = now
	which.OnChanged = func(name string) { input.SetText(name) }
	input.SetText(now)
	wrong := complaint()
	b := &box{title: "Rename a node of " + l.Name, size: fyne.NewSize(440, 0), first: input}
	b.content = container.NewVBox(row("Node", which), row("New name", input), wrong)
	b.answers = []answer{{text: "Rename it", main: true, stays: true, deed: func() {
		err := ed.try("rename node "+which.Selected, func(tx *edit.Tx) error { return edit.RenameNode(tx, l.ID, ids[which.Selected], input.Text) })
		if err != nil {
			b.complain(wrong, err)
			return
		}
		b.close()
		ed.drawer.openTable(loomsTab)
	}}, {text: "Go back"}}
	b.field(input)
	b.ready = func() { input.TypedShortcut(&fyne.ShortcutSelectAll{}) }
	ed.openBox(b)
}
