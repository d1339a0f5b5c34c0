package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// entry is a text field that commits when the user is done with it: on Enter
// or when the keyboard goes elsewhere. Escape takes the typing back.
type entry struct {
	widget.Entry
	// commit is called with a text that differs from the last one loaded.
	commit func(string)
	// changed, when set, is called while typing.
	changed func(string)
	// key, when set, gets keys first and says whether it took them.
	key    func(*fyne.KeyEvent) bool
	loaded string
	inside bool // has the keyboard
}

func newEntry(commit func(string)) *entry {
	e := &entry{commit: commit}
	e.ExtendBaseWidget(e)
	e.init()
	return e
}

func newTextBlock(rows int, commit func(string)) *entry {
	e := &entry{commit: commit}
	e.MultiLine = true
	e.Wrapping = fyne.TextWrapWord
	e.ExtendBaseWidget(e)
	e.SetMinRowsVisible(rows)
	e.init()
	return e
}

func (e *entry) init() {
	e.OnSubmitted = func(string) { e.flush() }
	e.OnChanged = func(s string) {
		if e.changed != nil {
			e.changed(s)
		}
	}
}

// load shows a text that comes from the document. What the user is typing just
// now is left alone.
func (e *entry) load(s string) {
	if e.inside && e.Text != e.loaded {
		return
	}
	e.loaded = s
	if e.Text != s {
		e.SetText(s)
	}
}

// flush commits what was typed.
func (e *entry) flush() {
	if e.Text == e.loaded || e.commit == nil {
		return
	}
	e.loaded = e.Text
	e.commit(e.Text)
}

// revert takes the typing back.
func (e *entry) revert() { e.SetText(e.loaded) }

func (e *entry) FocusGained() {
	e.inside = true
	e.Entry.FocusGained()
}

func (e *entry) FocusLost() {
	e.inside = false
	e.Entry.FocusLost()
	e.flush()
}

func (e *entry) TypedKey(k *fyne.KeyEvent) {
	if e.key != nil && e.key(k) {
		return
	}
	if k.Name == fyne.KeyEscape {
		e.revert()
		if c := fyne.CurrentApp().Driver().CanvasForObject(e); c != nil {
			c.Unfocus()
		}
		return
	}
	e.Entry.TypedKey(k)
}
