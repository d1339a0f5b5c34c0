package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
)

// ladderPanel shows the drop ladder: for the traced circuit, a staircase from
// the source voltage through every fuse, contact, wire and load back to zero,
// each step as high as its volts.
type ladderPanel struct {
	ed     *Editor
	title  *widget.Label
	notes  *widget.Label
	losses *ticked
	apart  *ticked
	stop   *button
	head   *fyne.Container
	empty  *widget.Label // why there are no stairs
	stairs *stairs
	box    fyne.CanvasObject
}

func newLadderPanel(ed *Editor) *ladderPanel {
	l := &ladderPanel{ed: ed, title: widget.NewLabel(""), notes: widget.NewLabel(""), stairs: newStairs(ed)}
	l.title.TextStyle.Bold = true
	l.notes.Importance = widget.WarningImportance
	l.losses = newTicked(ed.typedKey, "Enlarge the losses", func(on bool) {
		l.stairs.losses = on
		l.stairs.relay()
	})
	l.apart = newTicked(ed.typedKey, "Every piece", func(on bool) {
		l.stairs.apart = on
		l.stairs.opened = map[schematic.Key]bool{}
		l.stairs.relay()
	})
	l.stop = newButton(ed.tips, "End trace", "clear", "Take the light off the traced circuit", func() { ed.run(ed.actions.Find("check.untrace")) })
	l.title.Truncation, l.notes.Truncation = fyne.TextTruncateEllipsis, fyne.TextTruncateEllipsis
	l.empty = widget.NewLabel("")
	l.empty.Wrapping, l.empty.Importance = fyne.TextWrapWord, widget.LowImportance
	scroll := container.NewHScroll(l.stairs)
	l.stairs.resized = scroll.Refresh
	l.head = container.New(titleLayout{}, l.title, l.notes)
	l.box = container.NewBorder(container.NewBorder(nil, nil, nil, container.NewHBox(l.losses, l.apart, l.stop), l.head), nil, nil, nil, container.NewStack(scroll, container.NewVBox(l.empty)))
	l.refresh()
	return l
}

func (l *ladderPanel) refresh() {
	c := l.ed.study.chain
	notes, empty := "", ""
	switch {
	case c == nil && l.ed.study.mark.Ok:
		l.title.SetText("Nothing to show")
		empty = "Computing…"
		if sol := l.ed.study.solution(); sol != nil && sol.Err != nil {
			empty = "This state could not be computed: " + sol.Err.Error()
		}
	case c == nil:
		l.title.SetText("No circuit traced")
		empty = "Take the tool Trace circuit and press a wire, pin or part; or select one and press Shift+T."
	default:
		title := c.title
		if st := l.ed.doc().State(l.ed.study.state); st != nil {
			title += ", state " + st.Name
		}
		l.title.SetText(title)
		for _, n := range c.notes {
			notes += n + " "
		}
	}
	l.notes.SetText(notes)
	l.empty.SetText(empty)
	show(l.empty, empty != "")
	l.head.Refresh()
	l.stop.enable(l.ed.study.lit())
	l.stairs.show(c)
}

// titleLayout gives a title the room its words need and the notes the rest;
// both are cut where the window is narrow, and notes left out that would be
// mere letters.
type titleLayout struct{}

func (titleLayout) Layout(o []fyne.CanvasObject, size fyne.Size) {
	title := o[0].(*widget.Label)
	words := fyne.MeasureText(title.Text, theme.TextSize(), title.TextStyle).Width + 4*theme.InnerPadding()
	w := min(words, size.Width)
	show(o[1], size.Width-w >= 80)
	o[0].Move(fyne.NewPos(0, 0))
	o[0].Resize(fyne.NewSize(w, size.Height))
	o[1].Move(fyne.NewPos(w, 0))
	o[1].Resize(fyne.NewSize(size.Width-w, size.Height))
}

func (titleLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(120, max(o[0].MinSize().Height, o[1].MinSize().Height))
}
