package ui

import (
	"errors"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/schematic"
)

func TestBoxesComeOneAfterTheOther(t *testing.T) {
	r := newRig(t, lampsFile)
	var said []string
	ask := func(title string) {
		r.question(title, "text of "+title,
			answer{text: "Do it", main: true, deed: func() { said = append(said, title+" done") }},
			answer{text: "Leave it", deed: func() { said = append(said, title+" left") }})
	}
	ask("one")
	ask("two")
	ask("three")
	ask("two")
	require.Len(t, r.win.Canvas().Overlays().List(), 1, "one box at a time")
	r.typedKey(fyne.KeyReturn, 0)
	r.typedKey(fyne.KeyEscape, 0)
	r.typedKey(fyne.KeyEnter, 0)
	assert.Equal(t, []string{"one done", "two left", "three done"}, said, "in order, none twice")
	assert.False(t, r.boxOpen())
	assert.Equal(t, r.sheetView, r.win.Canvas().Focused())
}

func TestEnterPressesTheButtonThatHasTheKeyboard(t *testing.T) {
	r := newRig(t, lampsFile)
	r.change()
	r.do("file.new")
	var buttons []*boxButton
	walk(r.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
		if b, ok := o.(*boxButton); ok {
			buttons = append(buttons, b)
		}
	})
	require.Len(t, buttons, 3)
	r.win.Canvas().Focus(buttons[2])
	buttons[2].TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.False(t, r.boxOpen())
	assert.True(t, r.sess.Modified(), "go back keeps the changes")
	r.do("file.new")
	r.typedKey(fyne.KeyEscape, 0)
	assert.True(t, r.sess.Modified(), "and so does Escape")
	r.do("file.new")
	r.typedKey(fyne.KeyReturn, 0)
	assert.False(t, r.sess.Modified(), "Enter saves first")
}

func TestTheCautionIsReadOnlyWhenSaidSo(t *testing.T) {
	r := newRig(t, "")
	r.Show()
	r.typedKey(fyne.KeyEscape, 0)
	assert.False(t, r.boxOpen())
	assert.False(t, r.store.CautionRead)
	r.Show()
	r.typedKey(fyne.KeyReturn, 0)
	assert.True(t, r.store.CautionRead)
}

func TestABoxIsAsHighAsItsText(t *testing.T) {
	r := newRig(t, "")
	r.win.Resize(fyne.NewSize(1600, 1000))
	r.showCaution()
	b := r.boxOnTop()
	// 80 letters a line of 13 points: the caution takes some ten lines.
	assert.Less(t, b.dialog.MinSize().Height, float32(320))
}

func TestAFormStaysUntilItsFieldsAreInOrder(t *testing.T) {
	r := newRig(t, lampsFile)
	var got string
	r.askText("Name it", "Name", "old", func(s string) error {
		if s == "" {
			return errors.New("write a name")
		}
		got = s
		return nil
	})
	in := r.win.Canvas().Focused().(*entry)
	in.SetText("")
	in.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.True(t, r.boxOpen())
	in.SetText("new")
	in.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	assert.False(t, r.boxOpen())
	assert.Equal(t, "new", got)
	r.do("file.export")
	assert.True(t, r.boxOpen())
	r.typedKey("W", 0)
	assert.Equal(t, selectTool, r.tools.Tool(), "no letter gets below the box")
	r.typedKey(fyne.KeyEscape, 0)
	assert.False(t, r.boxOpen())
}

// pressLetter sends a key and then its letter, each to what has the keyboard at that
// moment, as the toolkit does.
func (r *rig) pressLetter(key fyne.KeyName, letter rune) {
	c := r.win.Canvas()
	if c.Focused() != nil {
		c.Focused().TypedKey(&fyne.KeyEvent{Name: key})
	} else {
		r.typedKey(key, 0)
	}
	if c.Focused() != nil {
		c.Focused().TypedRune(letter)
	}
}

func TestTheLetterOfACommandIsNotTyped(t *testing.T) {
	r := newRig(t, lampsFile)
	r.win.Canvas().Focus(r.sheetView)
	for _, k := range []struct {
		key    fyne.KeyName
		letter rune
	}{{"P", 'p'}, {"R", 'r'}, {"E", 'e'}, {"L", 'l'}} {
		r.pressLetter(k.key, k.letter)
	}
	assert.Equal(t, "rel", r.tray.search.Text)
	assert.False(t, r.tray.none.Visible())
	r.tray.search.SetText("qqqq")
	assert.True(t, r.tray.none.Visible(), "that nothing is found is said in words")
	r.openChooser("Find", "", func(string) []chooserLine { return nil })
	said := ""
	walk(r.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
		if l, ok := o.(*widget.Label); ok && l.Visible() {
			said += l.Text
		}
	})
	assert.Contains(t, said, "Nothing found")
}

func TestANoteIsWrittenAtOnce(t *testing.T) {
	r := newRig(t, lampsFile)
	r.do("tool.note")
	r.click(200, 20)
	in, ok := r.win.Canvas().Focused().(*entry)
	require.True(t, ok, "the text of the note has the keyboard")
	assert.Equal(t, "Note", in.SelectedText(), "typing replaces it")
	r.pressLetter("R", 'r')
	r.pressLetter("P", 'p')
	assert.Equal(t, "rp", in.Text)
	r.win.Canvas().Focus(r.sheetView)
	n := r.doc().Get(r.sess.Selection()[0]).(*schematic.Note)
	assert.Equal(t, "rp", n.Text)
}

func TestEnterPlacesThePartInHand(t *testing.T) {
	r := newRig(t, "")
	r.takePart("battery")
	r.key(fyne.KeyReturn)
	r.sheetView.MouseIn(mouse(r.at(100, 100), 0, 0))
	r.key(fyne.KeyReturn)
	r.key(fyne.KeyEscape)
	var at [][2]float64
	for p := range r.doc().Parts() {
		x, y := p.Views[0].At.MM()
		at = append(at, [2]float64{x, y})
	}
	require.Len(t, at, 2)
	assert.Contains(t, at, [2]float64{100, 100}, "at the pointer")
	area := r.doc().Sheet(r.sheet).Area()
	x, y := area.Center().MM()
	for _, p := range at {
		if p != [2]float64{100, 100} {
			assert.InDelta(t, x, p[0], 2.5, "in the middle of what is seen")
			assert.InDelta(t, y, p[1], 2.5)
		}
	}
}

func TestWhatLiesOffTheSheetIsToldAndCanBeSeen(t *testing.T) {
	r := newRig(t, "")
	r.takePart("battery")
	r.sheetView.look(r.sheetView.cam.Pan(-300, 0))
	area := r.doc().Sheet(r.sheet).Area()
	x, _ := area.Max.MM()
	r.click(x+60, 100)
	r.key(fyne.KeyEscape)
	require.Equal(t, 1, r.doc().Len(schematic.TypePart))
	assert.Contains(t, r.status.hint.full, "off the sheet")
	assert.Contains(t, r.status.pick.full, "off the sheet")
	assert.Equal(t, theme.Color(theme.ColorNameWarning), r.status.pick.text.Color)
	for _, id := range []string{"view.fitdrawn", "view.fitsel"} {
		r.do("view.fit")
		r.do(id)
		v := r.sheetView.cam.Visible()
		assert.Greater(t, v.Max.X, x+60, id)
		assert.Less(t, v.Min.X, x+60, id)
	}
	r.choose()
	assert.NotContains(t, r.status.hint.full, "off the sheet")
}

func TestPasteLandsAtThePointerAndMovesOn(t *testing.T) {
	r := newRig(t, lampsFile)
	r.choose(r.named("G1"))
	r.do("edit.copy")
	r.sheetView.MouseIn(mouse(r.at(300, 200), 0, 0))
	var at [][2]float64
	for range 3 {
		r.do("edit.paste")
		p := r.doc().Part(r.sess.Selection()[0].ID)
		x, y := r.doc().Reach(p, p.Views[0]).Center().MM()
		at = append(at, [2]float64{x, y})
	}
	assert.InDelta(t, 300, at[0][0], 2.5)
	assert.InDelta(t, 200, at[0][1], 2.5)
	for i := range 2 {
		assert.InDelta(t, 5, at[i+1][0]-at[i][0], 0.01, "moved on")
		assert.InDelta(t, 5, at[i+1][1]-at[i][1], 0.01)
	}
	r.move(100, 200)
	r.do("edit.paste")
	p := r.doc().Part(r.sess.Selection()[0].ID)
	x, _ := r.doc().Reach(p, p.Views[0]).Center().MM()
	assert.InDelta(t, 100, x, 2.5, "elsewhere it begins anew")
}

func TestCurrentsTooSmallToReadAreSaidSo(t *testing.T) {
	r := newRig(t, lampsFile)
	r.setState(r.doc().States()[len(r.doc().States())-1].ID)
	r.setLive(true)
	r.sheetView.look(r.sheetView.cam.Zoom(0.2, middle(r.sheetView.cam.Visible())))
	assert.Contains(t, r.status.hint.full, "Come closer")
	r.sheetView.zoom(12)
	assert.NotContains(t, r.status.hint.full, "Come closer")
	r.setLive(false)
}

// The toolkit takes the lower 8 bits of 95 % of the 16-bit alpha of text for
// shortcuts in menus.
func TestShortcutsInMenusCanBeRead(t *testing.T) {
	for _, dark := range []bool{false, true} {
		_, _, _, a := newLook(dark).Color(theme.ColorNameForeground, theme.VariantLight).RGBA()
		assert.Greater(t, uint8(uint32(float32(a)*0.95)), uint8(0xf0))
		assert.Equal(t, uint32(0xff), a>>8, "and text stays opaque")
	}
}

// TestKeysReachTheBoxFromItsButtonsAndLists: with the keyboard on a button of a
// form, Escape goes back and Enter presses that button, not the answer.
func TestKeysReachTheBoxFromItsButtonsAndLists(t *testing.T) {
	r := newRig(t, "")
	doc := r.doc()
	focused := func(text string) fyne.Focusable {
		var found fyne.Focusable
		walk(r.win.Canvas().Overlays().Top(), func(o fyne.CanvasObject) {
			if b, ok := o.(*button); ok && b.Text == text {
				found = b
			}
			if l, ok := o.(*rows); ok && text == "" {
				found = l
			}
		})
		require.NotNil(t, found, text)
		r.win.Canvas().Focus(found)
		return found
	}
	r.do("draw.connector")
	add := focused("Add a cavity")
	add.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	require.True(t, r.boxOpen(), "Enter adds a cavity")
	add.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.False(t, r.boxOpen())
	assert.Same(t, doc, r.doc(), "nothing was made")

	r.do("help.list")
	focused("").TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	assert.False(t, r.boxOpen())

	add = newButton(r.tips, "somewhere in the window", "", "", func() {})
	add.TypedKey(&fyne.KeyEvent{Name: "W"})
	assert.Equal(t, "wire", r.Editor.tools.Tool(), "the keys of commands work with the keyboard on a button")
}
