package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"loomwright/calc/unit"
	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// statePanel edits the operating states: their names, what the engine does,
// and where every switch, output and load stands.
type statePanel struct {
	ed      *Editor
	list    *rows
	states  []*schematic.State
	name    *entry
	engine  *pick
	drop    *button
	only    *ticked
	things  *rows
	rows    []switchable
	note    *widget.Label
	box     fyne.CanvasObject
	loading bool
}

// switchable is one thing a state can put into a position.
type switchable struct {
	part  schematic.ID
	item  string // element or own pin; "" is the whole part
	name  string
	what  string
	pos   []string // positions to choose from, first is the default; nil for a load
	now   string
	duty  schematic.Num
	given bool // the state says something about it
}

func engines() []string {
	return []string{string(schematic.EngineOff), string(schematic.EngineCranking), string(schematic.EngineIdle), string(schematic.EngineRunning)}
}

func newStatePanel(ed *Editor) *statePanel {
	s := &statePanel{ed: ed}
	s.list = newRows(ed.typedKey, func() int { return len(s.states) },
		func() fyne.CanvasObject { return widget.NewLabel("") },
		func(i widget.ListItemID, o fyne.CanvasObject) {
			if i < len(s.states) {
				o.(*widget.Label).SetText(s.states[i].Name)
			}
		})
	s.list.OnSelected = func(i widget.ListItemID) {
		if !s.loading && i < len(s.states) {
			ed.setState(s.states[i].ID)
		}
	}
	add := newButton(ed.tips, "Add", "plus", "Add an operating state", func() { ed.run(ed.actions.Find("check.addstate")) })
	s.drop = newButton(ed.tips, "Delete", "trash", "Delete this operating state", func() { s.remove() })
	s.name = newEntry(func(text string) {
		s.say(ed.try("rename the state", func(tx *edit.Tx) error {
			return edit.SetState(tx, ed.study.state, func(st *schematic.State) { st.Name = text })
		}))
	})
	s.engine = newPick(ed.typedKey, engines(), func(v string) {
		if s.loading {
			return
		}
		s.say(ed.try("set the engine to "+v, func(tx *edit.Tx) error {
			return edit.SetState(tx, ed.study.state, func(st *schematic.State) { st.Engine = schematic.Engine(v) })
		}))
	})
	s.only = newTicked(ed.typedKey, "Only what it changes", func(bool) { s.refresh() })
	s.note = widget.NewLabel("")
	s.note.Importance = widget.DangerImportance
	s.note.Hide()
	s.things = newRows(ed.typedKey, func() int { return len(s.rows) },
		func() fyne.CanvasObject { return newStateRow(s) },
		func(i widget.ListItemID, o fyne.CanvasObject) {
			if i < len(s.rows) {
				o.(*stateRow).show(s.rows[i])
			}
		})
	s.things.OnSelected = func(i widget.ListItemID) {
		s.things.UnselectAll()
		if i < len(s.rows) {
			ed.jump(schematic.Key{Type: schematic.TypePart, ID: s.rows[i].part})
		}
	}
	left := container.NewBorder(nil, container.NewHBox(add, s.drop), nil, nil, s.list)
	label := func(t string) fyne.CanvasObject {
		l := widget.NewLabel(t)
		l.Importance = widget.LowImportance
		return l
	}
	head := container.New(columns{48, 170, 56, 110, 0}, label("Name"), s.name, label("Engine"), s.engine, s.only)
	right := container.NewBorder(container.NewVBox(head, s.note), nil, nil, nil, s.things)
	split := container.NewHSplit(left, right)
	split.Offset = 0.2
	s.box = split
	s.refresh()
	return s
}

func (s *statePanel) say(err error) {
	if err == nil {
		s.note.Hide()
	} else {
		s.note.SetText(err.Error())
		s.note.Show()
	}
}

// refresh follows the document.
func (s *statePanel) refresh() {
	if s.things == nil || s.box == nil && s.note == nil {
		return
	}
	doc := s.ed.doc()
	s.loading = true
	defer func() { s.loading = false }()
	s.states = doc.States()
	s.list.Refresh()
	st := doc.State(s.ed.study.state)
	if st == nil {
		s.list.UnselectAll()
		s.name.load("")
		s.name.Disable()
		s.engine.Disable()
		s.drop.enable(false)
		s.rows = nil
		s.things.Refresh()
		return
	}
	s.list.Select(slices.Index(s.states, st))
	s.name.Enable()
	s.engine.Enable()
	s.drop.enable(true)
	s.name.load(st.Name)
	engine := string(st.Engine)
	if engine == "" {
		engine = string(schematic.EngineOff)
	}
	if s.engine.Selected != engine {
		s.engine.SetSelected(engine)
	}
	s.rows = switchables(doc, st)
	if s.only.Checked {
		s.rows = slices.DeleteFunc(s.rows, func(r switchable) bool { return !r.given })
	}
	s.things.Refresh()
}

// switchables lists everything a state can say something about, by name.
func switchables(doc *schematic.Doc, st *schematic.State) []switchable {
	var rows []switchable
	for _, p := range sortedByName(doc.Parts()) {
		k := doc.KindOf(p)
		if k == nil {
			continue
		}
		what := p.Label
		if what == "" {
			what = k.Title
		}
		add := func(r switchable) {
			r.part = p.ID
			if r.name == "" {
				r.name = p.Name
			}
			if r.what == "" {
				r.what = what
			}
			for _, x := range st.Set {
				if x.Part == p.ID && x.Item == r.item {
					r.now, r.duty, r.given = x.Position, x.Duty, true
				}
			}
			if r.now == "" && len(r.pos) > 0 {
				r.now = r.pos[0]
			}
			rows = append(rows, r)
		}
		if len(k.Positions) > 0 {
			add(switchable{pos: k.Positions})
		}
		load, kind := false, ""
		for _, e := range k.Elements {
			switch {
			case e.Type == schematic.ElemOutput:
				add(switchable{item: e.Name, name: p.Name + " " + e.Name, pos: []string{"off", "on"}})
			case isLoad(e):
				load, kind = true, e.Load
			}
		}
		switch {
		case load && len(k.Positions) > 0 && kind != "": // beside where the switch stands
			add(switchable{what: what + ": " + kind})
		case load:
			add(switchable{})
		}
		for _, pin := range p.Pins {
			if r, ok := k.Role(pin.Role); ok && slices.ContainsFunc(r.Elements, func(e schematic.Element) bool { return e.Type == schematic.ElemOutput }) {
				title := pin.Title
				if title == "" {
					title = roleTitle(r)
				}
				add(switchable{item: pin.Name, name: p.Name + "." + pin.Name, what: title, pos: []string{"off", "on"}})
			}
		}
	}
	return rows
}

// isLoad reports whether an element is there to use current, so that it can be
// switched off or draw for a share of the time.
func isLoad(e schematic.Element) bool {
	switch e.Type {
	case schematic.ElemLamp, schematic.ElemMotor, schematic.ElemCurrent, schematic.ElemPower:
		return true
	case schematic.ElemResistor:
		return e.Load != ""
	}
	return false
}

// selectionChanged scrolls to a selected part.
func (s *statePanel) selectionChanged() {
	sel := s.ed.sess.Selection()
	if len(sel) != 1 || sel[0].Type != schematic.TypePart {
		return
	}
	for i, r := range s.rows {
		if r.part == sel[0].ID {
			s.things.ScrollTo(i)
			return
		}
	}
}

// remove deletes the state looked at.
func (s *statePanel) remove() {
	st := s.ed.doc().State(s.ed.study.state)
	if st == nil {
		return
	}
	s.ed.do("delete state "+st.Name, func(tx *edit.Tx) error { return edit.DeleteState(tx, st.ID) })
}

// stateRow is one switch, output or load with where it stands.
type stateRow struct {
	widget.BaseWidget
	panel   *statePanel
	name    *widget.Label
	what    *widget.Label
	pos     *pick
	duty    *entry
	word    *widget.Label
	row     switchable
	loading bool
}

func newStateRow(s *statePanel) *stateRow {
	r := &stateRow{panel: s, name: widget.NewLabel(""), what: widget.NewLabel(""), word: widget.NewLabel("of the time")}
	r.name.Truncation, r.what.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	r.word.Importance = widget.LowImportance
	r.pos = newPick(s.ed.typedKey, nil, func(v string) {
		if r.loading || v == r.row.now {
			return
		}
		if v == r.row.pos[0] {
			v = "" // back to the default
		}
		row := r.row
		s.say(s.ed.try("set "+row.name+" to "+r.pos.Selected, func(tx *edit.Tx) error {
			return edit.Switch(tx, s.ed.study.state, row.part, row.item, v)
		}))
	})
	r.duty = newEntry(func(text string) {
		row := r.row
		n := schematic.Num{}
		if strings.TrimSpace(text) != "" {
			v, err := unit.Parse(unit.Percent, text)
			if err != nil {
				s.say(err)
				return
			}
			n = schematic.Some(v)
		}
		s.say(s.ed.try("set how long "+row.name+" is on", func(tx *edit.Tx) error {
			return edit.SetDuty(tx, s.ed.study.state, row.part, row.item, n)
		}))
	})
	r.duty.SetPlaceHolder("100 %")
	r.ExtendBaseWidget(r)
	return r
}

func (r *stateRow) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.New(columns{96, 0, 150, 90}, r.name, r.what, container.NewStack(r.pos, r.duty), r.word))
}

func (r *stateRow) show(x switchable) {
	r.loading = true
	defer func() { r.loading = false }()
	if x.part != r.row.part || x.item != r.row.item {
		r.duty.flush()
	}
	r.row = x
	r.name.TextStyle.Bold = x.given
	r.name.SetText(x.name)
	r.what.SetText(x.what)
	if x.pos != nil {
		r.pos.Options = x.pos
		r.pos.Selected = x.now
		r.pos.Show()
		r.pos.Refresh()
		r.duty.Hide()
		r.word.Hide()
		return
	}
	r.pos.Hide()
	r.duty.Show()
	r.word.Show()
	text := ""
	if v, ok := x.duty.Get(); ok {
		text = unit.Exact(unit.Percent, v)
	}
	r.duty.load(text)
}
