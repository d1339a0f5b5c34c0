package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// keyFunc gets the keys that a widget with the keyboard has no use for, so that
// pressing a list or a box does not take the commands' keys away.
type keyFunc func(fyne.KeyName, fyne.KeyModifier)

// pick is a choice of the toolkit that lets other keys through.
type pick struct {
	widget.Select
	keys     keyFunc
	stepping bool // by the arrow keys, from one choice to the next
	seen
}

// seen is part of a widget that tells when the keyboard comes to it, so that
// what it lies in can scroll it into sight.
type seen struct{ tell func(fyne.CanvasObject) }

func (s *seen) onArrival(tell func(fyne.CanvasObject)) { s.tell = tell }

func (s *seen) arrived(o fyne.CanvasObject) {
	if s.tell != nil {
		s.tell(o)
	}
}

// nextField moves the keyboard to the field above or below and reports whether the
// key asked for that.
func nextField(from fyne.CanvasObject, k fyne.KeyName) bool {
	c := fyne.CurrentApp().Driver().CanvasForObject(from)
	switch {
	case c == nil:
		return false
	case k == fyne.KeyDown:
		c.FocusNext()
	case k == fyne.KeyUp:
		c.FocusPrevious()
	default:
		return false
	}
	return true
}

// byTab moves the keyboard on or back when the key is Tab and reports whether it
// is. What stands in the field it comes to is chosen, so that typing replaces it.
func byTab(from fyne.CanvasObject, k fyne.KeyName) bool {
	if k != fyne.KeyTab {
		return false
	}
	c := fyne.CurrentApp().Driver().CanvasForObject(from)
	if c == nil {
		return false
	}
	if heldMods()&fyne.KeyModifierShift != 0 {
		c.FocusPrevious()
	} else {
		c.FocusNext()
	}
	if e, ok := c.Focused().(*entry); ok && e.oneLine() {
		e.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	return true
}

// AcceptsTab brings the Tab key here, to lead on.
func (p *pick) AcceptsTab() bool { return true }

// AcceptsTab brings the Tab key here, to lead on.
func (t *ticked) AcceptsTab() bool { return true }

func (p *pick) FocusGained() {
	p.Select.FocusGained()
	p.arrived(p)
}

func (t *ticked) FocusGained() {
	t.Check.FocusGained()
	t.arrived(t)
}

func newPick(keys keyFunc, options []string, changed func(string)) *pick {
	p := &pick{keys: keys}
	p.Options, p.OnChanged = options, changed
	p.ExtendBaseWidget(p)
	return p
}

func (p *pick) TypedKey(e *fyne.KeyEvent) {
	if byTab(p, e.Name) {
		return
	}
	switch e.Name {
	case fyne.KeySpace, fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight:
		p.stepping = true
		p.Select.TypedKey(e)
		p.stepping = false
	default:
		p.keys(e.Name, heldMods())
	}
}

// rows is a list of the toolkit that lets other keys through. Arrow, when set,
// gets the arrow keys: -1 is up.
type rows struct {
	widget.List
	keys  keyFunc
	arrow func(by int)
	all   func() // chooses all lines, where several can be chosen
	wide  func() // the list has got another width; may be nil
}

func newRows(keys keyFunc, length func() int, create func() fyne.CanvasObject, update func(widget.ListItemID, fyne.CanvasObject)) *rows {
	r := &rows{keys: keys}
	r.Length, r.CreateItem, r.UpdateItem = length, create, update
	r.ExtendBaseWidget(r)
	return r
}

// Resize makes the list as large as it is laid out.
func (r *rows) Resize(s fyne.Size) {
	was := r.Size().Width
	r.List.Resize(s)
	if r.wide != nil && s.Width != was {
		r.wide()
	}
}

func (r *rows) TypedKey(e *fyne.KeyEvent) {
	switch {
	case e.Name == fyne.KeyUp && r.arrow != nil:
		r.arrow(-1)
	case e.Name == fyne.KeyDown && r.arrow != nil:
		r.arrow(1)
	case e.Name == fyne.KeyUp || e.Name == fyne.KeyDown || e.Name == fyne.KeySpace:
		r.List.TypedKey(e)
	default:
		r.keys(e.Name, heldMods())
	}
}

// ticked is a check box of the toolkit that lets keys through.
type ticked struct {
	widget.Check
	keys keyFunc
	seen
}

func newTicked(keys keyFunc, text string, changed func(bool)) *ticked {
	t := &ticked{keys: keys}
	t.Text, t.OnChanged = text, changed
	t.ExtendBaseWidget(t)
	return t
}

func (t *ticked) TypedKey(e *fyne.KeyEvent) {
	if byTab(t, e.Name) {
		return
	}
	switch e.Name {
	case fyne.KeyUp, fyne.KeyDown:
		nextField(t, e.Name)
	case fyne.KeySpace, fyne.KeyLeft, fyne.KeyRight:
		// The box's own, and no way to move parts unawares.
	default:
		t.keys(e.Name, heldMods())
	}
}
