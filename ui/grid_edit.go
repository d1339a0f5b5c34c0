package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

func (g *grid) FocusGained() {
	g.focused, g.stray = true, true
	g.Refresh()
}

func (g *grid) FocusLost() {
	g.focused = false
	g.Refresh()
}

// move takes another cell in hand; extend keeps the rows passed over.
func (g *grid) move(down, right int, extend bool) {
	rows, cols := g.model.rows(), len(g.model.columns())
	if rows == 0 {
		return
	}
	row := max(0, min(g.row+down, rows-1))
	g.col = max(0, min(g.col+right, cols-1))
	mods := fyne.KeyModifier(0)
	if extend {
		mods = fyne.KeyModifierShift
	}
	if down == 0 {
		g.row = row
		g.Refresh()
	} else {
		g.pick(row, g.col, mods)
	}
	g.bring(g.row, g.col)
}

// TypedKey works in the table as in a spreadsheet; function keys go on to the
// window.
func (g *grid) TypedKey(e *fyne.KeyEvent) {
	const page = 10
	g.stray = false
	extend := heldMods()&fyne.KeyModifierShift != 0
	switch e.Name {
	case fyne.KeyUp:
		g.move(-1, 0, extend)
	case fyne.KeyDown:
		g.move(1, 0, extend)
	case fyne.KeyLeft:
		g.move(0, -1, extend)
	case fyne.KeyRight:
		g.move(0, 1, extend)
	case fyne.KeyPageUp:
		g.move(-page, 0, extend)
	case fyne.KeyPageDown:
		g.move(page, 0, extend)
	case fyne.KeyHome:
		g.move(-g.model.rows(), 0, extend)
	case fyne.KeyEnd:
		g.move(g.model.rows(), 0, extend)
	case fyne.KeyReturn, fyne.KeyEnter, fyne.KeyF2:
		g.edit("")
	case fyne.KeyDelete, fyne.KeyBackspace:
		g.clear()
	case fyne.KeyTab:
		g.tab(heldMods()&fyne.KeyModifierShift != 0)
	case fyne.KeyEscape:
		if g.escape != nil {
			g.escape()
		}
	default:
		if len(e.Name) > 1 && e.Name[0] == 'F' {
			g.ed.typedKey(e.Name, heldMods())
		}
	}
}

// AcceptsTab says that the Tab key goes from cell to cell; from the last one it
// leaves the table.
func (g *grid) AcceptsTab() bool { return true }

func (g *grid) tab(back bool) {
	rows, cols := g.model.rows(), len(g.model.columns())
	at := g.row*cols + g.col + 1
	if back {
		at -= 2
	}
	switch c := g.ed.win.Canvas(); {
	case at < 0:
		c.FocusPrevious()
	case at >= rows*cols:
		c.FocusNext()
	default:
		g.move(at/cols-g.row, at%cols-g.col, false)
	}
}

// TypedRune begins to edit the cell in hand with that letter, but not with the
// one of the command that brought the keyboard here: see [entry.TypedRune].
func (g *grid) TypedRune(r rune) {
	if !g.stray {
		g.edit(string(r))
	}
	g.stray = false
}

// TypedShortcut takes the clipboard's keys for itself.
func (g *grid) TypedShortcut(s fyne.Shortcut) {
	switch s := s.(type) {
	case *desktop.CustomShortcut:
		extend := s.Modifier&fyne.KeyModifierShift != 0
		switch {
		case s.KeyName == fyne.KeyReturn && g.done != nil:
			g.done()
		case s.KeyName == fyne.KeyHome: // with Ctrl, as spreadsheets have it
			g.move(-g.model.rows(), 0, extend)
		case s.KeyName == fyne.KeyEnd:
			g.move(g.model.rows(), 0, extend)
		}
	case *fyne.ShortcutCopy, *fyne.ShortcutCut:
		g.copy()
	case *fyne.ShortcutPaste:
		g.paste()
	case *fyne.ShortcutSelectAll:
		g.chooseAll()
	}
}

// command takes a command of the window that means something else in a table,
// and reports whether it did.
func (g *grid) command(id string) bool {
	switch id {
	case "edit.copy", "edit.cut":
		g.copy()
	case "edit.paste":
		g.paste()
	case "edit.all":
		g.chooseAll()
	case "edit.duplicate":
		g.fillDown()
	case "edit.delete":
		g.clear()
	default:
		return false
	}
	return true
}

func (g *grid) chooseAll() {
	for i := range g.model.rows() {
		g.chosen[i] = true
	}
	g.Refresh()
	if g.picked != nil {
		g.picked()
	}
}

func (g *grid) copy() {
	rows := g.rowsChosen()
	if len(rows) == 0 {
		return
	}
	g.ed.app.Clipboard().SetContent(g.model.copied(rows))
	g.ed.status.tell("copied " + count(len(rows), "row") + " as a table")
}

func (g *grid) paste() {
	g.say(g.model.paste(g.ed.app.Clipboard().Content(), g.rowsChosen(), g.row, g.col))
}

// fillDown gives the rows chosen what the first of them says in the column in
// hand.
func (g *grid) fillDown() {
	rows := g.rowsChosen()
	if len(rows) < 2 {
		g.say(fmt.Errorf("select several rows to fill down: the first gives the value"))
		return
	}
	g.say(g.model.enter(rows[1:], g.col, g.model.input(rows[0], g.col)))
}

// clear empties the column in hand in the rows chosen.
func (g *grid) clear() {
	if rows := g.rowsChosen(); len(rows) > 0 {
		g.say(g.model.enter(rows, g.col, ""))
	}
}

// edit opens the cell in hand; a letter typed replaces what is there.
func (g *grid) edit(typed string) {
	cols := g.model.columns()
	if g.row >= g.model.rows() || g.col >= len(cols) {
		return
	}
	if !cols[g.col].editable {
		g.say(fmt.Errorf("%q follows from the drawing: it cannot be typed in", cols[g.col].title))
		return
	}
	id := widget.TableCellID{Row: g.row, Col: g.col}
	g.bring(id.Row, id.Col)
	c := g.shown[id]
	if c == nil {
		return
	}
	driver := fyne.CurrentApp().Driver()
	g.at = id
	g.editor.Move(driver.AbsolutePositionForObject(c).Subtract(driver.AbsolutePositionForObject(g.layer)))
	g.editor.Resize(fyne.NewSize(max(c.Size().Width, 90), max(c.Size().Height, g.editor.MinSize().Height)))
	g.editor.SetText(g.model.input(id.Row, id.Col))
	g.editor.loaded = g.editor.Text
	g.editor.Show()
	g.ed.win.Canvas().Focus(g.editor)
	g.editor.stray = false
	if typed != "" {
		g.editor.SetText(typed)
		g.editor.CursorColumn = len([]rune(typed))
		g.editor.Refresh()
	} else {
		g.editor.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
}

// commit takes what was typed; false leaves it in the editor.
func (g *grid) commit() bool {
	if g.editor.Text != g.editor.loaded {
		if err := g.model.enter([]int{g.at.Row}, g.at.Col, g.editor.Text); err != nil {
			g.say(err)
			return false
		}
		g.editor.loaded = g.editor.Text
	}
	g.say(nil)
	g.closeEditor()
	return true
}

// closeEditor takes the editor away; what was typed is dropped. The keyboard
// goes back to the table unless it is on its way elsewhere.
func (g *grid) closeEditor() {
	if !g.editor.Visible() {
		return
	}
	g.editor.loaded = g.editor.Text
	g.editor.Hide()
	if !g.leaving {
		g.ed.win.Canvas().Focus(g)
	}
}

// editorKey moves on from the cell being edited.
func (g *grid) editorKey(e *fyne.KeyEvent) bool {
	down := 0
	switch e.Name {
	case fyne.KeyEscape:
		g.say(nil)
		g.closeEditor()
		return true
	case fyne.KeyTab:
		if g.commit() {
			g.tab(heldMods()&fyne.KeyModifierShift != 0)
		}
		return true
	case fyne.KeyUp:
		down = -1
	case fyne.KeyDown:
		down = 1
	default:
		return false
	}
	if g.commit() {
		g.move(down, 0, false)
	}
	return true
}

// menu offers what can be done with the rows chosen.
func (g *grid) menu(at fyne.Position) {
	items := []*fyne.MenuItem{
		fyne.NewMenuItem("Edit this cell", func() { g.edit("") }),
		fyne.NewMenuItem("Fill down", g.fillDown),
		fyne.NewMenuItem("Empty these cells", g.clear),
		fyne.NewMenuItemSeparator(),
		fyne.NewMenuItem("Copy rows", g.copy),
		fyne.NewMenuItem("Paste cells", g.paste),
	}
	items[1].Disabled = len(g.chosen) < 2
	widget.ShowPopUpMenuAtPosition(fyne.NewMenu("", items...), g.ed.win.Canvas(), at)
}
