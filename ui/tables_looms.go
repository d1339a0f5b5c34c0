package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2/container"

	"loomwright/calc/unit"
	"loomwright/netlist/table"
	"loomwright/schematic"
	"loomwright/schematic/edit"
	"loomwright/ui/action"
	"loomwright/ui/view"
)

// newLoomPanel is the table of the segments of all looms. Choosing rows leaves
// the selection on the drawing alone, so that selected wires can be led through
// the segments chosen.
func newLoomPanel(ed *Editor) *tablePanel {
	t := newTablePanel(ed, "segment", table.Segments)
	t.apart = true
	t.extra(
		t.button("New loom…", "Begin a sub-harness with one segment", ed.newLoom),
		t.button("Add a segment", "Add a segment to the loom of the row in hand", ed.addSegment),
		t.button("Remove", "Take the selected segments out; a loom without segments goes", ed.removeSegments),
		t.button("Holes…", "Say through which panels the segment in hand passes, with hole and grommet", ed.editHoles),
		t.button("Rename a node…", "Give a node of the loom in hand another name", ed.renameNode),
		t.button("Lead the selected wires here", "Put the wires selected on the drawing into this loom and lead them through the selected segments", ed.leadWires),
		t.button("Select its wires", "Select the wires that run through the selected segments", func() { ed.selectLed(t.keysChosen()) }))
	return t
}

// selectLed selects wires and stays on the sheet in sight where it has any.
func (ed *Editor) selectLed(wires []schematic.Key) {
	if len(wires) == 0 {
		ed.status.warn("no wires run through the selected segments")
		return
	}
	elsewhere := func(k schematic.Key) bool { return !view.DrawnOn(ed.doc(), k, ed.sheet) }
	here := slices.DeleteFunc(slices.Clone(wires), elsewhere)
	ed.jump(slices.Concat(here, slices.DeleteFunc(wires, func(k schematic.Key) bool { return !elsewhere(k) }))...)
}

// newReadingPanel is the table of what was measured on the real vehicle.
func newReadingPanel(ed *Editor) *tablePanel {
	t := newTablePanel(ed, "reading", table.Readings)
	t.extra(
		t.button("Add a reading…", "Write down what a meter showed", ed.addReading),
		t.button("Remove", "Delete the selected readings", func() {
			var keys []schematic.Key
			for _, r := range t.rowsChosen() {
				keys = append(keys, r.Key)
			}
			if len(keys) > 0 {
				ed.do("delete "+count(len(keys), "reading"), func(tx *edit.Tx) error { return edit.Delete(tx, keys) })
			}
		}))
	return t
}

// extra puts buttons of its own below the head of a table.
func (t *tablePanel) extra(buttons ...*button) {
	bar := container.NewHBox()
	for _, b := range buttons {
		bar.Add(b)
	}
	t.head.Add(bar)
}

// take takes the cell of a row in hand and brings it in sight; what would hide
// the row is let go.
func (t *tablePanel) take(r table.Row, col string) {
	i := slices.Index(t.shown, r)
	if i < 0 {
		t.search.SetText("")
		t.view.Filter = ""
		t.only.SetChecked(false)
		t.sheet.SetChecked(false)
		t.held = false
		t.refresh()
		i = slices.Index(t.shown, r)
	}
	if i >= 0 {
		t.grid.pick(i, t.table.At(col), 0)
		t.grid.bring(i, t.grid.col)
	}
}

// rowsChosen returns the rows selected in the table.
func (t *tablePanel) rowsChosen() []table.Row {
	var rows []table.Row
	for _, i := range t.grid.rowsChosen() {
		rows = append(rows, t.shown[i])
	}
	return rows
}

func (ed *Editor) loomActions() {
	const menu = "Edit/Looms"
	ed.actions.Add(
		&action.Action{ID: "loom.table", Title: "Looms and their segments", Menu: menu, Words: "sub-harness branch length sleeve node table",
			Help: "The segments of all looms with length, air temperature and sleeve", Run: func() { ed.drawer.openTable(loomsTab) }},
		&action.Action{ID: "loom.new", Title: "New loom…", Menu: menu, Words: "sub-harness add", Help: "Begin a sub-harness with one segment", Run: ed.newLoom},
		&action.Action{ID: "loom.segment", Title: "Add a segment", Menu: menu, Enabled: ed.anyLoom, Words: "branch node length", Help: "Add a segment to the loom of the row in hand", Run: ed.addSegment},
		&action.Action{ID: "loom.holes", Title: "Holes of a segment…", Menu: menu, Enabled: ed.anyLoom, Words: "panel grommet firewall passes through", Help: "Say through which panels the segment in hand passes, with hole and grommet", Run: ed.editHoles},
		&action.Action{ID: "loom.node", Title: "Rename a node…", Menu: menu, Enabled: ed.anyLoom, Words: "breakout branch point", Help: "Give a node of the loom in hand another name", Run: ed.renameNode},
		&action.Action{ID: "loom.lead", Title: "Lead the wires through the segments", Menu: menu, Enabled: func() bool { return ed.anyLoom() && ed.wiresSelected() }, Words: "route bundle",
			Help: "Lead the wires selected on the drawing through the segments selected in the table of looms", Run: ed.leadWires},
		&action.Action{ID: "reading.table", Title: "Readings", Menu: "Check", Words: "measured meter multimeter volts table", Help: "What was measured on the real vehicle, beside what is computed",
			Run: func() { ed.drawer.openTable(readingsTab) }},
		&action.Action{ID: "reading.add", Title: "Add a reading…", Menu: "Check", Words: "measured meter multimeter volts", Help: "Write down what a meter showed", Run: ed.addReading},
	)
}

func (ed *Editor) anyLoom() bool { return ed.doc().Len(schematic.TypeLoom) > 0 }

func (ed *Editor) newLoom() {
	made := ""
	b := ed.askText("New loom", "Name", ed.doc().FreeName("L", nil), func(name string) error {
		err := ed.try("add loom "+name, func(tx *edit.Tx) error {
			if err := edit.AddLoom(tx, name); err != nil {
				return err
			}
			k, _ := tx.Doc().Named(name)
			return edit.AddSegment(tx, k.ID)
		})
		if err == nil {
			made = name
		}
		return err
	})
	b.gone = func() {
		if k, ok := ed.doc().Named(made); ok && made != "" {
			ed.showLastSegment(k.ID)
		}
	}
}

// loomInHand is the loom of the row in hand, or the only one there is.
func (ed *Editor) loomInHand() (schematic.ID, error) {
	t := ed.drawer.looms
	if t.grid.row < len(t.shown) {
		loom, _ := table.SegmentOf(t.shown[t.grid.row])
		if ed.doc().Loom(loom) != nil {
			return loom, nil
		}
	}
	for l := range ed.doc().Looms() {
		if ed.doc().Len(schematic.TypeLoom) == 1 {
			return l.ID, nil
		}
	}
	return schematic.ID{}, errors.New("choose a row of the loom first, in the table of looms")
}

func (ed *Editor) addSegment() {
	loom, err := ed.loomInHand()
	if err != nil {
		ed.report(err)
		return
	}
	if ed.do("add a segment to "+ed.doc().Loom(loom).Name, func(tx *edit.Tx) error { return edit.AddSegment(tx, loom) }) {
		ed.showLastSegment(loom)
	}
}

// showLastSegment takes the segment added last in hand, to go on with its length.
func (ed *Editor) showLastSegment(loom schematic.ID) {
	ed.drawer.openTable(loomsTab)
	if l := ed.doc().Loom(loom); l != nil && len(l.Segments) > 0 {
		ed.drawer.looms.take(table.Row{Key: l.Key(), Pin: l.Segments[len(l.Segments)-1].ID.String()}, "length")
	}
}

// chosenSegments returns the segments selected in the table, which must be of
// one loom.
func (ed *Editor) chosenSegments() (loom schematic.ID, segments []schematic.ID, err error) {
	for _, r := range ed.drawer.looms.rowsChosen() {
		l, s := table.SegmentOf(r)
		if len(segments) > 0 && l != loom {
			return loom, nil, errors.New("the segments selected are of different looms: select those of one")
		}
		loom, segments = l, append(segments, s)
	}
	if len(segments) == 0 {
		return loom, nil, errors.New("select segments in the table of looms first")
	}
	return loom, segments, nil
}

func (ed *Editor) removeSegments() {
	loom, segments, err := ed.chosenSegments()
	if err != nil {
		ed.report(err)
		return
	}
	l := ed.doc().Loom(loom)
	ed.do("remove "+count(len(segments), "segment")+" of "+l.Name, func(tx *edit.Tx) error {
		if err := edit.DeleteSegments(tx, loom, segments); err != nil {
			return err
		}
		if len(tx.Doc().Loom(loom).Segments) == 0 {
			return edit.Delete(tx, []schematic.Key{l.Key()})
		}
		return nil
	})
}

func (ed *Editor) leadWires() {
	loom, segments, err := ed.chosenSegments()
	wires := ed.wireIDs()
	if err == nil && len(wires) == 0 {
		err = errors.New("select the wires on the drawing first, then the segments they run through")
	}
	if err != nil {
		ed.report(err)
		return
	}
	label := "lead " + count(len(wires), "wire") + " through " + ed.doc().Loom(loom).Name
	if ed.do(label, func(tx *edit.Tx) error { return edit.LeadThrough(tx, wires, loom, segments) }) {
		ed.status.tell(count(len(wires), "wire") + " now in " + ed.doc().Loom(loom).Name + ", through " + count(len(segments), "segment"))
	}
}

// addReading asks for a measured value; the unit says what was measured.
func (ed *Editor) addReading() {
	at, against, value, note := newEntry(nil), newEntry(nil), newEntry(nil), newEntry(nil)
	at.SetPlaceHolder("K1.30")
	against.SetPlaceHolder("battery negative")
	value.SetPlaceHolder("12.4 V, 3.2 A or 0.4 Ω")
	note.SetPlaceHolder("meter, conditions")
	if sel := ed.sess.Selection(); len(sel) > 0 {
		if p := ed.doc().Part(sel[0].ID); p != nil {
			at.SetText(p.Name + ".")
		}
		if w := ed.doc().Wire(sel[0].ID); w != nil && !w.A.Loose() {
			at.SetText(ed.doc().Part(w.A.Part).Name + "." + w.A.Pin)
		}
	}
	state := ed.doc().State(ed.study.state)
	in := "at rest"
	if state != nil {
		in = state.Name
	}
	wrong := complaint()
	b := &box{title: "Add a reading", first: at}
	b.size.Width = 460
	b.content = container.NewVBox(row("At", at), row("Against", against), row("Value", value), row("Notes", note), remark("It counts for the operating state looked at: "+in+".").CanvasObject, wrong)
	b.answers = []answer{{text: "Add it", main: true, stays: true, deed: func() {
		m := schematic.Reading{Date: ed.now().Format("2006-01-02"), Notes: strings.TrimSpace(note.Text)}
		if state != nil {
			m.State = state.ID
		}
		err := readReading(ed.doc(), &m, at.Text, against.Text, value.Text)
		if err == nil {
			err = ed.try("add a reading", func(tx *edit.Tx) error { return edit.AddReading(tx, m) })
		}
		if err != nil {
			b.complain(wrong, err)
			return
		}
		b.close()
		ed.drawer.open(readingsTab)
		ed.drawer.tablesChanged()
	}}, {text: "Go back"}}
	for _, e := range []*entry{at, against, value, note} {
		b.field(e)
	}
	b.ready = func() { at.CursorColumn = len([]rune(at.Text)); at.Refresh() }
	ed.openBox(b)
}

func readReading(d *schematic.Doc, m *schematic.Reading, at, against, value string) error {
	var err error
	if m.From, err = table.PinNamed(d, at); err != nil {
		return err
	}
	if strings.TrimSpace(against) != "" {
		if m.To, err = table.PinNamed(d, against); err != nil {
			return err
		}
	}
	if s := strings.TrimSpace(value); s != "" && strings.Trim(s, "0123456789.,+-−") == "" {
		return fmt.Errorf("%q has no unit: write V, A or Ω behind it", s)
	}
	for _, x := range []struct {
		name string
		q    unit.Quantity
	}{{"volt", unit.Volt}, {"amp", unit.Amp}, {"ohm", unit.Ohm}} {
		if v, err := unit.Parse(x.q, value); err == nil {
			m.Quantity, m.Value = x.name, v
			return nil
		}
	}
	return fmt.Errorf("%q is no reading: write a number with V, A or Ω", value)
}
