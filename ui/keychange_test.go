package ui

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"loomwright/ui/action"
)

func TestKeysCanBeChanged(t *testing.T) {
	settings := t.TempDir()
	r := rigIn(t, copyLamps(t), settings)
	r.do("help.changekeys")
	in := r.boxes[0].first
	in.SetText("show the whole sheet")
	in.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	c, ok := r.win.Canvas().Focused().(*keyCatcher)
	require.True(t, ok, "the box waits for a key")
	c.TypedKey(&fyne.KeyEvent{Name: desktop.KeyControlLeft})
	assert.Same(t, c, r.win.Canvas().Focused(), "a modifier alone is not yet a key")
	c.TypedKey(&fyne.KeyEvent{Name: "R"}) // turns the selection
	var said string
	r.everything(func(o fyne.CanvasObject) {
		if l, ok := o.(*widget.Label); ok && l.Visible() {
			said += l.Text + "\n"
		}
	})
	assert.Contains(t, said, `R stands for "Turn by 90°" now. It will have no key any more.`)
	c.TypedShortcut(&desktop.CustomShortcut{KeyName: "K", Modifier: fyne.KeyModifierControl | fyne.KeyModifierShift})
	r.tap("Use it")
	assert.Equal(t, []action.Key{action.CS("K")}, r.actions.Find("view.fit").Keys)
	assert.Equal(t, "R", r.actions.Find("edit.rotate").Keys[0].Name, "what was not taken in the end keeps its key")
	require.NoError(t, r.actions.Check())
	assert.Equal(t, shortcut(action.CS("K")), menuItems(r.win.MainMenu())["Show the whole sheet"].Shortcut)

	r = rigIn(t, copyLamps(t), settings)
	assert.Equal(t, []action.Key{action.CS("K")}, r.actions.Find("view.fit").Keys, "and it lasts")
	r.do("help.resetkeys")
	r.tap("Take them back")
	assert.Equal(t, []action.Key{action.K("F")}, r.actions.Find("view.fit").Keys)
	assert.Empty(t, r.store.Keys)
}

// A key that a menu command has comes through the menu, not to the box.
func TestAKeyOfAMenuCommandCanBeTaken(t *testing.T) {
	r := newRig(t, copyLamps(t))
	r.changeKey(r.actions.Find("view.fit"))
	r.run(r.actions.Find("edit.duplicate")) // Ctrl+D, as the menu bar sends it
	r.tap("Use it")
	assert.Equal(t, "view.fit", r.actions.ForKey(action.C("D")).ID)
	assert.Empty(t, r.actions.Find("edit.duplicate").Keys)
	r.changeKey(r.actions.Find("view.fit"))
	r.tap("No key")
	assert.Nil(t, r.actions.ForKey(action.C("D")))
	r.changeKey(r.actions.Find("view.fit"))
	r.key(fyne.KeyEscape)
	assert.False(t, r.boxOpen())
	assert.Nil(t, r.keyCatch)
}

func TestTheCommandListShowsTheLastUsedFirst(t *testing.T) {
	r := newRig(t, copyLamps(t))
	r.do("view.grid")
	r.do("view.fit")
	found := r.recentFirst("")
	assert.Equal(t, "view.fit", found[0].ID)
	assert.Equal(t, "view.grid", found[1].ID)
	assert.Len(t, found, len(r.actions.All()))
	assert.Equal(t, "edit.duplicate", r.recentFirst("dplct")[0].ID)
}
