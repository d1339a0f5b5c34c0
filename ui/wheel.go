package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"
)

// wheelPad lies over a text field and takes the wheel, which the field would
// keep to itself: turned over a field, it is to move the page the field lies on.
type wheelPad struct {
	widget.BaseWidget
	over *entry
}

func newWheelPad(over *entry) *wheelPad {
	p := &wheelPad{over: over}
	p.ExtendBaseWidget(p)
	return p
}

func (p *wheelPad) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(container.NewWithoutLayout())
}

// Scrolled moves the text where there is more of it than the field shows, else
// the page.
func (p *wheelPad) Scrolled(s *fyne.ScrollEvent) {
	text := p.over.inner
	longer := text != nil && !p.over.oneLine() && text.Content != nil && text.Content.MinSize().Height > text.Size().Height
	switch {
	case text != nil && (longer || p.over.page == nil):
		text.Scrolled(s)
	case p.over.page != nil:
		p.over.page.Scrolled(s)
	}
}

// paddedEntry is the look of a text field with the pad on top.
type paddedEntry struct {
	fyne.WidgetRenderer
	pad *wheelPad
}

func (r paddedEntry) Layout(s fyne.Size) {
	r.WidgetRenderer.Layout(s)
	r.pad.Resize(s)
}

func (r paddedEntry) Objects() []fyne.CanvasObject {
	inner := r.WidgetRenderer.Objects()
	return append(inner[:len(inner):len(inner)], r.pad)
}

// newPage returns a page that scrolls, with the wheel over its fields too.
func newPage(o fyne.CanvasObject) *container.Scroll {
	page := container.NewVScroll(o)
	leadWheel(o, page)
	return page
}

// leadWheel lets the text fields in o hand the wheel to the page they lie on.
func leadWheel(o fyne.CanvasObject, page *container.Scroll) {
	switch o := o.(type) {
	case *fyne.Container:
		for _, inner := range o.Objects {
			leadWheel(inner, page)
		}
	case *entry:
		o.page = page
	}
}
