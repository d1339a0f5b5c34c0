package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/schematic"
)

// details is the panel that shows and edits what is selected: one part, wire or
// note, several things at once, or with nothing selected the sheet and the
// document.
type details struct {
	ed       *Editor
	title    *widget.Label
	sub      *widget.Label
	body     *fyne.Container
	scroll   *container.Scroll
	controls []control
	shape    string // what the page was built for
	box      fyne.CanvasObject
	limits   struct { // of the page of the drawing
		head  fyne.CanvasObject
		first *field
	}
}

func newDetails(ed *Editor) *details {
	d := &details{ed: ed, title: widget.NewLabel(""), sub: widget.NewLabel(""), body: container.NewVBox()}
	d.title.TextStyle.Bold = true
	d.title.SizeName = theme.SizeNameSubHeadingText
	d.title.Wrapping = fyne.TextWrapWord
	d.sub.Importance = widget.LowImportance
	d.sub.Wrapping = fyne.TextWrapWord
	d.scroll = container.NewVScroll(container.New(padded{6, 2}, d.body))
	head := container.New(padded{6, 2}, container.New(stackTight{}, d.title, d.sub))
	d.box = container.NewBorder(head, nil, nil, nil, d.scroll)
	d.refresh()
	return d
}

func (d *details) object() fyne.CanvasObject { return d.box }

// refresh shows the present selection. While the same thing stays selected and
// has the same fields, only the values are loaded, so that the keyboard stays
// where it is.
func (d *details) refresh() {
	p := d.page()
	if p.shape == d.shape {
		d.title.SetText(p.title)
		d.sub.SetText(p.sub)
		for _, c := range d.controls {
			c.load()
		}
		return
	}
	d.shape = p.shape
	d.title.SetText(p.title)
	d.sub.SetText(p.sub)
	d.controls = p.build()
	// All at once: adding to a container lays it out each time.
	d.body.Objects = nil
	for _, c := range d.controls {
		d.body.Objects = append(d.body.Objects, c.object())
	}
	d.body.Refresh()
	d.scroll.ScrollToTop()
	d.watch(d.body)
}

// watch asks everything in a box that can have the keyboard to tell when it
// gets it, when it needs more room, and when it could not take what was typed:
// a press on the drawing may take the field and what it says away.
func (d *details) watch(o fyne.CanvasObject) {
	if e, ok := o.(*entry); ok {
		e.page = d.scroll
		e.grew = d.body.Refresh
		e.refused = func(err error) { d.ed.status.warn(sentence(err.Error())) }
	}
	switch o := o.(type) {
	case *fyne.Container:
		for _, inner := range o.Objects {
			d.watch(inner)
		}
	case interface{ onArrival(func(fyne.CanvasObject)) }:
		o.onArrival(d.bring)
	}
}

// bring scrolls a field into sight, with room for what is said below it.
func (d *details) bring(o fyne.CanvasObject) {
	const room = 24
	at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y - fyne.CurrentApp().Driver().AbsolutePositionForObject(d.scroll).Y
	by := float32(0)
	if below := at + o.Size().Height + room - d.scroll.Size().Height; below > 0 {
		by = below
	}
	if above := at - by - room; above < 0 {
		by += above
	}
	if by != 0 {
		d.scroll.ScrollToOffset(d.scroll.Offset.AddXY(0, by))
	}
}

// takeKeyboard puts the keyboard into the first field; typing replaces what is
// there.
func (d *details) takeKeyboard() {
	for _, c := range d.controls {
		if f, ok := c.(*field); ok {
			d.ed.win.Canvas().Focus(f.input)
			f.input.TypedShortcut(&fyne.ShortcutSelectAll{})
			return
		}
	}
}

// page is what the panel shows for a selection. Shape names everything that
// decides which fields there are.
type page struct {
	shape, title, sub string
	build             func() []control
}

func (d *details) page() page {
	doc, sel := d.ed.doc(), d.ed.sess.Selection()
	switch len(sel) {
	case 0:
		return d.documentPage()
	case 1:
		switch it := doc.Get(sel[0]).(type) {
		case *schematic.Part:
			return d.partPage(it)
		case *schematic.Wire:
			return d.wirePage(it)
		case *schematic.Note:
			return d.notePage(it)
		case *schematic.Group:
			return d.groupPage(it)
		}
	}
	return d.manyPage(sel)
}
