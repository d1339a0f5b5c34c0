package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"loomwright/ui/tool"
)

// strip is the row of tools above the drawing, with the operating state the
// currents are computed for at its right.
type strip struct {
	ed      *Editor
	tools   map[string]*button
	undo    *button
	redo    *button
	turns   []*button // of what is selected or in hand
	state   *pick
	live    *ticked
	caption *widget.Label
	row     *fyne.Container
	tight   bool // only icons: the window is narrow
	loading bool
	box     fyne.CanvasObject
}

func newStrip(ed *Editor) *strip {
	s := &strip{ed: ed, tools: map[string]*button{}}
	row := container.NewHBox(gap(1))
	for _, t := range tool.Names() {
		a := ed.actions.Find("tool." + t.ID)
		b := newButton(ed.tips, t.Title, toolIcons()[t.ID].icon, a.Help+keyHint(a.Keys), func() {
			ed.run(a)
			ed.win.Canvas().Focus(ed.sheetView)
		})
		s.tools[t.ID] = b
		row.Add(b)
	}
	row.Add(widget.NewSeparator())
	s.undo = s.small("edit.undo", "undo")
	s.redo = s.small("edit.redo", "redo")
	row.Add(s.undo)
	row.Add(s.redo)
	s.turns = []*button{s.small("edit.rotate", "rotate"), s.small("edit.mirror", "mirror")}
	for _, b := range s.turns {
		row.Add(b)
	}
	row.Add(widget.NewSeparator())
	row.Add(s.small("view.fit", "fit"))
	row.Add(layout.NewSpacer())
	caption := widget.NewLabel("Operating state")
	caption.Importance = widget.LowImportance
	s.state = newPick(ed.typedKey, nil, func(name string) {
		if s.loading {
			return
		}
		for _, st := range ed.doc().States() {
			if st.Name == name {
				ed.setState(st.ID)
			}
		}
		ed.win.Canvas().Focus(ed.sheetView)
	})
	s.live = newTicked(ed.typedKey, "Currents on drawing", func(on bool) {
		if !s.loading && on != ed.study.live {
			ed.setLive(on)
			ed.win.Canvas().Focus(ed.sheetView)
		}
	})
	row.Add(caption)
	row.Add(container.NewGridWrap(fyne.NewSize(150, s.state.MinSize().Height), s.state))
	row.Add(s.live)
	row.Add(gap(1))
	s.caption = caption
	s.row = row
	s.box = container.NewStack(newGround(colorChrome), container.New(stripLayout{s}, row))
	s.refresh()
	return s
}

// small is an icon-only button for a command.
func (s *strip) small(id, ic string) *button {
	a := s.ed.actions.Find(id)
	b := newButton(s.ed.tips, "", ic, "", func() {
		s.ed.run(a)
		s.ed.win.Canvas().Focus(s.ed.sheetView)
	})
	b.tip = func() string {
		text := a.TitleNow() + keyHint(a.Keys)
		if !a.IsEnabled() {
			text += "\n" + sentence(a.Needs)
		}
		return text
	}
	b.stress(false)
	return b
}

func (s *strip) object() fyne.CanvasObject { return s.box }

// followSelection turns the buttons on and off that need something selected.
func (s *strip) followSelection() {
	for _, b := range s.turns {
		b.enable(s.ed.canTurn())
	}
}

func (s *strip) refresh() {
	for id, b := range s.tools {
		b.stress(id == s.ed.tools.Tool())
	}
	s.undo.enable(s.ed.sess.UndoLabel() != "")
	s.redo.enable(s.ed.sess.RedoLabel() != "")
	s.followSelection()
	s.loading = true
	defer func() { s.loading = false }()
	var names []string
	now := "At rest"
	for _, st := range s.ed.doc().States() {
		names = append(names, st.Name)
		if st.ID == s.ed.study.state {
			now = st.Name
		}
	}
	s.state.Options = names
	if s.state.Selected != now {
		s.state.Selected = now
		s.state.Refresh()
	}
	if len(names) == 0 {
		s.state.Disable()
	} else {
		s.state.Enable()
	}
	s.live.SetChecked(s.ed.study.live)
}

// stripLayout gives the row the whole width. In a narrow window the tools go
// without their names, which the tips still tell.
type stripLayout struct{ s *strip }

const (
	roomyStrip = 1110 // below, names are left out
	tightStrip = 700  // the least the row needs without them
	stripPad   = 3
)

func (l stripLayout) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	l.s.squeeze(size.Width < roomyStrip)
	l.s.row.Move(fyne.NewPos(stripPad, stripPad))
	l.s.row.Resize(size.SubtractWidthHeight(2*stripPad, 2*stripPad))
}

func (l stripLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(tightStrip, l.s.row.MinSize().Height+2*stripPad)
}

func (s *strip) squeeze(tight bool) {
	if tight == s.tight {
		return
	}
	s.tight = tight
	for _, t := range tool.Names() {
		b := s.tools[t.ID]
		if b.Text = t.Title; tight {
			b.Text = ""
		}
		b.Refresh()
	}
	if tight {
		s.caption.Hide()
	} else {
		s.caption.Show()
	}
}
