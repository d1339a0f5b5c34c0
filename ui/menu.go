package ui

import (
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"

	"loomwright/ui/action"
)

// menuBar keeps the window's menus in step with the register of commands.
type menuBar struct {
	ed   *Editor
	main *fyne.MainMenu
	item map[string]*fyne.MenuItem
	// recent is the list of files, which has no commands of its own.
	recent *fyne.MenuItem
	states *fyne.MenuItem
}

func newMenuBar(ed *Editor) *menuBar {
	m := &menuBar{ed: ed, item: map[string]*fyne.MenuItem{}}
	var menus []*fyne.Menu
	for _, am := range ed.actions.Menus() {
		menus = append(menus, m.build(am))
	}
	m.main = fyne.NewMainMenu(menus...)
	return m
}

// build makes a menu of the toolkit, with those below it.
func (m *menuBar) build(am *action.Menu) *fyne.Menu {
	menu := fyne.NewMenu(am.Title)
	for _, e := range am.Entries {
		if e.Sub != nil {
			it := fyne.NewMenuItem(e.Sub.Title, nil)
			it.ChildMenu = m.build(e.Sub)
			menu.Items = append(menu.Items, it)
			continue
		}
		a := e.Action
		if a.Gap && len(menu.Items) > 0 {
			menu.Items = append(menu.Items, fyne.NewMenuItemSeparator())
		}
		it := m.entry(a)
		m.item[a.ID] = it
		menu.Items = append(menu.Items, it)
		switch a.ID {
		case "file.open":
			m.recent = fyne.NewMenuItem("Open again", nil)
			m.recent.ChildMenu = fyne.NewMenu("")
			menu.Items = append(menu.Items, m.recent)
		case "check.states":
			m.states = fyne.NewMenuItem("Operating state", nil)
			m.states.ChildMenu = fyne.NewMenu("")
			menu.Items = append(menu.Items, m.states)
		}
	}
	return menu
}

// entry makes the menu item of an action. Its shortcut is shown; the toolkit
// itself only acts on those with Ctrl or Alt, the sheet on the others.
func (m *menuBar) entry(a *action.Action) *fyne.MenuItem {
	it := fyne.NewMenuItem(a.TitleNow(), func() { m.ed.run(a) })
	if len(a.Keys) > 0 {
		it.Shortcut = shortcut(a.Keys[0])
	}
	return it
}

// refresh brings titles, ticks and greyed items up to date; the window's bar is
// rebuilt only when something differs.
func (m *menuBar) refresh() {
	differs := m.fillRecent() || m.fillStates()
	for _, a := range m.ed.actions.All() {
		it := m.item[a.ID]
		if it == nil {
			continue
		}
		label, off, on := a.TitleNow(), !a.IsEnabled(), a.Checked != nil && a.Checked()
		if it.Label != label || it.Disabled != off || it.Checked != on {
			it.Label, it.Disabled, it.Checked = label, off, on
			differs = true
		}
	}
	if differs && m.ed.win.MainMenu() == m.main {
		m.main.Refresh()
	}
}

func (m *menuBar) fillRecent() bool {
	files := m.ed.store.Recent
	have := m.recent.ChildMenu.Items
	same := len(have) == len(files) && len(files) > 0
	for i := 0; same && i < len(files); i++ {
		same = have[i].Label == recentLabel(files[i])
	}
	if same || len(files) == 0 && len(have) == 1 {
		return false
	}
	var items []*fyne.MenuItem
	for _, path := range files {
		items = append(items, fyne.NewMenuItem(recentLabel(path), func() { m.ed.askThenOpen(path) }))
	}
	if len(items) == 0 {
		none := fyne.NewMenuItem("No files yet", func() {})
		none.Disabled = true
		items = append(items, none)
	}
	m.recent.ChildMenu.Items = items
	return true
}

func recentLabel(path string) string {
	return filepath.Base(path) + "   (" + filepath.Dir(path) + ")"
}

func (m *menuBar) fillStates() bool {
	ed := m.ed
	var items []*fyne.MenuItem
	for _, s := range ed.doc().States() {
		it := fyne.NewMenuItem(s.Name, func() { ed.setState(s.ID) })
		it.Checked = s.ID == ed.study.state
		items = append(items, it)
	}
	if len(items) == 0 {
		none := fyne.NewMenuItem("Everything at rest (no states yet)", func() {})
		none.Disabled = true
		items = append(items, none)
	}
	have := m.states.ChildMenu.Items
	same := len(have) == len(items)
	for i := 0; same && i < len(items); i++ {
		same = have[i].Label == items[i].Label && have[i].Checked == items[i].Checked
	}
	m.states.ChildMenu.Items = items
	return !same
}

// run does what a menu, key or list entry stands for. The menu gets the editing
// keys before a text field does, so it hands them on: Ctrl+C in a field copies
// text, not parts.
func (ed *Editor) run(a *action.Action) {
	ed.tips.hide()
	if ed.keyCatch != nil && len(a.Keys) > 0 && ed.boxOnTop() != nil {
		ed.keyCatch(a.Keys[0])
		return
	}
	g, inTable := ed.win.Canvas().Focused().(*grid)
	if inTable && g.command(a.ID) {
		return
	}
	if l, ok := ed.win.Canvas().Focused().(*rows); ok && l.all != nil && a.ID == "edit.all" {
		l.all()
		return
	}
	if f, ok := ed.win.Canvas().Focused().(fyne.Shortcutable); ok && !inTable && f != fyne.Shortcutable(ed.sheetView) {
		e, ours := f.(*entry)
		// With nothing typed that is not in the drawing yet, undo means the drawing.
		settled := ours && e.commit != nil && e.Text == e.loaded && (a.ID == "edit.undo" || a.ID == "edit.redo")
		if s := ed.textShortcut(a.ID); s != nil && !settled {
			f.TypedShortcut(s)
			return
		}
		if ours && e.tabs && strings.HasPrefix(a.ID, "edit.") {
			return // a cell is being edited: the drawing waits
		}
	}
	if ed.win.Canvas().Overlays().Top() != nil {
		return // a box is open: it wants an answer first
	}
	// The toolkit sends the keys of greyed entries too.
	if !a.IsEnabled() && len(a.Keys) > 0 && ed.pointerKey(a.Keys[0]) {
		return
	}
	ed.store.rememberCommand(a.ID)
	ed.carryOut(a)
}

// textShortcut returns what an editing command means in a text field, or nil.
func (ed *Editor) textShortcut(id string) fyne.Shortcut {
	switch id {
	case "edit.undo":
		return &fyne.ShortcutUndo{}
	case "edit.redo":
		return &fyne.ShortcutRedo{}
	case "edit.cut":
		return &fyne.ShortcutCut{Clipboard: ed.app.Clipboard()}
	case "edit.copy":
		return &fyne.ShortcutCopy{Clipboard: ed.app.Clipboard()}
	case "edit.paste":
		return &fyne.ShortcutPaste{Clipboard: ed.app.Clipboard()}
	case "edit.all":
		return &fyne.ShortcutSelectAll{}
	}
	return nil
}
