package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// tipDelay is how long the pointer rests before a tip appears.
const tipDelay = 600 * time.Millisecond

// tips shows short texts beside what the pointer rests on; the toolkit has
// none. Its layer lies over the whole window and takes no events.
type tips struct {
	crew  crew
	keys  keyFunc // gets the keys that a button has no use for; may be nil
	layer *fyne.Container
	back  *canvas.Rectangle
	text  *widget.Label
	box   *fyne.Container
	turn  int
}

func newTips(c crew) *tips {
	t := &tips{crew: c}
	t.back = canvas.NewRectangle(theme.Color(theme.ColorNameMenuBackground))
	t.back.StrokeWidth = 1
	t.back.CornerRadius = 3
	t.text = widget.NewLabel("")
	t.box = container.NewStack(t.back, t.text)
	t.box.Hide()
	t.layer = container.NewWithoutLayout(t.box)
	return t
}

// plan shows a text near a window position unless the pointer leaves before.
func (t *tips) plan(text string, at fyne.Position) {
	t.turn++
	turn := t.turn
	if text == "" {
		return
	}
	t.crew.spawn(func() {
		time.Sleep(tipDelay)
		t.crew.post(func() {
			if turn == t.turn {
				t.show(text, at)
			}
		})
	})
}

func (t *tips) show(text string, at fyne.Position) {
	t.back.FillColor = theme.Color(theme.ColorNameMenuBackground)
	t.back.StrokeColor = theme.Color(theme.ColorNameInputBorder)
	t.text.SetText(text)
	size := t.box.MinSize()
	in := t.layer.Size()
	pos := at.AddXY(10, 18)
	pos.X = max(0, min(pos.X, in.Width-size.Width-4))
	if pos.Y+size.Height > in.Height {
		pos.Y = at.Y - size.Height - 6
	}
	t.box.Resize(size)
	t.box.Move(pos)
	t.back.Refresh()
	t.box.Show()
	t.layer.Refresh() // the window has not seen the box yet
}

// hide ends a tip, shown or planned.
func (t *tips) hide() {
	t.turn++
	if t.box.Visible() {
		t.box.Hide()
	}
}

// button is a push button with a tip and, unless its name is "", one of our
// icons.
type button struct {
	widget.Button
	tips *tips
	icon string
	tip  func() string
}

func newButton(t *tips, text, icon, tip string, tapped func()) *button {
	b := &button{tips: t, icon: icon, tip: func() string { return tip }}
	b.Text, b.OnTapped = text, tapped
	b.ExtendBaseWidget(b)
	b.tint()
	return b
}

// TypedKey presses the button, or lets the key through.
func (b *button) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.Tapped(nil)
	default:
		if b.tips.keys != nil {
			b.tips.keys(e.Name, heldMods())
		}
	}
}

// tint gives the icon, if there is one, the colour of the button's text.
func (b *button) tint() {
	if b.icon == "" {
		return
	}
	c := theme.ColorNameForeground
	switch {
	case b.Disabled():
		c = theme.ColorNameDisabled
	case b.Importance == widget.HighImportance:
		c = theme.ColorNameForegroundOnPrimary
	}
	b.SetIcon(iconIn(b.icon, c))
}

// enable turns the button on or off.
func (b *button) enable(on bool) {
	if on != b.Disabled() {
		return
	}
	if on {
		b.Enable()
	} else {
		b.Disable()
	}
	b.tint()
}

// stress shows whether the button stands for what is in hand.
func (b *button) stress(on bool) {
	want := widget.LowImportance
	if on {
		want = widget.HighImportance
	}
	if b.Importance != want {
		b.Importance = want
		b.tint()
	}
}

func (b *button) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.tips.plan(b.tip(), e.AbsolutePosition)
}

func (b *button) MouseOut() {
	b.Button.MouseOut()
	b.tips.hide()
}

func (b *button) Tapped(e *fyne.PointEvent) {
	b.tips.hide()
	b.Button.Tapped(e)
}
