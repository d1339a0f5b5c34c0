package ui

import (
	"maps"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"loomwright/ui/action"
)

// ownKeys gives commands the keys of the settings.
func (ed *Editor) ownKeys() {
	for _, id := range slices.Sorted(maps.Keys(ed.store.Keys)) {
		var keys []action.Key
		for _, text := range ed.store.Keys[id] {
			if k, err := action.ParseKey(text); err == nil {
				keys = append(keys, k)
			}
		}
		ed.actions.Rebind(id, keys...)
	}
}

// keepKeys puts the changed keys into the settings and shows them everywhere.
func (ed *Editor) keepKeys() {
	ed.store.Keys = map[string][]string{}
	for id, keys := range ed.actions.Changed() {
		texts := []string{}
		for _, k := range keys {
			texts = append(texts, k.Text())
		}
		ed.store.Keys[id] = texts
	}
	ed.keepSettings()
	ed.prog.each((*Editor).rebuild)
}

// changeKeys lists all commands with their keys, to change one.
func (ed *Editor) changeKeys() {
	changed := ed.actions.Changed()
	ed.openChooser("Change the keys", "A command, or a key such as Ctrl+D", func(text string) []chooserLine {
		var lines []chooserLine
		found := ed.actions.Search(text)
		for _, a := range ed.actions.All() {
			if strings.TrimSpace(text) != "" && strings.EqualFold(keysText(a.Keys), strings.TrimSpace(text)) && !slices.Contains(found, a) {
				found = append([]*action.Action{a}, found...)
			}
		}
		for _, a := range found {
			side := keysText(a.Keys)
			if _, own := changed[a.ID]; own {
				side += "  (yours)"
			}
			lines = append(lines, chooserLine{title: a.Title, side: side, run: func() { ed.changeKey(a) }})
		}
		return lines
	})
}

func keysText(keys []action.Key) string {
	var all []string
	for _, k := range keys {
		all = append(all, keyText(k))
	}
	return strings.Join(all, "  ")
}

// changeKey waits for the key that a command shall have.
func (ed *Editor) changeKey(a *action.Action) {
	b := &box{title: "Key for “" + a.Title + "”", size: fyne.NewSize(dialogWidth, 0)}
	note := complaint()
	shown := canvas.NewText("press a key", theme.Color(theme.ColorNamePrimary))
	shown.TextSize = theme.Size(theme.SizeNameHeadingText)
	shown.Alignment = fyne.TextAlignCenter
	var chosen []action.Key
	catch := newKeyCatcher(func(k action.Key) {
		if k == action.K("Escape") {
			b.escape()
			return
		}
		if k == action.K("Enter") && chosen != nil {
			b.enter()
			return
		}
		chosen = []action.Key{k}
		shown.Text = keyText(k)
		shown.Refresh()
		switch err := ed.actions.Free(k, a.ID); {
		case err == nil:
			note.Hide()
			b.fit()
		case ed.actions.ForKey(k) != nil:
			chosen = []action.Key{k}
			note.SetText(sentence(err.Error()) + " now. It will have no key any more.")
			note.Show()
			b.fit()
		default:
			chosen = nil
			b.complain(note, err)
		}
	})
	use := func(keys []action.Key) {
		ed.keyCatch = nil
		b.close()
		ed.actions.Rebind(a.ID, keys...)
		ed.keepKeys()
		ed.status.tell("“" + a.Title + "” now has " + orNoKey(keys))
	}
	ed.keyCatch = catch.got
	now := remark("Now: " + orNoKey(a.Keys) + ". As delivered: " + orNoKey(ed.actions.Delivered(a)) + ".")
	b.content = container.NewVBox(gap(4), container.NewStack(catch, shown), now.CanvasObject, note)
	b.answers = []answer{
		{text: "Use it", main: true, stays: true, deed: func() {
			if chosen != nil {
				use(chosen)
			}
		}},
		{text: "No key", stays: true, deed: func() { use(nil) }},
		{text: "As delivered", stays: true, deed: func() { use(ed.actions.Delivered(a)) }},
		{text: "Go back", deed: func() { ed.keyCatch = nil }},
	}
	b.ready = func() { ed.win.Canvas().Focus(catch) }
	ed.openBox(b)
}

func orNoKey(keys []action.Key) string {
	if len(keys) == 0 {
		return "no key"
	}
	return keysText(keys)
}

// keysAsDelivered takes all changes of keys back.
func (ed *Editor) keysAsDelivered() {
	n := len(ed.actions.Changed())
	if n == 0 {
		ed.status.tell("all keys are as delivered")
		return
	}
	ed.question("Keys as delivered", "The keys of "+count(n, "command")+" go back to what they were.",
		answer{text: "Take them back", main: true, deed: func() {
			for id := range ed.actions.Changed() {
				a := ed.actions.Find(id)
				ed.actions.Rebind(id, ed.actions.Delivered(a)...)
			}
			ed.keepKeys()
		}},
		answer{text: "Go back"})
}

// keyCatcher has the keyboard and tells of every key, commands included: those
// on the menu come through [Editor.run].
type keyCatcher struct {
	widget.BaseWidget
	got func(action.Key)
}

func newKeyCatcher(got func(action.Key)) *keyCatcher {
	c := &keyCatcher{got: got}
	c.ExtendBaseWidget(c)
	return c
}

var (
	_ fyne.Focusable    = (*keyCatcher)(nil)
	_ fyne.Shortcutable = (*keyCatcher)(nil)
	_ fyne.Tabbable     = (*keyCatcher)(nil)
)

func (c *keyCatcher) CreateRenderer() fyne.WidgetRenderer {
	r := canvas.NewRectangle(theme.Color(theme.ColorNameInputBackground))
	r.StrokeColor, r.StrokeWidth, r.CornerRadius = theme.Color(theme.ColorNameInputBorder), 1, 3
	return widget.NewSimpleRenderer(r)
}

func (c *keyCatcher) MinSize() fyne.Size { return fyne.NewSize(200, 44) }
func (c *keyCatcher) FocusGained()       {}
func (c *keyCatcher) FocusLost()         {}
func (c *keyCatcher) TypedRune(rune)     {}
func (c *keyCatcher) AcceptsTab() bool   { return false }

func (c *keyCatcher) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case desktop.KeyShiftLeft, desktop.KeyShiftRight, desktop.KeyControlLeft, desktop.KeyControlRight, desktop.KeyAltLeft, desktop.KeyAltRight,
		desktop.KeySuperLeft, desktop.KeySuperRight, desktop.KeyCapsLock:
		return // waits for the key that goes with it
	}
	c.got(ourKey(e.Name, heldMods()))
}

func (c *keyCatcher) TypedShortcut(s fyne.Shortcut) {
	if k, ok := s.(fyne.KeyboardShortcut); ok {
		c.got(ourKey(k.Key(), k.Mod()))
	}
}
