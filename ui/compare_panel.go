package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
	"loomwright/schematic/edit"
)

// comparePanel is the list of differences beside what each of them says.
type comparePanel struct {
	ed     *Editor
	head   *widget.Label
	list   *rows
	detail *fyne.Container
	scroll *container.Scroll
	box    fyne.CanvasObject
	quiet  bool
}

func newComparePanel(ed *Editor) *comparePanel {
	p := &comparePanel{ed: ed, head: widget.NewLabel(""), detail: container.NewVBox()}
	p.head.Truncation = fyne.TextTruncateEllipsis
	p.list = newRows(ed.typedKey,
		func() int { return ed.compare.listed() },
		func() fyne.CanvasObject {
			word, name, what := widget.NewLabel(""), widget.NewLabel(""), widget.NewLabel("")
			name.TextStyle.Bold = true
			for _, l := range []*widget.Label{name, what} {
				l.Truncation = fyne.TextTruncateEllipsis
			}
			return container.New(columns{22, 84, 130, 0}, widget.NewIcon(nil), word, name, what)
		},
		func(i widget.ListItemID, o fyne.CanvasObject) {
			c := &ed.compare
			if i >= c.listed() {
				return
			}
			cells := o.(*fyne.Container).Objects
			say := func(look shade, word, name, what string) {
				cells[0].(*widget.Icon).SetResource(iconIn(look.icon, look.color))
				cells[1].(*widget.Label).SetText(word)
				cells[2].(*widget.Label).SetText(name)
				cells[3].(*widget.Label).SetText(what)
			}
			at := c.inRow(i)
			if at < 0 {
				look := shade{"folded", theme.ColorNameForeground}
				if c.open {
					look.icon = "unfolded"
				}
				say(look, "drawn", "Elsewhere", edit.DrawnOnly(c.found))
				return
			}
			d := c.found[at]
			say(changeLook(d.What()), markWord(d), d.Name(), d.Short())
		})
	p.list.arrow = ed.stepDifference
	p.list.OnSelected = func(i widget.ListItemID) { p.pick(i) }
	write := newButton(ed.tips, "Write…", "", "Write the list as a text file, to print or send along", ed.writeDifferences)
	next := newButton(ed.tips, "Next", "", "Go to the next difference"+keyHint(ed.actions.Find("compare.next").Keys), func() { ed.stepDifference(1) })
	end := newButton(ed.tips, "End", "", "Take the marks off the drawing", ed.endComparison)
	p.scroll = container.NewVScroll(container.New(clearOfBar{}, p.detail))
	split := container.NewHSplit(p.list, p.scroll)
	split.Offset = 0.56
	p.box = container.NewBorder(container.NewBorder(nil, nil, nil, container.NewHBox(write, next, end), p.head), nil, nil, nil, split)
	return p
}

// refresh shows the differences found last.
func (p *comparePanel) refresh() {
	c := &p.ed.compare
	n := map[string]int{}
	for _, d := range c.found[:c.real] {
		n[d.What()]++
	}
	text := "Compared with " + c.name + ": "
	switch {
	case c.with == nil:
		text += "at work…"
	case len(c.found) == 0:
		text += "no difference"
	default:
		var parts []string
		for _, what := range []string{"added", "removed", "changed"} {
			if n[what] > 0 {
				parts = append(parts, fmt.Sprintf("%d %s", n[what], what))
			}
		}
		if drawn := len(c.found) - c.real; drawn > 0 {
			parts = append(parts, fmt.Sprintf("%d only drawn elsewhere", drawn))
		}
		text += strings.Join(parts, ", ")
	}
	p.head.SetText(text)
	p.quiet = true
	p.list.UnselectAll()
	if c.at >= 0 {
		p.list.Select(c.rowOf(c.at))
	}
	p.quiet = false
	p.list.Refresh()
	p.describe()
}

func (p *comparePanel) pick(row int) {
	c := &p.ed.compare
	if p.quiet || row < 0 || row >= c.listed() {
		return
	}
	at := c.inRow(row)
	if at < 0 {
		p.list.Unselect(row) // so that the next press is one again
		p.unfold(!c.open)
		return
	}
	c.at = at
	p.describe()
	p.ed.seeDifference(c.found[at])
	p.ed.sheetView.refreshOverlay()
}

// unfold lists, or hides, what is only drawn elsewhere.
func (p *comparePanel) unfold(open bool) {
	c := &p.ed.compare
	c.open = open
	if !open && c.at >= c.real {
		c.at = -1
	}
	p.refresh()
	p.ed.sheetView.refreshOverlay()
}

// describe says what is different in the difference looked at.
func (p *comparePanel) describe() {
	c := &p.ed.compare
	p.detail.Objects = nil
	switch {
	case c.with == nil:
	case len(c.found) == 0:
		p.detail.Add(remark("Both versions say the same.").CanvasObject)
	case c.at < 0:
		p.detail.Add(remark("Press a difference to see it on the drawing. Marks stand there in words: added, removed, changed.").CanvasObject)
	default:
		d := c.found[c.at]
		said := sentence(schematic.Describe(d.Item())) + " was " + d.What()
		if d.OnlyDrawn() {
			said = sentence(schematic.Describe(d.Item())) + " says the same and is " + d.Short()
		}
		title := widget.NewLabel(said)
		title.TextStyle.Bold = true
		title.Wrapping = fyne.TextWrapWord
		p.detail.Add(title)
		if d.About != "" {
			p.detail.Add(wrapped(sentence(d.About)))
		}
		if d.After == nil {
			p.detail.Add(remark("The mark shows where it was.").CanvasObject)
		}
		for _, f := range d.Fields {
			name, value := sentence(f.Name), wrapped(edit.OrNone(f.Before)+"  →  "+edit.OrNone(f.After))
			if w := p.scroll.Size().Width; w > 0 && w < 2.5*labelWidth {
				said := wrapped(name)
				said.Importance = widget.LowImportance
				p.detail.Add(container.New(stackTight{}, said, value)) // no room beside each other
				continue
			}
			p.detail.Add(row(name, value))
		}
	}
	p.detail.Refresh()
	p.scroll.ScrollToTop()
}
