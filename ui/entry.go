package ui

import (
	"image/color"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
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
	inside bool   // has the keyboard
	tabs   bool   // the Tab key is for key, not for the next field
	left   func() // called when the keyboard goes elsewhere; may be nil
	// stray is set while a letter may still come that was meant for the command
	// which brought the keyboard here.
	stray bool
	// mixed tells that the field stands for several things that differ, so that
	// it is empty without meaning it. Delete says that it does: emptied.
	mixed, emptied bool
	grows          bool              // one line of text that takes more rows where it does not fit
	rows           int               // that it has taken
	inner          *container.Scroll // what the text lies in
	scroll         *container.Scroll // that of one line of text, while it may show bars
	page           *container.Scroll // moved by the wheel over the field; may be nil
	grew           func()            // called when what is said below it came or went; may be nil
	refused        func(error)       // told what was wrong with the typing; may be nil
	seen
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

// newGrowing returns a field for one line of text that is never cut: it takes
// as many rows as the line needs.
func newGrowing() *entry {
	e := newTextBlock(1, nil)
	e.grows = true
	return e
}

const mostRows = 4 // of a field that grows

// fit gives a field that grows the rows that its text needs, or while it is empty
// the faint one.
func (e *entry) fit() {
	// The toolkit insets the text by padding and border on either side.
	width := e.Size().Width - 2*theme.Size(theme.SizeNameInnerPadding) - 2*theme.Size(theme.SizeNameInputBorder)
	if !e.grows || width <= 0 {
		return
	}
	text := e.Text
	if text == "" {
		text = e.PlaceHolder
	}
	rows := min(linesIn(text, width, theme.TextSize()), mostRows)
	if rows != e.rows {
		e.rows = rows
		e.SetMinRowsVisible(rows)
	}
}

// linesIn is how many lines a text takes that is broken between words.
func linesIn(s string, width, size float32) int {
	n, line := 1, ""
	for _, w := range strings.Fields(s) {
		longer := strings.TrimSpace(line + " " + w)
		if line != "" && fyne.MeasureText(longer, size, fyne.TextStyle{}).Width > width {
			n, longer = n+1, w
		}
		line = longer
	}
	return n
}

// Resize makes the field as large as it is laid out; in less width its text may
// need more rows.
func (e *entry) Resize(s fyne.Size) {
	e.Entry.Resize(s)
	e.fit()
	e.leaveBarsOut()
}

// SetPlaceHolder sets the faint text of an empty field.
func (e *entry) SetPlaceHolder(s string) {
	e.Entry.SetPlaceHolder(s)
	e.fit()
	e.leaveBarsOut()
}

func (e *entry) init() {
	e.OnSubmitted = func(string) { e.flush() }
	e.OnChanged = func(s string) {
		e.fit()
		e.leaveBarsOut()
		if e.changed != nil {
			e.changed(s)
		}
	}
}

// load shows a text that comes from the document. What the user is typing just
// now is left alone.
func (e *entry) load(s string) {
	if e.inside && (e.Text != e.loaded || e.emptied) {
		return
	}
	e.emptied = false
	e.loaded = s
	if e.Text != s {
		e.SetText(s)
	}
}

// flush commits what was typed.
func (e *entry) flush() {
	if e.grows && strings.ContainsAny(e.Text, "\r\n") { // pasted
		e.SetText(strings.Join(strings.Fields(e.Text), " "))
	}
	if e.Text == e.loaded && !e.emptied || e.commit == nil {
		return
	}
	e.emptied = false
	e.loaded = e.Text
	e.commit(e.Text)
}

// revert takes the typing back.
func (e *entry) revert() {
	if e.emptied {
		e.emptied = false
		e.SetPlaceHolder(mixed)
	}
	e.SetText(e.loaded)
}

// CreateRenderer finds what would show scroll bars across a single line of text
// and keep the wheel.
func (e *entry) CreateRenderer() fyne.WidgetRenderer {
	r := e.Entry.CreateRenderer()
	for _, o := range r.Objects() {
		if s, ok := o.(*container.Scroll); ok {
			e.inner = s
		}
	}
	if e.oneLine() {
		e.scroll = e.inner
		e.leaveBarsOut()
	}
	return paddedEntry{r, newWheelPad(e)}
}

// leaveBarsOut leaves the scroll bars of a single line out, once its text may be
// longer or higher than the field. Doing so makes the toolkit forget the sizes of all texts
// it has measured: for each field of a long page, that would take several frames.
func (e *entry) leaveBarsOut() {
	if e.scroll == nil || e.Size().Width <= 0 || e.Size().Height <= 0 {
		return
	}
	// The toolkit insets the text by padding and border on either side. More is
	// taken off, to be sure.
	pad := theme.Size(theme.SizeNameInnerPadding)
	room := e.Size().Width - 3*pad - 2*theme.Size(theme.SizeNameInputBorder)
	if e.ActionItem != nil {
		room -= e.ActionItem.MinSize().Width
	}
	if e.Icon != nil {
		room -= 2 * theme.Size(theme.SizeNameInlineIcon)
	}
	for _, s := range [2]string{e.Text, e.PlaceHolder} {
		size := fyne.MeasureText(s, theme.TextSize(), e.TextStyle)
		if strings.Contains(s, "\n") || size.Width > room || size.Height+2*pad > e.Size().Height+1 {
			s := e.scroll
			e.scroll = nil
			container.NewThemeOverride(s, barless{}) // made for what it does to s
			return
		}
	}
}

// barless is the theme in use without scroll bars.
type barless struct{}

func (barless) Color(n fyne.ThemeColorName, v fyne.ThemeVariant) color.Color {
	switch n {
	case theme.ColorNameScrollBar, theme.ColorNameScrollBarBackground:
		return color.Transparent
	}
	return fyne.CurrentApp().Settings().Theme().Color(n, v)
}

func (barless) Font(s fyne.TextStyle) fyne.Resource {
	return fyne.CurrentApp().Settings().Theme().Font(s)
}
func (barless) Icon(n fyne.ThemeIconName) fyne.Resource {
	return fyne.CurrentApp().Settings().Theme().Icon(n)
}

func (barless) Size(n fyne.ThemeSizeName) float32 {
	switch n {
	case theme.SizeNameScrollBar, theme.SizeNameScrollBarSmall:
		return 0
	}
	return fyne.CurrentApp().Settings().Theme().Size(n)
}

func (e *entry) FocusGained() {
	e.inside, e.stray = true, true
	e.Entry.FocusGained()
	e.arrived(e)
}

// MouseDown and Tapped bring the keyboard without a key.
func (e *entry) MouseDown(m *desktop.MouseEvent) {
	e.Entry.MouseDown(m)
	e.stray = false
}

func (e *entry) Tapped(p *fyne.PointEvent) {
	e.Entry.Tapped(p)
	e.stray = false
}

// TypedRune takes a letter, but not the one of the key that ran a command and
// so brought the keyboard here: the toolkit sends a key first and then its
// letter, each to what has the keyboard at that moment.
func (e *entry) TypedRune(r rune) {
	if !e.stray {
		e.Entry.TypedRune(r)
	}
	e.stray = false
}

func (e *entry) FocusLost() {
	e.inside = false
	e.Entry.FocusLost()
	e.flush()
	if e.left != nil {
		e.left()
	}
}

// AcceptsTab brings the Tab key here: it is for key, or leads on to the next
// field, from a text of several lines too.
func (e *entry) AcceptsTab() bool { return true }

// oneLine says that the field holds one line of text, whatever rows that takes.
func (e *entry) oneLine() bool { return !e.MultiLine || e.grows }

func (e *entry) TypedKey(k *fyne.KeyEvent) {
	e.stray = false
	if e.key != nil && e.key(k) {
		return
	}
	if !e.tabs && byTab(e, k.Name) {
		return
	}
	if e.mixed && e.Text == "" && (k.Name == fyne.KeyDelete || k.Name == fyne.KeyBackspace) {
		e.emptied = true
		e.SetPlaceHolder("empty? Enter")
		return
	}
	if k.Name == fyne.KeyEscape {
		e.revert()
		if c := fyne.CurrentApp().Driver().CanvasForObject(e); c != nil {
			c.Unfocus()
		}
		return
	}
	if e.oneLine() && e.commit != nil && nextField(e, k.Name) {
		return
	}
	if e.grows && (k.Name == fyne.KeyReturn || k.Name == fyne.KeyEnter) {
		e.flush()
		return
	}
	e.Entry.TypedKey(k)
}
