package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// box is a question or a form in the middle of the window. Boxes are shown one
// after the other; while one is open nothing below it gets a key. Enter means
// the highlighted answer, or the one that has the keyboard; Escape the last
// one, or, where there is only one, nothing but closing.
type box struct {
	ed      *Editor
	title   string
	content fyne.CanvasObject
	size    fyne.Size // at most; without a height it is as high as the content
	answers []answer
	first   *entry // gets the keyboard; may be nil
	ready   func() // what is left to do once it is seen; may be nil
	about   string // tells boxes with one title apart
	gone    func() // what is left to do once it is closed; may be nil

	dialog *dialog.CustomDialog
	over   fyne.CanvasObject // what lies over the window
}

// answer is one way to answer a box.
type answer struct {
	text string
	main bool   // what Enter means
	deed func() // nil only closes
	// stays leaves closing to the deed: a form closes when its fields are in order.
	stays bool
}

// openBox shows a box, or keeps it until those before it are closed. The same
// question is not asked twice.
func (ed *Editor) openBox(b *box) *box {
	if i := slices.IndexFunc(ed.boxes, func(o *box) bool { return b.about != "" && o.title == b.title && o.about == b.about }); i >= 0 {
		return ed.boxes[i]
	}
	b.ed = ed
	ed.boxes = append(ed.boxes, b)
	if len(ed.boxes) == 1 {
		b.show()
	}
	return b
}

func (b *box) show() {
	c := b.ed.win.Canvas()
	b.ed.tips.hide()
	b.dialog = dialog.NewCustomWithoutButtons(b.title, b.content, b.ed.win)
	var buttons []fyne.CanvasObject
	for _, a := range b.answers {
		buttons = append(buttons, newBoxButton(b, a))
	}
	b.dialog.SetButtons(buttons)
	b.dialog.Show()
	b.over = c.Overlays().Top()
	b.fit()
	if room := c.Size().Height; b.size.Height == 0 && b.dialog.MinSize().Height > room-20 {
		// Too high for the window: the answers stay in sight, the rest scrolls.
		b.dialog.Hide()
		b.content, b.size.Height = newPage(container.New(clearOfBar{}, b.content)), room
		b.show()
		return
	}
	if b.first != nil {
		c.Focus(b.first)
	}
	if b.ready != nil {
		b.ready()
	}
}

// fit gives the box its width and the height its content then needs: wrapped
// text knows its height only once it has its width.
func (b *box) fit() {
	if b.dialog == nil {
		return
	}
	room := b.ed.win.Canvas().Size()
	w := min(b.size.Width, room.Width-40)
	if b.size.Height > 0 {
		b.dialog.Resize(fyne.NewSize(w, min(b.size.Height, room.Height-60)))
		return
	}
	for range 2 {
		b.dialog.Resize(fyne.NewSize(w, b.dialog.MinSize().Height))
	}
}

// close takes the box away and shows the next one.
func (b *box) close() {
	ed := b.ed
	i := slices.Index(ed.boxes, b)
	if i < 0 {
		return // closed already
	}
	ed.boxes = slices.Delete(ed.boxes, i, i+1)
	if b.dialog != nil {
		b.dialog.Hide()
	}
	ed.win.Canvas().Focus(ed.sheetView)
	if b.gone != nil {
		b.gone()
	}
	if i == 0 && len(ed.boxes) > 0 {
		ed.boxes[0].show()
	}
}

func (b *box) give(a answer) {
	if !a.stays {
		b.close()
	}
	if a.deed != nil {
		a.deed()
	}
}

// enter gives the highlighted answer.
func (b *box) enter() {
	for _, a := range b.answers {
		if a.main {
			b.give(a)
			return
		}
	}
}

// escape gives the last answer, which is the one that changes nothing.
func (b *box) escape() {
	if n := len(b.answers); n > 1 || n == 1 && b.answers[0].stays {
		b.give(b.answers[n-1])
		return
	}
	b.close()
}

// key does what a key means that nothing in the box has a use for.
func (b *box) key(name fyne.KeyName) {
	switch name {
	case fyne.KeyReturn, fyne.KeyEnter:
		b.enter()
	case fyne.KeyEscape:
		b.escape()
	}
}

// boxOnTop returns the box that wants an answer first, nil when there is none
// or a menu or file list lies over it.
func (ed *Editor) boxOnTop() *box {
	if len(ed.boxes) > 0 && ed.boxes[0].over != nil && ed.win.Canvas().Overlays().Top() == ed.boxes[0].over {
		return ed.boxes[0]
	}
	return nil
}

// field makes an entry one of the box: Enter and Escape mean the box.
func (b *box) field(e *entry) {
	e.OnSubmitted = func(string) { b.enter() }
	inner := e.key
	e.key = func(k *fyne.KeyEvent) bool {
		if inner != nil && inner(k) {
			return true
		}
		if k.Name == fyne.KeyEscape {
			b.escape()
			return true
		}
		return false
	}
}

// boxButton is a button that Enter presses too when it has the keyboard.
type boxButton struct {
	widget.Button
	box *box
}

func newBoxButton(b *box, a answer) *boxButton {
	k := &boxButton{box: b}
	k.Text, k.OnTapped = a.text, func() { b.give(a) }
	if a.main {
		k.Importance = widget.HighImportance
	}
	k.ExtendBaseWidget(k)
	return k
}

func (k *boxButton) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeySpace:
		k.OnTapped()
	case fyne.KeyEscape:
		k.box.escape()
	}
}

// complaint is room in a box for what is wrong with its fields.
func complaint() *widget.Label {
	l := widget.NewLabel("")
	l.Importance, l.Wrapping = widget.DangerImportance, fyne.TextWrapWord
	l.Hide()
	return l
}

// complain says in the box what is wrong with its fields.
func (b *box) complain(l *widget.Label, err error) {
	l.SetText(sentence(err.Error()))
	l.Show()
	b.fit()
}
