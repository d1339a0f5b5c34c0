package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// labelWidth is the room for the names of fields in the details panel.
const labelWidth = 112

// control is a line of the details panel that follows the document.
type control interface {
	object() fyne.CanvasObject
	// load shows the value of the present document.
	load()
}

// field is a named text field with room for a message in words below it.
type field struct {
	name  string
	input *entry
	note  *widget.Label
	box   *fyne.Container
	get   func() string
	set   func(string) error
	// refused is set while what was typed stands there to be mended, in place of
	// was, the value that it did not replace.
	refused bool
	was     string
}

// newField returns a field. Get prints the value, set stores what was typed or
// says what is wrong with it.
func newField(name string, get func() string, set func(string) error) *field {
	return makeField(name, newEntry(nil), get, set)
}

// newTextField is newField for words, which are shown to their end.
func newTextField(name string, get func() string, set func(string) error) *field {
	return makeField(name, newGrowing(), get, set)
}

// newLongField is newField for several lines of text.
func newLongField(name string, get func() string, set func(string) error) *field {
	return makeField(name, newTextBlock(3, nil), get, set)
}

func makeField(name string, input *entry, get func() string, set func(string) error) *field {
	f := &field{name: name, input: input, get: get, set: set}
	f.input.commit = f.commit
	f.input.changed = func(string) {
		f.refused = false
		f.say("")
	}
	f.note = widget.NewLabel("")
	f.note.Wrapping = fyne.TextWrapWord
	f.note.SizeName = theme.SizeNameCaptionText
	f.note.Hide()
	f.box = container.NewVBox(row(name, f.input), f.note)
	f.load()
	return f
}

// hint shows what an empty field means.
func (f *field) hint(s string) *field {
	if s != f.input.PlaceHolder { // setting it lays out the field
		f.input.SetPlaceHolder(s)
	}
	return f
}

func (f *field) object() fyne.CanvasObject { return f.box }

func (f *field) load() {
	now := f.get()
	if f.refused && now == f.was {
		return
	}
	f.refused = false
	f.input.load(now)
}

func (f *field) commit(s string) {
	if err := f.set(s); err != nil {
		f.refused, f.was = true, f.get()
		f.input.loaded = f.was // for Escape to bring back
		f.say(err.Error())
		if f.input.refused != nil {
			f.input.refused(err)
		}
		return
	}
	f.refused = false
	f.say("")
	f.load()
}

// say shows what is wrong, at the field; an empty text takes it away.
func (f *field) say(s string) {
	if s == f.note.Text && f.note.Visible() == (s != "") {
		return
	}
	f.note.Importance = widget.DangerImportance
	f.note.SetText(s)
	if s == "" {
		f.note.Hide()
	} else {
		f.note.Show()
	}
	f.box.Refresh()
	if f.input.grew != nil {
		f.input.grew()
	}
}

// choice is a named field with a fixed set of answers.
type choice struct {
	sel     *pick
	box     fyne.CanvasObject
	get     func() string
	options func() []string
	loading bool
}

// newChoice returns a choice among options, which may change with the document.
func (d *details) newChoice(name string, options func() []string, get func() string, set func(string)) *choice {
	c := &choice{get: get, options: options}
	c.sel = newPick(d.ed.typedKey, options(), nil)
	c.sel.OnChanged = func(s string) {
		if !c.loading && s != c.get() {
			set(s)
			c.load()
		}
	}
	c.box = row(name, c.sel)
	c.load()
	return c
}

func (c *choice) object() fyne.CanvasObject { return c.box }

func (c *choice) load() {
	c.loading = true
	defer func() { c.loading = false }()
	c.sel.SetOptions(c.options())
	if now := c.get(); now != c.sel.Selected {
		c.sel.SetSelected(now)
		if c.sel.Selected != now { // not among the options: show it all the same
			c.sel.Selected = now
			c.sel.Refresh()
		}
	}
}

// fact is a named line of text that cannot be edited here.
type fact struct {
	text *widget.Label
	box  fyne.CanvasObject
	get  func() string
}

func newFact(name string, get func() string) *fact {
	f := &fact{get: get, text: widget.NewLabel("")}
	f.text.Wrapping = fyne.TextWrapWord
	f.box = row(name, f.text)
	f.load()
	return f
}

func (f *fact) object() fyne.CanvasObject { return f.box }
func (f *fact) load()                     { f.text.SetText(f.get()) }

// tick is a yes-or-no line.
type tick struct {
	check   *ticked
	get     func() bool
	loading bool
}

func (d *details) newTick(name string, get func() bool, set func(bool)) *tick {
	t := &tick{get: get}
	t.check = newTicked(d.ed.typedKey, name, func(on bool) {
		if !t.loading && on != t.get() {
			set(on)
		}
	})
	t.load()
	return t
}

func (t *tick) object() fyne.CanvasObject { return t.check }

func (t *tick) load() {
	t.loading = true
	t.check.SetChecked(t.get())
	t.loading = false
}

// plain wraps an object that does not follow the document.
type plain struct{ fyne.CanvasObject }

func (p plain) object() fyne.CanvasObject { return p.CanvasObject }
func (p plain) load()                     {}

// heading is the title of a group of fields.
func heading(s string) plain {
	t := widget.NewLabel(s)
	t.TextStyle.Bold = true
	line := canvas.NewRectangle(theme.Color(theme.ColorNameSeparator))
	line.SetMinSize(fyne.NewSize(1, 1))
	return plain{container.NewVBox(gap(4), line, t)}
}

// remark is a paragraph of faint text.
func remark(s string) plain {
	t := widget.NewLabel(s)
	t.Wrapping = fyne.TextWrapWord
	t.SizeName = theme.SizeNameCaptionText
	t.Importance = widget.LowImportance
	return plain{t}
}

// wide is empty room of that width.
func wide(w float32) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.SetMinSize(fyne.NewSize(w, 1))
	return r
}

// gap is empty room of that height.
func gap(h float32) fyne.CanvasObject {
	r := canvas.NewRectangle(color.Transparent)
	r.SetMinSize(fyne.NewSize(1, h))
	return r
}

// row puts a name of fixed width before an input; a long name stands above it.
func row(name string, input fyne.CanvasObject) fyne.CanvasObject {
	if fyne.MeasureText(name, theme.TextSize(), fyne.TextStyle{}).Width > 1.7*labelWidth {
		l := widget.NewLabel(name)
		l.Wrapping = fyne.TextWrapWord
		l.Importance = widget.LowImportance
		return container.New(stackTight{}, l, input)
	}
	l := widget.NewLabel(name)
	l.Wrapping = fyne.TextWrapWord
	l.Importance = widget.LowImportance
	return container.New(rowLayout{labelWidth}, l, input)
}

// rowLayout gives the first object a fixed width and the second the rest.
type rowLayout struct{ first float32 }

func (r rowLayout) Layout(objs []fyne.CanvasObject, size fyne.Size) {
	objs[0].Resize(fyne.NewSize(r.first, size.Height))
	objs[0].Move(fyne.NewPos(0, 0))
	objs[1].Resize(fyne.NewSize(max(0, size.Width-r.first), objs[1].MinSize().Height))
	objs[1].Move(fyne.NewPos(r.first, 0))
}

func (r rowLayout) MinSize(objs []fyne.CanvasObject) fyne.Size {
	a, b := objs[0].MinSize(), objs[1].MinSize()
	return fyne.NewSize(r.first+b.Width, max(a.Height, b.Height))
}
